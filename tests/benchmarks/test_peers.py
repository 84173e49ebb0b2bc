"""What lists of names make of a narration, and how the forms of the tables are spelled out."""

import importlib.util

import pytest
from forms import Name, forms_of, spelled
from narration_marked import tables, transcript
from peers import gazetteer, spacy_names, spacy_patterns, token_pattern
from plain_names import Hit, record_from

from haywisp.narration.phrases import compile_phrase
from haywisp.narration.understanding import prepared

TEXT = "[0:00] No kneading of the neck. [0:10] Effleurage, then some kneading. [0:20] Poll now, and he yawned."


def test_forms_of_a_phrase() -> None:
    phrase = compile_phrase("long|slow? stroke", "stroking", {}, {})
    assert list(spelled(phrase, 9)) == ["long stroke", "slow stroke", "stroke"]
    assert list(spelled(phrase, 2)) == ["long stroke", "slow stroke"]
    assert list(spelled(compile_phrase("long ~2 stroke", "stroking", {}, {}), 9)) == []


def test_a_phrase_as_a_token_pattern() -> None:
    assert list(token_pattern(compile_phrase("long? ~2 stroke", "stroking", {}, {}))) == [
        {"LOWER": {"IN": ["long"]}, "OP": "?"},
        {"IS_PUNCT": False, "OP": "?"},
        {"IS_PUNCT": False, "OP": "?"},
        {"LOWER": {"IN": ["stroke"]}},
    ]


def test_a_list_of_names_makes_a_record_without_modality() -> None:
    lexicon, _ = prepared(tables())
    heard = transcript(TEXT)
    record = record_from(gazetteer(forms_of(lexicon, 4), lexicon).find(heard), heard, lexicon)
    made = [(bout["technique"], bout["structures"]) for bout in record["treatments"]]
    assert made == [("kneading", ["neck"]), ("effleurage", ["neck"]), ("kneading", ["poll"])]
    assert record["treatments"][0]["end"] == record["treatments"][1]["start"]
    assert [one["sign"] for one in record["responses"]] == ["yawn"]


def test_what_is_found_is_of_the_nearest_structure_and_said_once() -> None:
    lexicon, _ = prepared(tables())
    tight = next(key for key, said in lexicon.said.items() if (said.aspect, said.value) == ("tone", "tight"))
    hits = [Hit(Name("structure", "neck"), 0), *(Hit(Name("aspect", tight), word) for word in (6, 7, 8))]
    found = record_from([*hits, Hit(Name("structure", "poll"), 12)], transcript(TEXT), lexicon)["findings"]
    assert [(one["structure"], one["value"]) for one in found] == [("neck", "tight"), ("poll", "tight")]


@pytest.mark.skipif(importlib.util.find_spec("spacy") is not None, reason="tells what happens without spaCy")
def test_without_spacy_its_peers_are_none() -> None:
    lexicon, _ = prepared(tables())
    assert spacy_names({"neck": Name("structure", "neck")}) is None
    assert spacy_patterns(lexicon) is None
