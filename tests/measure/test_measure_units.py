"""Units there and back, against exact definitions."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from haywisp.measure import NoConversion, Quantity, converted
from haywisp.measure.units import UNITS


def quantity(value: float, unit: str, error: float | None = None) -> Quantity:
    return Quantity(value, unit, error, "given", "test")


@pytest.mark.parametrize(
    ("value", "unit", "other", "expected"),
    [
        # International yard and pound agreement, 1959: exact.
        (1, "in", "cm", 2.54),
        (1, "lb", "kg", 0.45359237),
        (1.5, "m", "cm", 150),
        # The fixed points of water, by definition of the Fahrenheit scale.
        (0, "°C", "°F", 32),
        (100, "°C", "°F", 212),
        (212, "°F", "°C", 100),
        # Clinic pages print 99 to 101.5 °F beside 37.2 to 38.6 °C.
        (99, "°F", "°C", 37.2222),
        (101.5, "°F", "°C", 38.6111),
        (5, "/min", "/min", 5),
    ],
)
def test_known_values(value: float, unit: str, other: str, expected: float) -> None:
    assert converted(quantity(value, unit), other).value == pytest.approx(expected, abs=5e-5)


def test_the_error_of_a_temperature_has_no_zero_point() -> None:
    assert converted(quantity(38, "°C", 0.5), "°F").error == pytest.approx(0.9)
    assert converted(quantity(38, "°C"), "°F").error is None


@given(
    st.sampled_from([(a, b) for a in UNITS for b in UNITS if UNITS[a][0] == UNITS[b][0]]),
    st.floats(-1000, 1000),
    st.floats(0, 50),
)
def test_there_and_back(units: tuple[str, str], value: float, error: float) -> None:
    back = converted(converted(quantity(value, units[0], error), units[1]), units[0])
    assert back.value == pytest.approx(value, abs=1e-9)
    assert back.error == pytest.approx(error, abs=1e-9)


@pytest.mark.parametrize(("unit", "other"), [("cm", "kg"), ("kg", "stone"), ("/min", "s"), ("°C", "cm")])
def test_kinds_are_not_mixed(unit: str, other: str) -> None:
    with pytest.raises(NoConversion, match=f"3 {unit} can't be given in {other}: it can be given in "):
        converted(quantity(3, unit), other)
