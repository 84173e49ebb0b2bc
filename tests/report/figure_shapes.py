"""The drawn horse as Shapely polygons, for the tests of its geometry."""

from functools import cache
from itertools import combinations

from shapely.geometry import Polygon
from shapely.ops import unary_union

from haywisp.knowledge import load_figure, load_tables
from haywisp.report.figure import placed_shapes

FIGURE = load_figure()
TABLES = load_tables()
STRUCTURES = TABLES.structures
VIEWS = ("left", "right", "above")
LAYERS = ("superficial", "deep", "regions")


@cache
def polygons(view: str, layer: str) -> dict[tuple[str, str], Polygon]:
    """Each shape of a view and layer by structure and side."""
    return {
        (shape.structure, shape.side): Polygon(shape.stroke.polygon(10))
        for shape in placed_shapes(view, layer, FIGURE, TABLES)
    }


@cache
def body(view: str) -> Polygon:
    across = -1 if view == "right" else 1
    return Polygon(FIGURE.body("above" if view == "above" else "side").moved(across).polygon(10))


@cache
def everything(view: str) -> dict[tuple[str, str], Polygon]:
    """The shapes of all layers of a view."""
    return {key: shape for layer in LAYERS for key, shape in polygons(view, layer).items()}


def overlaps(view: str, layer: str) -> dict[tuple[str, str], float]:
    """Pairs of shapes that overlap, with the share of the smaller one that does."""
    found = {}
    for (one, a), (other, b) in combinations(polygons(view, layer).items(), 2):
        share = a.intersection(b).area / min(a.area, b.area)
        if share > 0:
            found[(f"{one[0]} {one[1]}", f"{other[0]} {other[1]}")] = share
    return found


def covered(view: str, structure: str, side: str) -> float:
    """The share of a structure's shape in a view that lies under the superficial layer."""
    shape = everything(view)[(structure, side)]
    return float(shape.intersection(unary_union(list(polygons(view, "superficial").values()))).area / shape.area)
