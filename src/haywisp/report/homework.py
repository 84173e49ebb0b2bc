"""What the owner is asked to do: the decisions of the visit in the words that were said."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.findings.types import GateVerdict
from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry
from haywisp.report.evidence import Sentences, Spoken
from haywisp.report.phrases import cap, humanised, joined, table
from haywisp.report.types import ReportLine

VET = "refer-vet"
STRETCHES, STRETCH_TECHNIQUE = "baited-stretches", "baited-stretch"


def homework(
    kept: Sequence[Entry],
    verdict: GateVerdict,
    tables: Tables,
    *,
    wait_for_vet: bool,
    words: Sequence[Spoken] = (),
) -> tuple[ReportLine, ...]:
    """The decided actions in the order that they were said, the vet first, each with its sentence out of ``words``.

    Where a vet comes first, what works the body is left out: it waits, and one line says so.
    """
    says = table("owner", tables.language.code)
    decided = [entry for entry in kept if entry.part == "action"]
    waits: list[str] = says["waits"]["kinds"] if wait_for_vet else []
    waiting = [entry for entry in decided if _kind(entry) in waits]
    asked = [entry for entry in decided if _kind(entry) == VET]
    others = [entry for entry in decided if entry not in asked and entry not in waiting]
    heard = _Heard(Sentences(words), decided, waiting)
    lines = _told(asked, verdict, heard, tables)
    if wait_for_vet:
        lines = lines or [ReportLine(says["lines"]["call_vet"])]
        lines.append(ReportLine(says["lines"]["wait_for_vet"]))
    return (*lines, *_told(others, verdict, heard, tables))


@dataclass(frozen=True)
class _Heard:
    """The words, what was decided in them, and what of it may not be told."""

    said: Sentences
    decided: Sequence[Entry]
    untold: Sequence[Entry]

    def sentence(self, entry: Entry) -> str:
        """The sentence that an action was decided in; "" for one by hand, or where it also tells what may not be."""
        if entry.first_word < 0:
            return ""
        apart = [one.first_word for one in self.decided if one.first_word >= entry.last_word]
        begin, end = self.said.span(entry.first_word, entry.last_word, apart)
        if any(begin <= one.first_word < end for one in self.untold):
            return ""
        return cap(" ".join(word.text for word in self.said.words[begin:end]))


def _kind(entry: Entry) -> str:
    return str(entry.body.get("kind", ""))


def _told(decided: Sequence[Entry], verdict: GateVerdict, heard: _Heard, tables: Tables) -> list[ReportLine]:
    """One line a sentence, with the headings of all that was decided in it; what nobody said in the table's words."""
    says = table("owner", tables.language.code)
    barred = STRETCH_TECHNIQUE in verdict.limits.techniques
    quoted: dict[str, list[str]] = {}
    for entry in decided:
        kind = _kind(entry)
        row = tables.actions.get(kind)
        said = heard.sentence(entry)
        if kind == STRETCHES and barred:
            said, heading = "", str(says["lines"]["no_stretches"])
        elif said:
            heading = str(says["homework"].get(kind, humanised(kind)))
        else:
            heading = row.wording if row else cap(humanised(kind))
        headings = quoted.setdefault(said or heading, [])
        if heading not in headings:
            headings.append(heading)
    return [_line(said, headings) for said, headings in quoted.items()]


def _line(said: str, headings: Sequence[str]) -> ReportLine:
    if list(headings) == [said]:
        return ReportLine(said)
    first, *rest = headings
    return ReportLine(joined([cap(first), *(one[:1].lower() + one[1:] for one in rest)]), f"“{said}”")
