"""Every id that the knowledge tables know has its words here, and no words are left of ids that they dropped."""

import string
from collections.abc import Mapping

import pytest

from haywisp.knowledge import load_tables
from haywisp.report.phrases import phrases, table
from haywisp.report.wording import entry_sentence

TABLES = load_tables()
WORDS = phrases("en")


@pytest.mark.parametrize(
    ("words", "known"),
    [(WORDS["techniques"], TABLES.techniques), (WORDS["signs"], TABLES.signs), (WORDS["actions"], TABLES.actions)],
    ids=["techniques", "signs", "actions"],
)
def test_each_id_has_its_words(words: Mapping[str, object], known: Mapping[str, object]) -> None:
    assert set(words) == set(known)


def test_each_value_of_each_aspect_has_its_words() -> None:
    assert {aspect: set(values) for aspect, values in WORDS["findings"].items()} == {
        aspect: set(row.values) for aspect, row in TABLES.aspects.items()
    }
    for aspect, values in WORDS["findings_owner"].items():
        assert set(values) <= set(TABLES.aspects[aspect].values)


def test_each_muscle_has_plain_words_and_no_other_words_are_left() -> None:
    muscles = {row.id for row in TABLES.structures.values() if row.group != "regions"}
    assert muscles <= set(WORDS["structures"]) <= set(TABLES.structures)


def test_the_rows_of_the_drawing_are_all_regions() -> None:
    order = table("figure", "en")["head_to_tail"]
    assert sorted(order) == sorted({row.region for row in TABLES.structures.values()})


def test_the_kinds_of_homework_are_all_known() -> None:
    owner = table("owner", "en")
    assert set(owner["homework"]) == set(TABLES.actions)
    assert set(owner["waits"]["kinds"]) <= set(TABLES.actions)


def test_each_technique_makes_a_sentence_for_both_readers() -> None:
    for technique in TABLES.techniques:
        body = {"technique": technique, "structures": ["neck"], "side": "left"}
        assert "left neck" in entry_sentence("bout", body, TABLES)
        assert entry_sentence("bout", body, TABLES, "owner").endswith(", the neck, left")


def test_a_language_without_a_table_falls_back_to_english() -> None:
    assert table("wording", "xx") == WORDS


def test_no_phrase_has_a_slot_without_a_name() -> None:
    def texts(value: object) -> list[str]:
        if isinstance(value, str):
            return [value]
        inner = value.values() if isinstance(value, Mapping) else value if isinstance(value, list) else []
        return [text for one in inner for text in texts(one)]

    for name in ("wording", "owner", "figure", "narrated"):
        for text in texts(table(name, "en")):
            assert all(slot is None or slot for _, slot, _, _ in string.Formatter().parse(text)), text
