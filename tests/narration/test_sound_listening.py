"""The loop over a recording: kept as it goes, stopped and gone on with, and never a passage lost in silence."""

import json
import shutil
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from sound_files import beep, write_sound
from sound_needs import speech, voices
from speaking import Reading, espeak, read_out

from haywisp.knowledge import load_tables
from haywisp.narration import Word
from haywisp.narration.sound import (
    Again,
    Chunk,
    ChunkHeard,
    Heard,
    Recogniser,
    assemble,
    chunks,
    hear_chunk,
    listen,
    prepare,
)
from haywisp.narration.sound.errors import NoModel
from haywisp.narration.sound.listening import read_heard
from haywisp.narration.sound.recogniser import open_recogniser
from haywisp.narration.sound.voicing import voice_between

pytestmark = [*speech, *voices]
TABLES = load_tables()
PROMPT = "effleurage, splenius."


@dataclass
class Scripted:
    """A recogniser that knows what is said: it finds where it is by the samples, and can be told what to leave out."""

    reading: Reading
    chunks: Sequence[Chunk]
    lost: tuple[float, float] = (0.0, 0.0)
    lost_with_prompt: tuple[float, float] = (0.0, 0.0)
    name: str = "scripted"
    calls: list[str | None] = field(default_factory=list)
    at: int = -1

    def hear(self, samples: NDArray[Any], prompt: str | None) -> tuple[Word, ...]:
        if not self.calls or prompt is None:
            self.at += 1
        self.calls.append(prompt)
        chunk = self.chunks[self.at]
        gaps = [self.lost, *([self.lost_with_prompt] if prompt else [])]
        return tuple(
            Word(text, max(0.0, start - chunk.start), end - chunk.start)
            for text, start, end in self.reading.words()
            if chunk.start <= (start + end) / 2 < chunk.end
            and not any(first < end and start < last for first, last in gaps)
        )


@pytest.fixture(scope="module")
def reading(tmp_path_factory: pytest.TempPathFactory) -> Reading:
    return read_out("k01", espeak(), tmp_path_factory.mktemp("reading") / "k01.wav")


@pytest.fixture(scope="module")
def working(reading: Reading, tmp_path_factory: pytest.TempPathFactory) -> Any:
    sound = prepare(reading.path, tmp_path_factory.mktemp("working") / "work.wav")
    return sound, chunks(sound)


def heard_by(recogniser: Recogniser, source: Path, folder: Path, **options: Any) -> Heard:
    return listen(source, folder, None, TABLES, opened=lambda model: recogniser, **options)


def test_a_recording_is_heard_from_beginning_to_end(reading: Reading, working: Any, tmp_path: Path) -> None:
    told: list[tuple[float, float]] = []
    scripted = Scripted(reading, working[1])
    heard = heard_by(scripted, reading.path, tmp_path, on_progress=lambda *row: told.append(row))
    assert [word.text for word in heard.transcript.words] == [text for text, _, _ in reading.words()]
    assert (heard.again, heard.complete, heard.heard_until) == ((), True, heard.sound.seconds)
    assert len(scripted.calls) == 2 * len(working[1])
    assert told[0][0] == 0
    assert told[-1][0] == pytest.approx(told[-1][1])
    assert sorted(done for done, _ in told) == [done for done, _ in told]


def test_stopped_and_asked_again_it_hears_only_the_rest(reading: Reading, working: Any, tmp_path: Path) -> None:
    first = Scripted(reading, working[1])
    part = heard_by(first, reading.path, tmp_path, cancelled=lambda: len(first.calls) >= 6)
    assert (part.complete, part.heard_until) == (False, working[1][3].start)
    assert 0 < len(part.transcript.words) < len(reading.words())
    second = Scripted(reading, working[1], at=2)
    second.calls.append("went on")
    whole = heard_by(second, reading.path, tmp_path)
    assert [word.text for word in whole.transcript.words] == [text for text, _, _ in reading.words()]
    assert len(second.calls) - 1 == 2 * (len(working[1]) - 3)


def test_a_line_that_a_crash_cut_short_is_heard_again(reading: Reading, working: Any, tmp_path: Path) -> None:
    heard_by(Scripted(reading, working[1]), reading.path, tmp_path)
    kept = next(tmp_path.glob("*/heard.jsonl"))
    kept.write_bytes(kept.read_bytes()[:-40])
    assert len(list(read_heard(kept))) == len(working[1]) - 1
    second = Scripted(reading, working[1], at=len(working[1]) - 2)
    second.calls.append("went on")
    whole = heard_by(second, reading.path, tmp_path)
    assert len(second.calls) == 3
    assert [word.text for word in whole.transcript.words] == [text for text, _, _ in reading.words()]
    assert len(list(read_heard(kept))) == len(working[1])


def test_the_same_recording_under_another_name_is_not_heard_again(
    reading: Reading, working: Any, tmp_path: Path
) -> None:
    heard_by(Scripted(reading, working[1]), reading.path, tmp_path / "work", tidy=True)
    assert list((tmp_path / "work").glob("*/sound.wav")) == []
    shutil.copy(reading.path, tmp_path / "other.wav")
    again = Scripted(reading, working[1])
    whole = heard_by(again, tmp_path / "other.wav", tmp_path / "work", tidy=True)
    assert again.calls == []
    assert len(whole.transcript.words) == len(reading.words())


def test_other_weights_or_another_prompt_hear_anew(reading: Reading, working: Any, tmp_path: Path) -> None:
    heard_by(Scripted(reading, working[1]), reading.path, tmp_path)
    heard_by(Scripted(reading, working[1], name="others"), reading.path, tmp_path)
    heard_by(Scripted(reading, working[1]), reading.path, tmp_path, own_words=["bobbling"])
    plain = Scripted(reading, working[1])
    heard_by(plain, reading.path, tmp_path, prompted=False)
    assert set(plain.calls) == {None}
    assert len(list(tmp_path.iterdir())) == 4


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.floats(0, 118), st.floats(1.5, 20))
def test_a_passage_that_both_passes_drop_is_flagged(
    reading: Reading, working: Any, start: float, length: float
) -> None:
    sound, made = working
    gap = (start, start + length)
    said = [word for word in reading.words() if word[1] < gap[1] and gap[0] < word[2]]
    for place, chunk in touched(made, gap):
        heard = hear_chunk(sound, chunk, Scripted(reading, made, lost=gap, at=place - 1), PROMPT)
        assert not set(said) & {(word.text, word.start, word.end) for word in heard.words}
        for first, last in voice_between(sound, chunk.start, chunk.end):
            bare = max(first, said[0][1]) if said else 0.0, min(last, said[-1][2]) if said else 0.0
            if bare[1] - bare[0] >= 1.5:
                assert any(one.start <= bare[0] + 0.05 and bare[1] - 0.05 <= one.end for one in heard.again)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.floats(0, 118), st.floats(1.5, 20))
@example(39.5, 2.0)  # "kneading [the splenius, light.] The splenius": the same words before and behind the gap
def test_a_passage_that_only_the_prompt_drops_comes_back_and_is_flagged(
    reading: Reading, working: Any, start: float, length: float
) -> None:
    sound, made = working
    gap = (start, start + length)
    for place, chunk in touched(made, gap):
        inside = [row for row in reading.words() if chunk.start <= (row[1] + row[2]) / 2 < chunk.end]
        heard = hear_chunk(sound, chunk, Scripted(reading, made, lost_with_prompt=gap, at=place - 1), PROMPT)
        assert [word.text for word in heard.words] == [text for text, _, _ in inside]
        lost = "".join(text for text, begin, end in inside if begin < gap[1] and gap[0] < end)
        if len(lost) > 12:
            assert any(one.reason == "dropped" and one.start < gap[1] and gap[0] < one.end for one in heard.again)


def touched(made: Sequence[Chunk], gap: tuple[float, float]) -> list[tuple[int, Chunk]]:
    return [(place, chunk) for place, chunk in enumerate(made) if chunk.start < gap[1] and gap[0] < chunk.end]


def test_what_was_heard_in_silence_is_left_out(tmp_path: Path) -> None:
    """Recognisers thank their viewers when nobody speaks."""
    sound = prepare(write_sound(tmp_path / "a.wav", "wav", beep(22_050, 8.0, 1.0, 1.1)), tmp_path / "work.wav")

    class Chatty:
        name = "chatty"

        def hear(self, samples: NDArray[Any], prompt: str | None) -> tuple[Word, ...]:
            return (Word("Thank", 5.0, 5.3), Word("you.", 5.3, 5.6))

    assert hear_chunk(sound, Chunk(0.0, 8.0), Chatty(), "splenius.").words == ()


def test_a_silent_recording_has_no_words_and_no_fault(tmp_path: Path) -> None:
    source = write_sound(tmp_path / "a.wav", "wav", np.zeros(66_150, np.int16))
    told: list[tuple[float, float]] = []

    class Never:
        name = "never"

        def hear(self, samples: NDArray[Any], prompt: str | None) -> tuple[Word, ...]:
            raise AssertionError

    heard = heard_by(Never(), source, tmp_path / "work", on_progress=lambda *row: told.append(row))
    assert (heard.transcript.words, heard.again, heard.complete) == ((), (), True)
    assert "too quiet" in heard.transcript.problems[0].text
    assert told == [(0, 0)]


def test_what_was_heard_is_kept_as_json() -> None:
    one = ChunkHeard(Chunk(1.0, 9.5), (Word("so", 1.5, 1.75, 0.5), Word("neck", 2.0, 2.25)), (Again(3.0, 5.0, "loop"),))
    assert ChunkHeard.from_json(json.loads(json.dumps(one.to_json()))) == one


def test_chunks_in_any_order_and_twice_make_one_transcript() -> None:
    first = ChunkHeard(Chunk(0.0, 5.0), (Word("so", 1.0, 1.5),))
    second = ChunkHeard(Chunk(8.0, 9.0), (Word("neck", 8.0, 8.5),), (Again(8.5, 9.0, "unheard"),))
    transcript, again = assemble([second, first, second])
    assert [(word.text, word.cue) for word in transcript.words] == [("so", 0), ("neck", 1)]
    assert again == second.again


def test_a_model_that_is_not_one_is_refused_in_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(NoModel, match=r"model\.bin and config\.json and tokenizer\.json missing\. Install"):
        open_recogniser(tmp_path)
    for name in ("model.bin", "config.json", "tokenizer.json"):
        (tmp_path / name).write_text("{}")
    with pytest.raises(NoModel, match="can't be opened"):
        open_recogniser(tmp_path)
