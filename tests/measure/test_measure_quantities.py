"""Quantities add up with their units and errors."""

import pytest

from haywisp.measure import Quantity, UnitsDiffer, ZeroDivisor, minus, plus, ratio


def cm(value: float, error: float | None = None) -> Quantity:
    return Quantity(value, "cm", error, "tape", "test")


def test_errors_add_in_quadrature() -> None:
    assert plus(cm(10, 3), cm(5, 4)).error == pytest.approx(5)
    assert minus(cm(10, 3), cm(5, 4)).value == 5
    assert minus(cm(10, 3), cm(5, 4)).error == pytest.approx(5)


def test_an_unknown_error_stays_unknown() -> None:
    assert plus(cm(10, 3), cm(5)).error is None
    assert ratio(cm(10), cm(5, 1)).error is None


def test_a_ratio_of_one_unit_has_none_and_its_relative_errors_add() -> None:
    """10 ± 1 over 5 ± 0.5: relative errors 0.1 and 0.1, so 2 ± 2·√0.02."""
    quotient = ratio(cm(10, 1), cm(5, 0.5))
    assert (quotient.value, quotient.unit) == (2, "1")
    assert quotient.error == pytest.approx(2 * 0.02**0.5)


def test_units_are_not_mixed() -> None:
    with pytest.raises(UnitsDiffer, match="cm and 5 kg"):
        plus(cm(10), Quantity(5, "kg", None, "scale", "test"))


def test_a_ratio_to_nothing_is_refused() -> None:
    with pytest.raises(ZeroDivisor, match="0 cm"):
        ratio(cm(1), cm(0))
