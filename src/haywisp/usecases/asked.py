"""What was asked before touching, read back from the record, and which earlier yes a later no takes back."""

from collections.abc import Mapping, Sequence

from haywisp.findings import asks_alone
from haywisp.knowledge.types import Flag, Tables
from haywisp.record.types import Entry, Horse, Visit

# Reckoned from the visits and not asked.
FIRST_SESSION = "first-visit"
# Of a mare alone; and read off a thermometer or a watch: a box that stays empty is kept as a no, and what nobody
# measured is none.
MARES_ONLY, MEASURED = "breeding", "readings"
NOT_MARES = frozenset({"gelding", "stallion", "colt"})
ASKED = "Asked before touching:"


def questions(horse: Horse, tables: Tables) -> tuple[Flag, ...]:
    """What may have changed since the last visit, in the order of asking.

    What only a mare can be is asked of no other horse, and what has to be measured is not asked.
    """
    no_mare = horse.sex.strip().casefold() in NOT_MARES
    return tuple(
        flag
        for flag in tables.flags.values()
        if not flag.lasting
        and flag.id != FIRST_SESSION
        and flag.group != MEASURED
        and not (no_mare and flag.group == MARES_ONLY)
    )


def vet_first(tables: Tables) -> frozenset[str]:
    """The flags that alone ask for the vet first."""
    return frozenset(name for kind, name in asks_alone(tables) if kind == "flag")


def answers(entries: Sequence[Entry]) -> list[Entry]:
    """Each yes that stands: a red flag by hand, of no time in the session."""
    return [
        entry
        for entry in entries
        if entry.part == "flag" and entry.first_word < 0 and not entry.time_s and entry.status != "rejected"
    ]


def asked_note(entries: Sequence[Entry]) -> Entry | None:
    """The note that the questions were asked."""
    return next(
        (
            entry
            for entry in entries
            if entry.part == "note" and entry.status != "rejected" and str(entry.body.get("text", "")).startswith(ASKED)
        ),
        None,
    )


def taken_back(
    visits: Sequence[Visit], entries: Mapping[str, Sequence[Entry]], horse: Horse, tables: Tables
) -> frozenset[str]:
    """The threads of red flags that were answered no when it was asked again at a later one of these visits.

    A flag that alone asks for the vet first is none of them: it waits for the vet's own answer.
    """
    asked = {flag.id for flag in questions(horse, tables)} - vet_first(tables)
    threads: set[str] = set()
    no: set[str] = set()
    for visit in sorted(visits, key=lambda visit: (visit.day, visit.number), reverse=True):
        told = entries.get(visit.id, ())
        threads |= {entry.thread for entry in told if entry.part == "flag" and entry.body.get("flag") in no}
        if asked_note(told) is not None:
            no |= asked - {str(entry.body["flag"]) for entry in answers(told)}
    return frozenset(threads)
