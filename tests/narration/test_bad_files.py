"""Odd and broken files from the command line: each is read with what was mended told, or refused with one sentence."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from narration_samples import faults_of, tables

from haywisp.cli import REFUSED, main
from haywisp.exchange import contract_json
from haywisp.narration import read_bytes, understand

CUE = "WEBVTT\n\n00:01.000 --> 00:04.000\nLong strokes down the left side of the neck.\n"
KEYS = {"treatments", "findings", "responses", "actions", "alerts", "questions", "repairs", "problems", "format"}

REFUSED_FILES: dict[str, tuple[bytes, str]] = {
    "empty": (b"", "is empty"),
    "blanks": (b" \r\n\t \n", "is empty"),
    "png": (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x02\x00", "not text"),
    "nuls": (b"\x00" * 4096, "not text"),
    "nul-among-words": (b"the neck\x00 is soft", "not text"),
    "sound": (b"RIFF\x24\x08\x00\x00WAVEfmt " + bytes(range(256)) * 8, "not text"),
    "cut-utf-16": ("the neck".encode("utf-16")[:-1], "does not fit"),
    "too-large": (b"the neck is soft " * (2 * 1024 * 1024), "larger than"),
    "more-than-a-day": (b"the neck is soft\n" * 25_001, "more than 100,000 words"),
    "a-log-file": (b"the neck is soft\n" * 500_000, "more than 100,000 words"),
    "truncated-json": (b'[{"text": "the", "start": 1.0, "end": 1.2}, {"text": "ne', "breaks off"),
    "deep-json": (b"[" * 100_000 + b"]" * 100_000, "nested too deeply"),
    "deep-json-objects": (b'{"words":' * 100_000, "nested too deeply"),
    "json-of-another-kind": (b'{"name": "Bramble", "age": 9}', "no list of words"),
    "json-of-text": (b'["the", "neck"]', "no spoken words"),
    "endless-number": (b'[{"text": "a", "start": ' + b"9" * 5000 + b"}]", "thousands of digits"),
    "cues-without-text": (
        b"1\n00:00:01,000 --> 00:00:02,000\n\n2\n00:00:03,000 --> 00:00:04,000\n\n",
        "no spoken words",
    ),
    "header-only": (b"WEBVTT\n", "no spoken words"),
}

MENDED_FILES: dict[str, tuple[bytes, str]] = {
    "utf-16": (CUE.encode("utf-16"), ""),
    "utf-16-without-mark": (CUE.encode("utf-16-le"), "read as UTF-16"),
    "utf-8-mark": (CUE.encode("utf-8-sig"), ""),
    "windows-1252": (CUE.replace("neck", "señora's neck").encode("cp1252"), "read as Windows-1252"),
    "overlaps": (CUE.encode() + b"\n00:02.000 --> 00:05.000\nThe poll is tight.\n", "overlaps the next"),
    "backwards": (CUE.encode() + b"\n00:00.100 --> 00:00.900\nGood boy.\n", "go backwards"),
    "end-before-start": (CUE.replace("04.000", "00.500").encode(), "ends before it starts"),
    "arrow-in-speech": (CUE.replace("left side", "left --> side").encode(), ""),
    "broken-times": (CUE.encode() + b"\n00:0:0:9 --> what\nThe poll is tight.\n", "can't be read"),
    "text-outside": (CUE.encode() + b"\nThe poll is tight.\n", "left out"),
    "no-times": (b"Long strokes down the left side of the neck.", "no times in this text"),
    "json-times": (
        json.dumps(
            [
                {"text": "long", "start": -1, "end": 2},
                {"text": "strokes", "start": float("nan"), "end": float("inf")},
                {"text": "the", "start": 10**400, "end": 3},
                {"text": "neck", "start": 9, "end": 3},
            ]
        ).encode(),
        "no usable times",
    ),
    "halves-of-letters": (b'[{"text": "neck\\ud83d", "start": 1, "end": 2}]', ""),
    "hours": (CUE.replace("00:01.000", "04:59:01.000").replace("00:04.000", "05:00:04.000").encode(), "5.0 hours"),
    "control-character": (CUE.encode().replace(b"neck", b"ne\x07ck"), ""),
    "one-letter": (b"a", "no times in this text"),
    "marks-only-of-speech": ("… — ?! ♪".encode(), "no times in this text"),
}


@pytest.fixture
def told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> Callable[..., tuple[int, str, str]]:
    """Runs ``haywisp narrate`` over some bytes: its exit code, output and errors."""

    def run(data: bytes, *options: str) -> tuple[int, str, str]:
        file = tmp_path / "told.txt"
        file.write_bytes(data)
        monkeypatch.setattr(sys, "argv", ["haywisp", "narrate", str(file), *options])
        try:
            main()
            code = 0
        except SystemExit as end:
            code = int(end.code or 0)
        captured = capsys.readouterr()
        return code, captured.out, captured.err

    return run


@pytest.mark.parametrize("name", REFUSED_FILES)
def test_what_cannot_be_read_is_refused_with_one_sentence(name: str, told: Callable[..., tuple[int, str, str]]) -> None:
    data, why = REFUSED_FILES[name]
    for form in ("text", "json"):
        code, out, err = told(data, "--format", form)
        assert (code, out) == (REFUSED, "")
        assert err.startswith(("haywisp: told.txt: ", "haywisp: told.txt is larger"))
        assert why in err
        assert err.count("\n") == 1
        assert err.rstrip().endswith(".")


@pytest.mark.parametrize("name", MENDED_FILES)
def test_what_can_be_mended_is_read_and_told(name: str, told: Callable[..., tuple[int, str, str]]) -> None:
    data, why = MENDED_FILES[name]
    code, out, err = told(data, "--format", "json")
    assert (code, err) == (0, "")
    assert set(json.loads(out)) == KEYS
    problems = [problem.text for problem in contract_json.read(out).problems]
    assert any(why in problem for problem in problems) if why else not problems
    for form in ("text", "html"):
        code, out, err = told(data, "--format", form)
        assert (code, err) == (0, "")
        assert len(out) > 40


@pytest.mark.parametrize("name", [name for name in MENDED_FILES if name.startswith(("utf", "win", "arrow", "control"))])
def test_a_mended_file_keeps_its_words(name: str) -> None:
    transcript = read_bytes(MENDED_FILES[name][0], "told.vtt")
    assert len(transcript.words) in {9, 10}
    assert transcript.words[0].text == "Long"


def test_a_talk_without_a_horse_is_an_empty_record(told: Callable[..., tuple[int, str, str]]) -> None:
    talk = b"[0:00] We booked a table for four and the soup was cold.\n[0:09] The train home was late again."
    code, out, err = told(talk, "--format", "json")
    assert (code, err) == (0, "")
    record = contract_json.read(out)
    assert (record.treatments, record.findings, record.responses, record.actions) == ((), (), (), ())
    assert record.problems == ()


def test_a_transcript_of_five_hours_is_read_whole() -> None:
    lines = ["WEBVTT", ""]
    for number in range(3600):
        at = number * 5
        start, end = (f"{t // 3600:02}:{t // 60 % 60:02}:{t % 60:02}.000" for t in (at, at + 4))
        side = "left" if number % 2 else "right"
        lines += [f"{start} --> {end}", f"Long strokes down the {side} side of the neck. Good boy.", ""]
    transcript = read_bytes("\n".join(lines).encode(), "told.vtt")
    narration = understand(transcript, tables())
    assert len(transcript.words) == 3600 * 11
    assert transcript.words[-1].end == 17999.0
    assert [problem.where for problem in transcript.problems] == ["whole file"]
    assert narration.bouts != ()
    assert faults_of(narration) == []


def test_the_real_command_answers_with_code_two_and_one_line(tmp_path: Path) -> None:
    (tmp_path / "told.vtt").write_bytes(b"\x00\x01\x02")
    done = subprocess.run(
        [sys.executable, "-m", "haywisp", "narrate", "told.vtt"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONWARNINGS": "error"},
        capture_output=True,
        check=False,
        text=True,
    )
    assert (done.returncode, done.stdout) == (REFUSED, "")
    assert done.stderr.startswith("haywisp: told.vtt: this is not text")
    assert done.stderr.count("\n") == 1
