"""Whole processes, from nothing to what was found: the command, and a spaCy pipeline that was kept on disk."""

import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage

from speed import of_length

from haywisp.narration import Transcript

SAY = 10  # words a caption
PEER = """
import sys
import spacy
nlp = spacy.load(sys.argv[1])
nlp.max_length = 10**8
print(len(nlp(open(sys.argv[2], encoding="utf-8").read()).ents))
"""


@dataclass(frozen=True)
class Whole:
    """One process at one length: its minutes and words, and the least CPU seconds of some runs, with its start."""

    minutes: float
    words: int
    seconds: float


def whole(
    minutes: Sequence[float], parts: Sequence[Transcript], pipeline: Path | None, again: int
) -> dict[str, list[Whole]]:
    """Each process at each length, read from files; without a pipeline the command alone."""
    rows: dict[str, list[Whole]] = {"haywisp narrate": []}
    if pipeline is not None:
        rows["spaCy, forms, from disk"] = []
    with tempfile.TemporaryDirectory() as folder:
        for length in minutes:
            transcript = of_length(length, parts)
            captions, plain = Path(folder) / "said.vtt", Path(folder) / "said.txt"
            captions.write_text(as_captions(transcript), encoding="utf-8")
            plain.write_text(" ".join(word.text for word in transcript.words), encoding="utf-8")
            commands = [[sys.executable, "-m", "haywisp", "narrate", str(captions)]]
            if pipeline is not None:
                commands.append([sys.executable, "-c", PEER, str(pipeline), str(plain)])
            for many, command in zip(rows.values(), commands, strict=True):
                taken = min(cpu_of(command) for _ in range(again + 1))  # the first fills the caches of tables and files
                many.append(Whole(length, len(transcript.words), taken))
    return rows


def cpu_of(command: Sequence[str]) -> float:
    """CPU seconds of a process, user's and system's; CalledProcessError where it fails."""
    before = getrusage(RUSAGE_CHILDREN)
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    after = getrusage(RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def as_captions(transcript: Transcript) -> str:
    """A transcript as WebVTT."""
    lines = ["WEBVTT", ""]
    for at in range(0, len(transcript.words), SAY):
        said = transcript.words[at : at + SAY]
        text = " ".join(word.text for word in said)
        lines += [f"{clock(said[0].start)} --> {clock(said[-1].end)}", text, ""]
    return "\n".join(lines)


def clock(seconds: float) -> str:
    """Seconds as WebVTT writes them."""
    return f"{int(seconds // 3600):02}:{int(seconds % 3600 // 60):02}:{seconds % 60:06.3f}"
