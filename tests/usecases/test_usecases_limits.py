"""Limits of the gate in plain sentences, on the tables that come with Haywisp."""

import pytest

from haywisp.findings import Fact, GateVerdict, gate
from haywisp.knowledge import load_tables
from haywisp.usecases.conclusions import verdict_view
from haywisp.usecases.limits import refusal_sentence, worded
from haywisp.usecases.views import VerdictView

TABLES = load_tables()


def found(structure: str, side: str | None, aspect: str, value: str) -> Fact:
    return Fact("finding", structure=structure, side=side, aspect=aspect, value=value)


def verdict(*facts: Fact) -> GateVerdict:
    return gate(facts, TABLES)


def view(*facts: Fact) -> VerdictView:
    return verdict_view(verdict(*facts), TABLES)


def test_a_place_that_is_not_worked_says_why() -> None:
    assert view(found("chest", None, "skin", "rub")).excluded == (
        "Chest and what lies there: not worked, because of a rub on the skin (chest)",
    )


def test_a_cap_says_how_deep_and_why() -> None:
    assert view(found("neck", "left", "tenderness", "present")).caps == (
        "Left neck and what lies there: light pressure at most, because of soreness (left neck)",
    )


def test_each_side_is_explained_by_what_was_found_there() -> None:
    excluded = view(found("masseter", "left", "skin", "wound"), found("masseter", "right", "skin", "lump")).excluded
    assert excluded == (
        "Left masseter: not worked, because of a wound in the skin (left masseter)",
        "Right masseter: not worked, because of a lump (right masseter)",
    )


def test_exclusion_and_cap_of_one_place_keep_their_own_reasons() -> None:
    page = view(found("masseter", "left", "skin", "rub"), found("masseter", "left", "tenderness", "present"))
    assert page.excluded == ("Left masseter: not worked, because of a rub on the skin (left masseter)",)
    assert page.caps == ("Left masseter: light pressure at most, because of soreness (left masseter)",)


def test_findings_of_one_place_are_put_together() -> None:
    hot = [found("masseter", "left", "warmth", "warm"), found("masseter", "left", "tenderness", "present")]
    assert view(*hot).excluded == ("Left masseter: not worked, because of warmth and soreness (left masseter)",)


def test_a_body_that_is_not_worked_at_all_is_told_once() -> None:
    assert view(Fact("flag", "fever")).excluded == ("The whole body: not worked, because of fever",)
    wound = found("splenius", "left", "skin", "wound")
    assert view(Fact("flag", "fever"), Fact("flag", "colic"), wound).excluded == (
        "The whole body: not worked, because of colic and fever",
    )
    assert view(wound).excluded == ("Left splenius: not worked, because of a wound in the skin (left splenius)",)


def test_techniques_and_pressure_everywhere_name_the_flag() -> None:
    page = view(Fact("flag", "ppid"), Fact("flag", "first-visit"))
    assert "Cross-fibre friction: not used, because of PPID (Cushing's)" in page.techniques
    assert page.pressure == "Everywhere: moderate pressure at most, because of a first session and PPID (Cushing's)"
    assert view().pressure == ""


def test_a_plan_reads_each_sides_own_reason() -> None:
    facts = found("masseter", "left", "skin", "wound"), found("masseter", "right", "tenderness", "present")
    why = worded(verdict(*facts), TABLES).limits.why
    assert why["masseter:left"] == "a wound in the skin (left masseter)"
    assert why["masseter:right"] == "soreness (right masseter)"


@pytest.mark.parametrize(
    ("facts", "says"),
    [
        (
            [
                found("triceps-brachii", "right", "warmth", "warm"),
                found("triceps-brachii", "right", "swelling", "present"),
            ],
            "No plan: a vet comes first, because of warmth and a swelling (right triceps brachii).",
        ),
        (
            [Fact("action", "refer-vet")],
            "No plan: a vet comes first, because of the vet who was asked for at the last visit.",
        ),
        ([Fact("flag", "fever")], "No plan: a vet comes first, because of fever."),
        ([Fact("flag", "first-visit")], ""),
    ],
)
def test_a_refusal_is_a_sentence(facts: list[Fact], says: str) -> None:
    assert refusal_sentence(verdict(*facts), TABLES) == says


def test_no_limit_of_any_caution_is_raw() -> None:
    """Every caution of the tables, raised by all its triggers: no id, no table's value, no colon inside a reason."""
    for caution in TABLES.cautions.values():
        facts = [
            found(trigger.structures[0] if trigger.structures else "splenius", "left", trigger.aspect, trigger.value)
            if trigger.kind == "finding"
            else Fact(trigger.kind, trigger.id)
            for trigger in caution.triggers
        ]
        page = view(*facts)
        refusal = refusal_sentence(verdict(*facts), TABLES)
        for sentence in (*page.excluded, *page.techniques, *page.caps, page.pressure, refusal):
            if sentence:
                assert sentence.count(":") == 1, sentence
                assert not any(raw in sentence for raw in ("present", "skin rub", "warmth warm", "-visit", "()")), (
                    sentence
                )
                assert "because of" in sentence, sentence
