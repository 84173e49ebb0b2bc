"""Before touching: the questions that are asked again at each visit, and their answers as entries of that visit.

A yes is a red flag by hand, which the gate reads; that the questions were asked at all is a note beside it.
"""

from collections.abc import Collection, Sequence

from haywisp import record
from haywisp.knowledge.types import Flag, Tables
from haywisp.practice.types import Yard
from haywisp.record.types import Entry, Horse
from haywisp.usecases.app import App
from haywisp.usecases.deciding import append
from haywisp.usecases.errors import Refused
from haywisp.usecases.lookup import horse_of, visit_of, yard_of
from haywisp.usecases.views.asking import AskedView, AskPage
from haywisp.usecases.wording import flag_label

# Reckoned from the visits and not asked.
FIRST_SESSION = "first-visit"
ISOLATION = "isolation"
MARES_ONLY = "pregnant"
NOT_MARES = frozenset({"gelding", "stallion", "colt"})
ASKED = "Asked before touching:"
AGREEMENT = "Agreement and consent:"
LONGEST_AGREEMENT = 400
NO_LONGER = "answered no when asked before touching"


def ask_page(app: App, visit_id: str) -> AskPage:
    """Today's questions with what was answered at this visit."""
    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        horse = horse_of(unit, visit.horse_id)
        yard = yard_of(unit, horse.yard_id)
        entries = unit.entries_of(visit_id)
    told = _note(entries)
    text = str(told.body["text"]) if told else ""
    yes = _yes(entries, horse, yard, asked=told is not None)
    views = [(flag, AskedView(flag.id, flag.asks, flag.id in yes)) for flag in questions(horse, tables)]
    first = vet_first(tables)
    return AskPage(
        vet_first=tuple(view for flag, view in views if flag.id in first),
        limits=tuple(view for flag, view in views if flag.id not in first),
        told=text,
        agreement=text.partition(AGREEMENT)[2].strip(),
    )


def questions(horse: Horse, tables: Tables) -> tuple[Flag, ...]:
    """What may have changed since the last visit; what only a mare can be is asked of no other horse."""
    no_mare = horse.sex.strip().casefold() in NOT_MARES
    return tuple(
        flag
        for flag in tables.flags.values()
        if not flag.lasting and flag.id != FIRST_SESSION and not (no_mare and flag.id.startswith(MARES_ONLY))
    )


def vet_first(tables: Tables) -> frozenset[str]:
    """The flags that alone ask for the vet first."""
    return frozenset(
        trigger.id
        for caution in tables.cautions.values()
        if caution.verdict == "vet-first" and not caution.all_triggers
        for trigger in caution.triggers
        if trigger.kind == "flag"
    )


def keep_answers(app: App, visit_id: str, yes: Collection[str], agreement: str = "") -> AskPage:
    """Keep the answers of today: a red flag for each yes, and a note that it was asked.

    Asked again at the same visit, a yes that has become a no is rejected and stays in the record.
    """
    tables = app.tables()
    agreement = " ".join(agreement.split())
    if len(agreement) > LONGEST_AGREEMENT:
        raise Refused(
            f"The line on the vet's agreement is {len(agreement)} characters long; {LONGEST_AGREEMENT} is the most. "
            "Nothing was saved."
        )
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        asked = questions(horse_of(unit, visit.horse_id), tables)
        unknown = set(yes) - {flag.id for flag in asked}
        if unknown:
            raise Refused(f"“{min(unknown)}” is no question of today. Nothing was saved.")
        entries = unit.entries_of(visit_id)
        now = app.clock()
        standing = {str(entry.body["flag"]): entry for entry in _flags(entries)}
        made = [
            record.by_hand(visit_id, "flag", {"flag": flag.id}, 0.0, app.new_id, now)
            for flag in asked
            if flag.id in yes and flag.id not in standing
        ]
        made += [
            record.reject(standing[flag.id], NO_LONGER, app.new_id, now)
            for flag in asked
            if flag.id in standing and flag.id not in yes
        ]
        body = {"text": _told([flag for flag in asked if flag.id in yes], len(asked), agreement, tables)}
        note = _note(entries)
        if note is None:
            made.append(record.by_hand(visit_id, "note", body, 0.0, app.new_id, now))
        elif note.body["text"] != body["text"]:
            made.append(record.correct(note, body, app.new_id, now))
        append(unit, made)
    return ask_page(app, visit_id)


def _told(yes: Sequence[Flag], count: int, agreement: str, tables: Tables) -> str:
    named = ", ".join(flag_label(flag.id, tables) for flag in yes)
    answers = f"yes to {len(yes)} of {count} questions ({named})." if yes else f"no to all {count} questions."
    return f"{ASKED} {answers}" + (f" {AGREEMENT} {agreement}" if agreement else "")


def _flags(entries: Sequence[Entry]) -> list[Entry]:
    """The answers that stand: red flags by hand, of no time in the session."""
    return [
        entry
        for entry in entries
        if entry.part == "flag" and entry.first_word < 0 and not entry.time_s and entry.status != "rejected"
    ]


def _yes(entries: Sequence[Entry], horse: Horse, yard: Yard, *, asked: bool) -> set[str]:
    """What is answered with yes; before anyone was asked, what is known of the yard and was ticked for the horse."""
    given = {str(entry.body["flag"]) for entry in _flags(entries)}
    if asked:
        return given
    return given | set(horse.flags) | ({ISOLATION} if yard.isolation else set())


def _note(entries: Sequence[Entry]) -> Entry | None:
    """The note that the questions were asked."""
    return next(
        (
            entry
            for entry in entries
            if entry.part == "note" and entry.status != "rejected" and str(entry.body.get("text", "")).startswith(ASKED)
        ),
        None,
    )
