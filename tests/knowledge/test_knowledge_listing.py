"""What the tables say of an id, and finding an id by what people call it."""

import pytest

from haywisp.knowledge import describe, find, ids, load_tables
from haywisp.knowledge.listing import TABLES


def test_a_muscle_is_described_with_its_anatomy_and_what_may_be_done() -> None:
    (found,) = describe(load_tables(), "gluteus-medius")
    lines = dict(found.lines)
    assert (found.table, found.name) == ("structures", "Gluteus medius")
    assert lines["latin"] == "musculus gluteus medius"
    assert lines["region"] == "Croup"
    assert lines["at most"] == "firm"
    assert "Hacking" in lines["worked with"]
    assert "Longissimus dorsi" in lines["neighbours"]
    assert found.source == "common anatomy-text knowledge, from memory"


def test_the_belly_is_worked_without_weight() -> None:
    (found,) = describe(load_tables(), "belly")
    assert "Compression" not in dict(found.lines)["worked with"]


def test_an_id_of_several_tables_is_described_in_each() -> None:
    assert [found.table for found in describe(load_tables(), "warmth")] == ["techniques", "aspects", "actions"]


def test_triggers_and_evidence_are_said_in_words() -> None:
    tables = load_tables()
    (caution,) = describe(tables, "heat-with-swelling")
    assert dict(caution.lines)["triggers"] == "warmth warm; swelling present"
    (pattern,) = describe(tables, "weak-trunk")
    evidence = dict(pattern.lines)["evidence"]
    assert "tone slack (Rectus abdominis, External abdominal oblique, Belly) +1.2" in evidence


def test_an_unknown_id_has_no_description() -> None:
    assert describe(load_tables(), "spleen") == ()


@pytest.mark.parametrize("table", TABLES)
def test_every_row_can_be_described(table: str) -> None:
    tables = load_tables()
    for row_id in ids(tables, table):
        found = [one for one in describe(tables, row_id) if one.table == table]
        assert len(found) == 1
        assert found[0].lines
        assert found[0].source


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("Splenius", ("structures", "splenius")),
        ("glutes", ("structures", "gluteus-medius")),
        ("TMJ", ("structures", "jaw")),
        ("musculus masseter", ("structures", "masseter")),
        ("skin  rolling", ("techniques", "skin-rolling")),
        ("tying", ("cautions", "tying-up")),
    ],
)
def test_find_by_name_latin_and_trade_name(text: str, first: tuple[str, str]) -> None:
    assert find(load_tables(), text)[0] == first


def test_an_exact_name_comes_before_one_that_holds_it() -> None:
    assert find(load_tables(), "neck")[0] == ("structures", "neck")


@pytest.mark.parametrize("text", ["", "   ", "zebra crossing"])
def test_find_nothing(text: str) -> None:
    assert find(load_tables(), text) == ()


def test_formulas_scales_and_vital_signs_are_said_in_words() -> None:
    tables = load_tables()
    (formula,) = describe(tables, "staniar-thoroughbred")
    assert dict(formula.lines)["terms"].startswith("girth^2 × body length / 12.5664; knee circumference^2 × ")
    assert dict(formula.lines)["pieces"] == "from 0: × 1093 +0; from 0.27: × 984 +24"
    assert "error" not in dict(formula.lines)
    (scale,) = describe(tables, "ridden-pain")
    assert "from 8: 8 or more of 24" in dict(scale.lines)["bands"]
    assert "[flag ridden-pain-signs]" in dict(scale.lines)["bands"]
    (sign,) = (one for one in describe(tables, "gut-sounds") if one.table == "vital_signs")
    assert dict(sign.lines)["alarms"] == "below 1 quarters: flag unwell"
    assert dict(sign.lines)["what single pages print"] == "4 to 4 quarters"
