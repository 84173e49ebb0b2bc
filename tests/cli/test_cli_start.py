"""What starting the command line costs, and what it says of itself."""

import json
import subprocess
import sys
from pathlib import Path

from told import Shell

import haywisp
from haywisp import bootstrap

HEAVY = ("sqlalchemy", "alembic", "scipy", "numpy", "fastapi", "uvicorn", "typst", "jinja2", "rapidfuzz", "pydantic")


def test_help_loads_nothing_heavy() -> None:
    code = f"import sys, haywisp.cli; print([name for name in {HEAVY!r} if name in sys.modules])"

    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"


def test_help_and_version(shell: Shell) -> None:
    assert "never diagnoses" in " ".join(shell.good("--help").split())
    assert shell.good("--version") == f"haywisp {haywisp.__version__}\n"


def test_the_module_is_the_command_line() -> None:
    run = subprocess.run([sys.executable, "-m", "haywisp", "--version"], capture_output=True, text=True, check=True)

    assert run.stdout == f"haywisp {haywisp.__version__}\n"


def test_a_reader_that_stops_early_is_no_fault() -> None:
    code = "import sys; sys.argv = ['haywisp', 'know', '--json']; from haywisp.cli import main; main()"
    run = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert run.stdout is not None
    assert run.stderr is not None
    run.stdout.read(1)
    run.stdout.close()

    assert run.stderr.read() == b""
    run.stderr.close()
    run.wait()


def test_the_data_folder_is_the_platforms_own(tmp_path: Path) -> None:
    absolute = str(tmp_path)

    assert bootstrap.data_folder({"XDG_DATA_HOME": absolute}, "linux", tmp_path) == tmp_path / "haywisp"
    assert bootstrap.data_folder({"XDG_DATA_HOME": "x"}, "linux", tmp_path) == tmp_path / ".local/share/haywisp"
    assert bootstrap.data_folder({}, "darwin", tmp_path) == tmp_path / "Library/Application Support/Haywisp"
    assert bootstrap.data_folder({"LOCALAPPDATA": absolute}, "win32", tmp_path) == tmp_path / "Haywisp"


def test_the_cache_folder_is_the_platforms_own_or_the_one_named(tmp_path: Path) -> None:
    absolute = str(tmp_path)

    assert bootstrap.cache_folder({"XDG_CACHE_HOME": absolute}, "linux", Path("x")) == tmp_path / "haywisp"
    assert bootstrap.cache_folder({"XDG_CACHE_HOME": "x"}, "linux", tmp_path) == tmp_path / ".cache/haywisp"
    assert bootstrap.cache_folder({}, "darwin", tmp_path) == tmp_path / "Library/Caches/Haywisp"
    assert bootstrap.cache_folder({"LOCALAPPDATA": absolute}, "win32", Path("x")) == tmp_path / "Haywisp/Cache"
    assert bootstrap.cache_folder({"HAYWISP_CACHE": absolute}, "linux", Path("x")) == tmp_path
    assert bootstrap.cache_folder({"HAYWISP_CACHE": ""}, "linux", tmp_path) is None


def test_a_narration_is_understood_without_a_database(shell: Shell, tmp_path: Path) -> None:
    told = "WEBVTT\n\n00:01.000 --> 00:09.000\nEffleurage down the left side of the neck, five passes, light.\n"
    (tmp_path / "told.vtt").write_text(told, encoding="utf-8")

    assert "Effleurage" in shell.good("narrate", "told.vtt")
    treatment = json.loads(shell.good("narrate", "told.vtt", "--format", "json"))["treatments"][0]
    assert (treatment["technique"], treatment["structures"], treatment["side"]) == ("effleurage", ["neck"], "left")
    assert "</html>" in shell.good("narrate", "told.vtt", "--format", "html")
    assert not (tmp_path / "haywisp.db").exists()


def test_a_narration_that_cannot_be_read_ends_with_two_and_one_sentence(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "sound.vtt").write_bytes(b"RIFF\x00\x00\x00\x00WAVE")

    outcome = shell("narrate", "sound.vtt")

    assert (outcome.code, outcome.out) == (2, "")
    assert "sound.vtt: this is not text" in outcome.err
