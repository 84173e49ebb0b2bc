"""Strands: what was recorded at each visit, and the plain word for what came of it."""

from datetime import UTC, date, datetime

from haywisp.knowledge.types import Aspect, Language, Structure, Tables
from haywisp.progress import Strand, strands
from haywisp.record.types import Entry, Visit

NOON = datetime(2030, 1, 1, 12, tzinfo=UTC)
TABLES = Tables(
    structures={
        name: Structure(name, name, "", "muscle", "", name, name != "withers", "", "", "", "", "", (), "test")
        for name in ("splenius", "withers")
    },
    techniques={},
    signs={},
    aspects={
        "tone": Aspect("tone", "Tone", ("tight", "slack", "normal"), "normal", "test"),
        "texture": Aspect("texture", "Texture", ("knotted", "fibrous", "smooth"), "smooth", "test"),
    },
    actions={},
    cautions={},
    patterns={},
    exercises={},
    language=Language("en"),
)
DAYS = (date(2030, 1, 1), date(2030, 2, 1), date(2030, 3, 1))


def visit(number: int, *found: tuple[str, str | None, str, str], status: str = "accepted") -> tuple[Visit, list[Entry]]:
    entries = [
        Entry(
            f"{number}-{index}",
            f"{number}-{index}",
            1,
            f"v{number}",
            "finding",
            {"structure": structure, "side": side, "aspect": aspect, "value": value},
            index,
            index,
            0,
            1,
            1.0,
            status,
            "test",
            "",
            NOON,
        )
        for index, (structure, side, aspect, value) in enumerate(found)
    ]
    return Visit(f"v{number}", "h", DAYS[number], 60, "reviewed", number), entries


def changes(*visits: tuple[Visit, list[Entry]]) -> list[str]:
    return [strand.change for strand in strands(visits, TABLES)]


TIGHT = ("splenius", "left", "tone", "tight")
NORMAL = ("splenius", "left", "tone", "normal")


def test_a_change_says_what_was_and_what_is() -> None:
    assert strands([visit(1, NORMAL), visit(0, TIGHT)], TABLES) == (
        Strand("splenius", "left", "tone", ((DAYS[0], "tight"), (DAYS[1], "normal")), "was tight, now normal"),
    )


def test_the_same_again_is_the_same() -> None:
    assert changes(visit(0, TIGHT), visit(1, TIGHT)) == ["same"]


def test_one_look_claims_no_change() -> None:
    assert changes(visit(0, TIGHT)) == ["first look"]


def test_what_the_last_visit_did_not_look_at_claims_nothing() -> None:
    assert changes(visit(0, TIGHT), visit(1)) == ["not looked at since"]
    assert changes(visit(0, TIGHT), visit(1, NORMAL), visit(2)) == ["not looked at since"]


def test_a_visit_between_that_did_not_look_is_passed_over() -> None:
    assert changes(visit(0, TIGHT), visit(1), visit(2, NORMAL)) == ["was tight, now normal"]


def test_sides_are_kept_apart_and_both_counts_for_each() -> None:
    found = strands([visit(0, ("splenius", "both", "tone", "tight")), visit(1, NORMAL)], TABLES)
    assert [(strand.side, strand.change) for strand in found] == [
        ("left", "was tight, now normal"),
        ("right", "not looked at since"),
    ]


def test_the_midline_has_no_side() -> None:
    assert strands([visit(0, ("withers", "left", "tone", "tight"))], TABLES)[0].side is None


def test_two_values_of_one_visit_are_both_told() -> None:
    found = visit(0, ("splenius", "left", "texture", "knotted"), ("splenius", "left", "texture", "fibrous"))
    assert strands([found], TABLES)[0].values == ((DAYS[0], "knotted and fibrous"),)
    assert changes(found, visit(1, *[("splenius", "left", "texture", one) for one in ("fibrous", "knotted")])) == [
        "same"
    ]


def test_of_values_that_exclude_each_other_the_last_of_a_visit_counts() -> None:
    assert changes(visit(0, TIGHT, NORMAL), visit(1, NORMAL, TIGHT)) == ["was normal, now tight"]
    knotted, smooth = (("splenius", "left", "texture", value) for value in ("knotted", "smooth"))
    assert strands([visit(0, knotted, smooth)], TABLES)[0].values == ((DAYS[0], "smooth"),)


def test_rejected_findings_are_left_out() -> None:
    assert strands([visit(0, TIGHT, status="rejected")], TABLES) == ()
    assert strands([], TABLES) == ()
