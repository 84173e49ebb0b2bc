"""Where there is a voice: the small voice detector that comes with the recogniser, over a stretch or a whole file."""

import os
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from haywisp.narration.sound.types import RATE, Sound
from haywisp.narration.sound.working_file import blocks, samples

if TYPE_CHECKING:
    from numpy.typing import NDArray

FRAME = 512
FRAME_S = FRAME / RATE
# The detector settles within a second; that much is played to it before the stretch that is asked for.
LEAD_S = 31 * FRAME_S
#: A frame is a voice from here on; below the lower bar it is none, and between them as the frame before.
SURE, MAYBE = 0.5, 0.2
# After levelling a voice is far above this; hours of nothing need no detector.
SILENT = 0.003
SHORTEST_GAP_S = 0.35

Spans = tuple[tuple[float, float], ...]


def chances(sound_samples: "NDArray[Any]") -> "NDArray[Any]":
    """The probability of a voice in each frame of 32 ms."""
    import numpy as np

    if not len(sound_samples):
        return np.zeros(0, np.float32)
    if float(np.abs(sound_samples).max()) < SILENT:
        return np.zeros(-(-len(sound_samples) // FRAME), np.float32)
    padded = np.pad(sound_samples, (0, -len(sound_samples) % FRAME))
    return np.asarray(_detector()(padded), dtype=np.float32).ravel()


def _detector() -> Any:
    # Later versions of the library below report to their makers unless its own code, in C, finds this. The pins keep
    # such a version out; this is for environments that were not made from them.
    os.putenv("ORT_DISABLE_TELEMETRY", "1")
    from faster_whisper.vad import get_vad_model

    return get_vad_model()


def chances_of(sound: Sound) -> "NDArray[Any]":
    """The probability of a voice in each frame of a whole working file; a minute of it in memory at a time."""
    import numpy as np

    found = [np.zeros(0, np.float32)]
    for start, block in blocks(sound, LEAD_S):
        lead = round(min(start, LEAD_S) / FRAME_S)
        found.append(chances(block)[lead:])
    return np.concatenate(found)


def voice_between(sound: Sound, start: float, end: float) -> Spans:
    """Where there is a voice between two times of a working file, in seconds from its start."""
    before = min(start, LEAD_S)
    lead = round(before / FRAME_S)
    found = spans(chances(samples(sound, start - before, end))[lead:], SURE, MAYBE)
    return tuple((start + first, min(start + last, end)) for first, last in found if start + first < end)


def spans(frames: "NDArray[Any] | Sequence[float]", sure: float, maybe: float) -> Spans:
    """Runs of frames that rise to ``sure`` and end where they fall under ``maybe``; short gaps are closed."""
    runs: list[tuple[int, int]] = []
    first = -1
    heard = False
    for place, chance in enumerate([*frames, 0.0]):
        if chance >= maybe:
            first = place if first < 0 else first
            heard = heard or chance >= sure
        elif first >= 0:
            if heard:
                runs.append((first, place))
            first, heard = -1, False
    return closed(((first * FRAME_S, last * FRAME_S) for first, last in runs), SHORTEST_GAP_S)


def closed(found: Iterable[tuple[float, float]], gap_s: float) -> Spans:
    """Spans in order, those that are nearer than ``gap_s`` or overlap made one."""
    joined: list[tuple[float, float]] = []
    for start, end in sorted(found):
        if joined and start - joined[-1][1] < gap_s:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((start, end))
    return tuple(joined)
