"""Read the drawn horse from ``figure.toml``; every fault is a KnowledgeFault that names the row."""

import re
from collections.abc import Iterator, Mapping
from functools import cache, partial
from math import isfinite
from pathlib import Path
from types import MappingProxyType

from haywisp.knowledge.curves import Point, area, crossing
from haywisp.knowledge.errors import KnowledgeFault
from haywisp.knowledge.figure import KINDS, LAYERS, OPEN_KINDS, VIEWS, Figure, Landmark, Part, Shape, Stroke
from haywisp.knowledge.loading import DATA, parsed, table_of
from haywisp.knowledge.types import Structure

FILE = "figure.toml"
POINT = re.compile(r"([a-z][a-z0-9-]*)(?: (-?\d+(?:\.\d+)?) (-?\d+(?:\.\d+)?))?(?: ([\^~]{1,2}))?")
Landmarks = Mapping[str, Landmark]
Spots = list[tuple[Point, bool, bool]]


@cache
def load_figure(folder: Path | None = None, kept_in: Path | None = None) -> Figure:
    """Read and check the drawn horse beside the structures of the same folder (those of Haywisp by default).

    Raises KnowledgeFault with the file, the row and what is wrong.
    """
    folder = folder or DATA
    structures = table_of(Structure, folder, "structures", partial(parsed, kept_in=kept_in))
    raw = parsed(folder / FILE, FILE, kept_in)
    strange = sorted(raw.keys() - {"landmarks", "drawing", *LAYERS})
    if strange:
        raise KnowledgeFault(FILE, strange[0], f"it must be one of: landmarks, drawing, {', '.join(LAYERS)}.")
    landmarks = _landmarks(_table(raw, "landmarks"))
    parts = tuple(_part(key, _fields(key, row), landmarks) for key, row in _table(raw, "drawing").items())
    for view in VIEWS:
        if sum((part.view, part.kind) == (view, "body") for part in parts) != 1:
            raise KnowledgeFault(FILE, "drawing", f"there must be one part of kind 'body' for the view {view!r}.")
    shapes = tuple(
        shape
        for layer in LAYERS
        for key, row in _table(raw, layer).items()
        for shape in _shapes(key, layer, _fields(key, row), structures, landmarks)
    )
    undrawn = [key for key in structures if key not in {shape.structure for shape in shapes}]
    if undrawn:
        raise KnowledgeFault(FILE, undrawn[0], "it is a structure of structures.toml and has no shape.")
    return Figure(landmarks, parts, shapes)


def _table(raw: Mapping[str, object], name: str) -> Mapping[str, object]:
    table = raw.get(name)
    if not isinstance(table, dict) or not table:
        raise KnowledgeFault(FILE, name, "it must be a table with rows.")
    return table


def _fields(key: str, row: object) -> Mapping[str, object]:
    if not isinstance(row, dict):
        raise KnowledgeFault(FILE, key, "it must be a table of fields.")
    return row


def _landmarks(raw: Mapping[str, object]) -> Landmarks:
    """Landmarks by id; those that lie between others are placed once these are known."""
    placed: dict[str, Landmark] = {}
    for key, row in raw.items():
        if not POINT.fullmatch(key) or not isinstance(row, list):
            raise KnowledgeFault(FILE, key, "a landmark is an id in small letters and a list in brackets.")
        placed[key] = _free(key, row) if len(row) == 3 else _between(key, row, placed)
    return MappingProxyType(placed)


def _free(key: str, row: list[object]) -> Landmark:
    along, down, out = (_number(key, value) for value in row)
    return Landmark(key, along, down, out)


def _between(key: str, row: list[object], placed: Landmarks) -> Landmark:
    """``[a, b, share, across, out]``: a share of the way from a to b, then to the left hand of who walks there."""
    if len(row) != 5:
        raise KnowledgeFault(FILE, key, "a landmark is [along, down, out] or [landmark, landmark, share, across, out].")
    first, second = (_known(key, str(name), placed) for name in row[:2])
    share, across, out = (_number(key, value) for value in row[2:])
    dx, dy = second.along - first.along, second.down - first.down
    return Landmark(key, first.along + dx * share + dy * across, first.down + dy * share - dx * across, out)


def _number(key: str, value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value):
        raise KnowledgeFault(FILE, key, f"{value!r} must be a number.")
    return float(value)


def _known(key: str, name: str, landmarks: Landmarks) -> Landmark:
    if name not in landmarks:
        raise KnowledgeFault(FILE, key, f"it hangs on the landmark {name!r}, which is not given (above it).")
    return landmarks[name]


def _part(key: str, row: Mapping[str, object], landmarks: Landmarks) -> Part:
    view, kind, paired = row.get("view"), row.get("kind"), row.get("paired", False)
    _only(key, row, {"view", "kind", "paired", "points"})
    if view not in VIEWS:
        raise KnowledgeFault(FILE, key, f"view is {view!r} and must be one of: {', '.join(VIEWS)}.")
    if kind not in KINDS:
        raise KnowledgeFault(FILE, key, f"kind is {kind!r} and must be one of: {', '.join(KINDS)}.")
    halved = view == "above" and not paired and kind not in OPEN_KINDS
    stroke = _stroke(key, str(view), row.get("points"), landmarks, halved=halved, closed=kind not in OPEN_KINDS)
    return Part(key, str(view), str(kind), stroke, bool(paired))


def _shapes(
    key: str, layer: str, row: Mapping[str, object], structures: Mapping[str, Structure], landmarks: Landmarks
) -> Iterator[Shape]:
    if key not in structures:
        raise KnowledgeFault(FILE, key, "structures.toml has no structure of this id.")
    true_layer = structures[key].layer or "regions"
    if layer != true_layer:
        raise KnowledgeFault(FILE, key, f"it stands under {layer!r} and belongs under {true_layer!r}.")
    _only(key, row, {*VIEWS, "inner"})
    if not isinstance(row.get("inner", False), bool):
        raise KnowledgeFault(FILE, key, "inner must be true or false.")
    seen = [view for view in VIEWS if view in row]
    if not seen:
        raise KnowledgeFault(FILE, key, f"it needs points in one of these views at least: {', '.join(VIEWS)}.")
    for view in seen:
        halved = view == "above" and not structures[key].paired
        stroke = _stroke(key, view, row[view], landmarks, halved=halved)
        yield Shape(key, layer, view, stroke, bool(row.get("inner", False)))


def _only(key: str, row: Mapping[str, object], names: set[str]) -> None:
    strange = sorted(row.keys() - names)
    if strange:
        raise KnowledgeFault(FILE, key, f"it has a field {strange[0]!r} that is not known.")


def _stroke(
    key: str, view: str, said: object, landmarks: Landmarks, *, halved: bool = False, closed: bool = True
) -> Stroke:
    least = 3 if closed else 2
    if not isinstance(said, list) or len(said) < least:
        raise KnowledgeFault(FILE, key, f"its points for {view!r} must be a list of {least} texts or more.")
    spots = [_spot(key, view, text, landmarks) for text in said]
    if halved:
        spots = _whole(key, spots)
    points = tuple(point for point, _, _ in spots)
    ends = [index for index, (_, _, end) in enumerate(spots) if end]
    if len(ends) not in (0, 2, 4):
        wrong = f"{len(ends)} of its points for {view!r} end the fibres (~); none, two or four do."
        raise KnowledgeFault(FILE, key, wrong)
    for one, other in zip(points, [*points[1:], *(points[:1] if closed else [])], strict=False):
        if one == other:
            raise KnowledgeFault(FILE, key, f"two points for {view!r} that follow each other are the same: {one}.")
    stroke = Stroke(points, tuple(corner for _, corner, _ in spots), closed, tuple(ends))
    if closed:
        _sound(key, view, stroke)
    return stroke


def _spot(key: str, view: str, text: object, landmarks: Landmarks) -> tuple[Point, bool, bool]:
    read = POINT.fullmatch(text) if isinstance(text, str) else None
    if read is None:
        raise KnowledgeFault(
            FILE,
            key,
            f"{text!r} is no point; write a landmark, two numbers, then ^ for a corner or ~ for an end.",
        )
    name, dx, dy, marks = read.groups()
    x, y = _known(key, name, landmarks).seen(view)
    marks = marks or ""
    return (round(x + float(dx or 0), 1), round(y + float(dy or 0), 1)), "^" in marks, "~" in marks


def _whole(key: str, half: Spots) -> Spots:
    """A shape of the midline from its left half."""
    if any(x < 0 for (x, _), _, _ in half):
        raise KnowledgeFault(FILE, key, "it lies on the midline: from above only its left half is given.")
    other = [((-x, y), corner, False) for (x, y), corner, _ in reversed(half) if x]
    return [*half, *other]


def _sound(key: str, view: str, stroke: Stroke) -> None:
    around = stroke.polygon(6)
    if area(around) < 1:
        raise KnowledgeFault(FILE, key, f"its shape for {view!r} has no area.")
    place = crossing(around)
    if place:
        raise KnowledgeFault(FILE, key, f"its curve for {view!r} crosses itself near ({place[0]:.0f}, {place[1]:.0f}).")
