"""What lies inside a region, and which value says that a place is as usual."""

from haywisp.knowledge import REGION_PARTS, inside, is_usual, load_tables

TABLES = load_tables()


def test_a_region_holds_its_parts_and_their_muscles_and_a_muscle_only_itself() -> None:
    held = inside("hindquarters", TABLES)
    assert held[:5] == ("hindquarters", "croup", "hamstrings", "sacroiliac", "stifle")
    assert {"gluteus-medius", "biceps-femoris"} <= set(held)
    assert "splenius" not in held
    assert len(held) == len(set(held))
    assert inside("splenius", TABLES) == ("splenius",)


def test_every_region_and_part_is_a_region_of_the_tables() -> None:
    for named in (*REGION_PARTS, *(part for parts in REGION_PARTS.values() for part in parts)):
        assert TABLES.structures[named].kind == "region"


def test_the_usual_value_is_that_of_the_table() -> None:
    assert is_usual("tone", "normal", TABLES)
    assert not is_usual("tone", "tight", TABLES)
    assert not is_usual("gone", "normal", TABLES)
