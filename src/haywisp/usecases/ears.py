"""The ear: what a recording is heard with, and a stand-in's shape for tests."""

from collections.abc import Sequence
from pathlib import Path
from typing import Protocol

from haywisp.narration.sound.types import Chunk, ChunkHeard, Sound


class Ear(Protocol):
    """Prepares a recording and hears it chunk by chunk; every fault is a sentence."""

    def ready(self) -> None:
        """Raise what keeps it from hearing anything at all."""
        ...

    def prepare(self, source: Path, working: Path) -> tuple[Sound, Sequence[Chunk]]: ...
    def playable(self, source: Path, folder: Path) -> None:
        """Put a copy beside it in which a player can go to any time, where the form needs one and it can be made."""
        ...

    def hear(self, sound: Sound, chunk: Chunk, prompt: str) -> ChunkHeard: ...


class SpeechEar:
    """The speech extra, opened when it is first needed; ``model`` is a folder or the embedded weights."""

    def __init__(self, model: Path | None = None) -> None:
        self._model = model
        self._opened: object = None

    def ready(self) -> None:
        from haywisp.narration.sound import open_recogniser

        if self._opened is None:
            self._opened = open_recogniser(self._model)

    def prepare(self, source: Path, working: Path) -> tuple[Sound, Sequence[Chunk]]:
        from haywisp.narration.sound import chunks, prepare

        sound = prepare(source, working)
        return sound, chunks(sound)

    def playable(self, source: Path, folder: Path) -> None:
        from haywisp.narration.sound.playable import playable

        playable(source, folder)

    def hear(self, sound: Sound, chunk: Chunk, prompt: str) -> ChunkHeard:
        from haywisp.narration.sound import hear_chunk

        self.ready()
        return hear_chunk(sound, chunk, self._opened, prompt)  # type: ignore[arg-type]
