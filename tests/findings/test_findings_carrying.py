"""What an earlier visit found stands until the same place and aspect are recorded again."""

from collections.abc import Mapping
from datetime import UTC, date, datetime

import pytest
from findings_tables import small_tables

from haywisp.findings import Earlier, Fact, carried
from haywisp.record.types import Entry

TABLES = small_tables()
FIRST, SECOND = date(2031, 3, 4), date(2031, 4, 1)


def entry(part: str, body: Mapping[str, object], *, status: str = "accepted", time_s: float = 0.0) -> Entry:
    thread = f"{part}-{sorted(body.items(), key=str)}-{time_s}"
    return Entry(
        id=thread,
        thread=thread,
        version=1,
        visit_id="visit",
        part=part,
        body=dict(body),
        status=status,
        source="heard",
        confidence=1.0,
        time_s=time_s,
        end_s=time_s,
        first_word=-1,
        last_word=-1,
        made_at=datetime(2031, 3, 4, tzinfo=UTC),
        reason="",
    )


def found(structure: str, side: str | None, aspect: str, value: str, **more: object) -> Entry:
    body = {"structure": structure, "side": side, "aspect": aspect, "value": value}
    return entry("finding", body, **more)  # type: ignore[arg-type]


def told(facts: tuple[Fact, ...]) -> list[tuple[str, str | None, str, date | None]]:
    return [(fact.structure, fact.side, fact.value, fact.since) for fact in facts]


WARM = found("splenius", "left", "warmth", "warm")


def after(*newest: Entry, first: tuple[Entry, ...] = (WARM,)) -> list[tuple[str, str | None, str, date | None]]:
    return told(carried(newest, [Earlier(FIRST, first)], TABLES))


def test_what_was_not_felt_again_stands_with_its_day() -> None:
    assert after() == [("splenius", "left", "warm", FIRST)]
    assert after(found("splenius", "left", "tone", "tight")) == [("splenius", "left", "warm", FIRST)]
    assert after(found("splenius", "right", "warmth", "normal")) == [("splenius", "left", "warm", FIRST)]


@pytest.mark.parametrize(
    "again",
    [
        found("splenius", "left", "warmth", "normal"),
        found("splenius", "left", "warmth", "warm"),
        found("splenius", None, "warmth", "cool"),
        found("neck", "left", "warmth", "normal"),
    ],
)
def test_the_same_place_and_aspect_recorded_again_answers_it(again: Entry) -> None:
    assert after(again) == []


def test_a_region_that_is_not_usual_answers_nothing_inside_it() -> None:
    assert after(found("neck", "left", "warmth", "warm")) == [("splenius", "left", "warm", FIRST)]


def test_a_finding_of_both_sides_stands_on_the_side_that_was_not_felt_again() -> None:
    both = found("splenius", "both", "warmth", "warm")
    assert after(found("splenius", "left", "warmth", "normal"), first=(both,)) == [("splenius", "right", "warm", FIRST)]


def test_a_visit_between_answers_too() -> None:
    between = Earlier(SECOND, [found("splenius", "left", "warmth", "normal")])
    assert carried([], [Earlier(FIRST, [WARM]), between], TABLES) == ()


def test_only_what_someone_stood_by_takes_a_finding_back() -> None:
    """A "normal" that may be misheard must not make a plan bolder; a "warm" that may be misheard holds."""
    heard = found("splenius", "left", "warmth", "normal", status="proposed")
    assert after(heard) == [("splenius", "left", "warm", FIRST)]
    proposed = found("splenius", "left", "warmth", "warm", status="proposed")
    assert after(first=(proposed,)) == [("splenius", "left", "warm", FIRST)]
    rejected = found("splenius", "left", "warmth", "warm", status="rejected")
    assert after(first=(rejected,)) == []


def test_the_end_of_a_visit_counts() -> None:
    tight, normal = ((found("splenius", "left", "tone", value, time_s=time) for value, time in pair) for pair in (
        (("tight", 1.0), ("normal", 9.0)),
        (("normal", 1.0), ("tight", 9.0)),
    ))  # fmt: skip
    assert after(first=tuple(tight)) == []
    assert after(first=tuple(normal)) == [("splenius", "left", "tight", FIRST)]


def test_a_wound_and_a_rub_of_one_visit_are_both_carried() -> None:
    both = tuple(
        found("splenius", "left", "skin", value, time_s=time) for value, time in (("wound", 1.0), ("rub", 2.0))
    )
    assert [value for _, _, value, _ in after(first=both)] == ["wound", "rub"]


def test_a_vet_asked_for_and_a_vet_who_says_wait_stand_and_another_action_does_not() -> None:
    asked = Earlier(FIRST, [entry("action", {"kind": "refer-vet"}), entry("action", {"kind": "recheck"})])
    waits = Earlier(SECOND, [entry("note", {"text": "box rest", "kind": "vet-says-wait"})])
    facts = carried([], [asked, waits], TABLES)
    assert [(fact.id, fact.since) for fact in facts] == [("refer-vet", FIRST), ("vet-says-wait", SECOND)]


def test_red_flags_stand_and_those_of_the_day_do_not() -> None:
    told = [entry("flag", {"flag": flag}) for flag in ("fever", "just-worked", "old", "first-visit")]
    assert [fact.id for fact in carried([], [Earlier(FIRST, told)], TABLES)] == ["fever", "old"]


def test_a_red_flag_that_is_told_again_or_is_the_horses_own_is_not_carried() -> None:
    told = [entry("flag", {"flag": flag}) for flag in ("fever", "old")]
    earlier = [Earlier(FIRST, told), Earlier(SECOND, told[:1])]
    assert [(fact.id, fact.since) for fact in carried([], earlier, TABLES)] == [("old", FIRST), ("fever", SECOND)]
    assert [fact.id for fact in carried(told[:1], earlier, TABLES)] == ["old"]
    assert [fact.id for fact in carried([], earlier, TABLES, flags=("old",))] == ["fever"]


def test_what_is_older_than_the_limit_is_left_out() -> None:
    earlier = [Earlier(FIRST, [WARM])]
    assert len(carried([], earlier, TABLES, not_before=FIRST)) == 1
    assert carried([], earlier, TABLES, not_before=SECOND) == ()
