"""What the page of what was said shows besides the use case's view: order, pieces, progress, the drawing."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from urllib.parse import parse_qs, urlsplit

from haywisp.usecases.views import EntryView, SaidPage, Timeline
from haywisp.usecases.views.recordings import Sounds
from haywisp.web.pieces import Piece, lines_in, piece_of, questions_first
from haywisp.web.timeline import draw
from haywisp.web.words import rows

NO_SOUNDS = Sounds((), (), 0, 0, 0)


@dataclass(frozen=True, slots=True)
class Looked:
    """How many of the entries someone has decided on."""

    done: int
    total: int


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a long record someone is: at entry number ``start``, or at the entry ``thread``."""

    start: int = 0
    thread: str = ""


def place_in(address: str) -> Place:
    """The place that an address of the page names; the beginning where it names none."""
    try:
        asked = parse_qs(urlsplit(address).query)
    except ValueError:
        # What a browser says of its page is data like any other.
        return Place()
    start = asked.get("from", [""])[0]
    return Place(int(start) if start.isdecimal() and len(start) < 8 else 0, asked.get("at", [""])[0])


def entries_in_time(view: SaidPage) -> tuple[EntryView, ...]:
    """Entries that stand and rejected ones together, so that an entry keeps its place whatever is decided on it."""
    return tuple(
        sorted((*view.entries, *view.rejected), key=lambda entry: (entry.time_s, entry.first_word, entry.thread))
    )


def looked(entries: Sequence[EntryView]) -> Looked:
    """``12 of 34 looked at``."""
    return Looked(sum(entry.status != "proposed" for entry in entries), len(entries))


def within(timeline: Timeline, shown: Sequence[EntryView]) -> Timeline:
    """The bouts and answers of the entries that are shown."""
    here = {entry.thread for entry in shown}
    bars = tuple(bar for bar in timeline.bars if bar.thread in here)
    lanes = {bar.lane for bar in bars}
    return replace(
        timeline,
        bars=bars,
        marks=tuple(mark for mark in timeline.marks if mark.thread in here),
        lanes=tuple(lane for lane in timeline.lanes if lane.id in lanes),
    )


def review_values(view: SaidPage, place: Place = Place(), sounds: Sounds = NO_SOUNDS) -> dict[str, object]:
    """What the review's own part of the page needs; ``entries`` are all of them and ``shown`` those of the piece."""
    entries = entries_in_time(view)
    piece = piece_of(entries, start=place.start, thread=place.thread)
    shown = entries[piece.first : piece.last]
    return {
        "view": view,
        "entries": entries,
        "shown": shown,
        "piece": piece,
        "asked": questions_first(view.questions, shown),
        "looked": looked(entries),
        "quotes": view.quotes,
        "sounds": sounds,
        "offer_to": "",
        "offered": "",
        "drawing": draw(within(view.by_region, shown), None if piece.whole else window(piece, view.by_region)),
    }


def window(piece: Piece, timeline: Timeline) -> tuple[float, float]:
    """The seconds that a drawing of one piece goes over."""
    return max(0.0, piece.begins), min(timeline.length_s, piece.ends)


def page_values(view: SaidPage, place: Place = Place(), sounds: Sounds = NO_SOUNDS) -> Mapping[str, object]:
    """What the whole page needs."""
    values = review_values(view, place, sounds)
    piece = values["piece"]
    assert isinstance(piece, Piece)
    lines = rows(lines_in(view.lines, piece), entries_in_time(view), view.repairs, sounds.passages)
    return values | {"rows": lines}
