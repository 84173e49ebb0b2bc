"""Vital signs against the published ranges and their spread, in either unit of temperature."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from haywisp.knowledge import load_tables
from haywisp.measure import BadVitalSign, VitalReading, read_vital_sign

TABLES = load_tables()
SIGNS = TABLES.vital_signs


def read(sign: str, value: float, unit: str = "", age: float | None = 9) -> VitalReading:
    return read_vital_sign(SIGNS[sign], value, unit, age)


@pytest.mark.parametrize(
    ("sign", "low", "high", "unit"),
    [
        # VERIFIED on eight clinic and owner pages, no textbook.
        ("temperature", 37.2, 38.6, "°C"),
        ("temperature", 99, 101.5, "°F"),
        ("heart-rate", 28, 44, "/min"),
        ("respiration", 8, 16, "/min"),
        ("capillary-refill", 0, 2, "s"),
        ("gut-sounds", 4, 4, "quarters"),
        ("gut-silence", 0, 60, "s"),
    ],
)
def test_both_ends_are_within_and_what_lies_beyond_is_not(sign: str, low: float, high: float, unit: str) -> None:
    step = 1 if SIGNS[sign].whole else 0.1
    assert [read(sign, value, unit).verdict for value in (low, high)] == ["within", "within"]
    if high + step <= SIGNS[sign].possible_high or unit == "°F":
        assert read(sign, high + step, unit).verdict == "above"
    if low > 0:
        assert read(sign, low - step, unit).verdict == "below"


@pytest.mark.parametrize(
    ("sign", "value", "held", "pages"),
    [
        # VERIFIED spread of heart rate: 26-40, 28-40, 28-45, 30-44, 32-44, 36-48.
        ("heart-rate", 38, 6, 6),
        ("heart-rate", 46, 1, 6),
        ("heart-rate", 27, 1, 6),
        ("heart-rate", 60, 0, 6),
        # VERIFIED spread of breaths: 6-8, 8-12, 8-15, 10-24, 12-20.
        ("respiration", 8, 3, 5),
        ("respiration", 12, 4, 5),
        ("respiration", 22, 1, 5),
    ],
)
def test_how_many_pages_hold_a_reading(sign: str, value: float, held: int, pages: int) -> None:
    found = read(sign, value)
    assert (found.held_by, found.pages) == (held, pages)
    assert f"{held} of {pages} pages" in found.sentence


@pytest.mark.parametrize(
    ("sign", "value", "unit", "flags"),
    [
        # VERIFIED on three course pages: none above 39 °C / 102 °F, each in its own unit.
        ("temperature", 39.0, "°C", ()),
        ("temperature", 39.1, "°C", ("fever",)),
        ("temperature", 102, "°F", ()),
        ("temperature", 102.1, "°F", ("fever",)),
        # Own choice: above every range that was seen.
        ("heart-rate", 48, "", ()),
        ("heart-rate", 49, "", ("unwell",)),
        ("respiration", 24, "", ()),
        ("respiration", 25, "", ("unwell",)),
        ("capillary-refill", 2, "", ()),
        ("capillary-refill", 2.5, "", ("unwell",)),
        # VERIFIED: none, or more than a minute's silence, is abnormal.
        ("gut-sounds", 1, "", ()),
        ("gut-sounds", 0, "", ("unwell",)),
        ("gut-silence", 60, "", ()),
        ("gut-silence", 61, "", ("unwell",)),
    ],
)
def test_what_the_gate_should_hear(sign: str, value: float, unit: str, flags: tuple[str, ...]) -> None:
    assert read(sign, value, unit).flags == flags
    assert set(flags) <= TABLES.flags.keys()


def test_a_foal_is_not_judged_but_its_fever_is_heard() -> None:
    """VERIFIED: foals are faster; that the alarm is heard all the same is an own choice."""
    quick = read("heart-rate", 44, age=0.1)
    assert (quick.verdict, quick.flags, quick.held_by, quick.pages) == ("not judged", (), 0, 0)
    assert "is not judged: the range is of grown horses" in quick.sentence
    hot = read("temperature", 39.6, age=0.1)
    assert (hot.verdict, hot.flags) == ("not judged", ("fever",))
    assert read("heart-rate", 44, age=2).verdict == "within"


def test_an_unknown_age_is_taken_as_grown_and_said_so() -> None:
    found = read("heart-rate", 40, age=None)
    assert found.verdict == "within"
    assert found.sentence.endswith("the age is not known.")
    assert "not known" not in read("heart-rate", 40).sentence


def test_a_reading_is_kept_in_the_unit_of_its_row() -> None:
    found = read("temperature", 100.4, "°F")
    assert (found.reading.value, found.reading.unit) == (pytest.approx(38.0), "°C")
    assert found.sentence.startswith("Rectal temperature 100.4 °F is within the usual 99 to 101.5 °F; ")


@pytest.mark.parametrize(
    ("sign", "value", "unit", "words"),
    [
        ("temperature", 101, "", r"101 °C is outside 30 to 44 °C; is it in °F\? Then give 101 °F\."),
        ("temperature", 38, "°F", r"38 °F is outside 86 to 111\.2 °F; is it in °C\? Then give 38 °C\."),
        ("temperature", 12, "", r"12 °C is outside 30 to 44 °C; read it again\."),
        ("temperature", 38, "K", r"it can't be read in K; give it in °C"),
        ("temperature", float("nan"), "", r"nan °C is outside"),
        ("heart-rate", 0, "", r"Heart rate: 0 /min is outside 10 to 260 /min; read it again"),
        ("heart-rate", 36.5, "", r"36\.5 /min is no whole number; it is counted, so count it again"),
        ("heart-rate", 36, "s", r"it can't be read in s; give it in /min"),
        ("respiration", -8, "", r"-8 /min is outside 2 to 200"),
        ("capillary-refill", float("inf"), "", r"inf s is outside 0 to 20"),
        ("gut-sounds", 5, "", r"5 quarters is outside 0 to 4"),
    ],
)
def test_an_impossible_reading_gets_a_sentence(sign: str, value: float, unit: str, words: str) -> None:
    with pytest.raises(BadVitalSign, match=words):
        read(sign, value, unit)


@given(st.integers(300, 440))
def test_both_units_of_a_temperature_agree_but_for_rounding(tenths: int) -> None:
    """A tenth of a degree from an end the two may part, since pages round 38.6 °C to 101.5 °F."""
    celsius = tenths / 10
    fahrenheit = round(celsius * 9 / 5 + 32, 1)
    if all(abs(celsius - end) > 0.1 for end in (37.2, 38.6)):
        assert read("temperature", celsius).verdict == read("temperature", fahrenheit, "°F").verdict


@given(st.sampled_from(sorted(SIGNS)), st.data())
def test_verdicts_rise_with_the_reading(name: str, data: st.DataObject) -> None:
    sign = SIGNS[name]
    numbers = st.integers(int(sign.possible_low), int(sign.possible_high))
    low, high = sorted((data.draw(numbers), data.draw(numbers)))
    order = ["below", "within", "above"]
    assert order.index(read(name, low).verdict) <= order.index(read(name, high).verdict)
