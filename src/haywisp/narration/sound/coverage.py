"""Which part of the voice has words, and which has none."""

from collections.abc import Iterable, Iterator

from haywisp.narration.sound.types import Chunk
from haywisp.narration.sound.voicing import Spans, closed
from haywisp.narration.types import Word

#: Speech of this length without a word is listened to again.
UNHEARD_S = 1.5
# Of a voice that a chunk's edge cuts through, the rest is in the next chunk.
UNHEARD_AT_EDGE_S = 0.25
EDGE_S = 0.05
# A word that is said to last longer than it can be spoken hides what was left out beside it.
WORD_S, LETTER_S = 0.6, 0.08
# A word that is said to last no time was put where there was room for it, and covers nothing.
SHORTEST_S = 0.02


def unheard(voice: Spans, words: Iterable[Word], chunk: Chunk) -> Spans:
    """The passages of voice without words that are long enough to hold some."""
    bare = without(voice, closed(_spoken(words), 0.0))
    return tuple(span for span in bare if span[1] - span[0] >= _enough(span, chunk) - 1e-9)


def _enough(span: tuple[float, float], chunk: Chunk) -> float:
    at_edge = span[0] - chunk.start < EDGE_S or chunk.end - span[1] < EDGE_S
    return UNHEARD_AT_EDGE_S if at_edge else UNHEARD_S


def _spoken(words: Iterable[Word]) -> Iterator[tuple[float, float]]:
    """When a word can have been spoken: all of its time, or the ends of it where it is too long."""
    for word in words:
        if word.end - word.start < SHORTEST_S:
            continue
        longest = WORD_S + LETTER_S * len(word.text)
        if word.end - word.start <= longest:
            yield word.start, word.end
        else:
            yield word.start, word.start + longest / 2
            yield word.end - longest / 2, word.end


def without(spans: Spans, taken: Spans) -> Spans:
    """What is left of spans when others, in order and apart, are taken out of them."""
    left: list[tuple[float, float]] = []
    for start, end in spans:
        at = start
        for first, last in taken:
            if last > at and first < end:
                if first > at:
                    left.append((at, first))
                at = max(at, last)
        if at < end:
            left.append((at, end))
    return tuple(left)


def apart(word: Word, voice: Spans, margin_s: float) -> bool:
    """True for a word at a time when nobody speaks, nor within ``margin_s``."""
    return all(word.end < start - margin_s or word.start > end + margin_s for start, end in voice)
