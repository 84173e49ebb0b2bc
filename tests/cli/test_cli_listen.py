"""``haywisp listen``: a recording to a record, stopped, gone on with, refused. A tone is the voice, words are told."""

import importlib.util
import json
import math
import signal
import wave
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from told import Shell

from haywisp.narration import Word
from haywisp.narration.sound import listening, recogniser, voicing

pytestmark = [
    pytest.mark.speech,
    pytest.mark.skipif(importlib.util.find_spec("av") is None, reason="the speech extra isn't installed"),
]
RATE = 16_000
FIRST = "Effleurage on the left neck light. The left splenius is tight."
SECOND = "Big yawn. See him again in two weeks."


def record(path: Path, *voices: tuple[float, float], seconds: float) -> Path:
    at = np.arange(round(seconds * RATE)) / RATE
    loud = sum(((at >= start) & (at < end) for start, end in voices), np.zeros(len(at), bool))
    with wave.open(str(path), "wb") as file:
        file.setparams((1, 2, RATE, 0, "NONE", "not compressed"))
        file.writeframes((np.sin(2 * math.pi * 440 * at) * 12_000 * loud).astype("<i2").tobytes())
    return path


class Told:
    """Says a line for each chunk, the same with the prompt and without."""

    name = "told"

    def __init__(self) -> None:
        self.prompts: list[str | None] = []
        self.before_hearing: Callable[[int], None] = lambda calls: None

    def hear(self, samples: NDArray[Any], prompt: str | None) -> tuple[Word, ...]:
        self.before_hearing(len(self.prompts))
        self.prompts.append(prompt)
        words = (FIRST if len(samples) > 7 * RATE else SECOND).split()
        return tuple(Word(word, 0.4 + 0.5 * place, 0.9 + 0.5 * place, 0.9) for place, word in enumerate(words))


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> Told:
    def tone(samples: NDArray[Any]) -> NDArray[Any]:
        frames = np.pad(np.abs(samples), (0, -len(samples) % voicing.FRAME)).reshape(-1, voicing.FRAME)
        return (frames.max(axis=1) > 0.1).astype(np.float32) if len(samples) else np.zeros(0, np.float32)

    one = Told()
    monkeypatch.setattr(voicing, "chances", tone)
    monkeypatch.setattr("haywisp.narration.sound.chunking.chances_of", voicing.chances_of)
    monkeypatch.setattr(listening, "open_recogniser", lambda model: one)
    return one


@pytest.fixture
def session(tmp_path: Path) -> Path:
    return record(tmp_path / "session.wav", (1.0, 9.0), (20.0, 24.0), seconds=26.0)


def flat(text: str) -> str:
    return " ".join(text.split())


def test_a_recording_becomes_a_record(shell: Shell, told: Told, session: Path) -> None:
    out = flat(shell.good("listen", "session.wav", "--words", "out.words.json"))
    assert "Effleurage neck left light" in out
    assert "Left splenius: tight" in out
    assert "Listen again" in out
    assert "0:06-0:09 somebody speaks, and no words were made out" in out
    assert "Wrote 19 words to out.words.json" in out
    kept = json.loads(Path("out.words.json").read_text(encoding="utf-8"))
    assert (kept["complete"], kept["recording"], len(kept["words"])) == (True, "session.wav", 19)
    assert kept["again"][0]["reason"] == "unheard"
    assert "Left splenius: tight" in flat(shell.good("narrate", "out.words.json"))


def test_as_json(shell: Shell, told: Told, session: Path) -> None:
    answer = json.loads(shell.good("listen", "session.wav", "--json"))
    assert answer["complete"] is True
    assert answer["record"]["treatments"][0]["technique"] == "effleurage"
    assert {one["reason"] for one in answer["again"]} == {"unheard"}


def test_the_prompt_is_the_trades_words_or_none(shell: Shell, told: Told, session: Path) -> None:
    shell.good("listen", "session.wav")
    assert [prompt is None for prompt in told.prompts] == [True, False] * 2
    assert "brachiocephalicus" in str(told.prompts[1])
    told.prompts.clear()
    shell.good("listen", "session.wav", "--no-prompt")
    assert told.prompts == [None, None]


def test_stopped_it_keeps_what_was_heard_and_goes_on(shell: Shell, told: Told, session: Path) -> None:
    told.before_hearing = lambda calls: signal.raise_signal(signal.SIGINT) if calls == 1 else None
    stopped = shell("listen", "session.wav", "--work", "kept")
    assert stopped.code == 130
    assert "Left splenius: tight" in flat(stopped.out)
    assert "Stopped at 0:19 of 0:26. What was heard is kept in kept" in flat(stopped.err)
    assert "run the same command again" in flat(stopped.err)
    told.before_hearing = lambda calls: None
    told.prompts.clear()
    whole = shell("listen", "session.wav", "--work", "kept")
    assert len(told.prompts) == 2
    assert "9 seconds were heard before" in flat(whole.err)
    assert "Check again" in whole.out


def test_stopped_twice_it_stops_at_once(shell: Shell, told: Told, session: Path) -> None:
    def twice(calls: int) -> None:
        if calls == 1:
            signal.raise_signal(signal.SIGINT)
            signal.raise_signal(signal.SIGINT)

    told.before_hearing = twice
    before = signal.getsignal(signal.SIGINT)
    stopped = shell("listen", "session.wav")
    assert (stopped.code, stopped.out) == (130, "")
    assert "run the same command again to go on" in flat(stopped.err)
    assert signal.getsignal(signal.SIGINT) is before


def test_silence_is_an_answer(shell: Shell, told: Told, tmp_path: Path) -> None:
    record(tmp_path / "still.wav", seconds=5.0)
    out = flat(shell.good("listen", "still.wav"))
    assert "too quiet to hear anything" in out
    assert "No words were heard in it." in out
    assert json.loads(shell.good("listen", "still.wav", "--json"))["record"] is None


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "odd.wav is empty"),
        (b"%PDF-1.7\n%%EOF\n", "odd.wav is not a sound file that can be read"),
        (b"WEBVTT\n\n00:01.000 --> 00:02.000\nhello\n", "a transcript goes to: haywisp narrate FILE"),
        (b"RIFF\x10\x00\x00\x00WAVE", "odd.wav is damaged: none of its sound can be read"),
    ],
)
def test_what_is_no_sound_is_refused(shell: Shell, told: Told, tmp_path: Path, data: bytes, sentence: str) -> None:
    (tmp_path / "odd.wav").write_bytes(data)
    refused = shell("listen", "odd.wav", "--work", "kept")
    assert (refused.code, refused.out) == (2, "")
    assert sentence in flat(refused.err)
    assert list((tmp_path / "kept").iterdir()) == []


def test_a_file_that_is_not_there(shell: Shell, told: Told) -> None:
    refused = shell("listen", "gone.wav")
    assert refused.code == 2
    assert "gone.wav can't be read: there is no such file" in flat(refused.err)


def test_without_the_extra_it_says_how_to_get_it(shell: Shell, session: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    found = importlib.util.find_spec
    monkeypatch.setattr(
        recogniser.importlib.util, "find_spec", lambda name: None if name == "faster_whisper" else found(name)
    )
    refused = shell("listen", "session.wav")
    assert refused.code == 2
    assert "pip install 'haywisp[speech]'" in flat(refused.err)


def test_a_folder_without_a_model_is_refused(shell: Shell, session: Path, tmp_path: Path) -> None:
    refused = shell("listen", "session.wav", "--model", str(tmp_path))
    assert refused.code == 2
    assert "model.bin and config.json and tokenizer.json missing" in flat(refused.err)
    assert "--model DIR" in flat(refused.err)


def test_the_time_that_it_takes_is_told_first(
    shell: Shell, told: Told, session: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("haywisp.commands.listening.LONG_S", 1.0)
    assert "session.wav: 14 seconds of speech to hear, about 2 seconds on two cores." in flat(
        shell("listen", "session.wav").err
    )


def test_with_a_visit_the_sound_and_what_was_heard_are_kept(shell: Shell, told: Told, session: Path) -> None:
    shell("yard", "add", "Example Farm")
    shell("owner", "add", "Ann Example")
    shell("horse", "add", "Bramble", "--owner", "Ann Example", "--yard", "Example Farm")
    shell("visit", "open", "Bramble", "--day", "2026-01-05")
    kept = shell("listen", "session.wav", "--visit", "Bramble")
    assert (kept.code, "it is the visit's narration" in flat(kept.err)) == (0, True)
    assert "1 bout, 1 finding" in flat(shell.good("visit", "show", "Bramble"))
    assert "session.wav" in flat(shell.good("recordings"))
    sounds = [file for file in session.parent.rglob("*") if file.is_file() and "recordings" in str(file.parent)]
    assert max(file.stat().st_size for file in sounds) == session.stat().st_size


def test_a_visit_that_is_not_there_is_told_before_anything_is_heard(shell: Shell, told: Told, session: Path) -> None:
    nowhere = shell("listen", "session.wav", "--visit", "Nobody")
    assert (nowhere.code, told.prompts) == (2, [])
    assert "There is no visit “Nobody”" in nowhere.err
