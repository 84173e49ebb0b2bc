"""The drawn horse as data: one skeleton of landmarks, and the closed curves that hang on it.

A horse is 1000 units high at the withers. A landmark has three coordinates: along (from the point of the shoulder towards
the tail), down (from the height of the withers towards the ground) and out (from the midline to the horse's own left).
The side view shows along and down, the view from above out and along.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import hypot

from haywisp.knowledge.curves import Bend, Point, flat, smooth

VIEWS = ("side", "above")
LAYERS = ("superficial", "deep", "regions")
#: How a part that is no structure is drawn; ``bone`` and ``bone-line`` belong to the deep layer only.
KINDS = ("far", "far-hoof", "hair", "body", "hoof", "ear", "eye", "line", "fine-line", "bone", "bone-line")
OPEN_KINDS = ("line", "fine-line", "bone-line")


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
    """A smooth curve through points; ``ends`` are the two at which the fibres of a muscle begin and end."""

    points: tuple[Point, ...]
    corners: tuple[bool, ...]
    closed: bool = True
    ends: tuple[int, int] | None = None

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

    def fibres(self, count: int = 3) -> tuple[tuple[Point, ...], ...]:
        """Lines that run from one end of the fibres to the other, shared out between the two edges."""
        if self.ends is None:
            return ()
        first, second = sorted(self.ends)
        start, stop, steps = first * 8, second * 8, 8
        around = self.polygon(steps)
        one = _even(around[start : stop + 1], 24)
        other = _even((*around[stop:], *around[: start + 1])[::-1], 24)
        shares = [(number + 1) / (count + 1) for number in range(count)]
        return tuple(
            tuple(
                (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
                for a, b in list(zip(one, other, strict=True))[2:-2]
            )
            for share in shares
        )


def _even(line: tuple[Point, ...], count: int) -> tuple[Point, ...]:
    """``count`` + 1 points at equal distances along a line."""
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
