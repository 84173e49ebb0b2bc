"""The tables that come with Haywisp: complete, each file with its header and each row with its source."""

import json
from pathlib import Path

import pytest

from haywisp.knowledge import Tables, load_tables
from haywisp.knowledge.listing import TABLES
from haywisp.knowledge.loading import DATA

VOCABULARY = json.loads((Path(__file__).parent / "vocabulary.json").read_text(encoding="utf-8"))
FILES = sorted(DATA.glob("*.toml"))


@pytest.fixture(scope="module")
def tables() -> Tables:
    return load_tables()


def test_structures_are_those_of_the_vocabulary_in_their_groups(tables: Tables) -> None:
    groups: dict[str, list[str]] = {}
    for row in tables.structures.values():
        groups.setdefault(row.group, []).append(row.id)
    assert groups == VOCABULARY["structures"]


def test_techniques_are_those_of_the_vocabulary(tables: Tables) -> None:
    assert sorted(tables.techniques) == sorted(VOCABULARY["techniques"])


def test_aspects_and_their_values_are_those_of_the_vocabulary(tables: Tables) -> None:
    values = {row.id: sorted(row.values) for row in tables.aspects.values()}
    assert values == {aspect: sorted(values) for aspect, values in VOCABULARY["aspects"].items()}


@pytest.mark.parametrize("direction", ["settling", "guarding"])
def test_signs_are_those_of_the_vocabulary(tables: Tables, direction: str) -> None:
    signs = [row.id for row in tables.signs.values() if row.direction == direction]
    assert sorted(signs) == sorted(VOCABULARY["signs"][direction])


def test_actions_are_those_of_the_vocabulary(tables: Tables) -> None:
    assert sorted(tables.actions) == sorted(VOCABULARY["actions"])


def test_there_is_a_file_for_every_table() -> None:
    assert [path.stem for path in FILES] == sorted([*TABLES, "figure"])


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_file_begins_with_its_purpose_and_units(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").splitlines()
    header = [line for line in lines[:8] if line.startswith("#")]
    assert header[0].startswith("# Purpose: ")
    assert any(line.startswith("# Units: ") for line in header)


@pytest.mark.parametrize("name", TABLES)
def test_the_source_of_every_row_is_of_a_known_sort(tables: Tables, name: str) -> None:
    sorts = ("common practice", "from memory", "wikivet", "taught position", "et al.", "secondary", " 19", " 20")
    for row in getattr(tables, name).values():
        assert any(sort in row.source.lower() for sort in sorts), (row.id, row.source)


def test_the_midline_has_no_left_and_right(tables: Tables) -> None:
    midline = {row.id for row in tables.structures.values() if not row.paired}
    assert midline == {"nuchal-ligament", "crest", "withers", "topline", "tail", "belly"}


@pytest.mark.parametrize(
    "finding",
    [
        "tone:tight",
        "tone:slack",
        "texture:knotted",
        "texture:fibrous",
        "mobility:restricted",
        "spasm:present",
        "tenderness:present",
        "development:under",
        "development:over",
        "warmth:cool",
    ],
)
def test_what_hands_can_help_is_helped_by_two_techniques_or_more(tables: Tables, finding: str) -> None:
    assert sum(finding in row.helps for row in tables.techniques.values()) >= 2


@pytest.mark.parametrize("finding", ["skin:wound", "skin:rub", "skin:lump"])
def test_no_technique_claims_to_help_the_skin(tables: Tables, finding: str) -> None:
    assert not any(finding in row.helps for row in tables.techniques.values())


def test_usual_values_need_no_help(tables: Tables) -> None:
    usual = {f"{row.id}:{row.usual}" for row in tables.aspects.values()}
    assert not any(usual & row.helps.keys() for row in tables.techniques.values())
