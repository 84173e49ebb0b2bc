"""Where techniques may go. The limits are common practice, no source."""

import pytest

from haywisp.knowledge import covers, fits, load_tables


def fit(technique: str, structure: str) -> bool:
    tables = load_tables()
    return fits(tables.techniques[technique], tables.structures[structure])


@pytest.mark.parametrize("technique", ["cupping", "hacking"])
@pytest.mark.parametrize("structure", ["belly", "loin", "poll", "jaw", "masseter", "temporalis", "rectus-abdominis"])
def test_no_tapping_on_head_loin_and_belly(technique: str, structure: str) -> None:
    assert not fit(technique, structure)


@pytest.mark.parametrize(
    "technique", ["sustained-pressure", "cross-fibre-friction", "circular-friction", "compression"]
)
@pytest.mark.parametrize("structure", ["withers", "topline", "tail", "nuchal-ligament", "belly", "external-oblique"])
def test_nothing_deep_on_bony_midline_and_belly(technique: str, structure: str) -> None:
    assert not fit(technique, structure)


@pytest.mark.parametrize(
    "technique", ["sustained-pressure", "cross-fibre-friction", "circular-friction", "compression"]
)
@pytest.mark.parametrize("structure", ["sternomandibularis", "scalenus"])
def test_nothing_deep_along_the_jugular_groove(technique: str, structure: str) -> None:
    assert not fit(technique, structure)


@pytest.mark.parametrize(
    ("technique", "structure"),
    [
        ("skin-rolling", "longissimus-dorsi"),
        ("compression", "gluteus-medius"),
        ("cross-fibre-friction", "semitendinosus"),
        ("circular-friction", "masseter"),
        ("circular-friction", "poll"),
        ("sustained-pressure", "rhomboideus"),
        ("hacking", "gluteus-medius"),
        ("tail-traction", "tail"),
        ("baited-stretch", "neck"),
        ("passive-stretch", "hindlimb"),
        ("hands-resting", "belly"),
    ],
)
def test_what_the_trade_does_is_allowed(technique: str, structure: str) -> None:
    assert fit(technique, structure)


@pytest.mark.parametrize("ids", [("splenius",), ("neck",), ("head-and-neck",), ("tail", "neck")])
def test_covers_by_structure_region_and_group(ids: tuple[str, ...]) -> None:
    assert covers(ids, load_tables().structures["splenius"])


@pytest.mark.parametrize("ids", [(), ("neck-part",), ("masseter", "poll", "trunk")])
def test_covers_nothing_else(ids: tuple[str, ...]) -> None:
    assert not covers(ids, load_tables().structures["splenius"])


def test_what_needs_preparation_is_prepared_on_the_same_structure() -> None:
    tables = load_tables()
    for row in tables.structures.values():
        given = [technique for technique in tables.techniques.values() if fits(technique, row)]
        stages = {technique.stage for technique in given}
        for technique in given:
            assert not technique.needs or stages & set(technique.needs), (row.id, technique.id)
