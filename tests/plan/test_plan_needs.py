"""Findings become needs."""

from dataclasses import replace
from datetime import date

import pytest
from plan_tables import small_tables

from haywisp.findings.types import Fact
from haywisp.plan import Need, needs_from_facts

TABLES = small_tables()


def finding(structure: str, side: str | None, aspect: str, value: str) -> Fact:
    return Fact("finding", structure=structure, side=side, aspect=aspect, value=value)


def needs(*facts: Fact) -> tuple[Need, ...]:
    return needs_from_facts(facts, TABLES)


def test_one_finding_is_one_need_with_its_techniques() -> None:
    assert needs(finding("masseter", "left", "tone", "tight")) == (
        Need("masseter", "left", 0.6, ("tightness",), {"kneading": 0.5}, ("tone:tight",)),
    )


def test_two_findings_join_and_share_the_techniques() -> None:
    """1 - 0.4 x 0.4 = 0.84; each of the two equal findings gives half of the help."""
    (need,) = needs(finding("masseter", "left", "tone", "tight"), finding("masseter", "left", "texture", "knotted"))
    assert need.weight == pytest.approx(0.84)
    assert need.because == ("tightness", "knots")
    assert need.helps == {"kneading": pytest.approx(0.25), "pressing": pytest.approx(0.5)}


def test_the_same_finding_twice_counts_once() -> None:
    tight = finding("masseter", "left", "tone", "tight")
    assert needs(tight, tight) == needs(tight)


def test_a_later_usual_finding_takes_it_back() -> None:
    tight, normal = finding("masseter", "left", "tone", "tight"), finding("masseter", "left", "tone", "normal")
    assert needs(tight, normal) == ()
    assert len(needs(normal, tight)) == 1


def test_a_later_value_of_the_same_aspect_takes_its_place() -> None:
    tight, slack = finding("masseter", "left", "tone", "tight"), finding("masseter", "left", "tone", "slack")
    assert [need.because for need in needs(tight, slack)] == [("slackness",)]
    knotted, fibrous = (finding("masseter", "left", "texture", value) for value in ("knotted", "fibrous"))
    assert [need.because for need in needs(knotted, fibrous)] == [("knots", "fibrous texture")]


def test_what_was_not_felt_last_time_asks_for_less_and_says_so() -> None:
    tight = finding("masseter", "left", "tone", "tight")
    (need,) = needs(replace(tight, since=date(2031, 3, 4)))
    assert need.weight == pytest.approx(0.6 * 0.6)
    assert need.because == ("tightness (not felt last time: from the visit of 4 March 2031)",)


def test_a_knot_that_was_not_felt_last_time_is_not_worked_deep() -> None:
    knot = finding("masseter", "left", "texture", "knotted")
    then = replace(finding("masseter", "left", "tone", "tight"), since=date(2031, 3, 4))
    assert "pressing" in needs(then, knot)[0].helps
    assert set(needs(then, replace(knot, since=date(2031, 3, 4)))[0].helps) == {"kneading"}


@pytest.mark.parametrize("side", ["both", None])
def test_the_poll_of_both_sides_is_one_need(side: str | None) -> None:
    found = needs(finding("poll", side, "tone", "tight"))
    assert [(need.structure, need.side, need.because) for need in found] == [("poll", "both", ("tightness",))]


def test_the_poll_of_one_side_is_a_need_of_that_side() -> None:
    left = finding("poll", "left", "tone", "tight")
    assert [need.side for need in needs(left)] == ["left"]
    assert [
        (need.structure, need.side) for need in needs(left, finding("rectus-capitis", "right", "tone", "tight"))
    ] == [
        ("poll", "both"),
        ("rectus-capitis", "both"),
    ]


@pytest.mark.parametrize(("side", "phrase"), [("both", "tightness"), (None, "tightness (side not said)")])
def test_both_and_unknown_sides_count_for_each(side: str | None, phrase: str) -> None:
    found = needs(finding("masseter", side, "tone", "tight"))
    assert [(need.side, need.because) for need in found] == [("left", (phrase,)), ("right", (phrase,))]


def test_the_midline_has_one_need_without_side() -> None:
    found = needs(finding("withers", "left", "tone", "tight"))
    assert [(need.side, need.because) for need in found] == [(None, ("tightness",))]


def test_wounds_flags_and_unknown_structures_are_no_need() -> None:
    assert needs(finding("masseter", "left", "skin", "wound"), Fact("flag", "old")) == ()
    assert needs(finding("nowhere", "left", "tone", "tight")) == ()


def test_the_heaviest_comes_first() -> None:
    found = needs(finding("masseter", "left", "tone", "slack"), finding("gastrocnemius", "left", "tone", "tight"))
    assert [need.structure for need in found] == ["gastrocnemius", "masseter"]
