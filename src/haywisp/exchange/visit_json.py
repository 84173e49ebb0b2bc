"""A whole visit as one JSON document: who, where, what was said, and every version of every entry."""

from dataclasses import dataclass

from haywisp.exchange.checked import checked, dumped, parsed
from haywisp.exchange.errors import BadFile
from haywisp.practice.types import Owner, Yard
from haywisp.record.types import (
    ENTRY_STATUSES,
    VISIT_STATUSES,
    Entry,
    Horse,
    StoredNarration,
    StoredQuestion,
    Visit,
)

KIND = "visit document"
VERSION = 1


@dataclass(frozen=True, slots=True)
class VisitDocument:
    """``entries`` holds all versions of each thread; ``haywisp_visit`` is the version of this format."""

    horse: Horse
    owner: Owner
    yard: Yard
    visit: Visit
    narration: StoredNarration | None
    entries: tuple[Entry, ...]
    questions: tuple[StoredQuestion, ...]
    haywisp_visit: int = VERSION


def write(document: VisitDocument) -> str:
    """The document as JSON text."""
    return dumped(VisitDocument, document)


def read(text: str) -> VisitDocument:
    """The document back.

    :class:`BadFile` says what is wrong with a file of another kind, of a later version, whose parts do not belong
    together, or with a status that no visit or entry can have.
    """
    value = parsed(text, KIND)
    version = value.get("haywisp_visit")
    if version is None:
        raise BadFile(KIND, ('it has no "haywisp_visit" with a version number',))
    if version != VERSION:
        raise BadFile(KIND, (f"it is of version {version}, and this Haywisp reads version {VERSION}",))
    document = checked(VisitDocument, value, KIND)
    problems = (*_mismatches(document), *_statuses(document))
    if problems:
        raise BadFile(KIND, problems)
    return document


def _mismatches(document: VisitDocument) -> list[str]:
    visit, horse = document.visit, document.horse
    pairs = [
        ("the visit is of another horse", visit.horse_id, horse.id),
        ("the owner is not the horse's", document.owner.id, horse.owner_id),
        ("the yard is not the horse's", document.yard.id, horse.yard_id),
    ]
    if document.narration:
        pairs.append(("the narration is of another visit", document.narration.visit_id, visit.id))
    pairs += [(f"entry {entry.id} is of another visit", entry.visit_id, visit.id) for entry in document.entries]
    pairs += [(f"question {one.id} is of another visit", one.visit_id, visit.id) for one in document.questions]
    problems = [f"{says} ({found} where {wanted} is due)" for says, found, wanted in pairs if found != wanted]
    versions = [(entry.thread, entry.version) for entry in document.entries]
    doubled = sorted({one for one in versions if versions.count(one) > 1})
    return problems + [f"entry {thread} has version {version} twice" for thread, version in doubled]


def _statuses(document: VisitDocument) -> list[str]:
    told: list[tuple[str, str, tuple[str, ...]]] = [("visit, status", document.visit.status, VISIT_STATUSES)]
    told += [
        (f"entries {number}, status", entry.status, ENTRY_STATUSES)
        for number, entry in enumerate(document.entries, start=1)
    ]
    return [
        f"{place} should be one of {', '.join(known)}, found “{status[:40]}”"
        for place, status, known in told
        if status not in known
    ]
