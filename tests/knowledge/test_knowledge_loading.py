"""Reading the tables: what they give, and the sentence when they can't be read."""

import shutil
from pathlib import Path

import pytest

from haywisp.knowledge import KnowledgeFault, load_tables, load_weight_formulas
from haywisp.knowledge.loading import DATA


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The tables without any language."""
    for path in DATA.glob("*.toml"):
        shutil.copy(path, tmp_path)
    return tmp_path


def add_words(folder: Path, name: str, text: str, language: str = "en") -> None:
    (folder / language).mkdir(exist_ok=True)
    (folder / language / name).write_text(text, encoding="utf-8")


def test_tables_are_read_once() -> None:
    assert load_tables() is load_tables()


def test_tables_can_not_be_changed() -> None:
    with pytest.raises(TypeError):
        load_tables().structures["splenius"] = load_tables().structures["neck"]  # type: ignore[index]


def test_without_words_spoken_forms_are_empty(folder: Path) -> None:
    tables = load_tables("en", folder)
    assert tables.structures["splenius"].spoken == ()
    assert tables.techniques["kneading"].spoken == ()
    assert tables.language.code == "en"
    assert dict(tables.language.tables) == {}


def test_spoken_forms_come_from_the_language(folder: Path) -> None:
    add_words(folder, "structures.toml", '[forms]\nsplenius = ["splenius", "spleenius"]\n')
    add_words(folder, "techniques.toml", '[forms]\n"skin-rolling" = ["skin rolling"]\n')
    tables = load_tables("en", folder)
    assert tables.structures["splenius"].spoken == ("splenius", "spleenius")
    assert tables.structures["neck"].spoken == ()
    assert tables.techniques["skin-rolling"].spoken == ("skin rolling",)


def test_every_table_of_the_language_is_kept(folder: Path) -> None:
    add_words(folder, "cues.toml", '[modality]\ndone = ["i did"]\n')
    assert load_tables("en", folder).language.tables["cues"] == {"modality": {"done": ["i did"]}}


def test_another_language_is_read_from_its_own_folder(folder: Path) -> None:
    add_words(folder, "structures.toml", '[forms]\nneck = ["hals"]\n', language="nl")
    assert load_tables("nl", folder).structures["neck"].spoken == ("hals",)


@pytest.mark.parametrize("code", ["xx", "..", "", "en/../xx"])
def test_an_unknown_language_is_refused_with_those_there_are(folder: Path, code: str) -> None:
    add_words(folder, "structures.toml", "")
    with pytest.raises(KnowledgeFault, match="there are no words for this language; there are: en"):
        load_tables(code, folder)


@pytest.mark.parametrize(
    ("text", "row", "wrong"),
    [
        ('[forms]\nspleen = ["spleen"]\n', "spleen", "structures.toml has no row of this id"),
        ('[forms]\nsplenius = "splenius"\n', "splenius", "must be a list of texts"),
        ('[forms]\nsplenius = ["  "]\n', "splenius", "must be a list of texts"),
        ("forms = 3\n", "forms", "must be a table of lists"),
        ("forms = [\n", "", "not readable TOML"),
    ],
)
def test_a_mistake_in_the_spoken_forms_is_named(folder: Path, text: str, row: str, wrong: str) -> None:
    add_words(folder, "structures.toml", text)
    with pytest.raises(KnowledgeFault, match=wrong) as fault:
        load_tables("en", folder)
    assert (fault.value.file, fault.value.row) == ("en/structures.toml", row)


def test_a_missing_file_is_named(folder: Path) -> None:
    (folder / "signs.toml").unlink()
    with pytest.raises(KnowledgeFault, match=r"signs\.toml: the file is missing"):
        load_tables("en", folder)


def test_a_folder_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(KnowledgeFault, match=r"structures\.toml: the file is missing"):
        load_tables("en", tmp_path / "nowhere")


def test_bytes_that_are_no_text_are_named(folder: Path) -> None:
    (folder / "signs.toml").write_bytes(b"\xff\xfe")
    with pytest.raises(KnowledgeFault, match=r"signs\.toml: it is not readable TOML"):
        load_tables("en", folder)


def test_the_formulas_of_weight_can_be_read_alone(folder: Path) -> None:
    assert load_weight_formulas() == load_tables().weight_formulas
    path = folder / "weight_formulas.toml"
    path.write_text(path.read_text(encoding="utf-8").replace("divisor = 11900", "divisor = -1"), encoding="utf-8")
    with pytest.raises(KnowledgeFault, match=r"weight_formulas\.toml, row 'carroll-huntington'"):
        load_weight_formulas(folder)
