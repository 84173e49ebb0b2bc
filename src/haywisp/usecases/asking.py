"""Before touching: the questions that are asked again at each visit, and their answers as entries of that visit.

A yes is a red flag by hand, which the gate reads; that the questions were asked at all is a note beside it.
"""

from collections.abc import Collection, Sequence

from haywisp import record
from haywisp.findings import carried, facts_from_entries
from haywisp.knowledge.types import Flag, Tables
from haywisp.practice.types import Yard
from haywisp.record.types import Horse
from haywisp.usecases.app import App
from haywisp.usecases.asked import ASKED, answers, asked_note, questions, vet_first
from haywisp.usecases.basis import Basis, known_before
from haywisp.usecases.deciding import append
from haywisp.usecases.errors import Refused
from haywisp.usecases.lookup import horse_of, visit_of, yard_of
from haywisp.usecases.views.asking import AskedView, AskPage
from haywisp.usecases.wording import FLAG_GROUPS, flag_label

ISOLATION = "isolation"
AGREEMENT = "Agreement and consent:"
LONGEST_AGREEMENT = 400
NO_LONGER = "answered no when asked before touching"


def ask_page(app: App, visit_id: str) -> AskPage:
    """Today's questions with what was answered at this visit; before that, with what is known already.

    What earlier visits told and what limits the work is ticked until someone says that it is so no longer. What asks
    for the vet is not: that waits for the vet's own answer, and here it is asked of today.
    """
    tables = app.tables()
    with app.units() as unit:
        visit = visit_of(unit, visit_id)
        horse = horse_of(unit, visit.horse_id)
        yard = yard_of(unit, horse.yard_id)
        entries = unit.entries_of(visit_id)
        known = known_before(unit, visit, unit.visits_of(horse.id), horse, tables)
    told = asked_note(entries)
    text = str(told.body["text"]) if told else ""
    yes = {str(entry.body["flag"]) for entry in answers(entries)}
    if told is None:
        yes |= _known(known, horse, yard, tables)
    views = [
        (flag, AskedView(flag.id, flag.asks, flag.id in yes, FLAG_GROUPS.get(flag.group, "")))
        for flag in questions(horse, tables)
    ]
    first = vet_first(tables)
    return AskPage(
        vet_first=tuple(view for flag, view in views if flag.id in first),
        limits=tuple(view for flag, view in views if flag.id not in first),
        told=text,
        agreement=text.partition(AGREEMENT)[2].strip(),
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
        standing = {str(entry.body["flag"]): entry for entry in answers(entries)}
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
        note = asked_note(entries)
        if note is None:
            made.append(record.by_hand(visit_id, "note", body, 0.0, app.new_id, now))
        elif note.body["text"] != body["text"]:
            made.append(record.correct(note, body, app.new_id, now))
        append(unit, made)
    return ask_page(app, visit_id)


def _told(yes: Sequence[Flag], count: int, agreement: str, tables: Tables) -> str:
    named = ", ".join(flag_label(flag.id, tables) for flag in yes)
    told = f"yes to {len(yes)} of {count} questions ({named})." if yes else f"no to all {count} questions."
    return f"{ASKED} {told}" + (f" {AGREEMENT} {agreement}" if agreement else "")


def _known(known: Basis, horse: Horse, yard: Yard, tables: Tables) -> set[str]:
    """What is so before anyone was asked: what was ticked for the horse, what its yard is, what earlier visits told."""
    facts = carried(known.entries, known.before, tables) + facts_from_entries(known.entries)
    told = {fact.id for fact in facts if fact.kind == "flag"} - vet_first(tables)
    return told | set(horse.flags) | ({ISOLATION} if yard.isolation else set())
