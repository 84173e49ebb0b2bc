"""What earlier visits found and nobody has felt again since: it stands, with the day of its visit."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from haywisp.findings.facts import facts_from_entries
from haywisp.findings.sites import inside, sides
from haywisp.findings.types import Fact
from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry

# Different values of these aspects can be true of one place at once: a later one does not take an earlier one back.
TOGETHER = frozenset(("skin", "texture"))
# A note of this kind is a vet's answer that bodywork may go on.
VET_AGREES = "vet-answer"
STOOD_BY = frozenset(("accepted", "corrected"))


@dataclass(frozen=True, slots=True)
class Earlier:
    """The entries of one earlier visit."""

    day: date
    entries: Sequence[Entry]


def carried(
    entries: Sequence[Entry], earlier: Sequence[Earlier], tables: Tables, *, not_before: date | None = None
) -> tuple[Fact, ...]:
    """The findings of earlier visits (oldest first) that stand beside ``entries``, the newest ones, by visit.

    A finding stands until its aspect is recorded again at that place, or found to be usual in a region that holds it.
    Only what someone stood by takes a finding back. Red flags and a vet asked for, where they alone mean a vet first,
    stand until a vet agreed; a red flag that stays with the horse always does. ``not_before`` leaves out what was found
    before that day.
    """
    standing: dict[Fact, frozenset[str]] = {}
    asked: list[tuple[Fact, Entry]] = []
    lasting: dict[str, Fact] = {}
    for visit in earlier:
        asked = _unanswered(asked, visit.entries, every=True)
        standing = _not_answered(standing, visit.entries, tables)
        standing.update(_found_last(visit, tables))
        asked += _unanswered(_asking_vet(visit, tables), visit.entries)
        lasting |= _lasting(visit, tables)
    asked = _unanswered(asked, entries, every=True)
    standing = _not_answered(standing, entries, tables)
    kept = [_on_sides(fact, left) for fact, left in standing.items()]
    facts = [
        fact
        for fact in (*kept, *(fact for fact, _ in asked), *lasting.values())
        if not_before is None or fact.since is None or fact.since >= not_before
    ]
    return tuple(sorted(facts, key=lambda fact: fact.since or date.min))


def _found_last(visit: Earlier, tables: Tables) -> dict[Fact, frozenset[str]]:
    """What was unusual at the end of a visit."""
    left: dict[Fact, frozenset[str]] = {}
    for fact, stood_by in _findings(visit.entries):
        if stood_by:
            left = _taken_back(left, fact, tables)
        if not is_usual(fact, tables):
            left[replace(fact, since=visit.day)] = sides(fact.side)
    return left


def _taken_back(standing: Mapping[Fact, frozenset[str]], later: Fact, tables: Tables) -> dict[Fact, frozenset[str]]:
    """What is left standing once a later finding of the same visit is recorded."""
    less = _less(standing, later, tables)
    beside = later.aspect in TOGETHER and not is_usual(later, tables)
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
    about = set(inside(later.structure, tables)) if is_usual(later, tables) else {later.structure}
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


def is_usual(fact: Fact, tables: Tables) -> bool:
    """Whether a finding says that a place is as usual."""
    aspect = tables.aspects.get(fact.aspect)
    return aspect is not None and aspect.usual == fact.value


def _findings(entries: Sequence[Entry]) -> list[tuple[Fact, bool]]:
    """The findings in time order, each with whether someone stood by it."""
    newest = _newest(entries)
    return [
        (fact, newest[fact.entry].status in STOOD_BY) for fact in facts_from_entries(entries) if fact.kind == "finding"
    ]


def _asking_vet(visit: Earlier, tables: Tables) -> list[tuple[Fact, Entry]]:
    """The actions and red flags of a visit that are a vet-first rule's own trigger, each with its entry."""
    asks = _vet_triggers(tables)
    newest = _newest(visit.entries)
    return [
        (replace(fact, since=visit.day), newest[fact.entry])
        for fact in facts_from_entries(visit.entries)
        if fact.entry and (fact.kind, fact.id) in asks
    ]


def _vet_triggers(tables: Tables) -> set[tuple[str, str]]:
    return {
        (trigger.kind, trigger.id)
        for caution in tables.cautions.values()
        if caution.verdict == "vet-first" and not caution.all_triggers
        for trigger in caution.triggers
    }


def _lasting(visit: Earlier, tables: Tables) -> dict[str, Fact]:
    """The red flags of a visit that stay with the horse and that no vet is asked about."""
    stays = {row.id for row in tables.flags.values() if row.lasting} - {name for _, name in _vet_triggers(tables)}
    facts = facts_from_entries(visit.entries)
    return {fact.id: replace(fact, since=visit.day) for fact in facts if fact.kind == "flag" and fact.id in stays}


def _unanswered(
    asked: Sequence[tuple[Fact, Entry]], entries: Sequence[Entry], *, every: bool = False
) -> list[tuple[Fact, Entry]]:
    """What no vet agreed to: an answer is to every visit before its own, and in its own to what was made before it."""
    answers = [
        entry.made_at
        for entry in _newest(entries).values()
        if entry.part == "note" and entry.body.get("kind") == VET_AGREES and entry.status in STOOD_BY
    ]
    if every and answers:
        return []
    return [(fact, entry) for fact, entry in asked if not any(made >= entry.made_at for made in answers)]


def _newest(entries: Sequence[Entry]) -> dict[str, Entry]:
    newest: dict[str, Entry] = {}
    for entry in entries:
        if entry.thread not in newest or entry.version > newest[entry.thread].version:
            newest[entry.thread] = entry
    return newest


def _on_sides(fact: Fact, left: frozenset[str]) -> Fact:
    """A finding of both sides that was taken back on one stands on the other."""
    return fact if left == sides(fact.side) else replace(fact, side=next(iter(left)))
