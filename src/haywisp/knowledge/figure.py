"""The drawn horse as data: one skeleton of landmarks, and the closed curves that hang on it.

A horse is 1000 units high at the withers. A landmark has three coordinates: along (from the point of the shoulder
towards the tail), down (from the height of the withers) and out (from the midline to the horse's own left).
The side view shows along and down, the view from above out and along.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import hypot

from haywisp.knowledge.curves import Bend, Point, area, flat, smooth, within

Line = tuple[Point, ...]

VIEWS = ("side", "above")
LAYERS = ("superficial", "deep", "regions")
#: How a part that is no structure is drawn; ``bone`` and ``bone-line`` belong to the deep layer, ``skin-line`` to the
#: others.
KINDS = ("far", "far-hoof", "hair", "body", "hoof", "ear", "eye", "line", "fine-line", "skin-line", "bone", "bone-line")
OPEN_KINDS = ("line", "fine-line", "skin-line", "bone-line")


@dataclass(frozen=True, slots=True)
class Landmark:
    """A bony point or a point of the outline, in units of which the withers are 1000 high."""

    id: str
    along: float
    down: float
    out: float

    def seen(self, view: str) -> Point:
        """Where it lies in a view (``side`` or ``above``)."""
        return (self.along, self.down) if view == "side" else (self.out, self.along)


@dataclass(frozen=True, slots=True)
class Stroke:
    """A smooth curve through points; ``ends`` are the two or four at which the fibres of a muscle begin and stop."""

    points: tuple[Point, ...]
    corners: tuple[bool, ...]
    closed: bool = True
    ends: tuple[int, ...] = ()

    def bends(self) -> tuple[Bend, ...]:
        """The curve as cubic Béziers."""
        return smooth(self.points, self.corners, closed=self.closed)

    def polygon(self, steps: int = 8) -> tuple[Point, ...]:
        """The curve as many straight pieces."""
        last = () if self.closed else (self.points[-1],)
        return (*flat(self.bends(), steps), *last)

    def moved(self, across: float) -> "Stroke":
        """The same with every first coordinate times ``across``: -1 for a mirror, 1 for itself."""
        points = tuple((x * across, y) for x, y in self.points)
        return Stroke(points, self.corners, self.closed, self.ends)

    def fibres(self, apart: float = 13.0) -> tuple[tuple[Point, ...], ...]:
        """Lines along the fibres, about ``apart`` units from each other where the muscle is widest.

        With four ends the first two bound the edge where the fibres begin and the last two that where they stop; with
        two ends both edges are points. The lines fill the shape as a Coons patch does.
        """
        if not self.ends:
            return ()
        around, steps = self.polygon(), 8
        marks = [index * steps for index in (*self.ends, self.ends[0] + len(self.points))]
        around = (*around, *around[: marks[0] + 1])
        sides = [around[start : stop + 1] for start, stop in zip(marks, marks[1:], strict=False)]
        if len(sides) == 2:
            sides = [(sides[0][0],), sides[0], (sides[1][0],), sides[1]]
        begin, there, finish, back = (_even(side, 24) for side in sides)
        middle = 1.4 * area(around) / max(_length(there), _length(back))
        count = min(11, round(max(_length(begin), _length(finish), middle) / apart) - 1)
        shares = [(number + 1) / (count + 1) for number in range(count)]
        lines = (_coons(begin, there, finish[::-1], back[::-1], share) for share in shares)
        return tuple(kept for line in lines if len(kept := _longest_within(line, around)) > 4)


def _longest_within(line: Line, polygon: Line) -> Line:
    """The longest piece of a line whose points all lie in the polygon."""
    best: list[Point] = []
    run: list[Point] = []
    for point in line:
        run = [*run, point] if within(point, polygon) else []
        best = run if len(run) > len(best) else best
    return tuple(best)


def _coons(begin: Line, there: Line, finish: Line, back: Line, share: float) -> Line:
    """One line from edge to edge: ``begin`` and ``finish`` run from ``back`` to ``there``."""
    from_x, from_y = _along(begin, share)
    to_x, to_y = _along(finish, share)
    line = []
    for step in range(2, len(there) - 2):
        gone = step / (len(there) - 1)
        (a, b), (c, d) = back[step], there[step]
        x = (1 - gone) * from_x + gone * to_x + (1 - share) * a + share * c
        y = (1 - gone) * from_y + gone * to_y + (1 - share) * b + share * d
        for corner, part in (
            (begin[0], (1 - gone) * (1 - share)),
            (begin[-1], (1 - gone) * share),
            (finish[0], gone * (1 - share)),
            (finish[-1], gone * share),
        ):
            x, y = x - corner[0] * part, y - corner[1] * part
        line.append((x, y))
    return tuple(line)


def _along(line: Line, share: float) -> Point:
    place = min(int(share * (len(line) - 1)), len(line) - 2)
    rest = share * (len(line) - 1) - place
    (a, b), (c, d) = line[place], line[place + 1]
    return a + (c - a) * rest, b + (d - b) * rest


def _length(line: Line) -> float:
    return sum(hypot(c - a, d - b) for (a, b), (c, d) in zip(line, line[1:], strict=False))


def _even(line: Line, count: int) -> Line:
    """``count`` + 1 points at equal distances along a line, which may be a single point."""
    if len(line) == 1:
        return line * (count + 1)
    gone = [0.0]
    for a, b in zip(line, line[1:], strict=False):
        gone.append(gone[-1] + hypot(b[0] - a[0], b[1] - a[1]))
    found, place = [], 0
    for step in range(count + 1):
        wanted = gone[-1] * step / count
        while place < len(line) - 2 and gone[place + 1] < wanted:
            place += 1
        a, b, span = line[place], line[place + 1], gone[place + 1] - gone[place]
        share = (wanted - gone[place]) / span if span else 0.0
        found.append((a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Shape:
    """Where one structure is seen in one view.

    The side view holds the horse's left, which is mirrored for the right. From above a paired structure is given on
    the left and mirrored, and one of the midline whole. ``inner`` marks what lies on the inner side of a limb.
    """

    structure: str
    layer: str
    view: str
    stroke: Stroke
    inner: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of the drawing that is no structure: outline, hair, hoof, eye, line or bone. ``kind`` is of ``KINDS``."""

    id: str
    view: str
    kind: str
    stroke: Stroke
    paired: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """The drawn horse: landmarks by id, parts in the order in which they are drawn, shapes in their reading order."""

    landmarks: Mapping[str, Landmark]
    parts: tuple[Part, ...]
    shapes: tuple[Shape, ...] = field(default=())

    def shape(self, structure: str, view: str) -> Shape | None:
        """The shape of a structure in a view, None where it is not seen."""
        return next((one for one in self.shapes if (one.structure, one.view) == (structure, view)), None)

    def body(self, view: str) -> Stroke:
        """The outline of the body in a view."""
        return next(part.stroke for part in self.parts if (part.view, part.kind) == (view, "body"))
