"""The day's round: its visits by yard, the yards in isolation last."""

from collections.abc import Mapping, Sequence

from haywisp.practice.types import Round, Stop, Yard
from haywisp.record.types import Horse, Visit

# Isolated horses are seen last, with own kit and clothing and washed hands: common to the biosecurity advice of
# UK practices and of the FEI.
KIT = "At {yard}: own kit and clothing, hands washed before and after, and home from there."
TWO = "{yards} are both in isolation: book one of them for another day, and go home between them."


def round_of(visits: Sequence[Visit], horses: Mapping[str, Horse], yards: Mapping[str, Yard]) -> Round:
    """One day's visits grouped by yard, both maps by id.

    Yards and the visits at each keep the order of ``visits``, so the same visits always make the same round; only
    yards in isolation move to the end. Visits whose yard isn't known make one stop before them.
    """
    at: dict[str, list[Visit]] = {}
    for visit in visits:
        horse = horses.get(visit.horse_id)
        yard_id = horse.yard_id if horse and horse.yard_id in yards else ""
        at.setdefault(yard_id, []).append(visit)
    stops = [
        Stop(yards.get(yard_id), tuple(booked), sum(visit.minutes for visit in booked))
        for yard_id, booked in at.items()
    ]
    return Round(tuple(sorted(stops, key=_place)), _cautions(stops))


def _place(stop: Stop) -> int:
    if stop.yard is None:
        return 1
    return 2 if stop.yard.isolation else 0


def _cautions(stops: Sequence[Stop]) -> tuple[str, ...]:
    isolated = [stop.yard.name for stop in stops if stop.yard and stop.yard.isolation]
    cautions = [KIT.format(yard=name) for name in isolated]
    if len(isolated) > 1:
        cautions.append(TWO.format(yards=" and ".join(isolated)))
    if any(stop.yard is None for stop in stops):
        cautions.append("Some visits have no known yard: give their horses a yard before you set out.")
    return tuple(cautions)
