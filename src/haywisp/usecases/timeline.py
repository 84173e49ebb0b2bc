"""What was done when, as bars in lanes with the horse's answers above them."""

from collections.abc import Callable, Iterable, Sequence

from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry
from haywisp.report.wording import entry_sentence, mmss
from haywisp.usecases.views import Lane, Timeline, TimelineBar, TimelineMark
from haywisp.usecases.wording import label, sentence_case, structure_label

STEPS_S = (15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1800.0, 3600.0)
MOST_TICKS = 12
Lanes = Callable[[Entry], list[Lane]]


def timelines(entries: Sequence[Entry], words_end: float, tables: Tables) -> tuple[Timeline, Timeline]:
    """The bouts by region of the body, front to back, and by technique, in order of first use."""
    regions = {key: place for place, key in enumerate(tables.structures)}

    def by_region(bout: Entry) -> list[Lane]:
        ids = dict.fromkeys(_region(structure, tables) for structure in _structures(bout))
        return [Lane(region, structure_label(region, tables)) for region in ids]

    def by_technique(bout: Entry) -> list[Lane]:
        technique = str(bout.body.get("technique", ""))
        return [Lane(technique, label(tables.techniques, technique))]

    return (
        timeline(entries, words_end, tables, by_region, lambda lane: regions.get(lane.id, len(regions))),
        timeline(entries, words_end, tables, by_technique, lambda lane: 0),
    )


def timeline(
    entries: Sequence[Entry], words_end: float, tables: Tables, lanes_of: Lanes, rank: Callable[[Lane], int]
) -> Timeline:
    """``words_end`` is when the last word ends, in seconds; lanes of equal rank keep the order of their first bout."""
    bouts = [entry for entry in entries if entry.part == "bout"]
    lanes = sorted(dict.fromkeys(lane for bout in bouts for lane in lanes_of(bout)), key=rank)
    length = max([words_end, *(entry.end_s for entry in entries), *(entry.time_s for entry in entries)], default=0.0)
    return Timeline(
        lanes=tuple(lanes),
        bars=tuple(_bar(bout, lane, tables) for bout in bouts for lane in lanes_of(bout)),
        marks=tuple(_mark(entry, tables) for entry in entries if entry.part == "response"),
        length_s=length,
        ticks=ticks(length),
    )


def ticks(length_s: float, shown_s: float | None = None) -> tuple[tuple[float, str], ...]:
    """Round times from 0, at most twelve of them in any ``shown_s`` seconds (the whole length unless told)."""
    shown = length_s if shown_s is None else shown_s
    step = next((step for step in STEPS_S if shown / step < MOST_TICKS), shown / MOST_TICKS or 1.0)
    count = int(length_s / step) + 1
    return tuple((place * step, mmss(place * step)) for place in range(count))


def minutes_worked(entries: Iterable[Entry]) -> float:
    """Minutes with the hands on: bouts that overlap are counted once."""
    total = reached = 0.0
    for start, end in sorted((entry.time_s, entry.end_s) for entry in entries if entry.part == "bout"):
        total += max(0.0, end - max(start, reached))
        reached = max(reached, end)
    return total / 60


def _bar(bout: Entry, lane: Lane, tables: Tables) -> TimelineBar:
    technique = str(bout.body.get("technique", ""))
    where = ", ".join(structure_label(structure, tables) for structure in _structures(bout))
    name = label(tables.techniques, technique)
    side = bout.body.get("side")
    pressure = bout.body.get("pressure")
    sentence = entry_sentence("bout", bout.body, tables)
    return TimelineBar(
        lane=lane.id,
        thread=bout.thread,
        label=where if lane.id == technique else name,
        sentence=f"{mmss(bout.time_s)} to {mmss(bout.end_s)}: {sentence}",
        technique=technique,
        side=None if side is None else str(side),
        pressure=None if pressure is None else str(pressure),
        start=bout.time_s,
        end=bout.end_s,
        status=bout.status,
    )


def _mark(response: Entry, tables: Tables) -> TimelineMark:
    sign = tables.signs.get(str(response.body.get("sign", "")))
    return TimelineMark(
        thread=response.thread,
        label=sentence_case(entry_sentence("response", response.body, tables)),
        time_s=response.time_s,
        time=mmss(response.time_s),
        direction=sign.direction if sign is not None else "settling",
        weight=sign.weight if sign is not None else 0.0,
        status=response.status,
    )


def _structures(bout: Entry) -> list[str]:
    given = bout.body.get("structures")
    return [str(one) for one in given] if isinstance(given, list | tuple) else []


def _region(structure: str, tables: Tables) -> str:
    row = tables.structures.get(structure)
    return row.region or structure if row is not None else structure
