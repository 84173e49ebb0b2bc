"""Visits as rows of a list, with everything fetched at once rather than visit by visit."""

from collections.abc import Sequence

from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry, Horse, StoredQuestion, Visit
from haywisp.report.wording import entry_sentence
from haywisp.store.types import Unit
from haywisp.usecases.conclusions import standing
from haywisp.usecases.lookup import by_visit
from haywisp.usecases.views import Counts, Ref, VisitRow
from haywisp.usecases.wording import VISIT_STATUSES

HEADLINES = 3


def visit_rows(unit: Unit, visits: Sequence[Visit], tables: Tables) -> tuple[VisitRow, ...]:
    """One row for each visit, in the order given; visits whose horse is gone are left out."""
    ids = [visit.id for visit in visits]
    entries = by_visit(unit.entries_of_many(ids)) if ids else {}
    waiting = unit.open_questions(ids) if ids else {}
    owners = {owner.id: owner.name for owner in unit.owners()}
    yards = {yard.id: yard.name for yard in unit.yards()}
    horses = {horse_id: unit.horse(horse_id) for horse_id in dict.fromkeys(visit.horse_id for visit in visits)}
    rows = []
    for visit in visits:
        horse = horses[visit.horse_id]
        if horse is None:
            continue
        rows.append(
            visit_row(
                visit,
                horse,
                Ref(horse.owner_id, owners.get(horse.owner_id, "")),
                Ref(horse.yard_id, yards.get(horse.yard_id, "")),
                entries.get(visit.id, []),
                waiting.get(visit.id, 0),
                tables,
            )
        )
    return tuple(rows)


def visit_row(
    visit: Visit, horse: Horse, owner: Ref, yard: Ref, entries: Sequence[Entry], open_questions: int, tables: Tables
) -> VisitRow:
    kept = standing(entries)
    return VisitRow(
        id=visit.id,
        horse=Ref(horse.id, horse.name),
        owner=owner,
        yard=yard,
        day=visit.day,
        number=visit.number,
        minutes=visit.minutes,
        status=visit.status,
        status_name=VISIT_STATUSES.get(visit.status, visit.status),
        open_questions=open_questions,
        bouts=sum(entry.part == "bout" for entry in kept),
        headline=headline(kept, tables),
        practitioner=visit.practitioner,
    )


def headline(entries: Sequence[Entry], tables: Tables) -> tuple[str, ...]:
    """The first few findings that are not the usual ones, each said once."""
    said: dict[str, None] = {}
    for entry in entries:
        aspect = tables.aspects.get(str(entry.body.get("aspect", "")))
        value = str(entry.body.get("value", ""))
        if entry.part != "finding" or (aspect is not None and value == aspect.usual):
            continue
        said[entry_sentence("finding", entry.body, tables)] = None
    return tuple(said)[:HEADLINES]


def acceptable(entries: Sequence[Entry], questions: Sequence[StoredQuestion]) -> list[Entry]:
    """The proposed entries that no open question is about; doubtful ones are for the person to decide."""
    doubtful = {question.thread for question in questions if question.answer is None}
    return [entry for entry in entries if entry.status == "proposed" and entry.thread not in doubtful]


def counts_of(entries: Sequence[Entry], questions: Sequence[StoredQuestion]) -> Counts:
    kept = standing(entries)

    def of_part(part: str) -> int:
        return sum(entry.part == part for entry in kept)

    def of_status(status: str) -> int:
        return sum(entry.status == status for entry in entries)

    return Counts(
        bouts=of_part("bout"),
        findings=of_part("finding"),
        responses=of_part("response"),
        actions=of_part("action"),
        notes=of_part("note"),
        proposed=of_status("proposed"),
        accepted=of_status("accepted"),
        corrected=of_status("corrected"),
        rejected=of_status("rejected"),
        acceptable=len(acceptable(entries, questions)),
        open_questions=sum(question.answer is None for question in questions),
    )
