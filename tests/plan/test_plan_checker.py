"""The checker notices each rule that a plan is made to break."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from plan_tables import need, small_tables, technique

from haywisp.plan import Plan, PlannedBout, PlanProblem, check, solve

TABLES = small_tables(techniques=[technique("sustained-pressure", "deep", "firm", needs=("preparing",), thumb=0.1)])
PROBLEM = PlanProblem(
    needs=(
        need("pectoralis-descendens", pressing=1.0),
        need("pectoralis-descendens", "right", pressing=1.0),
        need("rectus-capitis"),
    ),
    minutes=30,
)
GOOD = solve(PROBLEM, TABLES)


def at(technique: str) -> int:
    return next(number for number, bout in enumerate(GOOD.bouts) if bout.technique == technique)


def with_bout(number: int, **changes: object) -> Plan:
    bouts = list(GOOD.bouts)
    bouts[number] = replace(bouts[number], **changes)
    return replace(GOOD, bouts=tuple(bouts))


def with_bouts(bouts: list[PlannedBout]) -> Plan:
    return replace(GOOD, bouts=tuple(replace(bout, order=number) for number, bout in enumerate(bouts, start=1)))


def without(number: int) -> Plan:
    return with_bouts([bout for index, bout in enumerate(GOOD.bouts) if index != number])


def test_the_plan_to_be_broken_is_good() -> None:
    assert GOOD.status == "optimal"
    assert check(GOOD, PROBLEM, TABLES) == ()


BREAKS: dict[str, tuple[Callable[[], tuple[Plan, PlanProblem]], str]] = {
    "time": (lambda: (GOOD, replace(PROBLEM, minutes=12)), "12 are booked"),
    "half minutes": (lambda: (with_bout(at("pressing"), minutes=1.3), PROBLEM), "no multiple of a half"),
    "numbers": (lambda: (with_bout(2, order=7), PROBLEM), "not numbered"),
    "greeting": (lambda: (without(0), PROBLEM), "hands resting"),
    "minutes told": (lambda: (replace(GOOD, minutes_used=1.0), PROBLEM), "the plan says 1.0 min"),
    "thumbs": (lambda: (GOOD, replace(PROBLEM, thumb_minutes=0.5)), "the thumbs work"),
    "technique": (
        lambda: (GOOD, replace(PROBLEM, techniques_excluded=frozenset({"pressing"}))),
        "pressing, which is excluded",
    ),
    "fit": (lambda: (with_bout(at("pressing"), technique="easing", structure="jaw"), PROBLEM), "does not belong"),
    "site": (
        lambda: (GOOD, replace(PROBLEM, excluded=frozenset({("pectoralis-descendens", "right")}))),
        "which is excluded",
    ),
    "region": (lambda: (GOOD, replace(PROBLEM, excluded=frozenset({("poll", None)}))), "works rectus-capitis"),
    "pressure": (lambda: (GOOD, replace(PROBLEM, caps={("chest", "left"): "moderate"})), "more than is allowed"),
    "pressure everywhere": (lambda: (GOOD, replace(PROBLEM, pressure_cap="light")), "more than is allowed"),
    "opening": (lambda: (without(1), PROBLEM), "not opened"),
    "closing": (lambda: (without(len(GOOD.bouts) - 1), PROBLEM), "not closed"),
    "preparing": (lambda: (without(at("pressing") - 1), PROBLEM), "not prepared"),
    "twice": (lambda: (with_bouts([*GOOD.bouts, *GOOD.bouts[1:5]]), PROBLEM), "more than once"),
    "pair": (lambda: (with_bout(at("pressing"), minutes=1.0), PROBLEM), "on the right"),
    "brief bout": (lambda: (with_bout(at("pressing"), minutes=1.0), PROBLEM), "pressing, is shorter than 2 min"),
    "long bout": (lambda: (with_bout(at("pressing"), minutes=3.5), PROBLEM), "pressing, is longer than 3 min"),
    "brief strokes": (lambda: (with_bout(1, minutes=0.5), PROBLEM), "too briefly"),
    "little work": (lambda: (without(at("pressing")), PROBLEM), "for less than 3 min of work"),
    "places": (lambda: (GOOD, replace(PROBLEM, minutes=8)), "3 places are worked in 8 min"),
    "coming back": (lambda: (with_bouts(coming_back()), PROBLEM), "the hands come back"),
    "stretch": (lambda: (with_bout(at("pressing") - 1, technique="easing"), PROBLEM), "stretched before its work"),
    "poll": (
        lambda: (
            with_bouts([GOOD.bouts[0], *poll(), *[bout for bout in GOOD.bouts[1:] if bout not in poll()]]),
            replace(PROBLEM, head_shy=True),
        ),
        "head is not last",
    ),
    "head": (lambda: (GOOD, replace(PROBLEM, head_shy=True)), "its head gets"),
    "head moved": (
        lambda: (with_bout(kneaded("rectus-capitis"), technique="easing"), replace(PROBLEM, head_shy=True)),
        "its head is moved",
    ),
    "head long": (lambda: (with_bout(kneaded("rectus-capitis"), minutes=6.5), PROBLEM), "for more than 6 min"),
    "head pressure": (lambda: (GOOD, replace(PROBLEM, head_shy=True)), "rectus-capitis is moderate, more than"),
    "firm on thin muscle": (lambda: (with_bout(kneaded("rectus-capitis"), pressure="firm"), PROBLEM), "is firm, more"),
    "other side": (
        lambda: (with_bouts([b for b in GOOD.bouts if (b.structure, b.side) != ("poll", "right")]), PROBLEM),
        "neither touched",
    ),
    "other side stroked": (lambda: (with_bouts(stroked_across()), PROBLEM), "stroked but not loosened"),
    "held twice": (lambda: (with_bouts(held_twice()), PROBLEM), "held twice in a row"),
    "held long": (lambda: (with_bouts(held_twice()), PROBLEM), "sustained-pressure, is longer than 1.5 min"),
    "knot": (lambda: (without(at("pressing") - 1), knotted()), "is not loosened first"),
    "knot held": (lambda: (GOOD, knotted()), "is not held"),
    "need": (lambda: (GOOD, replace(PROBLEM, needs=PROBLEM.needs[:2])), "which has no need"),
    "omission": (lambda: (GOOD, replace(PROBLEM, needs=(*PROBLEM.needs, need("masseter")))), "neither worked nor told"),
    "why": (lambda: (with_bout(2, why=" "), PROBLEM), "no why"),
    "benefit": (lambda: (replace(GOOD, benefit=9.0), PROBLEM), "benefit of 9"),
    "proof": (lambda: (replace(GOOD, gap=0.1), PROBLEM), "status optimal"),
    "refusal": (lambda: (GOOD, replace(PROBLEM, refusal="a vet comes first")), "none may be made"),
    "empty": (lambda: (replace(GOOD, status="none", bouts=(), refusal=""), PROBLEM), "no reason"),
    "unknown": (lambda: (with_bout(2, structure="wing"), PROBLEM), "tables do not have"),
}


def coming_back() -> list[PlannedBout]:
    """Another muscle between the kneading of a muscle and the pressing of it."""
    place = at("pressing")
    other = replace(GOOD.bouts[place - 1], structure="pectoralis-transversus")
    return [*GOOD.bouts[:place], other, *GOOD.bouts[place:]]


def kneaded(structure: str) -> int:
    return next(n for n, bout in enumerate(GOOD.bouts) if (bout.technique, bout.structure) == ("kneading", structure))


def stroked_across() -> list[PlannedBout]:
    """The side across from the poll worked is stroked for two minutes, and nothing else."""
    matched = [bout for bout in GOOD.bouts if (bout.structure, bout.side) == ("poll", "right")]
    return [
        replace(bout, minutes=2.0) if bout == matched[0] else bout for bout in GOOD.bouts if bout not in matched[1:]
    ]


def held_twice() -> list[PlannedBout]:
    place = at("pressing")
    held = replace(GOOD.bouts[place], technique="sustained-pressure", minutes=2.0)
    return [*GOOD.bouts[:place], held, held, *GOOD.bouts[place + 1 :]]


def knotted() -> PlanProblem:
    """The same needs, found knotted and helped by a hold."""
    helps = {"pressing": 1.0, "sustained-pressure": 1.0}
    first, *others = (replace(each, found=("texture:knotted",), helps=helps) for each in PROBLEM.needs[:2])
    return replace(PROBLEM, needs=(first, *others, PROBLEM.needs[2]))


def poll() -> list[PlannedBout]:
    return [bout for bout in GOOD.bouts if TABLES.structures[bout.structure].region == "poll"]


@pytest.mark.parametrize("name", BREAKS)
def test_a_broken_rule_is_told(name: str) -> None:
    make, words = BREAKS[name]
    plan, problem = make()
    found = check(plan, problem, TABLES)
    assert any(words in sentence for sentence in found), found
