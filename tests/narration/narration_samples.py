"""Small makings for the narration tests: words from a line of text, their tokens, and the tables of English."""

import re
from collections.abc import Sequence
from functools import cache

from haywisp.knowledge import Tables, load_tables
from haywisp.narration import Bout, Narration, Transcript, Word, read_bytes, understand
from haywisp.narration.lexicon import Lexicon
from haywisp.narration.tokens import Token, tokenise
from haywisp.narration.understanding import prepared


@cache
def tables() -> Tables:
    return load_tables()


def lexicon() -> Lexicon:
    return prepared(tables())[0]


def words(text: str, step: float = 0.5, start: float = 0.0) -> tuple[Word, ...]:
    """The words of a text, one each step, without silence between them; ``(8)`` is a silence of 8 s."""
    made: list[Word] = []
    at = start
    for part in text.split():
        if part.startswith("(") and part.endswith(")"):
            at += float(part[1:-1])
            continue
        made.append(Word(part, round(at, 3), round(at + step, 3)))
        at += step
    return tuple(made)


def tokens(text: str, step: float = 0.5) -> list[Token]:
    return tokenise(words(text, step), lexicon().spellings)


def texts(made: Sequence[Token]) -> str:
    return " ".join(token.text for token in made)


def faults_of(narration: Narration) -> list[str]:
    """Entries whose words or times lie outside the transcript, or whose ids are in no table."""
    held = narration.transcript.words
    known = tables()
    first, last = (held[0].start - 0.01, held[-1].end + 0.01) if held else (0.0, 0.0)
    faults: list[str] = []
    entries = (*narration.bouts, *narration.findings, *narration.responses, *narration.actions, *narration.alerts)
    offers = tuple(question.offer for question in narration.questions if question.offer is not None)
    for entry in (*entries, *offers, *narration.questions, *narration.repairs):
        spans = (entry.span, *getattr(entry, "spans", ()))
        if not all(0 <= span.first < span.last <= len(held) for span in spans):
            faults.append(f"words outside the transcript: {entry}")
        times = [getattr(entry, name) for name in ("start", "end", "time") if hasattr(entry, name)]
        if not all(first <= time <= last for time in times) or times != sorted(times):
            faults.append(f"times outside the transcript: {entry}")
        if not 0 <= getattr(entry, "confidence", 0.5) <= 1:
            faults.append(f"confidence: {entry}")
    for bout in (*narration.bouts, *(offer for offer in offers if isinstance(offer, Bout))):
        if bout.technique not in known.techniques or not set(bout.structures) <= set(known.structures):
            faults.append(f"unknown id: {bout}")
    faults += [f"unknown id: {finding}" for finding in narration.findings if finding.structure not in known.structures]
    parts = {
        "bout": narration.bouts,
        "finding": narration.findings,
        "response": narration.responses,
        "action": narration.actions,
        "flag": narration.alerts,
    }
    faults += [
        f"question about nothing: {question}"
        for question in narration.questions
        if question.offer is None and not 0 <= question.index < len(parts[question.part])
    ]
    return faults


def transcript(text: str) -> Transcript:
    return Transcript(words(text), "vtt")


def understood(text: str) -> Narration:
    """What is understood of a text as it would stand in a file, its times marked or not."""
    return understand(read_bytes(text.encode(), "session.txt"), tables())


def unpointed(text: str) -> str:
    """A text as a recogniser writes that knows neither full stops nor capitals."""
    return re.sub(r"[,.!?;](?!\d)", "", text).lower()
