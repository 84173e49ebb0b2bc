"""Every row of the gate by what it has to do, from a list that was written by hand beside the table."""

from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strictness import no_looser

from haywisp.findings import Fact, gate
from haywisp.findings.gate import met_by
from haywisp.knowledge import load_tables
from haywisp.knowledge.types import Trigger

TABLES = load_tables()
# A finding is told of a region with one muscle in it, so that both have to be kept off.
REGION, MUSCLE, SIDE = "gaskin", "gastrocnemius", "left"


@dataclass(frozen=True)
class Expected:
    """One line of the list."""

    verdict: str
    set_aside_by: str
    besides: frozenset[str]
    off: str
    techniques: frozenset[str]
    pressure: str


def expected() -> dict[str, Expected]:
    rows: dict[str, Expected] = {}
    for line in (Path(__file__).parent / "gate_expected.txt").read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            row, verdict, by, besides, off, techniques, pressure = (part.strip() for part in line.split("|"))
            assert row not in rows
            rows[row] = Expected(verdict, by, listed(besides), off, listed(techniques), pressure)
    return rows


def listed(text: str) -> frozenset[str]:
    return frozenset() if text == "-" else frozenset(part.strip() for part in text.split(","))


ROWS = expected()


def fact(trigger: Trigger) -> Fact:
    if trigger.kind != "finding":
        return Fact(trigger.kind, trigger.id)
    assert not trigger.structures, "put a place of this trigger into the test"
    return Fact("finding", structure=REGION, side=SIDE, aspect=trigger.aspect, value=trigger.value)


def told(row: str) -> list[list[Fact]]:
    """The sets of facts that must raise a row: each trigger alone, or all of them together."""
    caution = TABLES.cautions[row]
    facts = [fact(trigger) for trigger in caution.triggers]
    return [facts] if caution.all_triggers else [[one] for one in facts]


def kept_off(row: Expected) -> set[tuple[str, str | None]]:
    if row.off == "here":
        return {(REGION, SIDE), (MUSCLE, SIDE)}
    return {(structure, None) for structure in listed(row.off)}


def test_the_list_and_the_table_have_the_same_rows() -> None:
    assert set(ROWS) == set(TABLES.cautions)


@pytest.mark.parametrize("row", ROWS)
def test_its_triggers_raise_exactly_this_row(row: str) -> None:
    for facts in told(row):
        assert {reason.caution for reason in gate(facts, TABLES).reasons} == {row, *ROWS[row].besides}


@pytest.mark.parametrize("row", ROWS)
def test_a_row_decides_as_the_list_says(row: str) -> None:
    want = ROWS[row]
    for facts in told(row):
        verdict = gate(facts, TABLES)
        (reason,) = (reason for reason in verdict.reasons if reason.caution == row)
        assert reason.verdict == want.verdict
        assert reason.absolute is (want.set_aside_by == "nobody")
        assert set(reason.facts) == set(facts)
        assert verdict.verdict == want.verdict
        assert reason.wording.endswith((".", "!")) and reason.source
    assert TABLES.cautions[row].vet_alone is (want.set_aside_by == "vet")
    assert (want.set_aside_by == "-") is (want.verdict == "within-limits")


@pytest.mark.parametrize("row", ROWS)
def test_a_row_limits_as_the_list_says(row: str) -> None:
    want = ROWS[row]
    for facts in told(row):
        limits = gate(facts, TABLES).limits
        if want.off == "all":
            assert {structure for structure, side in limits.excluded if side is None} == set(TABLES.structures)
        else:
            assert limits.excluded == kept_off(want)
        assert limits.techniques == want.techniques
        here = want.pressure.startswith("here ")
        assert limits.pressure_cap == ("firm" if here or want.pressure == "-" else want.pressure)
        caps = {(REGION, SIDE): want.pressure[5:], (MUSCLE, SIDE): want.pressure[5:]} if here else {}
        assert limits.caps == caps


@pytest.mark.parametrize("row", [row for row in ROWS if TABLES.cautions[row].all_triggers])
def test_a_row_of_several_triggers_needs_each_of_them_and_at_one_place(row: str) -> None:
    caution = TABLES.cautions[row]
    (facts,) = told(row)
    for left_out in facts:
        assert met_by(caution, [one for one in facts if one is not left_out], TABLES) == ()
    found = [one for one in facts if one.kind == "finding"]
    if len(found) > 1:
        elsewhere = Fact("finding", structure="poll", side=SIDE, aspect=found[0].aspect, value=found[0].value)
        assert met_by(caution, [elsewhere, *(one for one in facts if one is not found[0])], TABLES) == ()


def test_what_is_as_usual_raises_nothing() -> None:
    usual = [
        Fact("finding", structure=REGION, side=SIDE, aspect=aspect.id, value=aspect.usual)
        for aspect in TABLES.aspects.values()
    ]
    assert gate(usual, TABLES).verdict == "work"


trigger_facts = st.sampled_from([fact(trigger) for row in TABLES.cautions.values() for trigger in row.triggers])
other_facts = st.builds(
    lambda structure, side, pair: Fact("finding", structure=structure, side=side, aspect=pair[0], value=pair[1]),
    st.sampled_from(sorted(TABLES.structures)),
    st.sampled_from(["left", "right", "both", None]),
    st.sampled_from([(aspect.id, value) for aspect in TABLES.aspects.values() for value in aspect.values]),
)
any_fact = trigger_facts | other_facts


@settings(max_examples=100, deadline=None)
@given(st.lists(any_fact, max_size=5), st.lists(any_fact, min_size=1, max_size=3), st.booleans())
def test_more_facts_never_loosen_what_fewer_said(known: list[Fact], more: list[Fact], first: bool) -> None:
    """The facts are those that rows are raised by, so that the rows really meet one another here."""
    no_looser(gate(known, TABLES, first_visit=first), gate([*more, *known], TABLES, first_visit=first))


@settings(max_examples=50, deadline=None)
@given(st.permutations([fact(trigger) for row in TABLES.cautions.values() for trigger in row.triggers][:12]))
def test_the_order_of_the_telling_does_not_matter(facts: list[Fact]) -> None:
    one, other = gate(facts, TABLES), gate(sorted(facts, key=repr), TABLES)
    assert (one.verdict, one.limits.excluded, one.limits.techniques, one.limits.caps) == (
        other.verdict,
        other.limits.excluded,
        other.limits.techniques,
        other.limits.caps,
    )
    assert [reason.caution for reason in one.reasons] == [reason.caution for reason in other.reasons]
