"""Kept copies of the tables: as the tables are, and never believed when they are not."""

import os
import tomllib
from pathlib import Path

import pytest

from haywisp.knowledge import load_tables
from haywisp.knowledge.kept import toml_of

DATA = b'name = "neck"\nforms = ["neck", "crest\xc3\xa9"]\n[more]\nweight = 0.5\nmany = 3\n'
READ = {"name": "neck", "forms": ["neck", "cresté"], "more": {"weight": 0.5, "many": 3}}


def copies(folder: Path) -> list[Path]:
    return sorted(folder.iterdir())


def test_a_table_is_kept_and_read_from_its_copy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert toml_of(DATA, "en/structures.toml", tmp_path / "kept") == READ
    assert [path.name.split(".")[0] for path in copies(tmp_path / "kept")] == ["en-structures"]

    def parsed_again(text: str) -> dict[str, object]:
        raise AssertionError(f"read again: {text}")

    monkeypatch.setattr(tomllib, "loads", parsed_again)
    assert toml_of(DATA, "en/structures.toml", tmp_path / "kept") == READ


def test_a_table_that_was_changed_is_read_again_and_its_old_copy_goes(tmp_path: Path) -> None:
    toml_of(DATA, "structures.toml", tmp_path)
    assert toml_of(DATA.replace(b"neck", b"poll"), "structures.toml", tmp_path)["name"] == "poll"
    assert len(copies(tmp_path)) == 1
    toml_of(DATA, "en/structures.toml", tmp_path)
    assert len(copies(tmp_path)) == 2


@pytest.mark.parametrize(
    "damage",
    [b"", b"{}", b"\xff\xfe", b"0\n{}", lambda text: text[:-4], lambda text: text.replace(b"0.5", b"0.7")],
)
def test_a_damaged_copy_is_not_believed_and_made_anew(tmp_path: Path, damage: object) -> None:
    toml_of(DATA, "structures.toml", tmp_path)
    (copy,) = copies(tmp_path)
    whole = copy.read_bytes()
    copy.write_bytes(damage(whole) if callable(damage) else damage)
    assert toml_of(DATA, "structures.toml", tmp_path) == READ
    assert copy.read_bytes() == whole


def test_what_json_can_not_hold_is_not_kept(tmp_path: Path) -> None:
    assert "day" in toml_of(b"day = 2026-01-01\n", "flags.toml", tmp_path)
    assert str(toml_of(b"x = nan\n", "flags.toml", tmp_path)["x"]) == "nan"
    assert copies(tmp_path) == []


@pytest.mark.skipif(os.name == "nt", reason="a file in the place of the folder is refused in another way there")
def test_where_nothing_can_be_written_nothing_is_kept(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    assert toml_of(DATA, "structures.toml", tmp_path / "file" / "kept") == READ
    assert toml_of(DATA, "structures.toml", None) == READ


def test_the_tables_are_the_same_from_their_copies(tmp_path: Path) -> None:
    plain = load_tables()
    load_tables("en", None, tmp_path)
    load_tables.cache_clear()
    kept = load_tables("en", None, tmp_path)
    assert len(copies(tmp_path)) > 15
    assert kept.structures == plain.structures
    assert kept.language.tables == plain.language.tables
