"""How far the same landmark falls from itself when it is placed again."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from math import hypot, sqrt

from haywisp.measure.posture.errors import DifferentPictures, TooFewPlacings
from haywisp.measure.posture.landmarks import LANDMARKS, TRACE_POINTS, TRACES, landmark
from haywisp.measure.posture.types import PlacedLandmarks, PlacingError

DEFAULT_PLACING = PlacingError(
    {name: landmark(name).placing_sd for name in (*LANDMARKS, *TRACES)},
    "design defaults for placing, no source",
)
#: A person's own figures are mixed with the defaults as if those rested on so many degrees of freedom.
DEFAULT_DEGREES = 4


def pooled_sd(groups: Iterable[Sequence[float]]) -> tuple[float, int]:
    """The within-subject SD of repeated readings and its degrees of freedom (0 and 0 without any repeated).

    The root of the mean variance within groups, weighted by their degrees of freedom: of pairs, √(Σd²/2n).
    """
    squares, degrees = 0.0, 0
    for group in groups:
        if len(group) > 1:
            mean = sum(group) / len(group)
            squares += sum((one - mean) ** 2 for one in group)
            degrees += len(group) - 1
    return (sqrt(squares / degrees) if degrees else 0.0), degrees


def placing_error(pictures: Sequence[Sequence[PlacedLandmarks]]) -> PlacingError:
    """A person's own placing error from pictures that were each placed more than once, over each one's withers height.

    Of traced lines only what is square to the line counts: where along it a point was set makes no difference.
    """
    sd = dict(DEFAULT_PLACING.sd)
    most = 0
    for name in (*LANDMARKS, *TRACES):
        groups = [group for rounds in pictures for group in _coordinates(name, rounds)]
        own, degrees = pooled_sd(groups)
        if degrees:
            mixed = own**2 * degrees + sd[name] ** 2 * DEFAULT_DEGREES
            sd[name] = sqrt(mixed / (degrees + DEFAULT_DEGREES))
            most = max(most, degrees)
    if not most:
        raise TooFewPlacings
    repeated = sum(len(rounds) > 1 for rounds in pictures)
    return PlacingError(
        sd, f"own placing again in {repeated} picture{'s' if repeated > 1 else ''}, with design defaults"
    )


def mean_placing(rounds: Sequence[PlacedLandmarks]) -> PlacedLandmarks:
    """The mean of repeated placings of one picture: those landmarks and lines that every round has."""
    _check_same(rounds)
    points = {name: _mean([one.points[name] for one in rounds]) for name in LANDMARKS if _in_all(name, rounds)}
    lines = {
        name: [_evenly(one.traces[name]) for one in rounds]
        for name in TRACES
        if all(name in one.traces for one in rounds)
    }
    traces = {name: tuple(_mean(column) for column in zip(*line, strict=True)) for name, line in lines.items()}
    return replace(rounds[0], points=points, traces=traces)


def of_mean(error: PlacingError, rounds: int) -> PlacingError:
    """The placing error of the mean of so many placings."""
    if rounds < 2:
        return error
    sd: Mapping[str, float] = {name: one / sqrt(rounds) for name, one in error.sd.items()}
    return PlacingError(sd, f"{error.source}; mean of {rounds} placings")


def _coordinates(name: str, rounds: Sequence[PlacedLandmarks]) -> list[list[float]]:
    """Groups of repeated coordinates of one landmark or line in one picture, over withers height."""
    if len(rounds) < 2:
        return []
    _check_same(rounds)
    tall = sum(_tall(one) for one in rounds) / len(rounds)
    if name in LANDMARKS:
        places = [one.points[name] for one in rounds if name in one.points]
        return [[place[axis] / tall for place in places] for axis in (0, 1)]
    lines = [_evenly(one.traces[name]) for one in rounds if name in one.traces]
    if not lines:
        return []
    middle = [_mean(column) for column in zip(*lines, strict=True)]
    return [
        [((line[at][0] - x) * nx + (line[at][1] - y) * ny) / tall for line in lines]
        for at, ((x, y), (nx, ny)) in enumerate(zip(middle, _normals(middle), strict=True))
    ]


def _normals(line: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Unit vectors square to a line at each of its points."""
    found = []
    for at in range(len(line)):
        (ax, ay), (bx, by) = line[max(at - 1, 0)], line[min(at + 1, len(line) - 1)]
        length = hypot(bx - ax, by - ay) or 1.0
        found.append(((by - ay) / length, (ax - bx) / length))
    return found


def _evenly(line: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    import numpy as np

    from haywisp.measure.posture.evidence import evenly

    return [(float(x), float(y)) for x, y in evenly(np.array(line, dtype=float), TRACE_POINTS)]


def _mean(places: Sequence[tuple[float, float]]) -> tuple[float, float]:
    return sum(x for x, _ in places) / len(places), sum(y for _, y in places) / len(places)


def _tall(placed: PlacedLandmarks) -> float:
    (ax, ay), (bx, by), (wx, wy) = (placed.points[name] for name in ("ground front", "ground behind", "withers"))
    return abs((ax - bx) * (wy - by) - (ay - by) * (wx - bx)) / hypot(ax - bx, ay - by)


def _in_all(name: str, rounds: Sequence[PlacedLandmarks]) -> bool:
    return all(name in one.points for one in rounds)


def _check_same(rounds: Sequence[PlacedLandmarks]) -> None:
    if len({(one.side, one.width_px, one.height_px) for one in rounds}) > 1:
        raise DifferentPictures
