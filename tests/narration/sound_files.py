"""Small sound files of every form, made with the encoders that come with the decoders."""

import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

#: A form: its container, its codecs by preference, and the rate that the codec takes.
FORMS = {
    "wav": ("wav", ("pcm_s16le",), 22_050),
    "m4a": ("ipod", ("aac",), 44_100),
    "mp3": ("mp3", ("libmp3lame",), 44_100),
    "ogg": ("ogg", ("libvorbis", "libopus", "opus"), 48_000),
    "webm": ("webm", ("libopus", "opus"), 48_000),
}


def beep(rate: int, seconds: float = 3.0, start: float = 1.0, end: float = 2.0) -> NDArray[np.int16]:
    """Silence with a tone in it."""
    at = np.arange(round(seconds * rate)) / rate
    return (np.sin(2 * math.pi * 440 * at) * 12_000 * ((at >= start) & (at < end))).astype(np.int16)


def write_sound(path: Path, form: str, samples: NDArray[np.int16] | None = None) -> Path:
    """Write mono samples (a beep unless given, at the form's rate) in a form; skips where its encoder is missing."""
    import av

    container, codecs, rate = FORMS[form]
    codec = next((name for name in codecs if can_write(name)), None)
    if codec is None:
        pytest.skip(f"no encoder for {form} ({', '.join(codecs)}) in these decoders")
    samples = beep(rate) if samples is None else samples
    with av.open(str(path), "w", format=container) as out:
        stream = out.add_stream(codec, rate=rate, layout="mono")
        for start in range(0, len(samples), rate):
            frame = av.AudioFrame.from_ndarray(samples[None, start : start + rate], format="s16", layout="mono")
            frame.sample_rate = rate
            frame.pts = start
            out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    return path


def write_pictures(path: Path, sound: bool = False) -> Path:
    """A film of one grey second, with a beep to it or without."""
    import av

    with av.open(str(path), "w", format="mp4") as out:
        stream = out.add_stream("mpeg4", rate=10)
        stream.width = stream.height = 32
        stream.pix_fmt = "yuv420p"
        track: Any = out.add_stream("aac", rate=44_100, layout="mono") if sound else None
        grey = np.full((32, 32, 3), 128, np.uint8)
        for _ in range(10):
            out.mux(stream.encode(av.VideoFrame.from_ndarray(grey, format="rgb24")))
        out.mux(stream.encode(None))
        if track is not None:
            frame = av.AudioFrame.from_ndarray(beep(44_100)[None, :], format="s16", layout="mono")
            frame.sample_rate = 44_100
            out.mux(track.encode(frame))
            out.mux(track.encode(None))
    return path


def can_write(codec: str) -> bool:
    import av

    try:
        av.Codec(codec, "w")
    except ValueError:
        return False
    return True
