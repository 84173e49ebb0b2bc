"""A shell whose database is a file of the test's own, and whose ear hears the test's narration."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from told import Shell, listen

from haywisp import bootstrap
from haywisp.usecases.app import App


@pytest.fixture
def shell(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Shell:
    build = bootstrap.build

    def with_ear(url: str | None = None, **options: Any) -> App:
        return replace(build(url, **options), listen=listen)

    monkeypatch.setattr(bootstrap, "build", with_ear)
    monkeypatch.setenv("HAYWISP_DATABASE", f"sqlite:///{(tmp_path / 'haywisp.db').as_posix()}")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.chdir(tmp_path)
    (tmp_path / "told.vtt").write_text("WEBVTT", encoding="utf-8")
    return Shell(monkeypatch, capsys)


@pytest.fixture
def stable(shell: Shell) -> Shell:
    """The shell with a horse and a visit to it that is heard."""
    shell.good("owner", "add", "Ann Example")
    shell.good("yard", "add", "Example Farm")
    shell.good("horse", "add", "Bramble", "--owner", "ann example", "--yard", "Example Farm", "--born", "2015")
    shell.good("visit", "open", "Bramble", "--day", "2026-01-05")
    shell.good("visit", "hear", "Bramble", "told.vtt")
    return shell
