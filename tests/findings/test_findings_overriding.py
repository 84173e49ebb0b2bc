"""Work against the gate: only with a reason, never against an absolute row, and lightly."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strictness import PRESSURES, STRICTNESS

from haywisp.findings import Fact, Override, gate, held, may_be_set_aside, override_text, overrides_in
from haywisp.knowledge import load_tables
from haywisp.record import Entry
from haywisp.record.types import OVERRIDE

TABLES = load_tables()
REASON = "The vet saw him lame last week and cannot be reached today."
LAME, FEVER = Fact("flag", "unexplained-lameness"), Fact("flag", "fever")


def written(*cautions: str, known: frozenset[str] | None = None) -> Override:
    return Override(frozenset(cautions), REASON, "note", known)


def test_a_row_that_was_set_aside_leaves_light_work_and_says_so() -> None:
    found = held([LAME], [written("unexplained-lameness")], TABLES)
    assert (found.advice.verdict, found.verdict.verdict) == ("vet-first", "within-limits")
    assert found.verdict.limits.excluded == frozenset()
    assert found.verdict.limits.pressure_cap == "light"
    assert [reason.caution for reason in found.verdict.reasons] == ["unexplained-lameness"]
    (line,) = override_text([written("unexplained-lameness")], TABLES)
    assert "Work without waiting for the vet, who should come first (Lameness that no vet has looked at)." in line
    assert f"“{REASON}”" in line and "No vet agreed to it by this." in line


def test_without_a_reason_the_advice_holds() -> None:
    found = held([LAME], [], TABLES)
    assert found.verdict == found.advice == gate([LAME], TABLES)
    assert override_text([], TABLES) == ()


def test_what_was_set_aside_still_leads_the_reasons() -> None:
    found = held([Fact("flag", "first-visit"), LAME], [written("unexplained-lameness")], TABLES)
    assert [reason.caution for reason in found.verdict.reasons] == ["unexplained-lameness", "first-visit"]


def test_another_row_goes_on_asking_for_the_vet() -> None:
    found = held([LAME, Fact("flag", "painkillers")], [written("unexplained-lameness")], TABLES)
    assert found.verdict.verdict == "vet-first"
    assert [one.reason.caution for one in found.overridden] == ["unexplained-lameness"]


@pytest.mark.parametrize("row", [row for row in TABLES.cautions.values() if not may_be_set_aside(row)])
def test_no_other_row_gives_way(row: object) -> None:
    caution = TABLES.cautions[row.id]  # type: ignore[attr-defined]
    facts = [
        Fact(
            trigger.kind, trigger.id, "gaskin" if trigger.kind == "finding" else "", None, trigger.aspect, trigger.value
        )
        for trigger in caution.triggers
    ]
    found = held(facts, [written(caution.id)], TABLES)
    assert caution.id not in {one.reason.caution for one in found.overridden}
    assert found.verdict == found.advice


def test_what_may_be_set_aside_is_neither_absolute_nor_the_vets_own() -> None:
    rows = {row.id for row in TABLES.cautions.values() if may_be_set_aside(row)}
    assert {"unexplained-lameness", "painkillers", "vet-asked-for", "hot-sore-spasm"} <= rows
    assert rows.isdisjoint(
        {"fever", "colic", "sedated", "vet-says-wait", "vet-agreement-missing", "heat", "first-visit"}
    )


def test_places_and_techniques_of_the_row_stay_out() -> None:
    facts = [
        Fact("finding", structure="gaskin", side="left", aspect=aspect, value=value)
        for aspect, value in (("spasm", "present"), ("tenderness", "present"), ("warmth", "warm"))
    ]
    found = held(facts, [written("hot-sore-spasm")], TABLES)
    assert found.verdict.verdict == "within-limits"
    assert ("gastrocnemius", "left") in found.verdict.limits.excluded
    assert ("splenius", None) not in found.verdict.limits.excluded
    assert "warmth" in found.verdict.limits.techniques and found.verdict.limits.pressure_cap == "light"


def test_what_was_told_after_the_reason_is_not_covered_by_it() -> None:
    first, later = replace(LAME, entry="thread-1"), replace(LAME, entry="thread-2")
    reason = written("unexplained-lameness", known=frozenset({"thread-1"}))
    assert held([first], [reason], TABLES).verdict.verdict == "within-limits"
    assert held([first, later], [reason], TABLES).verdict.verdict == "vet-first"
    # What stays with the horse has no entry and was known all along.
    assert held([LAME], [reason], TABLES).verdict.verdict == "within-limits"


def note(status: str, body: dict[str, object], version: int = 1) -> Entry:
    at = datetime(2031, 3, 4, tzinfo=UTC)
    return Entry(f"{version}", "note", version, "v", "note", body, 0.0, 0.0, -1, -1, 1.0, status, "by hand", "", at)


def test_only_notes_that_somebody_stands_by_set_anything_aside() -> None:
    body: dict[str, object] = {"kind": OVERRIDE, "cautions": ["painkillers"], "text": REASON}
    assert overrides_in([note("accepted", body)]) == (Override(frozenset({"painkillers"}), REASON, "note"),)
    assert overrides_in([note("accepted", body), note("rejected", body, 2)]) == ()
    assert overrides_in([note("proposed", body)]) == ()
    assert overrides_in([note("accepted", {"text": REASON})]) == ()


def test_one_reason_for_several_rows_is_told_once_and_names_them_all() -> None:
    (line,) = override_text([written("unexplained-lameness", "painkillers", "row-of-yore")], TABLES)
    assert "(Lameness that no vet has looked at, Painkillers or sedation, row-of-yore)" in line


flags = st.sampled_from([Fact("flag", flag) for flag in TABLES.flags])
findings = st.builds(
    lambda structure, pair: Fact("finding", structure=structure, side="left", aspect=pair[0], value=pair[1]),
    st.sampled_from(["gaskin", "neck", "splenius"]),
    st.sampled_from([("warmth", "warm"), ("swelling", "present"), ("spasm", "present"), ("tenderness", "present")]),
)


@settings(max_examples=80, deadline=None)
@given(st.lists(flags | findings, max_size=5), st.sets(st.sampled_from(sorted(TABLES.cautions)), max_size=6))
def test_a_reason_never_opens_more_than_the_rows_it_may_set_aside(facts: list[Fact], named: set[str]) -> None:
    found = held(facts, [written(*named)], TABLES)
    assert found.advice == gate(facts, TABLES)
    never = {reason.caution for reason in found.advice.reasons if not may_be_set_aside(TABLES.cautions[reason.caution])}
    kept = {one.caution: one for one in found.verdict.reasons}
    assert {one.caution for one in found.advice.reasons} == set(kept)
    assert all(kept[one.caution] == one for one in found.advice.reasons if one.caution in never)
    assert {one.reason.caution for one in found.overridden} <= named - never
    assert STRICTNESS.index(found.verdict.verdict) <= STRICTNESS.index(found.advice.verdict)
    # The rows that were not set aside limit as much as they did.
    others = [
        reason for reason in found.advice.reasons if reason.caution not in {o.reason.caution for o in found.overridden}
    ]
    if any(reason.verdict == "vet-first" for reason in others):
        assert found.verdict.verdict == "vet-first"
    if found.overridden:
        assert found.verdict.limits.pressure_cap == "light"
        assert found.verdict.limits.techniques == found.advice.limits.techniques


@settings(max_examples=80, deadline=None)
@given(
    st.lists(flags | findings, max_size=4),
    flags | findings,
    st.sets(st.sampled_from(sorted(TABLES.cautions)), max_size=6),
)
def test_under_a_reason_too_a_further_fact_never_loosens_the_verdict(
    facts: list[Fact], further: Fact, named: set[str]
) -> None:
    before, after = (held(told, [written(*named)], TABLES).verdict for told in (facts, [*facts, further]))
    assert STRICTNESS.index(after.verdict) >= STRICTNESS.index(before.verdict)
    assert after.limits.excluded >= before.limits.excluded
    assert after.limits.techniques >= before.limits.techniques
    assert PRESSURES.index(after.limits.pressure_cap) <= PRESSURES.index(before.limits.pressure_cap)
