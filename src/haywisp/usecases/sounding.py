"""Recordings as a visit's narration: their words one after the other, and where in which recording each was said."""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

from haywisp.narration.types import Word
from haywisp.record.types import Passage, Recording, StoredNarration
from haywisp.report.wording import mmss
from haywisp.usecases.recording_file import SAYS
from haywisp.usecases.views.recordings import PassageView, SoundPiece

#: Between two recordings of a visit, so that no sentence goes over their border.
GAP_S = 2.0
WORDS = "words.json"


def words_as_json(words: Iterable[Word]) -> list[dict[str, Any]]:
    return [
        {"text": word.text, "start": round(word.start, 2), "end": round(word.end, 2)}
        | ({} if word.probability is None else {"probability": round(word.probability, 3)})
        for word in words
    ]


def words_from_json(rows: Iterable[Mapping[str, Any]]) -> list[Word]:
    return [Word(row["text"], row["start"], row["end"], row.get("probability")) for row in rows]


def content_of(parts: Sequence[tuple[Recording, Sequence[Word]]]) -> str:
    """The narration of these recordings as word-time JSON that also tells which recording its seconds are of."""
    words: list[Word] = []
    sound = []
    start = 0.0
    for one, said in parts:
        end = start + max([one.seconds, *(word.end for word in said)])
        sound.append({"recording": one.id, "start": round(start, 2), "end": round(end, 2)})
        words += [
            replace(word, start=start + word.start, end=start + word.end) for word in with_typed(said, one.passages)
        ]
        start = end + GAP_S
    return json.dumps({"words": words_as_json(words), "sound": sound}, ensure_ascii=False)


def with_typed(words: Sequence[Word], passages: Sequence[Passage]) -> list[Word]:
    """The words as heard, but in a passage that was typed in those that were typed, evenly over its time."""
    kept = list(words)
    for passage in passages:
        typed = passage.typed.split()
        if not typed:
            continue
        kept = [word for word in kept if not passage.start <= (word.start + word.end) / 2 <= passage.end]
        each = max(0.05, (passage.end - passage.start) / len(typed))
        kept += [
            Word(text, passage.start + each * place, passage.start + each * (place + 1))
            for place, text in enumerate(typed)
        ]
    return sorted(kept, key=lambda word: word.start)


def pieces_of(stored: StoredNarration | None) -> tuple[SoundPiece, ...]:
    """Which recordings a narration was heard from; none of one that came as a transcript."""
    return _pieces(stored.content) if stored is not None and '"sound"' in stored.content else ()


@lru_cache(maxsize=16)
def _pieces(content: str) -> tuple[SoundPiece, ...]:
    try:
        data = json.loads(content)
        return tuple(SoundPiece(str(row["recording"]), float(row["start"]), float(row["end"])) for row in data["sound"])
    except (ValueError, KeyError, TypeError):
        # A transcript that was written elsewhere may hold a key of that name.
        return ()


def recordings_in(stored: StoredNarration | None) -> frozenset[str]:
    """The ids of the recordings that a narration was heard from."""
    return frozenset(piece.recording for piece in pieces_of(stored))


def passage_views(piece: SoundPiece, one: Recording) -> list[PassageView]:
    """The passages of one recording, at their times in the narration."""
    return [
        PassageView(
            recording=one.id,
            number=number,
            start=piece.start + passage.start,
            end=piece.start + passage.end,
            time=mmss(piece.start + passage.start),
            reason=passage.reason,
            why=SAYS.get(passage.reason, ""),
            listened=passage.listened,
            typed=passage.typed,
        )
        for number, passage in enumerate(one.passages)
    ]
