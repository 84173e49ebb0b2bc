"""A narration's record as JSON: treatments, findings, responses and actions, with the words that made each."""

from dataclasses import dataclass
from typing import Literal

from haywisp.exchange.checked import checked, dumped, parsed
from haywisp.narration.types import Action, Alert, Bout, Finding, Narration, Question, Repair, Response, Span

KIND = "narration record"
FORMAT = "haywisp narration record 1"

Side = Literal["left", "right", "both"] | None
Words = tuple[int, int]


@dataclass(frozen=True, slots=True)
class TreatmentRow:
    """One bout; ``words`` is the first word and the one after the last, None where the file does not tell."""

    technique: str
    structures: tuple[str, ...]
    side: Side
    start: float
    end: float
    passes: int | None = None
    pressure: Literal["light", "moderate", "firm"] | None = None
    confidence: float | None = None
    words: Words | None = None
    more_words: tuple[Words, ...] = ()


@dataclass(frozen=True, slots=True)
class FindingRow:
    """One finding."""

    structure: str
    side: Side
    aspect: str
    value: str
    time: float
    confidence: float | None = None
    words: Words | None = None


@dataclass(frozen=True, slots=True)
class ResponseRow:
    """One sign that the horse showed."""

    sign: str
    time: float
    confidence: float | None = None
    words: Words | None = None


@dataclass(frozen=True, slots=True)
class ActionRow:
    """One thing that was decided."""

    kind: str
    time: float
    confidence: float | None = None
    words: Words | None = None


@dataclass(frozen=True, slots=True)
class AlertRow:
    """One red flag that was spoken of; nobody has said yet that it is so."""

    flag: str
    text: str
    time: float
    confidence: float | None = None
    words: Words | None = None


@dataclass(frozen=True, slots=True)
class ChoiceRow:
    """One answer to a question."""

    label: str
    value: str


@dataclass(frozen=True, slots=True)
class QuestionRow:
    """One doubt about the ``index``-th (from 0) row of ``part``."""

    part: str
    index: int
    field: str | None
    text: str
    choices: tuple[ChoiceRow, ...]
    time: float
    words: Words
    heard: str


@dataclass(frozen=True, slots=True)
class RepairRow:
    """Words that were read as something else."""

    heard: str
    meant: str
    confidence: float
    words: Words


@dataclass(frozen=True, slots=True)
class ProblemRow:
    """Something in the input that was mended or left out."""

    where: str
    text: str


@dataclass(frozen=True, slots=True)
class Contract:
    """The whole record; times are seconds from the start of the recording."""

    treatments: tuple[TreatmentRow, ...]
    findings: tuple[FindingRow, ...]
    responses: tuple[ResponseRow, ...]
    actions: tuple[ActionRow, ...]
    questions: tuple[QuestionRow, ...] = ()
    repairs: tuple[RepairRow, ...] = ()
    problems: tuple[ProblemRow, ...] = ()
    format: str = FORMAT
    alerts: tuple[AlertRow, ...] = ()


def contract(narration: Narration) -> Contract:
    """The record of a narration; times are rounded to the millisecond."""
    return Contract(
        treatments=tuple(_treatment(bout) for bout in narration.bouts),
        findings=tuple(_finding(finding) for finding in narration.findings),
        responses=tuple(_response(response) for response in narration.responses),
        actions=tuple(_action(action) for action in narration.actions),
        questions=tuple(_question(question, narration) for question in narration.questions),
        repairs=tuple(_repair(repair) for repair in narration.repairs),
        problems=tuple(ProblemRow(one.where, one.text) for one in narration.transcript.problems),
        alerts=tuple(_alert(alert) for alert in narration.alerts),
    )


def write(narration: Narration) -> str:
    """The record as JSON text."""
    return dumped(Contract, contract(narration))


def read(text: str) -> Contract:
    """The record back; only its four lists have to be there, and :class:`BadFile` says what is wrong otherwise."""
    return checked(Contract, parsed(text, KIND), KIND)


def heard(span: Span, narration: Narration) -> str:
    """The words of a span as they were heard."""
    return " ".join(word.text for word in narration.transcript.words[max(0, span.first) : max(0, span.last)])


def _treatment(bout: Bout) -> TreatmentRow:
    return TreatmentRow(
        technique=bout.technique,
        structures=bout.structures,
        side=bout.side,  # type: ignore[arg-type]
        start=round(bout.start, 3),
        end=round(bout.end, 3),
        passes=bout.passes,
        pressure=bout.pressure,  # type: ignore[arg-type]
        confidence=round(bout.confidence, 3),
        words=_words(bout.span),
        more_words=tuple(_words(span) for span in bout.spans),
    )


def _finding(finding: Finding) -> FindingRow:
    return FindingRow(
        structure=finding.structure,
        side=finding.side,  # type: ignore[arg-type]
        aspect=finding.aspect,
        value=finding.value,
        time=round(finding.time, 3),
        confidence=round(finding.confidence, 3),
        words=_words(finding.span),
    )


def _response(response: Response) -> ResponseRow:
    return ResponseRow(response.sign, round(response.time, 3), round(response.confidence, 3), _words(response.span))


def _action(action: Action) -> ActionRow:
    return ActionRow(action.kind, round(action.time, 3), round(action.confidence, 3), _words(action.span))


def _alert(alert: Alert) -> AlertRow:
    return AlertRow(alert.flag, alert.text, round(alert.time, 3), round(alert.confidence, 3), _words(alert.span))


def _question(question: Question, narration: Narration) -> QuestionRow:
    return QuestionRow(
        part=question.part,
        index=question.index,
        field=question.field,
        text=question.text,
        choices=tuple(ChoiceRow(choice.label, choice.value) for choice in question.choices),
        time=round(question.time, 3),
        words=_words(question.span),
        heard=heard(question.span, narration),
    )


def _repair(repair: Repair) -> RepairRow:
    return RepairRow(repair.heard, repair.meant, round(repair.confidence, 3), _words(repair.span))


def _words(span: Span) -> Words:
    return (span.first, span.last)
