"""A narration set out for a person to read, before it is text or a page."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.knowledge.types import Tables
from haywisp.narration.types import Bout, Finding, Narration, Question, Span
from haywisp.report.evidence import Sentences
from haywisp.report.phrases import cap, joined, table
from haywisp.report.wording import entry_sentence, mmss, pressure_words, side_words, structure_name, technique_name


@dataclass(frozen=True, slots=True)
class BoutRow:
    """One row of the table of bouts; a cell that is not told is empty."""

    time: str
    technique: str
    where: str
    side: str
    passes: str
    pressure: str
    heard: str


@dataclass(frozen=True, slots=True)
class TimedLine:
    """A sentence with its time and what was said, the words that made it in angle quotes."""

    time: str
    text: str
    heard: str


@dataclass(frozen=True, slots=True)
class AskedLine:
    """A question with the words that were heard and the answers to choose from."""

    time: str
    text: str
    heard: str
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Narrated:
    """Everything that is shown of a narration, in the order of the recording."""

    counted: str
    bouts: tuple[BoutRow, ...]
    findings: tuple[TimedLine, ...]
    responses: tuple[TimedLine, ...]
    actions: tuple[TimedLine, ...]
    alerts: tuple[TimedLine, ...]
    questions: tuple[AskedLine, ...]
    repairs: tuple[str, ...]
    problems: tuple[str, ...]


def narrated(narration: Narration, tables: Tables) -> Narrated:
    """Set a narration out."""

    said = Sentences(narration.transcript.words)

    def heard(span: Span) -> str:
        quote = said.quoted(span.first, span.last)
        return quote.pointed if quote else ""

    return Narrated(
        counted=_counted(narration, tables),
        bouts=tuple(_bout_row(bout, heard(bout.span), tables) for bout in narration.bouts),
        findings=tuple(_found(one, heard(one.span), tables) for one in narration.findings),
        responses=tuple(
            TimedLine(mmss(one.time), entry_sentence("response", {"sign": one.sign}, tables), heard(one.span))
            for one in narration.responses
        ),
        actions=tuple(
            TimedLine(mmss(one.time), entry_sentence("action", {"kind": one.kind}, tables), heard(one.span))
            for one in narration.actions
        ),
        alerts=tuple(
            TimedLine(mmss(one.time), entry_sentence("flag", {"flag": one.flag}, tables), heard(one.span))
            for one in narration.alerts
        ),
        questions=tuple(_asked(one, heard(one.span)) for one in narration.questions),
        repairs=_repairs(narration, tables),
        problems=tuple(f"{one.where}: {one.text}" for one in narration.transcript.problems),
    )


def _bout_row(bout: Bout, heard: str, tables: Tables) -> BoutRow:
    return BoutRow(
        time=f"{mmss(bout.start)}–{mmss(bout.end)}",
        technique=cap(technique_name(bout.technique, tables)),
        where=joined([structure_name(one, tables) for one in bout.structures]),
        side=side_words(bout.side, tables),
        passes="" if bout.passes is None else str(bout.passes),
        pressure=pressure_words(bout.pressure, tables),
        heard=heard,
    )


def _found(finding: Finding, heard: str, tables: Tables) -> TimedLine:
    body = {
        "structure": finding.structure,
        "side": finding.side,
        "aspect": finding.aspect,
        "value": finding.value,
    }
    return TimedLine(mmss(finding.time), entry_sentence("finding", body, tables), heard)


def _asked(question: Question, heard: str) -> AskedLine:
    return AskedLine(mmss(question.time), question.text, heard, tuple(choice.label for choice in question.choices))


def _repairs(narration: Narration, tables: Tables) -> tuple[str, ...]:
    says = table("narrated", tables.language.code)["meant"]
    words = narration.transcript.words
    lines = []
    for repair in narration.repairs:
        first = repair.span.first
        time = mmss(words[first].start) if 0 <= first < len(words) else mmss(0)
        lines.append(says.format(heard=repair.heard, time=time, meant=repair.meant))
    return tuple(lines)


def _counted(narration: Narration, tables: Tables) -> str:
    words = table("narrated", tables.language.code)
    parts: dict[str, Sequence[object]] = {
        "bouts": narration.bouts,
        "findings": narration.findings,
        "responses": narration.responses,
        "actions": narration.actions,
        "questions": narration.questions,
    }
    if not any(parts.values()) and not narration.alerts:
        return str(words["nothing"])
    counts = {key: words["count"][key][min(len(part), 2)].format(n=len(part)) for key, part in parts.items()}
    return cap(words["counted"].format(**counts))
