"""Where the bouts and the horse's answers stand on a drawn time line, in units of its own view box."""

from collections.abc import Sequence
from dataclasses import dataclass

from haywisp.usecases.views import Timeline, TimelineBar, TimelineMark

WIDTH = 1000.0
LEFT = 190.0
RIGHT = 14.0
TOP = 62.0
LANE = 34.0
FOOT = 30.0
LEAST_BAR = 5.0
MARK_GAP = 15.0
MARK_ROWS = 3
NAME_LETTERS = 24


@dataclass(frozen=True, slots=True)
class DrawnBar:
    """A bout as a box."""

    bar: TimelineBar
    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class DrawnMark:
    """An answer of the horse as the points of a triangle: up for settling, down for guarding."""

    mark: TimelineMark
    x: float
    points: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """Everything that the template needs to draw."""

    width: float
    height: float
    left: float
    bottom: float
    lanes: tuple[tuple[str, float], ...]
    bars: tuple[DrawnBar, ...]
    marks: tuple[DrawnMark, ...]
    ticks: tuple[tuple[float, str], ...]


def draw(timeline: Timeline) -> Drawing:
    """Lay the time line out."""
    length = max(timeline.length_s, 1.0)
    scale = (WIDTH - LEFT - RIGHT) / length
    bottom = TOP + LANE * len(timeline.lanes)
    tops = {lane.id: TOP + LANE * place for place, lane in enumerate(timeline.lanes)}
    bars = tuple(
        DrawnBar(
            bar,
            round(LEFT + bar.start * scale, 1),
            tops[bar.lane] + 5,
            round(max((bar.end - bar.start) * scale, LEAST_BAR), 1),
            LANE - 10,
        )
        for bar in timeline.bars
        if bar.lane in tops
    )
    return Drawing(
        width=WIDTH,
        height=bottom + FOOT,
        left=LEFT,
        bottom=bottom,
        lanes=tuple((shortened(lane.name), tops[lane.id] + LANE / 2 + 5) for lane in timeline.lanes),
        bars=bars,
        marks=drawn_marks(timeline.marks, scale),
        ticks=tuple((round(LEFT + at * scale, 1), label) for at, label in timeline.ticks),
    )


def drawn_marks(marks: Sequence[TimelineMark], scale: float) -> tuple[DrawnMark, ...]:
    """Triangles above the lanes, on up to three rows so that answers close in time don't hide each other."""
    last = [-MARK_GAP * 2] * MARK_ROWS
    drawn = []
    for mark in sorted(marks, key=lambda one: one.time_s):
        x = round(LEFT + mark.time_s * scale, 1)
        row = next(
            (row for row in range(MARK_ROWS) if x - last[row] >= MARK_GAP), min(range(MARK_ROWS), key=last.__getitem__)
        )
        last[row] = x
        base = TOP - 10 - row * 16
        tip, flat = (base - 11, base) if mark.direction == "settling" else (base, base - 11)
        drawn.append(DrawnMark(mark, x, f"{x - 6.5:.1f},{flat} {x + 6.5:.1f},{flat} {x},{tip}"))
    return tuple(drawn)


def shortened(name: str) -> str:
    """A lane's name, cut to what fits beside the lanes."""
    return name if len(name) <= NAME_LETTERS else name[: NAME_LETTERS - 1].rstrip() + "…"
