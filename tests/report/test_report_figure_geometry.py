"""The shapes of the drawn horse, by Shapely: there, in their place, and where anatomy says that they lie."""

import pytest
from figure_shapes import FIGURE, LAYERS, STRUCTURES, TABLES, VIEWS, body, covered, everything, overlaps, polygons
from shapely import affinity
from shapely.ops import unary_union

from haywisp.report.figure import placed_shapes

#: Structures are drawn where the body is 1000 high at the withers; seams between neighbours are a few units wide.
NEAR = 60.0
#: Neighbours of the table that are drawn apart in every view, with how far: something that is seen lies between them.
FAR_NEIGHBOURS = {
    frozenset(("longissimus-capitis", "longissimus-dorsi")): 210.0,  # they go on into one another under the shoulder
    frozenset(("gracilis", "quadriceps")): 140.0,  # the gracilis is the inside of the thigh; its back edge is drawn
    frozenset(("gracilis", "adductors")): 90.0,
    frozenset(("forearm-flexors", "pectoralis-transversus")): 90.0,  # they meet on the inside of the forearm
    frozenset(("chest", "girth")): 150.0,  # they meet between the forelegs
    frozenset(("sacroiliac", "tail")): 100.0,  # over the sacrum, which the croup holds
}


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("layer", LAYERS)
def test_every_shape_is_a_plain_polygon_with_area(view: str, layer: str) -> None:
    for key, shape in polygons(view, layer).items():
        assert shape.is_valid, key
        assert shape.area > 50, key


def test_every_structure_is_seen_on_each_side_that_it_has() -> None:
    seen = {key for view in VIEWS for key in everything(view)}
    for row in STRUCTURES.values():
        for side in ("left", "right") if row.paired else ("midline",):
            assert (row.id, side) in seen
    assert len(seen) == sum(2 if row.paired else 1 for row in STRUCTURES.values())


@pytest.mark.parametrize("view", VIEWS)
def test_no_two_superficial_shapes_overlap(view: str) -> None:
    assert {pair: round(share, 3) for pair, share in overlaps(view, "superficial").items() if share > 0.05} == {}


@pytest.mark.parametrize("view", VIEWS)
def test_shapes_lie_within_the_body(view: str) -> None:
    """All but the tail, which has hair of its own to lie in."""
    for key, shape in everything(view).items():
        outside = shape.difference(body(view).buffer(4)).area / shape.area
        assert outside < 0.01 or key[0] == "tail", (key, round(outside, 3))


def test_neighbours_of_the_table_lie_near_one_another() -> None:
    apart = {}
    for row in STRUCTURES.values():
        for neighbour in row.neighbours:
            ways = [
                shapes[(row.id, one)].distance(shapes[(neighbour, other)])
                for shapes in map(everything, VIEWS)
                for one in ("left", "right", "midline")
                for other in ("left", "right", "midline")
                if (row.id, one) in shapes and (neighbour, other) in shapes
                if one == other or "midline" in (one, other)
            ]
            least = min(ways)
            if least > FAR_NEIGHBOURS.get(frozenset((row.id, neighbour)), NEAR):
                apart[(row.id, neighbour)] = round(least)
    assert apart == {}


def test_the_right_is_the_mirror_of_the_left() -> None:
    for (structure, side), shape in everything("left").items():
        other = everything("right")[(structure, "right" if side == "left" else side)]
        assert affinity.scale(shape, -1, 1, origin=(0, 0)).symmetric_difference(other).area < 1e-6 * shape.area
    for (structure, side), shape in everything("above").items():
        other = everything("above")[(structure, {"left": "right", "right": "left"}.get(side, side))]
        assert affinity.scale(shape, -1, 1, origin=(0, 0)).symmetric_difference(other).area < 1e-6 * shape.area


def test_left_is_on_the_left_from_above_and_the_head_points_left_from_the_left() -> None:
    for (_, side), shape in everything("above").items():
        x = shape.centroid.x
        assert (x < -5, x > 5, abs(x) < 1e-6)[("left", "right", "midline").index(side)]
    left, right = everything("left"), everything("right")
    assert left[("masseter", "left")].centroid.x < left[("semitendinosus", "left")].centroid.x
    assert right[("masseter", "right")].centroid.x > right[("semitendinosus", "right")].centroid.x


@pytest.mark.parametrize(
    ("deep", "share"),
    [
        ("semispinalis-capitis", 0.6),
        ("longissimus-capitis", 0.6),
        ("rhomboideus", 0.6),
        ("serratus-ventralis-cervicis", 0.6),
        ("serratus-ventralis-thoracis", 0.6),
        ("scalenus", 0.6),
        ("subclavius", 0.6),
        ("biceps-brachii", 0.5),
        ("pectoralis-ascendens", 0.4),
        ("iliocostalis", 0.6),
        ("multifidus", 0.6),
        ("intercostals", 0.6),
        ("rectus-abdominis", 0.6),
        ("iliopsoas", 0.6),
        ("adductors", 0.6),
    ],
)
def test_deep_shapes_lie_under_superficial_ones(deep: str, share: float) -> None:
    assert covered("left", deep, "left") >= share


@pytest.mark.parametrize(
    ("deep", "under"),
    [
        ("semispinalis-capitis", ("splenius", "trapezius-cervical", "omotransversarius")),
        ("longissimus-capitis", ("splenius", "omotransversarius", "brachiocephalicus", "trapezius-cervical")),
        ("rhomboideus", ("trapezius-cervical", "trapezius-thoracic", "splenius", "crest")),
        ("subclavius", ("brachiocephalicus", "omotransversarius", "supraspinatus", "trapezius-cervical")),
        ("scalenus", ("brachiocephalicus", "omotransversarius")),
        ("multifidus", ("longissimus-dorsi", "trapezius-thoracic", "gluteus-medius")),
        ("iliocostalis", ("longissimus-dorsi", "latissimus-dorsi", "thoracolumbar-fascia", "trapezius-thoracic")),
        ("iliopsoas", ("thoracolumbar-fascia", "gluteus-medius", "gluteus-superficialis", "tensor-fasciae-latae")),
        ("rectus-abdominis", ("external-oblique", "tensor-fasciae-latae", "quadriceps")),
        ("intercostals", ("external-oblique", "cutaneus-trunci", "latissimus-dorsi", "triceps-brachii")),
    ],
)
def test_deep_shapes_lie_under_what_the_table_says_covers_them(deep: str, under: tuple[str, ...]) -> None:
    """Each row's ``lies``: under the splenius, under the trapezius, under the longissimus …"""
    shapes = everything("left")
    cover = unary_union([shapes[(key, "midline" if key == "crest" else "left")] for key in under])
    shape = shapes[(deep, "left")]
    assert shape.intersection(cover.buffer(6)).area / shape.area > 0.6


#: Muscles that reach far beyond the region that the hand works them in, with the share that must lie there.
REACH_OUT = {
    "serratus-ventralis-thoracis": 0.18,  # mostly under the shoulder blade, as its row says
    "trapezius-thoracic": 0.25,  # the region of the back begins behind the withers, over which it lies
    "latissimus-dorsi": 0.3,  # a fan down to the upper arm
    "brachiocephalicus": 0.7,  # on to the upper arm
    "pectoralis-ascendens": 0.25,  # from the girth up to the shoulder
    "external-oblique": 0.6,
    "iliopsoas": 0.2,  # under the loin, and on to the thigh
    "iliocostalis": 0.55,  # on to the ilium, as the multifidus to the sacrum
    "multifidus": 0.5,
    "thoracolumbar-fascia": 0.25,  # over back and loin, as its row says
    "subclavius": 0.55,  # from the breastbone up
    "rhomboideus": 0.6,  # its rear part lies beside the withers
    "rectus-abdominis": 0.55,  # from the breastbone, under the girth, to the pelvis
}


def test_regions_hold_the_muscles_that_are_theirs() -> None:
    held = {}
    for row in STRUCTURES.values():
        if row.kind == "region":
            continue
        shares = []
        for view in ("left", "above"):
            shapes = everything(view)
            side = "left" if row.paired else "midline"
            region = shapes.get((row.region, "left")) or shapes.get((row.region, "midline"))
            if (row.id, side) in shapes and region:
                shares.append(shapes[(row.id, side)].intersection(region).area / shapes[(row.id, side)].area)
        if max(shares) < REACH_OUT.get(row.id, 0.68):
            held[row.id] = [round(share, 2) for share in shares]
    assert held == {}


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("layer", LAYERS)
def test_fibres_lie_within_their_muscle(view: str, layer: str) -> None:
    for shape in placed_shapes(view, layer, FIGURE, TABLES):
        room = polygons(view, layer)[(shape.structure, shape.side)].buffer(1.5)
        for line in shape.stroke.fibres():
            assert all(room.contains(spot) for spot in _dots(line)), shape.structure


def _dots(line: tuple[tuple[float, float], ...]) -> list[object]:
    from shapely.geometry import Point

    return [Point(spot) for spot in line]


@pytest.mark.parametrize(
    ("first", "second", "axis"),
    [
        # From the head backwards, and from above downwards, as every anatomy text has them (from memory).
        ("masseter", "brachiocephalicus", "x"),
        ("brachiocephalicus", "triceps-brachii", "x"),
        ("supraspinatus", "infraspinatus", "x"),
        ("infraspinatus", "triceps-brachii", "x"),
        ("triceps-brachii", "latissimus-dorsi", "x"),
        ("latissimus-dorsi", "gluteus-medius", "x"),
        ("tensor-fasciae-latae", "biceps-femoris", "x"),
        ("biceps-femoris", "semitendinosus", "x"),
        ("semitendinosus", "semimembranosus", "x"),
        ("crest", "splenius", "y"),
        ("longissimus-dorsi", "latissimus-dorsi", "y"),
        ("latissimus-dorsi", "external-oblique", "y"),
        ("gluteus-medius", "gluteus-superficialis", "y"),
        ("gluteus-superficialis", "quadriceps", "y"),
        ("biceps-femoris", "gastrocnemius", "y"),
        ("triceps-brachii", "forearm-extensors", "y"),
    ],
)
def test_muscles_follow_one_another_as_in_the_horse(first: str, second: str, axis: str) -> None:
    shapes = {structure: shape for (structure, _), shape in everything("left").items()}
    assert getattr(shapes[first].centroid, axis) < getattr(shapes[second].centroid, axis)
