"""Totals of published scales and the red flags that they raise."""

import pytest

from haywisp.findings import BadScore, Fact, flags_of_scales, gate
from haywisp.knowledge import load_tables

TABLES = load_tables()


# Dyson 2018, read in Animals 2020, 10, 1044: eight or more of 24 behaviours.
@pytest.mark.parametrize(
    ("seen", "flags"), [(0, ()), (7, ()), (8, ("ridden-pain-signs",)), (24, ("ridden-pain-signs",))]
)
def test_eight_ridden_behaviours_are_referred(seen: int, flags: tuple[str, ...]) -> None:
    assert flags_of_scales(ridden=seen) == flags


# AAEP grades (several pages): 4 is lame at the walk. From which grade to refer is a design choice, not published.
@pytest.mark.parametrize(
    ("grade", "explained", "flags"),
    [
        (0, False, ()),
        (1, False, ("unexplained-lameness",)),
        (3, False, ("unexplained-lameness",)),
        (4, False, ("acute-lameness", "unexplained-lameness")),
        (0, True, ()),
        (1, True, ("known-condition",)),
        (5, True, ("acute-lameness", "known-condition")),
    ],
)
def test_a_grade_without_a_reason_is_referred_and_four_is_urgent(
    grade: int, explained: bool, flags: tuple[str, ...]
) -> None:
    assert flags_of_scales(aaep=grade, explained=explained) == flags


# Dalla Costa 2014 gives no total from which to act (from memory): any sign asks, and none sends to the vet.
@pytest.mark.parametrize(("total", "flags"), [(0, ()), (1, ("grimace-signs",)), (12, ("grimace-signs",))])
def test_any_sign_in_the_face_asks(total: int, flags: tuple[str, ...]) -> None:
    assert flags_of_scales(grimace=total) == flags
    verdict = gate([Fact("flag", flag) for flag in flags], TABLES)
    assert verdict.verdict == ("within-limits" if flags else "work")


def test_what_was_not_scored_raises_nothing() -> None:
    assert flags_of_scales() == ()
    assert flags_of_scales(explained=True) == ()


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"aaep": 6}, "The lameness grade can be a whole number from 0 to 5; “6” isn't."),
        ({"aaep": -1}, "from 0 to 5"),
        ({"ridden": 25}, "from 0 to 24"),
        ({"grimace": 13}, "from 0 to 12"),
        ({"grimace": True}, "“True” isn't"),
        ({"aaep": 2.5}, "“2.5” isn't"),
    ],
)
def test_a_score_that_the_scale_does_not_have(given: dict[str, int], says: str) -> None:
    with pytest.raises(BadScore) as refused:
        flags_of_scales(**given)
    assert says in str(refused.value)


def test_every_flag_that_a_scale_raises_is_one_of_the_table() -> None:
    raised = {
        flag
        for explained in (False, True)
        for flag in flags_of_scales(aaep=5, explained=explained, ridden=24, grimace=12)
    }
    assert raised == {
        "acute-lameness",
        "unexplained-lameness",
        "known-condition",
        "ridden-pain-signs",
        "grimace-signs",
    }
    assert raised <= set(TABLES.flags)
