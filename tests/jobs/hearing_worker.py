"""A worker of its own process for the tests of the pages: hears with an ear that needs no weights."""

import sys
from collections.abc import Sequence
from pathlib import Path
from threading import Event

from haywisp import bootstrap
from haywisp.jobs import Hands, work_off
from haywisp.narration.sound.types import Again, Chunk, ChunkHeard, Sound
from haywisp.narration.types import Word
from haywisp.store.beside import jobs_beside
from haywisp.usecases.hearing import hearing

#: What is heard in each chunk of five seconds, over and over.
SAID = (
    "long strokes down the left neck five passes nice and light",
    "the splenius is tight there she licks and chews",
    "now kneading the left trapezius firm pressure four passes",
)
CHUNK_S = 5.0


class GivenEar:
    """Hears what it is given, and waits at a chunk until a file says to go on."""

    def __init__(self, folder: Path | None = None, waits_at: int | None = None, chunks: int = 3) -> None:
        self.folder, self.waits_at, self.count = folder, waits_at, chunks

    def ready(self) -> None:
        pass

    def prepare(self, source: Path, working: Path) -> tuple[Sound, Sequence[Chunk]]:
        working.write_bytes(b"as if it were sound")
        chunks = [Chunk(CHUNK_S * number, CHUNK_S * (number + 1)) for number in range(self.count)]
        return Sound(working, CHUNK_S * self.count), chunks

    def playable(self, source: Path, folder: Path) -> None:
        pass

    def hear(self, sound: Sound, chunk: Chunk, prompt: str) -> ChunkHeard:
        number = round(chunk.start / CHUNK_S)
        if self.folder is not None:
            with (self.folder / "heard").open("a") as paper:
                paper.write(f"{number}\n")
            while number == self.waits_at and not (self.folder / "go").exists():
                Event().wait(0.02)
        said = SAID[number % len(SAID)].split()
        each = (CHUNK_S - 1) / len(said)
        words = tuple(
            Word(text, chunk.start + each * place, chunk.start + each * (place + 1), 0.9)
            for place, text in enumerate(said)
        )
        again = {
            0: (Again(words[4].start, words[5].end, "prompted"),),
            1: (Again(chunk.end - 0.9, chunk.end - 0.1, "unheard"),),
        }
        return ChunkHeard(chunk, words, again.get(number, ()))


if __name__ == "__main__":
    from dataclasses import replace

    url, where, folder = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3])
    app = replace(
        bootstrap.build(url, recordings=folder), ear=GivenEar(where, waits_at=int(sys.argv[4]), chunks=int(sys.argv[5]))
    )
    hands = Hands(where / "hands", "here")
    hands.take()
    work_off(jobs_beside(url), hands, [hearing(app)], Event(), every_s=0.05)
