"""What earlier visits found or were told, and what nothing has answered since: it stands, with the day of its visit."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from haywisp.findings.facts import facts_from_entries
from haywisp.findings.gate import FIRST_VISIT, asks_alone
from haywisp.findings.sites import sides
from haywisp.findings.types import Fact
from haywisp.knowledge import TOGETHER, inside, is_usual
from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry, current

# Red flags that are over by the next visit; every other one stands until it is answered.
OF_THE_DAY = frozenset(("hard-feed-recently", "just-worked", "sedated", "vaccinated-recently", FIRST_VISIT.id))
STOOD_BY = frozenset(("accepted", "corrected"))


@dataclass(frozen=True, slots=True)
class Earlier:
    """The entries of one earlier visit, without those that were answered since."""

    day: date
    entries: Sequence[Entry]


def carried(
    entries: Sequence[Entry],
    earlier: Sequence[Earlier],
    tables: Tables,
    *,
    flags: Iterable[str] = (),
    not_before: date | None = None,
) -> tuple[Fact, ...]:
    """What earlier visits (oldest first) found or were told that stands beside ``entries``, the newest ones, by visit.

    A finding stands until its aspect is recorded again at that place, or found to be usual in a region that holds it.
    Only what someone stood by takes a finding back. A red flag that isn't of the day and a vet asked for stand as long
    as their entries are among those of their visit; a flag that the newest entries tell again, or that is among the
    horse's own ``flags``, stands there. ``not_before`` leaves out what was found before that day.
    """
    standing: dict[Fact, frozenset[str]] = {}
    asked: list[Fact] = []
    flagged: dict[str, Fact] = {}
    for visit in earlier:
        standing = _not_answered(standing, visit.entries, tables)
        standing.update(_found_last(visit, tables))
        told = [replace(fact, since=visit.day) for fact in facts_from_entries(visit.entries)]
        asked += [fact for fact in told if fact.kind != "flag" and (fact.kind, fact.id) in asks_alone(tables)]
        flagged |= {fact.id: fact for fact in told if fact.kind == "flag" and fact.id not in OF_THE_DAY}
    standing = _not_answered(standing, entries, tables)
    kept = [_on_sides(fact, left) for fact, left in standing.items()]
    again = {fact.id for fact in facts_from_entries(entries) if fact.kind == "flag"}.union(flags)
    facts = [
        fact
        for fact in (*kept, *asked, *(fact for flag, fact in flagged.items() if flag not in again))
        if not_before is None or fact.since is None or fact.since >= not_before
    ]
    return tuple(sorted(facts, key=lambda fact: fact.since or date.min))


def _found_last(visit: Earlier, tables: Tables) -> dict[Fact, frozenset[str]]:
    """What was unusual at the end of a visit."""
    left: dict[Fact, frozenset[str]] = {}
    for fact, stood_by in _findings(visit.entries):
        if stood_by:
            left = _taken_back(left, fact, tables)
        if not is_usual(fact.aspect, fact.value, tables):
            left[replace(fact, since=visit.day)] = sides(fact.side)
    return left


def _taken_back(standing: Mapping[Fact, frozenset[str]], later: Fact, tables: Tables) -> dict[Fact, frozenset[str]]:
    """What is left standing once a later finding of the same visit is recorded."""
    less = _less(standing, later, tables)
    beside = later.aspect in TOGETHER and not is_usual(later.aspect, later.value, tables)
    return dict(standing) if beside else less


def _not_answered(
    standing: Mapping[Fact, frozenset[str]], entries: Sequence[Entry], tables: Tables
) -> dict[Fact, frozenset[str]]:
    left = dict(standing)
    for fact, stood_by in _findings(entries):
        if stood_by:
            left = _less(left, fact, tables)
    return left


def _less(standing: Mapping[Fact, frozenset[str]], later: Fact, tables: Tables) -> dict[Fact, frozenset[str]]:
    """The findings without the places and sides that a later one is about."""
    about = set(inside(later.structure, tables)) if is_usual(later.aspect, later.value, tables) else {later.structure}
    left: dict[Fact, frozenset[str]] = {}
    for fact, on in standing.items():
        same = fact.aspect == later.aspect and fact.structure in about
        rest = on - _reach(fact, later, tables) if same else on
        if rest:
            left[fact] = rest
    return left


def _reach(fact: Fact, later: Fact, tables: Tables) -> frozenset[str]:
    row = tables.structures.get(fact.structure)
    return sides(None) if row is not None and not row.paired else sides(later.side)


def _findings(entries: Sequence[Entry]) -> list[tuple[Fact, bool]]:
    """The findings in time order, each with whether someone stood by it."""
    stood_by = {entry.thread for entry in current(entries) if entry.status in STOOD_BY}
    return [(fact, fact.entry in stood_by) for fact in facts_from_entries(entries) if fact.kind == "finding"]


def _on_sides(fact: Fact, left: frozenset[str]) -> Fact:
    """A finding of both sides that was taken back on one stands on the other."""
    return fact if left == sides(fact.side) else replace(fact, side=next(iter(left)))
