"""What is heard and what is understood: timed words, and statements that keep the words and times that made them."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Word:
    """One word as it was heard, with its times in seconds from the start and the recogniser's probability 0 to 1."""

    text: str
    start: float
    end: float
    probability: float | None = None
    cue: int = 0


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in the input that was mended or left out: where it is, and what was done about it."""

    where: str
    text: str


@dataclass(frozen=True, slots=True)
class Transcript:
    """Timed words in order, the format that they were read from, and what was mended on the way."""

    words: tuple[Word, ...]
    format: str
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class Span:
    """Words ``first`` (included) to ``last`` (excluded) of a transcript."""

    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Repair:
    """Words that were read as something else: what was heard, and what it was taken to mean."""

    span: Span
    heard: str
    meant: str
    confidence: float


@dataclass(frozen=True, slots=True)
class OwnWord:
    """Words of a practitioner's own and what they mean, by the id of a table.

    ``kind`` is ``structure``, ``technique`` or ``sign``. ``misheard`` words are what a recogniser makes of the usual
    name; others are a name of the speaker's own.
    """

    kind: str
    phrase: str
    meaning: str
    misheard: bool = False


@dataclass(frozen=True, slots=True)
class Bout:
    """One technique on the same structures and side. Times in seconds; ``pressure`` light, moderate, firm or None."""

    technique: str
    structures: tuple[str, ...]
    side: str | None
    start: float
    end: float
    passes: int | None
    pressure: str | None
    span: Span
    confidence: float
    spans: tuple[Span, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """What was found of one structure: ``aspect`` and ``value`` are of the knowledge tables."""

    structure: str
    side: str | None
    aspect: str
    value: str
    time: float
    span: Span
    confidence: float


@dataclass(frozen=True, slots=True)
class Response:
    """A sign that the horse showed."""

    sign: str
    time: float
    span: Span
    confidence: float


@dataclass(frozen=True, slots=True)
class Action:
    """What the speaker decided for after the session."""

    kind: str
    time: float
    span: Span
    confidence: float


@dataclass(frozen=True, slots=True)
class Alert:
    """A red flag that was spoken of: ``flag`` is of the knowledge tables, ``text`` the words that named it.

    Nobody has said yet that it is so: with a confidence under a half it was spoken of as long ago, or not as told, and
    is only asked about.
    """

    flag: str
    text: str
    time: float
    span: Span
    confidence: float


Statement = Bout | Finding | Response | Action | Alert


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer to a question.

    Its label, and the value that it gives to the field (``keep`` and ``drop`` for the whole).
    """

    label: str
    value: str


@dataclass(frozen=True, slots=True)
class Question:
    """A doubt.

    ``part`` is ``bout``, ``finding``, ``response``, ``action`` or ``flag`` (an alert) and ``index`` the place in that
    list; ``field`` None means the whole. ``offer`` is what was left out and a yes adds; ``index`` is -1 then.
    """

    part: str
    index: int
    field: str | None
    text: str
    choices: tuple[Choice, ...]
    time: float
    span: Span
    offer: Bout | Finding | Response | Action | None = None


@dataclass(frozen=True, slots=True)
class Narration:
    """A transcript and everything that was understood of it."""

    transcript: Transcript
    bouts: tuple[Bout, ...]
    findings: tuple[Finding, ...]
    responses: tuple[Response, ...]
    actions: tuple[Action, ...]
    questions: tuple[Question, ...]
    repairs: tuple[Repair, ...] = ()
    alerts: tuple[Alert, ...] = ()
