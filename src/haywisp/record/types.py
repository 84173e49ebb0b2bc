"""What is remembered of a horse and a visit: entries are superseded, never overwritten."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from haywisp.narration.types import OwnWord

#: The kinds of a note that is a vet's answer: that bodywork may go on, and that it must wait.
VET_AGREES, VET_SAYS_WAIT = "vet-answer", "vet-says-wait"
#: The kind of a note that is a practitioner's written reason to work although rows of the gate ask for the vet first.
OVERRIDE = "override"
#: How far a visit is, and what was decided on an entry.
VISIT_STATUSES = ("planned", "heard", "reviewed")
RECORDING_STATES = ("recording", "waiting", "hearing", "heard", "stopped", "failed")
#: What is asked about a horse when it is taken on, beside who and what it is, in the order of the form.
INTAKE = ("vet", "history", "medicines", "tack", "teeth", "feet", "insurance")
ENTRY_STATUSES = ("proposed", "accepted", "corrected", "rejected")


@dataclass(frozen=True, slots=True)
class Horse:
    """A horse as the practice knows it; ``flags`` are ids of standing facts that the screening gate reads.

    ``ueln`` and ``microchip`` are kept in the plain form of :mod:`haywisp.record.identifiers`; ``vet`` is whose patient
    it is. The texts of :data:`INTAKE` are what the owner told, "" where that is not known.
    """

    id: str
    name: str
    owner_id: str
    yard_id: str
    breed: str = ""
    sex: str = ""
    born: int | None = None
    height_cm: float | None = None
    work: str = ""
    notes: str = ""
    flags: tuple[str, ...] = ()
    invented: bool = False
    ueln: str = ""
    microchip: str = ""
    vet: str = ""
    tack: str = ""
    teeth: str = ""
    feet: str = ""
    history: str = ""
    medicines: str = ""
    insurance: str = ""


@dataclass(frozen=True, slots=True)
class Visit:
    """One visit to one horse.

    ``minutes`` is the time booked. ``status`` is ``planned``, ``heard`` (to be reviewed) or ``reviewed``.
    """

    id: str
    horse_id: str
    day: date
    minutes: int
    status: str
    number: int
    practitioner: str = ""
    notes: str = ""


@dataclass(frozen=True, slots=True)
class StoredNarration:
    """The file as it came, kept whole, so that it can be read again.

    ``own_words`` are those of the practitioner's words that were said in it and known when it was understood: with
    them it is understood in the same way again, whatever is taught or taken off the list afterwards.
    """

    id: str
    visit_id: str
    file_name: str
    format: str
    content: str
    added_at: datetime
    own_words: tuple[OwnWord, ...] = ()


@dataclass(frozen=True, slots=True)
class StoredOwnWord:
    """One of the practitioner's own words as it is kept.

    ``key`` is what is compared of the phrase, and is there once; the other fields are those of an own word.
    """

    id: str
    kind: str
    phrase: str
    key: str
    meaning: str
    misheard: bool
    added_at: datetime

    @property
    def word(self) -> OwnWord:
        """What a narration is understood with."""
        return OwnWord(self.kind, self.phrase, self.meaning, self.misheard)


@dataclass(frozen=True, slots=True)
class Passage:
    """A passage of a recording to listen to again, in seconds of it, and what a person made of it.

    ``reason`` is ``unheard``, ``loop``, ``prompted`` or ``dropped``; ``typed`` are the words that were really said.
    """

    start: float
    end: float
    reason: str
    listened: bool = False
    typed: str = ""


@dataclass(frozen=True, slots=True)
class Recording:
    """The sound of a visit: what is known of the file, and how far it has been heard.

    ``state`` is ``recording`` (it has not arrived whole), ``waiting`` (to be heard), ``hearing``, ``heard``,
    ``stopped`` or ``failed``, with its ``sentence``. ``file_name`` is "" when it was recorded on the page, and ``form``
    the ending of the file that is kept. ``heard_from`` is when it was asked to be heard or, from then on, when that
    began; ``done`` of ``parts`` are heard, ``done_before`` of them before. ``attempt`` counts how often it was asked.
    """

    id: str
    visit_id: str
    began_at: datetime
    file_name: str
    form: str
    state: str
    seconds: float = 0.0
    size_bytes: int = 0
    sha256: str = ""
    attempt: int = 0
    parts: int = 0
    done: int = 0
    done_before: int = 0
    heard_from: datetime | None = None
    sentence: str = ""
    passages: tuple[Passage, ...] = ()


@dataclass(frozen=True, slots=True)
class Entry:
    """One version of one thing that was said, seen or measured.

    ``thread`` stays the same when an entry is superseded and ``version`` counts up from 1. ``part`` is ``bout``,
    ``finding``, ``response``, ``action``, ``note``, ``flag`` (a red flag) or ``reading`` (of a scale or a vital sign);
    ``body`` holds its fields in plain values;
    ``first_word`` and ``last_word`` (excluded) index the narration's words, -1 where it was added by hand. ``status``
    is ``proposed``, ``accepted``, ``corrected`` or ``rejected``.
    """

    id: str
    thread: str
    version: int
    visit_id: str
    part: str
    body: Mapping[str, object]
    time_s: float
    end_s: float
    first_word: int
    last_word: int
    confidence: float
    status: str
    source: str
    reason: str
    made_at: datetime


@dataclass(frozen=True, slots=True)
class StoredQuestion:
    """A doubt that waits for an answer, tied to the thread of the entry it is about.

    ``offer`` is what was heard and not written down, which a yes adds: ``part``, ``body``, ``end_s`` and
    ``confidence``. Its thread is empty until then, and that of the entry afterwards.
    """

    id: str
    visit_id: str
    thread: str
    field: str | None
    text: str
    choices: tuple[tuple[str, str], ...]
    time_s: float
    first_word: int
    last_word: int
    answer: str | None = None
    answered_at: datetime | None = None
    offer: Mapping[str, object] | None = None


def current(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The newest version of each thread, by time."""
    newest: dict[str, Entry] = {}
    for entry in entries:
        if entry.thread not in newest or entry.version > newest[entry.thread].version:
            newest[entry.thread] = entry
    return tuple(sorted(newest.values(), key=lambda one: (one.time_s, one.end_s, one.first_word, one.thread)))
