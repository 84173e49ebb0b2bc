"""What the tables give to forms and to someone who asks."""

import pytest
from fakes import fake_app

from haywisp.usecases import NotFound, Refused
from haywisp.usecases.forms import plain, vocabulary
from haywisp.usecases.knowing import known
from haywisp.usecases.wording import label


def test_the_vocabulary_has_every_id_of_the_tables_once() -> None:
    tables = fake_app().tables()
    words = vocabulary(tables)

    structures = [option.value for group in words.structures for option in group.options]
    assert sorted(structures) == sorted(tables.structures)
    assert [option.value for option in words.techniques] == list(tables.techniques)
    assert {key: tuple(option.value for option in row) for key, row in words.values.items()} == {
        key: aspect.values for key, aspect in tables.aspects.items()
    }
    labels = [option.label for group in words.structures for option in group.options]
    assert all(text[0].isupper() for text in labels)
    assert len(set(labels)) == len(labels)


def test_texts_of_a_form_become_plain_values() -> None:
    given = {"structures": " neck , poll ,, neck", "side": "None", "passes": " 5 ", "pressure": ""}

    assert plain("bout", given) == {"structures": ["neck", "poll"], "side": None, "passes": 5, "pressure": None}
    with pytest.raises(Refused, match="A finding has no “passes”"):
        plain("finding", {"passes": "5"})
    with pytest.raises(Refused, match="nothing"):
        plain("gossip", {})


def test_what_no_table_names_reads_as_words() -> None:
    assert label({}, "some-new_thing") == "Some new thing"


def test_known_gives_exact_ids_alone_and_else_what_is_called_so() -> None:
    tables = fake_app().tables()

    assert [one.id for one in known(tables, "Neck ")] == ["neck"]
    assert "masseter" in {one.id for one in known(tables, "cheek")}
    assert len(known(tables)) > len(tables.structures)
    with pytest.raises(NotFound, match="haywisp know"):
        known(tables, "no such thing")
