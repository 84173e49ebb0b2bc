"""Whether landmarks and known sizes can be those of a standing horse's side view."""

from collections.abc import Iterator
from itertools import combinations
from math import atan2, degrees, hypot, isfinite

from haywisp.measure.posture.errors import (
    BadPicture,
    BadTold,
    BelowGround,
    GroundTooShort,
    GroundTooSteep,
    LineTooShort,
    MissingLandmark,
    OutsidePicture,
    SamePlace,
    ScaleTooShort,
    ScaleWithoutLength,
    UnknownLandmark,
    WrongWayRound,
)
from haywisp.measure.posture.landmarks import LANDMARKS, MAY_COINCIDE, NEEDED, TRACES
from haywisp.measure.posture.types import KnownSizes, Pixel, PlacedLandmarks

# Design defaults, meant to catch slips.
SAME_PX = 1.0
LEAST_SCALE_PX = 20.0
LEAST_GROUND = 0.7
MOST_STEEP = 30.0
#: What may be told: low, high, unit.
TOLD = {
    "withers height": ("withers_height_cm", 60.0, 220.0, "cm"),
    "croup height": ("croup_height_cm", 60.0, 220.0, "cm"),
    "body length": ("body_length_cm", 50.0, 260.0, "cm"),
    "scale stick's length": ("stick_cm", 20.0, 300.0, "cm"),
    "stick's nearness": ("stick_nearer_cm", -200.0, 200.0, "cm"),
    "camera's distance": ("camera_distance_cm", 200.0, 5000.0, "cm"),
    "focal length": ("focal_px", 100.0, 200_000.0, "pixels"),
}
#: Each of these is before the other in the direction that the horse faces.
BEFORE = (
    ("ground front", "ground behind"),
    ("withers", "croup"),
    ("withers", "dock"),
    ("poll", "croup"),
    ("point of shoulder", "point of buttock"),
    ("near fore hoof", "near hind hoof"),
)
#: Without a known size of these, the told figure is of no use and its landmark is asked for.
TOLD_OF = {"croup_height_cm": ("croup",), "body_length_cm": ("point of shoulder", "point of buttock")}


def check(placed: PlacedLandmarks, known: KnownSizes) -> None:
    """Nothing for landmarks that can be measured; otherwise the first fault as an error with its sentence."""
    if placed.width_px < 1 or placed.height_px < 1 or placed.side not in ("left", "right"):
        raise BadPicture(placed.width_px, placed.height_px, placed.side)
    _check_names(placed)
    _check_places(placed)
    _check_told(placed, known)
    _check_scale(placed, known)
    _check_ground(placed)
    _check_order(placed)


def _check_names(placed: PlacedLandmarks) -> None:
    for names, table in ((placed.points, LANDMARKS), (placed.traces, TRACES)):
        for name in names:
            if name not in table:
                raise UnknownLandmark(name, tuple(table))
    missing = [name for name in NEEDED if name not in placed.points]
    if missing:
        raise MissingLandmark(missing, "without which nothing is measured")


def _all_points(placed: PlacedLandmarks) -> Iterator[tuple[str, Pixel]]:
    yield from placed.points.items()
    for name, line in placed.traces.items():
        yield from ((name, point) for point in line)


def _check_places(placed: PlacedLandmarks) -> None:
    for name, (x, y) in _all_points(placed):
        if not (isfinite(x) and isfinite(y) and 0 <= x <= placed.width_px and 0 <= y <= placed.height_px):
            raise OutsidePicture(name, x, y, placed.width_px, placed.height_px)
    for first, second in combinations(placed.points, 2):
        apart = _apart(placed.points[first], placed.points[second])
        if apart < SAME_PX and frozenset({first, second}) not in MAY_COINCIDE | {
            frozenset({"stick low", "stick high"})
        }:
            raise SamePlace(first, second)
    for name, line in placed.traces.items():
        different = len(line) and 1 + sum(_apart(a, b) >= SAME_PX for a, b in zip(line, line[1:], strict=False))
        if different < 3:
            raise LineTooShort(name, different)


def _check_told(placed: PlacedLandmarks, known: KnownSizes) -> None:
    for name, (field, low, high, unit) in TOLD.items():
        value = getattr(known, field)
        if value is not None and not (isfinite(value) and low <= value <= high):
            raise BadTold(name, value, low, high, unit)
    for field, names in TOLD_OF.items():
        missing = [name for name in names if name not in placed.points]
        if missing and getattr(known, field) is not None:
            raise MissingLandmark(missing, "of which a size is told")


def _check_scale(placed: PlacedLandmarks, known: KnownSizes) -> None:
    ends = [placed.points[end] for end in ("stick low", "stick high") if end in placed.points]
    if bool(ends) != (known.stick_cm is not None) or len(ends) == 1:
        raise ScaleWithoutLength(placed=len(ends) == 2)
    if ends and _apart(*ends) < LEAST_SCALE_PX:
        raise ScaleTooShort(_apart(*ends), LEAST_SCALE_PX)


def _check_ground(placed: PlacedLandmarks) -> None:
    front, behind, withers = (placed.points[name] for name in ("ground front", "ground behind", "withers"))
    length = _apart(front, behind)
    if length < SAME_PX:
        raise SamePlace("ground front", "ground behind")
    steep = abs(degrees(atan2(front[1] - behind[1], abs(front[0] - behind[0]))))
    if steep > MOST_STEEP:
        raise GroundTooSteep(steep, MOST_STEEP)
    tall = _above_ground(placed, withers)
    if tall <= SAME_PX:
        raise BelowGround("withers")
    if length < LEAST_GROUND * tall:
        raise GroundTooShort(length / tall, LEAST_GROUND)
    for name in ("poll", "croup", "back", "point of shoulder", "point of buttock"):
        if name in placed.points and _above_ground(placed, placed.points[name]) <= 0:
            raise BelowGround(name)


def _check_order(placed: PlacedLandmarks) -> None:
    forward = 1 if placed.side == "right" else -1
    for front, behind in BEFORE:
        if {front, behind} <= placed.points.keys():
            ahead = placed.points[front][0] - placed.points[behind][0]
            if ahead * forward <= 0:
                raise WrongWayRound(front, behind, placed.side)


def _above_ground(placed: PlacedLandmarks, point: Pixel) -> float:
    """Pixels above the ground line, square to it."""
    front, behind = placed.points["ground front"], placed.points["ground behind"]
    ahead, down = front[0] - behind[0], front[1] - behind[1]
    across = ahead * (point[1] - behind[1]) - down * (point[0] - behind[0])
    return -across / hypot(ahead, down) * (1 if ahead > 0 else -1)


def _apart(first: Pixel, second: Pixel) -> float:
    return hypot(first[0] - second[0], first[1] - second[1])
