"""The day's round by yard, isolation last; and the horses due for a return."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from haywisp.practice import Yard, due, round_of
from haywisp.record.types import Entry, Horse, Visit

TODAY = date(2031, 5, 4)
YARDS = {
    yard.id: yard
    for yard in (Yard("low", "Low Meadow"), Yard("sick", "Sick Bay", isolation=True), Yard("hill", "Hill Farm"))
}
HORSES = {
    name: Horse(name, name.title(), "owner", yard)
    for name, yard in {"ash": "low", "bay": "hill", "cob": "sick", "dun": "low", "elf": "gone"}.items()
}


def visit(horse: str, days: int = 0, status: str = "planned", minutes: int = 45) -> Visit:
    return Visit(f"{horse}{days:+}", horse, TODAY + timedelta(days=days), minutes, status, 1)


def decision(at: Visit, kind: str = "recheck", status: str = "accepted") -> Entry:
    made = datetime(2031, 5, 4, tzinfo=UTC)
    return Entry(at.id, at.id, 1, at.id, "action", {"kind": kind}, 0, 0, 0, 1, 1, status, "narration", "", made)


def order(*horses: str) -> list[tuple[str, list[str], int]]:
    stops = round_of([visit(name) for name in horses], HORSES, YARDS).stops
    return [
        (stop.yard.name if stop.yard else "?", [one.horse_id for one in stop.visits], stop.minutes) for stop in stops
    ]


def test_visits_are_grouped_by_yard_in_the_order_booked() -> None:
    assert order("bay", "ash", "dun") == [("Hill Farm", ["bay"], 45), ("Low Meadow", ["ash", "dun"], 90)]
    assert order("ash", "bay", "dun") == [("Low Meadow", ["ash", "dun"], 90), ("Hill Farm", ["bay"], 45)]


def test_a_yard_in_isolation_is_last_wherever_it_was_booked() -> None:
    assert [yard for yard, _, _ in order("cob", "bay", "ash")] == ["Hill Farm", "Low Meadow", "Sick Bay"]


def test_isolation_comes_with_its_caution_and_others_with_none() -> None:
    assert round_of([visit("ash"), visit("bay")], HORSES, YARDS).cautions == ()
    (caution,) = round_of([visit("cob"), visit("ash")], HORSES, YARDS).cautions
    assert caution.startswith("At Sick Bay: own kit and clothing")


def test_two_yards_in_isolation_on_one_day_are_warned_of() -> None:
    both = {**YARDS, "hill": replace(YARDS["hill"], isolation=True)}
    cautions = round_of([visit("cob"), visit("bay"), visit("ash")], HORSES, both).cautions
    assert "Sick Bay and Hill Farm are both in isolation" in cautions[-1]


def test_visits_without_a_known_yard_are_kept_before_isolation_and_said() -> None:
    assert [yard for yard, _, _ in order("cob", "elf", "nobody", "ash")] == ["Low Meadow", "?", "Sick Bay"]
    assert "no known yard" in round_of([visit("elf")], HORSES, YARDS).cautions[0]


def test_a_day_without_visits_is_an_empty_round() -> None:
    assert round_of([], HORSES, YARDS).stops == ()


def test_a_return_that_was_decided_is_due_longest_wait_first() -> None:
    visits = [visit("ash", -10, "reviewed"), visit("bay", -30, "reviewed"), visit("cob", -5, "reviewed")]
    found = due(visits, [decision(visits[0]), decision(visits[1]), decision(visits[2], "rest")], TODAY)
    assert [(one.horse_id, one.visit.id, one.days_ago) for one in found] == [
        ("bay", "bay-30", 30),
        ("ash", "ash-10", 10),
    ]


@pytest.mark.parametrize("days", [0, 1, 90])
def test_a_visit_from_today_on_settles_it(days: int) -> None:
    past = visit("ash", -10, "reviewed")
    assert due([past, visit("ash", days)], [decision(past)], TODAY) == ()


def test_only_the_newest_visit_counts() -> None:
    old, new = visit("ash", -30, "reviewed"), visit("ash", -10, "reviewed")
    assert due([new, old], [decision(old)], TODAY) == ()
    assert [one.visit for one in due([new, old], [decision(new)], TODAY)] == [new]


def test_a_visit_that_was_planned_and_did_not_happen_settles_nothing() -> None:
    past = visit("ash", -10, "reviewed")
    assert [one.visit for one in due([past, visit("ash", -3)], [decision(past)], TODAY)] == [past]


def test_rejected_decisions_and_old_ones_do_not_count_and_proposed_ones_do() -> None:
    past = visit("ash", -100, "heard")
    assert due([past], [decision(past, status="rejected")], TODAY) == ()
    assert due([past], [decision(past)], TODAY, within_days=99) == ()
    assert len(due([past], [decision(past, status="proposed")], TODAY, within_days=100)) == 1
