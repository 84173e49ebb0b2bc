"""The pages of one visit: what was heard and what was understood of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from haywisp.practice.types import Owner, Yard
from haywisp.record.types import Horse, Visit
from haywisp.usecases.views.shared import Counts, Option, Ref, VerdictView, VetWord, VisitRow, Vocabulary


@dataclass(frozen=True, slots=True)
class VisitPage:
    """The front page of a visit; ``file_name`` is "" when no narration was given yet.

    ``verdict`` is for the next hands-on time; ``verdict_from`` is the visit before that it is taken from, None where it
    is of this visit's own entries. ``at_start`` is what was known before hands were laid on at this visit, and
    ``recorded`` whether anything was then done, found or decided.
    ``vet_said`` is what the vet answered for this horse, newest first.
    """

    row: VisitRow
    visit: Visit
    horse: Horse
    owner: Owner
    yard: Yard
    counts: Counts
    file_name: str
    previous: Ref | None
    verdict: VerdictView
    at_start: VerdictView
    recorded: bool
    verdict_from: Ref | None = None
    at_start_from: Ref | None = None
    vet_said: tuple[VetWord, ...] = ()


@dataclass(frozen=True, slots=True)
class Heard:
    """What came of a narration. ``problems`` are sentences on what was mended or left out of the file."""

    visit: Visit
    counts: Counts
    words: int
    problems: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WordView:
    """One word as heard. ``meant`` is what it was taken to mean where that differs, else ""; times in seconds."""

    index: int
    text: str
    start: float
    end: float
    cue: int
    meant: str
    probability: float | None


@dataclass(frozen=True, slots=True)
class LineView:
    """The words of one cue: a line of the transcript, words ``first`` (included) to ``last`` (excluded)."""

    cue: int
    time: str
    start: float
    end: float
    first: int
    last: int
    words: tuple[WordView, ...]


@dataclass(frozen=True, slots=True)
class RepairView:
    """Words that were read as something else."""

    first: int
    last: int
    heard: str
    meant: str
    confidence: float


@dataclass(frozen=True, slots=True)
class EntryView:
    """One entry, newest version.

    ``body`` holds the ids for a form and ``fields`` the same in words, in form order. ``time`` and ``end`` are
    ``m:ss`` ("" when by hand without a time); words ``first_word`` (included) to ``last_word`` (excluded), -1 by
    hand. ``questions`` are the ids of its open questions.
    """

    id: str
    thread: str
    version: int
    part: str
    part_name: str
    sentence: str
    body: Mapping[str, object]
    fields: tuple[Option, ...]
    time_s: float
    end_s: float
    time: str
    end: str
    first_word: int
    last_word: int
    confidence: float
    status: str
    status_name: str
    source: str
    reason: str
    questions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class QuestionView:
    """A doubt with its choices; ``answer`` is None while it is open and ``answer_label`` reads it.

    ``about`` is the entry in words, or with ``offers`` what a yes adds.
    """

    id: str
    thread: str
    field: str | None
    text: str
    about: str
    choices: tuple[Option, ...]
    time_s: float
    time: str
    first_word: int
    last_word: int
    answer: str | None
    answer_label: str
    offers: bool = False


@dataclass(frozen=True, slots=True)
class Lane:
    """One row of the timeline."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class TimelineBar:
    """A bout on a lane, in seconds; ``label`` is short and ``sentence`` whole. One bout can lie on several lanes."""

    lane: str
    thread: str
    label: str
    sentence: str
    technique: str
    side: str | None
    pressure: str | None
    start: float
    end: float
    status: str


@dataclass(frozen=True, slots=True)
class TimelineMark:
    """A response: ``direction`` is ``settling`` or ``guarding`` and ``weight`` 0 to 1."""

    thread: str
    label: str
    time_s: float
    time: str
    direction: str
    weight: float
    status: str


@dataclass(frozen=True, slots=True)
class Timeline:
    """Bars in lanes and marks above them, from 0 to ``length_s`` seconds; rejected entries are left out."""

    lanes: tuple[Lane, ...]
    bars: tuple[TimelineBar, ...]
    marks: tuple[TimelineMark, ...]
    length_s: float
    ticks: tuple[tuple[float, str], ...]


@dataclass(frozen=True, slots=True)
class QuoteView:
    """A sentence as it was heard, in three parts; ``marked`` are the words of the entry or question."""

    before: str
    marked: str
    after: str
    pointed: str


@dataclass(frozen=True, slots=True)
class SaidPage:
    """What was said: the words, what was understood of them, and what is still in doubt.

    ``answered`` are the questions with an answer. ``by_region`` and ``by_technique`` are the same bouts in other lanes.
    ``quotes`` has the sentence behind each entry by its thread, and behind each question by ``question-`` and its id;
    None for what was added by hand, and ``pointed`` has its words in angle quotes.
    """

    visit: Visit
    row: VisitRow
    horse: Horse
    owner: Owner
    yard: Yard
    file_name: str
    lines: tuple[LineView, ...]
    words: tuple[WordView, ...]
    repairs: tuple[RepairView, ...]
    entries: tuple[EntryView, ...]
    rejected: tuple[EntryView, ...]
    questions: tuple[QuestionView, ...]
    answered: tuple[QuestionView, ...]
    counts: Counts
    minutes_of_work: float
    by_region: Timeline
    by_technique: Timeline
    vocabulary: Vocabulary
    quotes: Mapping[str, QuoteView | None] = field(default_factory=dict)
