"""Smooth curves through points: centripetal Catmull-Rom, as cubic Béziers.

The centripetal form makes no loops or cusps between points (Yuksel, Schaefer & Keyser 2011, Computer-Aided Design
43:747-755, from memory).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Bend:
    """One cubic Bézier: where it starts, its two handles, and where it ends."""

    start: Point
    out: Point
    into: Point
    end: Point

    def at(self, share: float) -> Point:
        """The point at a share 0 to 1 of the curve's parameter."""
        rest = 1 - share
        a, b, c, d = rest**3, 3 * rest**2 * share, 3 * rest * share**2, share**3
        x = a * self.start[0] + b * self.out[0] + c * self.into[0] + d * self.end[0]
        return x, a * self.start[1] + b * self.out[1] + c * self.into[1] + d * self.end[1]


def smooth(points: Sequence[Point], corners: Sequence[bool] = (), *, closed: bool = True) -> tuple[Bend, ...]:
    """The curve through the points in their order; at a corner it may turn sharply, and an open one ends freely.

    Points that follow each other must differ.
    """
    count = len(points)
    sharp = [bool(corners[index]) if index < len(corners) else False for index in range(count)]
    bends = []
    for index in range(count if closed else count - 1):
        start, end = points[index], points[(index + 1) % count]
        before = None if sharp[index] or (not closed and index == 0) else points[index - 1]
        last = not closed and index == count - 2
        after = None if sharp[(index + 1) % count] or last else points[(index + 2) % count]
        bends.append(Bend(start, _handle(before, start, end), _handle(after, end, start), end))
    return tuple(bends)


def _handle(behind: Point | None, here: Point, ahead: Point) -> Point:
    """The handle at ``here`` on the way to ``ahead``; without a point behind it starts straight."""
    if behind is None:
        return _toward(here, ahead)
    near, far = _apart(behind, here) ** 0.5, _apart(here, ahead) ** 0.5
    weight, divisor = 2 * near**2 + 3 * near * far + far**2, 3 * near * (near + far)
    x, y = ((near**2 * ahead[axis] - far**2 * behind[axis] + weight * here[axis]) / divisor for axis in (0, 1))
    return x, y


def _toward(here: Point, ahead: Point) -> Point:
    return here[0] + (ahead[0] - here[0]) / 3, here[1] + (ahead[1] - here[1]) / 3


def _apart(one: Point, other: Point) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def flat(bends: Sequence[Bend], steps: int = 8) -> Iterator[Point]:
    """Points along the curve, ``steps`` to each Bézier, without the last of an open one."""
    for bend in bends:
        for step in range(steps):
            yield bend.at(step / steps)


def area(points: Sequence[Point]) -> float:
    """The area of a polygon, in squares of the unit of its points."""
    pairs = zip(points, [*points[1:], *points[:1]], strict=True)
    return abs(sum(x * below - across * y for (x, y), (across, below) in pairs)) / 2


def within(point: Point, polygon: Sequence[Point]) -> bool:
    """Whether a point lies in a polygon (even-odd)."""
    x, y = point
    odd = False
    for (a, b), (c, d) in zip(polygon, [*polygon[1:], *polygon[:1]], strict=True):
        if (b > y) != (d > y) and x < a + (c - a) * (y - b) / (d - b):
            odd = not odd
    return odd


def crossing(points: Sequence[Point]) -> Point | None:
    """Where a polygon's outline crosses itself, roughly; None if it does not."""
    count = len(points)
    sides = [(points[number], points[(number + 1) % count], number) for number in range(count)]
    sides.sort(key=lambda side: min(side[0][0], side[1][0]))
    for place, (a, b, first) in enumerate(sides):
        right = max(a[0], b[0])
        for c, d, second in sides[place + 1 :]:
            if min(c[0], d[0]) > right:
                break
            apart = abs(first - second)
            if apart in (1, count - 1) or max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
                continue
            if _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0:
                return a
    return None


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
