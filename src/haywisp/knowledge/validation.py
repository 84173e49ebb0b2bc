"""The checks that a set of tables must pass before anything reads it."""

from collections.abc import Callable, Iterator, Mapping
from typing import TypeVar

from haywisp.knowledge.fit import fits
from haywisp.knowledge.flaws import PRESSURES, Flaw, among, blank, known, places, value_known, within
from haywisp.knowledge.rules import action_wrong, caution_wrong, exercise_wrong, flag_wrong, pattern_wrong
from haywisp.knowledge.scale_rules import scale_wrong, vital_sign_wrong, weight_formula_wrong
from haywisp.knowledge.scale_types import WeightFormula
from haywisp.knowledge.types import Aspect, Sign, Structure, Tables, Technique

Row = TypeVar("Row")

KINDS = ("muscle", "ligament", "fascia", "tissue", "region")
GROUPS = ("head-and-neck", "forehand", "trunk", "hindquarters", "regions")
LAYERS = ("superficial", "deep")
STAGES = ("contact", "opening", "preparing", "deep", "closing", "stretch", "thermal")
HAND_PARTS = ("thumb", "fingers", "palm", "fist", "forearm", "body")
DIRECTIONS = ("settling", "guarding")
# A structure can be worked when each of these has a technique that fits it.
ACTS = {"opening": ("opening",), "working": ("preparing", "deep"), "closing": ("closing",)}


def flaws_of(tables: Tables) -> tuple[Flaw, ...]:
    """Every mistake in the tables, in the order of the files; none for tables that can be used."""
    return (
        *_flaws("structures", tables.structures, tables, structure_wrong),
        *_flaws("techniques", tables.techniques, tables, technique_wrong),
        *_flaws("signs", tables.signs, tables, sign_wrong),
        *_flaws("aspects", tables.aspects, tables, aspect_wrong),
        *_flaws("actions", tables.actions, tables, action_wrong),
        *_flaws("cautions", tables.cautions, tables, caution_wrong),
        *_flaws("patterns", tables.patterns, tables, pattern_wrong),
        *_flaws("exercises", tables.exercises, tables, exercise_wrong),
        *_flaws("flags", tables.flags, tables, flag_wrong),
        *formula_flaws(tables.weight_formulas),
        *_flaws("scales", tables.scales, tables, scale_wrong),
        *_flaws("vital_signs", tables.vital_signs, tables, vital_sign_wrong),
    )


def formula_flaws(table: Mapping[str, WeightFormula]) -> tuple[Flaw, ...]:
    """Every mistake in the formulas of body weight, which lean on no other table."""
    return tuple(_row_flaws("weight_formulas", table, weight_formula_wrong))


def _flaws(
    name: str, table: Mapping[str, Row], tables: Tables, wrong: Callable[[Row, Tables], Iterator[str]]
) -> Iterator[Flaw]:
    return _row_flaws(name, table, lambda row: wrong(row, tables))


def _row_flaws(name: str, table: Mapping[str, Row], wrong: Callable[[Row], Iterator[str]]) -> Iterator[Flaw]:
    file = f"{name}.toml"
    if not table:
        yield Flaw(file, "", "it has no rows.")
    for row_id, row in table.items():
        for sentence in (*blank(row, "name", "source"), *wrong(row)):
            yield Flaw(file, row_id, sentence)


def structure_wrong(row: Structure, tables: Tables) -> Iterator[str]:
    """What is wrong with a structure: its place, its neighbours, and whether hands can work it."""
    yield from among("kind", row.kind, KINDS)
    yield from among("group", row.group, GROUPS)
    yield from _region_wrong(row, tables)
    yield from blank(row, "lies")
    if row.kind == "muscle":
        yield from blank(row, "latin", "origin", "insertion", "action", "nerve")
    yield from known("neighbours", row.neighbours, tables.structures)
    for neighbour in row.neighbours:
        if neighbour in tables.structures and row.id not in tables.structures[neighbour].neighbours:
            yield f"{neighbour!r} is a neighbour, but does not name it back."
    if row.id in row.neighbours:
        yield "it is named as its own neighbour."
    if not row.not_worked:
        yield from _unworkable(row, tables)


def _region_wrong(row: Structure, tables: Tables) -> Iterator[str]:
    region = tables.structures.get(row.region)
    if region is None or region.kind != "region":
        yield f"region is {row.region!r}, which is no region of this table."
    if row.kind == "region":
        if row.region != row.id or row.group != "regions":
            yield "a region holds itself and belongs to the group 'regions'."
    else:
        yield from among("layer", row.layer, LAYERS)
        if row.group == "regions":
            yield "only regions belong to the group 'regions'."


def _unworkable(row: Structure, tables: Tables) -> Iterator[str]:
    given = {technique.stage for technique in tables.techniques.values() if fits(technique, row)}
    for act, stages in ACTS.items():
        if given.isdisjoint(stages):
            yield f"no {act} technique fits it; allow one in techniques.toml or say why in not_worked."


def technique_wrong(row: Technique, tables: Tables) -> Iterator[str]:
    """What is wrong with a technique: its stage, its figures, and the ids it names."""
    yield from blank(row, "does")
    yield from among("stage", row.stage, STAGES)
    yield from among("deepest", row.deepest, PRESSURES)
    yield from known("needs", row.needs, STAGES)
    yield from within("minutes_per_pass", row.minutes_per_pass, 0.01, 15)
    yield from known("loads", row.loads, HAND_PARTS)
    for part, load in row.loads.items():
        yield from within(f"the load of {part}", load, 0, 1)
    yield from known("suits", row.suits, places(tables))
    yield from known("never", row.never, places(tables))
    for finding, benefit in row.helps.items():
        aspect, colon, value = finding.partition(":")
        if not (aspect and colon and value):
            yield f"helps names {finding!r}; write it as aspect:value."
        yield from value_known("helps", aspect, value, tables)
        yield from within(f"the benefit for {finding}", benefit, 0, 1)


def sign_wrong(row: Sign, tables: Tables) -> Iterator[str]:
    """What is wrong with a sign: its direction and figures."""
    yield from among("direction", row.direction, DIRECTIONS)
    yield from within("weight", row.weight, 0, 1)
    yield from within("half_life_s", row.half_life_s, 1, 3600)


def aspect_wrong(row: Aspect, tables: Tables) -> Iterator[str]:
    """What is wrong with an aspect: its values and the usual one."""
    if len(row.values) < 2 or len(set(row.values)) < len(row.values):
        yield "values must be two or more, each once."
    yield from among("usual", row.usual, row.values)
