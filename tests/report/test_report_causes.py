"""Reasons of limits as words that go after "because of"."""

from haywisp.findings.types import Cause, Fact
from haywisp.knowledge import load_tables
from haywisp.report.causes import causes_words
from haywisp.report.phrases import phrases

TABLES = load_tables()


def cause(*facts: Fact, caution: str = "x", name: str = "Something") -> Cause:
    return Cause(caution, name, facts, "excluded")


def found(structure: str, side: str | None, aspect: str, value: str) -> Fact:
    return Fact("finding", structure=structure, side=side, aspect=aspect, value=value)


def test_findings_are_told_by_their_place() -> None:
    rub, warm = found("chest", None, "skin", "rub"), found("neck", "both", "warmth", "warm")
    assert causes_words([cause(rub), cause(warm)], TABLES) == (
        "a rub on the skin (chest) and warmth (neck, both sides)"
    )
    assert causes_words([cause(rub, found("chest", None, "tenderness", "present"))], TABLES) == (
        "a rub on the skin and soreness (chest)"
    )


def test_the_same_reason_is_told_once() -> None:
    rub = cause(found("chest", None, "skin", "rub"))
    assert causes_words([rub, rub], TABLES) == "a rub on the skin (chest)"


def test_what_is_no_finding_is_told_by_its_caution() -> None:
    flag = Fact("flag", "first-visit")
    assert causes_words([cause(flag, caution="first-visit", name="First session")], TABLES) == "a first session"
    assert causes_words([cause(flag, caution="fever", name="Fever")], TABLES) == "fever"
    assert causes_words([], TABLES) == ""


def test_a_value_without_a_row_is_still_words() -> None:
    assert causes_words([cause(found("chest", None, "new-aspect", "odd-value"))], TABLES) == (
        "new aspect odd value (chest)"
    )


def test_every_unusual_value_and_every_row_is_known() -> None:
    rows = phrases("en")["causes"]
    for aspect in TABLES.aspects.values():
        assert set(rows[aspect.id]) == set(aspect.values) - {aspect.usual}
    assert set(rows["cautions"]) <= set(TABLES.cautions)
