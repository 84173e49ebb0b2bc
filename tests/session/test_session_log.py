"""The session log: which sign answers which bout, and the pressure guarded against."""

from collections.abc import Mapping
from datetime import UTC, datetime

import pytest

from haywisp.knowledge.types import Language, Sign, Structure, Tables
from haywisp.record.types import Entry
from haywisp.session import log_of

NOON = datetime(2030, 1, 1, 12, tzinfo=UTC)
TABLES = Tables(
    structures={
        name: Structure(name, name, "", "region", "regions", name, name != "withers", "", "", "", "", "", (), "test")
        for name in ("neck", "back", "withers")
    },
    techniques={},
    signs={
        "yawn": Sign("yawn", "Yawn", "settling", 0.6, 8, "test"),
        "sigh": Sign("sigh", "Sigh", "settling", 0.5, 8, "test"),
        "tail-swish": Sign("tail-swish", "Tail swish", "guarding", 0.4, 8, "test"),
        "kick-threat": Sign("kick-threat", "Threat to kick", "guarding", 0.9, 8, "test"),
    },
    aspects={},
    actions={},
    cautions={},
    patterns={},
    exercises={},
    language=Language("en"),
)


def entry(thread: str, part: str, start: float, end: float, body: Mapping[str, object], status: str) -> Entry:
    return Entry(thread, thread, 1, "v", part, body, start, end, 0, 1, 1.0, status, "test", "", NOON)


def bout(
    thread: str,
    start: float,
    end: float,
    structures: tuple[str, ...] = ("neck",),
    side: str | None = "left",
    pressure: str | None = "moderate",
    status: str = "accepted",
) -> Entry:
    body = {"technique": "kneading", "structures": list(structures), "side": side, "pressure": pressure, "passes": None}
    return entry(thread, "bout", start, end, body, status)


def sign(name: str, time_s: float, status: str = "accepted") -> Entry:
    return entry(f"{name}@{time_s}", "response", time_s, time_s, {"sign": name}, status)


def test_a_sign_answers_the_bout_that_it_falls_into() -> None:
    log = log_of([bout("a", 0, 60), bout("b", 62, 120), sign("yawn", 30), sign("tail-swish", 64)], TABLES)
    assert [each.signs for each in log.bouts] == [("yawn",), ("tail-swish",)]
    assert [each.answer for each in log.bouts] == [0.6, -0.4]


@pytest.mark.parametrize(("time_s", "signs"), [(68.0, ("yawn",)), (68.01, ())])
def test_a_sign_up_to_eight_seconds_after_still_answers(time_s: float, signs: tuple[str, ...]) -> None:
    log = log_of([bout("a", 0, 60), sign("yawn", time_s)], TABLES)
    assert log.bouts[0].signs == signs


def test_a_late_sign_has_faded_by_its_half_life() -> None:
    """Eight seconds late at a half-life of eight seconds leaves half of 0.6."""
    assert log_of([bout("a", 0, 60), sign("yawn", 68)], TABLES).bouts[0].answer == pytest.approx(0.3)


def test_a_sign_between_two_bouts_answers_the_one_before_and_only_once() -> None:
    log = log_of([bout("a", 0, 60), bout("b", 65, 90), sign("yawn", 62)], TABLES)
    assert [each.signs for each in log.bouts] == [("yawn",), ()]


def test_guarded_is_the_lightest() -> None:
    entries = [
        bout("a", 0, 60, pressure="light"),
        bout("b", 70, 130),
        bout("c", 140, 200, pressure="firm"),
        sign("tail-swish", 150),
        bout("d", 210, 260, ("back",), pressure="firm"),
        sign("tail-swish", 220),
        bout("e", 270, 330, ("back",), pressure="moderate"),
        sign("tail-swish", 280),
    ]
    log = log_of(entries, TABLES)
    assert log.guarded == {("neck", "left"): "firm", ("back", "left"): "moderate"}


def test_a_strong_guard_is_not_outweighed_by_settling() -> None:
    log = log_of([bout("a", 0, 60), sign("kick-threat", 5), sign("yawn", 20), sign("sigh", 30)], TABLES)
    assert log.bouts[0].answer > 0
    assert log.guarded == {("neck", "left"): "moderate"}


def test_sides_of_a_bout_on_both_and_on_the_midline() -> None:
    log = log_of([bout("a", 0, 60, ("neck", "withers"), "both"), sign("kick-threat", 5)], TABLES)
    assert set(log.guarded) == {("neck", "left"), ("neck", "right"), ("withers", None)}


def test_rejected_entries_and_unsaid_pressure_tell_nothing() -> None:
    bouts = [bout("a", 0, 60, pressure=None), bout("b", 70, 90, status="rejected")]
    log = log_of([*bouts, sign("kick-threat", 5), sign("kick-threat", 75)], TABLES)
    assert [each.thread for each in log.bouts] == ["a"]
    assert log.guarded == {}
