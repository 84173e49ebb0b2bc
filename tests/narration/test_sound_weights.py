"""Three narrations read out by a voice go from sound to record with the real weights and no network.

The floors are under what was measured (benchmarks/sound); they are what a change must not push the ear below.
"""

import json
import socket
import subprocess
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import scoring
from hearing_scores import HearingScore, dropped, flagged, score
from sound_needs import speech, voices
from speaking import Reading, espeak, read_out

from haywisp.exchange import contract_json
from haywisp.knowledge import load_tables
from haywisp.narration import Word, understand
from haywisp.narration.sound import (
    Heard,
    NoModel,
    chunks,
    hear_chunk,
    listen,
    open_recogniser,
    prepare,
    trade_prompt,
)
from haywisp.narration.sound.guarding import guarded
from haywisp.narration.sound.recogniser import WEIGHTS_SHA256, embedded_folder, sha256_of
from haywisp.narration.sound.voicing import voice_between
from haywisp.narration.sound.working_file import samples

# One process hears the sessions, not each of them.
pytestmark = [*speech, *voices, pytest.mark.xdist_group("weights")]
TABLES = load_tables()
NAMES = ("k01", "k02", "k03")


@dataclass(frozen=True)
class Session:
    reading: Reading
    heard: Heard
    record: dict[str, Any]


@pytest.fixture(scope="module")
def no_network() -> Iterator[list[str]]:
    """What tries to reach another machine, as Python tells it; a hook can't be taken away again, so it is silenced."""
    tried: list[str] = []
    watching = [True]

    def watch(event: str, arguments: tuple[Any, ...]) -> None:
        if watching and event in {"socket.connect", "socket.getaddrinfo", "socket.gethostbyname", "socket.sendto"}:
            tried.append(f"{event} {arguments[-1]}")

    sys.addaudithook(watch)
    yield tried
    watching.clear()


@pytest.fixture(scope="module")
def sessions(no_network: list[str], tmp_path_factory: pytest.TempPathFactory) -> list[Session]:
    folder = tmp_path_factory.mktemp("sessions")
    found = []
    for name in NAMES:
        reading = read_out(name, espeak("en-gb", 150), folder / f"{name}.wav")
        heard = listen(reading.path, folder / "work", None, TABLES)
        record = json.loads(contract_json.write(understand(heard.transcript, TABLES)))
        found.append(Session(reading, heard, record))
    return found


def test_every_dropped_passage_is_listened_to_again(sessions: list[Session]) -> None:
    for session in sessions:
        for passage in dropped(session.reading, session.heard.transcript.words):
            assert flagged(passage, session.heard.again), passage


def test_words_and_trade_words_are_heard(sessions: list[Session]) -> None:
    total = HearingScore()
    for session in sessions:
        total += score(session.reading, session.heard.transcript.words, session.heard.again, TABLES)
    assert total.word_errors / total.words < 0.35
    assert total.trade_heard / total.trade_said > 0.55


@pytest.mark.parametrize(("part", "floor"), [("findings", 0.5), ("treatments", 0.5), ("responses", 0.6)])
def test_the_record_is_that_of_the_session(sessions: list[Session], part: str, floor: float) -> None:
    right = wanted = given = 0
    for session in sessions:
        gold, record = session.reading.gold[part], session.record[part]
        right += len(scoring.best_pairs(gold, record, scoring.PARTS[part]))
        wanted += len(gold)
        given += len(record)
    assert scoring.f1(right, wanted, given) >= floor


def test_little_is_flagged_for_no_reason(sessions: list[Session]) -> None:
    """Who has to listen to everything again was not helped."""
    flagged_s = sum(one.end - one.start for session in sessions for one in session.heard.again)
    assert flagged_s < 0.15 * sum(session.heard.sound.seconds for session in sessions)


def test_nothing_reached_for_the_network(sessions: list[Session], no_network: list[str]) -> None:
    assert no_network == []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        probe.connect(("127.0.0.1", 9))
    assert len(no_network) == 1


def test_the_libraries_below_hold_no_way_to_report_home() -> None:
    """Sockets that compiled code opens are not seen by Python: the address of the makers must not be in it at all."""
    import onnxruntime

    compiled = [*Path(onnxruntime.__file__).parent.rglob("*.so*"), *Path(onnxruntime.__file__).parent.rglob("*.pyd")]
    assert compiled
    for path in compiled:
        data = path.read_bytes()
        assert b"events.data." not in data
        assert b"ORT_DISABLE_TELEMETRY" not in data


def test_a_library_that_would_report_home_is_told_not_to() -> None:
    """What compiled code finds in its environment when the detector is loaded, asked in a process of its own."""
    code = (
        "import ctypes, numpy\n"
        "from haywisp.narration.sound.voicing import chances\n"
        "chances(numpy.ones(512, numpy.float32))\n"
        "find = ctypes.CDLL(None).getenv\n"
        "find.restype = ctypes.c_char_p\n"
        "print(find(b'ORT_DISABLE_TELEMETRY'))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120, check=True)
    assert done.stdout.strip() == "b'1'"


def test_the_embedded_weights_are_the_ones_that_were_measured(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert sha256_of(embedded_folder() / "model.bin") == WEIGHTS_SHA256
    monkeypatch.setattr("haywisp.narration.sound.recogniser.WEIGHTS_SHA256", "0" * 64)
    with pytest.raises(NoModel, match="is not the one that Haywisp was tested with"):
        open_recogniser()


def test_a_prompt_that_makes_the_recogniser_swallow_words_does_not_lose_them(
    sessions: list[Session], tmp_path: Path
) -> None:
    """Told the first sentence as a prompt, these weights take it as heard and leave it out."""
    reading = sessions[0].reading
    prompt = "Okay, this is Marigold, a bay mare, nine years old."
    recogniser = open_recogniser()
    sound = prepare(reading.path, tmp_path / "work.wav")
    first = chunks(sound)[0]
    swallowed = recogniser.hear(samples(sound, first.start, first.end), prompt)
    assert "nine" not in text_of(swallowed)
    heard = hear_chunk(sound, first, recogniser, prompt)
    assert "nine" in text_of(heard.words)
    assert [one.reason for one in heard.again if one.start < reading.lines[0].start + 2.0] == ["dropped"]
    assert next(one for one in heard.again if one.reason == "dropped").end > 3.0


def test_where_a_passage_is_cut_out_of_both_passes_it_is_told(sessions: list[Session], tmp_path: Path) -> None:
    """The real words of a session without those of one line: the line is told, by the voice that is heard there."""
    session = sessions[1]
    sound = prepare(session.reading.path, tmp_path / "work.wav")
    for line in session.reading.lines[4:8]:
        kept = [word for word in session.heard.transcript.words if not line.start - 0.3 < word.start < line.end + 0.3]
        for chunk in chunks(sound):
            if chunk.start < line.start and line.end < chunk.end:
                inside = [word for word in kept if chunk.start <= word.start < chunk.end]
                voice = voice_between(sound, chunk.start, chunk.end)
                told = guarded(chunk, voice, inside, inside, trade_prompt(TABLES)).again
                middle = (line.start + line.end) / 2
                assert any(one.reason == "unheard" and one.start < middle < one.end for one in told)


def text_of(words: Iterable[Word]) -> str:
    return " ".join(word.text.lower() for word in words)


def test_the_same_sound_gives_the_same_words(sessions: list[Session], tmp_path: Path) -> None:
    recogniser = open_recogniser(embedded_folder())
    sound = prepare(sessions[0].reading.path, tmp_path / "work.wav")
    first = chunks(sound)[1]
    prompt = trade_prompt(TABLES)
    one, two = (hear_chunk(sound, first, recogniser, prompt) for _ in range(2))
    assert one == two
    assert one.words
