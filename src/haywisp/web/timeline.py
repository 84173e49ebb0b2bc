"""Where the bouts and the horse's answers stand on a drawn time line, in units of its own view box."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from haywisp.usecases.timeline import ticks as round_times
from haywisp.usecases.views import Timeline, TimelineBar, TimelineMark

WIDTH = 1000.0
LEFT = 190.0
RIGHT = 14.0
LANE = 34.0
FOOT = 30.0
LEAST_BAR = 5.0
# The height of a bout says how heavy it was; what was not said lies between light and moderate, with a broken edge.
HEIGHTS = {"light": 10.0, "moderate": 17.0, "firm": 25.0}
UNSAID = 13.0
MARK_GAP = 15.0
MARK_ROWS = 3
MARK_HEIGHT = 16.0
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
    points: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """Everything that the template needs to draw."""

    width: float
    height: float
    left: float
    top: float
    bottom: float
    lanes: tuple[tuple[str, float], ...]
    bars: tuple[DrawnBar, ...]
    marks: tuple[DrawnMark, ...]
    ticks: tuple[tuple[float, str], ...]


def draw(timeline: Timeline, window: tuple[float, float] | None = None) -> Drawing:
    """Lay the time line out, or only the seconds of ``window``, which every bout and answer must begin in."""
    if window is not None:
        timeline = moved(timeline, *window)
    scale = (WIDTH - LEFT - RIGHT) / max(timeline.length_s, 1.0)
    placed = mark_rows(timeline.marks, scale)
    top = 12.0 + MARK_HEIGHT * (1 + max((row for _, row in placed), default=-1))
    bottom = top + LANE * len(timeline.lanes)
    tops = {lane.id: top + LANE * place for place, lane in enumerate(timeline.lanes)}
    return Drawing(
        width=WIDTH,
        height=bottom + FOOT,
        left=LEFT,
        top=top,
        bottom=bottom,
        lanes=tuple((shortened(lane.name), tops[lane.id] + LANE / 2) for lane in timeline.lanes),
        bars=tuple(drawn_bar(bar, tops[bar.lane], scale) for bar in timeline.bars if bar.lane in tops),
        marks=tuple(drawn_mark(mark, row, top, scale) for mark, row in placed),
        ticks=tuple((round(LEFT + at * scale, 1), label) for at, label in timeline.ticks),
    )


def moved(timeline: Timeline, begins: float, ends: float) -> Timeline:
    """The time line of some seconds alone, their beginning at nought and their times as they were."""
    length = max(ends - begins, 1.0)
    return replace(
        timeline,
        bars=tuple(
            replace(bar, start=min(bar.start - begins, length), end=min(bar.end - begins, length))
            for bar in timeline.bars
        ),
        marks=tuple(replace(mark, time_s=min(mark.time_s - begins, length)) for mark in timeline.marks),
        ticks=tuple((at - begins, label) for at, label in round_times(ends, length) if at >= begins),
        length_s=length,
    )


def drawn_bar(bar: TimelineBar, top: float, scale: float) -> DrawnBar:
    """A box in the middle of its lane."""
    height = HEIGHTS.get(bar.pressure or "", UNSAID)
    width = max((bar.end - bar.start) * scale, LEAST_BAR)
    return DrawnBar(bar, round(LEFT + bar.start * scale, 1), top + (LANE - height) / 2, round(width, 1), height)


def mark_rows(marks: Sequence[TimelineMark], scale: float) -> list[tuple[TimelineMark, int]]:
    """Each answer with its row above the lanes, so that answers close in time don't hide each other."""
    last = [-2 * MARK_GAP] * MARK_ROWS
    placed = []
    for mark in sorted(marks, key=lambda one: one.time_s):
        x = mark.time_s * scale
        free = (row for row in range(MARK_ROWS) if x - last[row] >= MARK_GAP)
        row = next(free, min(range(MARK_ROWS), key=last.__getitem__))
        last[row] = x
        placed.append((mark, row))
    return placed


def drawn_mark(mark: TimelineMark, row: int, top: float, scale: float) -> DrawnMark:
    """A triangle on its row, the lowest row nearest the lanes."""
    x, base = round(LEFT + mark.time_s * scale, 1), top - 8 - row * MARK_HEIGHT
    tip, flat = (base - 11, base) if mark.direction == "settling" else (base, base - 11)
    return DrawnMark(mark, f"{x - 6.5:.1f},{flat} {x + 6.5:.1f},{flat} {x},{tip}")


def shortened(name: str) -> str:
    """A lane's name, cut to what fits beside the lanes."""
    return name if len(name) <= NAME_LETTERS else name[: NAME_LETTERS - 1].rstrip() + "…"
