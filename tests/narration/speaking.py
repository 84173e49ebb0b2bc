"""Written narrations read out by a voice, with the times that this gives to their lines and words."""

import json
import subprocess
import wave
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

SPOKEN = Path(__file__).parent / "spoken"
Samples = NDArray[np.int16]
Voice = Callable[[str, Path], None]


@dataclass(frozen=True)
class Line:
    """A line of a narration: its text, and when it is spoken, in seconds."""

    text: str
    start: float
    end: float


@dataclass(frozen=True)
class Reading:
    """A narration as it was read out."""

    path: Path
    lines: tuple[Line, ...]
    gold: Mapping[str, Any]

    def words(self) -> list[tuple[str, float, float]]:
        """The words as written, the time of a line shared out by letters."""
        found = []
        for line in self.lines:
            words = line.text.split()
            each = (line.end - line.start) / sum(len(word) + 1 for word in words)
            at = line.start
            for word in words:
                found.append((word, at, at + each * (len(word) + 1)))
                at = found[-1][2]
        return found


def espeak(voice: str = "en-gb", words_a_minute: int = 150) -> Voice:
    def speak(text: str, out: Path) -> None:
        command = ["espeak-ng", "-v", voice, "-s", str(words_a_minute), "-w", str(out), text]
        subprocess.run(command, check=True, timeout=60)

    return speak


def flite(voice: str) -> Voice:
    def speak(text: str, out: Path) -> None:
        subprocess.run(["flite", "-voice", voice, "-t", text, "-o", str(out)], check=True, timeout=60)

    return speak


def read_out(name: str, voice: Voice, out: Path, noise: float = 0.001, seed: int = 7) -> Reading:
    """Write ``NAME.txt`` as sound to ``out``; ``noise`` is the loudness of a steady hiss, 1 being the loudest."""
    rows = [row.split(" ", 1) for row in (SPOKEN / f"{name}.txt").read_text("utf-8").splitlines()]
    pieces: list[Samples] = []
    lines: list[Line] = []
    at = 0
    rate = 0
    part = out.with_suffix(".part.wav")
    for pause, text in rows:
        voice(text, part)
        spoken, rate = read_wav(part)
        silence = np.zeros(round(float(pause) * rate), np.int16)
        lines.append(Line(text, (at + len(silence)) / rate, (at + len(silence) + len(spoken)) / rate))
        pieces += [silence, spoken]
        at += len(silence) + len(spoken)
    part.unlink()
    sound = np.concatenate(pieces).astype(np.float64)
    sound += np.random.default_rng(seed).normal(0, noise * 32767, len(sound))
    write_wav(out, np.clip(sound, -32768, 32767).astype(np.int16), rate)
    return Reading(out, tuple(lines), timed(json.loads((SPOKEN / f"{name}.gold.json").read_text("utf-8")), lines))


def timed(gold: Mapping[str, Any], lines: list[Line]) -> dict[str, Any]:
    """The gold with seconds in the place of lines."""
    places = {
        "start": lambda line: line.start,
        "end": lambda line: line.end,
        "time": lambda line: (line.start + line.end) / 2,
    }
    return {
        part: [
            {key: places[key](lines[value - 1]) if key in places else value for key, value in row.items()}
            for row in rows
        ]
        for part, rows in gold.items()
    }


def read_wav(path: Path) -> tuple[Samples, int]:
    with wave.open(str(path), "rb") as file:
        return np.frombuffer(file.readframes(file.getnframes()), np.int16), file.getframerate()


def write_wav(path: Path, samples: Samples, rate: int) -> None:
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(rate)
        file.writeframes(samples.astype("<i2").tobytes())
