"""Reasons of limits as words that go after "because of"."""

import pytest

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


# Their names read well after "because of" as they are.
BY_THEIR_NAME = {
    "acute-lameness",
    "colic",
    "diarrhoea",
    "exhaustion",
    "fever",
    "hard-feed-recently",
    "heart-signs",
    "laminitis",
    "neurological-signs",
    "painkillers",
    "ppid",
    "recent-surgery",
    "ridden-pain-signs",
    "tying-up",
    "vaccinated-recently",
}


def test_every_caution_that_no_finding_raises_has_a_row_or_goes_by_its_name() -> None:
    """A new one without a row fails, so that nobody reads "because of the vet says to wait"."""
    raised = {
        caution.id
        for caution in TABLES.cautions.values()
        if any(trigger.kind != "finding" for trigger in caution.triggers)
    }
    rows = phrases("en")["causes"]["cautions"]
    assert raised == set(rows) | BY_THEIR_NAME
    assert not set(rows) & BY_THEIR_NAME


@pytest.mark.parametrize(
    ("flag", "words"),
    [
        ("unexplained-lameness", "a lameness that no vet has looked at"),
        ("known-condition", "a condition that a vet has found"),
        ("vet-says-wait", "the vet, who says to wait"),
        ("unwell", "a horse that is off its food or unwell"),
        ("pregnant", "a mare in foal"),
        ("ppid", "PPID (Cushing's)"),
    ],
)
def test_a_caution_reads_well_after_because_of(flag: str, words: str) -> None:
    caution = TABLES.cautions[flag]
    assert causes_words([cause(Fact("flag", flag), caution=flag, name=caution.name)], TABLES) == words
