"""The owner's report of a visit: what was done, found and answered, what to do now, and what to beware of."""

from collections.abc import Mapping, Sequence
from datetime import date

from haywisp.findings.types import GateVerdict, Reason
from haywisp.knowledge.types import Tables
from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Entry, Horse, Visit
from haywisp.report.evidence import Spoken
from haywisp.report.homework import VET, homework
from haywisp.report.owner_lines import answered_lines, done_lines, found_lines, parts_worked, usual
from haywisp.report.phrases import Phrases, cap, joined, table
from haywisp.report.types import OwnerReport, ReportLine
from haywisp.report.wording import minutes_words, structure_name

FIRST_VISIT = "first-visit"
REVIEWED = ("accepted", "corrected")


def owner_report(
    visit: Visit,
    horse: Horse,
    owner: Owner,
    yard: Yard,
    entries: Sequence[Entry],
    verdict: GateVerdict,
    tables: Tables,
    words: Sequence[Spoken] = (),
    *,
    vet_said: Sequence[tuple[date, str]] = (),
    answered: frozenset[str] = frozenset(),
    set_aside: Sequence[str] = (),
) -> OwnerReport:
    """The report of the reviewed entries.

    ``entries`` holds the newest version of each. Rejected ones are left out; proposed ones are left out and counted.
    ``words`` are those of the narration, which what is to be done is told in. ``vet_said`` is what a vet answered and
    on which day, and ``answered`` are the threads of what it was an answer to. ``set_aside`` are the sentences on work
    against the gate's advice: they stand with what is read first, or lead the cautions where no vet is asked for.
    """
    says = table("owner", tables.language.code)
    open_still = (one for one in entries if one.status in REVIEWED and one.thread not in answered)
    kept = sorted(open_still, key=lambda one: (one.time_s, one.thread))
    urgent = _urgent(kept, verdict, tables)
    aside = tuple(ReportLine(sentence) for sentence in set_aside)
    unreviewed = sum(one.status == "proposed" for one in entries)
    return OwnerReport(
        horse=horse.name,
        owner=owner.name,
        yard=yard.name,
        practitioner=visit.practitioner,
        day=visit.day,
        summary=_summary(kept, horse, verdict, bool(urgent), unreviewed, tables),
        done=done_lines(kept, tables),
        found=found_lines(kept, tables),
        answered=answered_lines(kept, tables),
        homework=(
            *_vet_lines(vet_said, says),
            *homework(kept, verdict, tables, wait_for_vet=bool(urgent), words=words),
        ),
        cautions=(*(() if urgent else aside), *_cautions(verdict, kept, says, urgent=bool(urgent))),
        unreviewed=unreviewed,
        invented=horse.invented or owner.invented or yard.invented,
        urgent=(*aside, *urgent) if urgent else (),
        title=str(says["title"]),
        diagnosis_note=str(says["diagnosis_note"]),
    )


def _vet_lines(vet_said: Sequence[tuple[date, str]], says: Phrases) -> list[ReportLine]:
    months = says["page"]["months"]
    days = [says["page"]["date"].format(day=day.day, month=months[day.month - 1], year=day.year) for day, _ in vet_said]
    texts = [text for _, text in vet_said]
    return [
        ReportLine(str(says["lines"]["vet_said"].format(date=day)), f"“{text}”")
        for day, text in zip(days, texts, strict=True)
    ]


def _urgent(kept: Sequence[Entry], verdict: GateVerdict, tables: Tables) -> tuple[ReportLine, ...]:
    """Why a vet is asked for: the practitioner's own decision, and the gate's reasons when it says so."""
    decided = any(one.part == "action" and one.body.get("kind") == VET for one in kept)
    row = tables.actions.get(VET)
    own = [ReportLine(row.wording)] if decided and row is not None else []
    if verdict.verdict != "vet-first":
        return tuple(own)
    reasons = [one for one in verdict.reasons if _asks_for_vet(one, tables) and not _is_decision(one, kept)]
    return (*own, *(ReportLine(one.name, one.wording) for one in reasons))


def _asks_for_vet(reason: Reason, tables: Tables) -> bool:
    """Whether the rule of this reason is one for the vet; a rule that no table knows is taken to be."""
    caution = tables.cautions.get(reason.caution)
    return caution is None or caution.verdict == "vet-first"


def _is_decision(reason: Reason, kept: Sequence[Entry]) -> bool:
    """Whether the gate only repeats what was decided at this visit: its words are for the next one."""
    decided = {one.thread for one in kept if one.part == "action"}
    return bool(reason.facts) and all(fact.kind == "action" and fact.entry in decided for fact in reason.facts)


def _cautions(verdict: GateVerdict, kept: Sequence[Entry], says: Phrases, *, urgent: bool) -> tuple[ReportLine, ...]:
    """What the gate raised, heaviest first, then what always holds; no word of work where a vet comes first."""
    told = [reason for reason in verdict.reasons if not _is_decision(reason, kept)]
    raised = sorted(told, key=lambda reason: not reason.absolute)
    rows = [row for row in says["cautions"] if not (urgent and row.get("work"))]
    standing = [ReportLine(row["text"], row["detail"]) for row in rows]
    return (*(ReportLine(reason.name, reason.wording) for reason in raised), *standing)


def _summary(
    kept: Sequence[Entry], horse: Horse, verdict: GateVerdict, urgent: bool, unreviewed: int, tables: Tables
) -> str:
    words = table("owner", tables.language.code)
    says: Phrases = words["summary"]
    sentences = [says["vet"].format(horse=horse.name)] if urgent else []
    parts = parts_worked(kept, tables)
    if parts:
        seconds = sum(one.end_s - one.time_s for one in kept if one.part == "bout")
        key = "bouts" if len(parts) <= says["most_places"] else "bouts_many"
        places = joined([structure_name(part, tables, "owner") for part in parts])
        total = cap(minutes_words(seconds, tables))
        sentences.append(says[key].format(total=total, places=places, n=len(parts)))
    notable = _notable(kept, tables)
    if not kept:
        sentences.append(says["nothing"])
    elif notable or not _raised(verdict, urgent):
        sentences.append(_counted(notable, says, "found"))
    if unreviewed:
        sentences.append(_counted(unreviewed, says, "unreviewed"))
    return " ".join(sentences)


def _raised(verdict: GateVerdict, urgent: bool) -> bool:
    """Whether a fact of this horse raised a caution, so that nothing may be said to be as usual."""
    return urgent or any(fact.id != FIRST_VISIT for reason in verdict.reasons for fact in reason.facts)


def _notable(kept: Sequence[Entry], tables: Tables) -> int:
    """How many structures have a finding that is not the usual one."""
    found = [one.body for one in kept if one.part == "finding" and not _usual(one.body, tables)]
    return len({(body.get("structure"), body.get("side")) for body in found})


def _usual(body: Mapping[str, object], tables: Tables) -> bool:
    return usual(str(body.get("aspect")), str(body.get("value")), tables)


def _counted(number: int, says: Phrases, key: str) -> str:
    which = {0: "none", 1: "one"}.get(number, "many")
    return str(says[f"{key}_{which}"].format(n=number))
