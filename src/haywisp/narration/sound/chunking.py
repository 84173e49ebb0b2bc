"""A recording cut at its silences into stretches of 15 s at most that hold everything that may be speech."""

from typing import TYPE_CHECKING, Any

from haywisp.narration.sound.types import Chunk, Sound
from haywisp.narration.sound.voicing import FRAME_S, Spans, chances_of, closed, spans

if TYPE_CHECKING:
    from numpy.typing import NDArray

LONGEST_S = 15.0
SHORTEST_S = 7.0
MARGIN_S = 0.4
# Counted strokes stay together: a lone "two" is heard badly. Longer silence is not listened to, words grow wild in it.
PAUSE_S = 6.0
#: Lower bars than the voice detector's own: a chunk too many costs a moment, a passage left out costs its words.
SURE, MAYBE = 0.3, 0.1


def chunks(sound: Sound) -> tuple[Chunk, ...]:
    """The stretches to hear, in order and without overlap; none where there is no voice."""
    frames = chances_of(sound)
    voiced = spans(frames, SURE, MAYBE)
    widened = ((max(0.0, start - MARGIN_S), min(sound.seconds, end + MARGIN_S)) for start, end in voiced)
    return tuple(
        Chunk(round(start, 3), round(end, 3)) for start, end in cut(closed(widened, FRAME_S), frames) if end > start
    )


def cut(voiced: Spans, frames: "NDArray[Any]") -> Spans:
    """Stretches of 15 s at most over spans of voice, cut in the longest silence that is late enough."""
    found: list[tuple[float, float]] = []
    for group in _groups(voiced):
        rest = list(group)
        while rest:
            start = rest[0][0]
            if rest[-1][1] - start <= LONGEST_S:
                found.append((start, rest[-1][1]))
                break
            end, onward = _cut_place(rest, frames)
            found.append((start, end))
            rest = [(max(first, onward), last) for first, last in rest if last > onward]
    return tuple(found)


def _groups(voiced: Spans) -> list[Spans]:
    groups: list[Spans] = []
    for span in voiced:
        if groups and span[0] - groups[-1][-1][1] <= PAUSE_S:
            groups[-1] = (*groups[-1], span)
        else:
            groups.append((span,))
    return groups


def _cut_place(rest: list[tuple[float, float]], frames: "NDArray[Any]") -> tuple[float, float]:
    """Where the stretch ends and the next begins."""
    start = rest[0][0]
    gaps = [
        (after[0] - before[1], before[1], after[0])
        for before, after in zip(rest, rest[1:], strict=False)
        if before[1] - start <= LONGEST_S
    ]
    late = [gap for gap in gaps if gap[1] - start >= SHORTEST_S]
    if late or gaps:
        _, end, onward = max(late or gaps)
        return end, onward
    # Nobody draws breath for 15 s: cut where a voice is least likely.
    low, high = round((start + SHORTEST_S) / FRAME_S), round((start + LONGEST_S) / FRAME_S)
    window = frames[low:high]
    place = (low + int(window.argmin())) * FRAME_S if len(window) else start + LONGEST_S
    return place, place
