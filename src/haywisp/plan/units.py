"""The figures of the session plan in one place: time in units of half a minute, and how benefit flattens with time.

Lengths, counts and the order of work are common practice, no source; the curve of benefit is a choice of this tool.
"""

from collections.abc import Mapping
from math import ceil

UNIT_MINUTES = 0.5
SHORTEST_SESSION_MINUTES = 10

CONTACT_UNITS = 4  # hands resting, before anything else
OPENING_UNITS = 2  # on each region and side, before its work
CLOSING_UNITS = 2  # on each region and side, after its work
# A technique is given two minutes to work, one where it only prepares.
SHORTEST_BOUT_UNITS: Mapping[str, int] = {"opening": 4, "preparing": 4, "deep": 4, "stretch": 4}
SHORTEST_PREPARATION_UNITS = 2
# Depth and stretches tire the tissue: they are shorter than what loosens it (a stretch is a few repetitions).
LONGEST_BOUT_UNITS: Mapping[str, int] = {"opening": 8, "preparing": 8, "deep": 6, "stretch": 4}
LONGEST_SITE_UNITS = 12  # all bouts on one structure and side
SHORTEST_BLOCK_UNITS = 6  # work in a region and side that is opened and closed for it
MINUTES_A_PLACE = 3  # no more structures and sides are worked than one for so many minutes booked
PAIR_RATIO = 1.2  # the longer side of a pair over the shorter

# One point is held for seconds to a minute and a half, then let go and felt again.
HOLDS: Mapping[str, tuple[int, int]] = {"sustained-pressure": (2, 3)}
# Blows wake a muscle in a minute or two; more only annoys the horse.
BLOWS: Mapping[str, tuple[int, int]] = {"cupping": (2, 4), "hacking": (2, 4)}
KNOTTED = "texture:knotted"  # a place so found is loosened and held, not only rubbed

# The side across from what is worked: opened, loosened for a minute, closed. A shorter visit has no time for it.
MATCHED_FROM_MINUTES = 20
MATCHING_UNITS = 2

AS_ONE = ("poll",)  # reached with both hands at once: worked as one where it was found on both sides
NOT_FELT = " (not felt last time: from the visit of"  # begins the note of a finding that stands from an earlier visit
HEAD = ("poll", "jaw")
HEAD_WORK_UNITS = 12  # work on one side of the jaw, or on the poll, of any horse
HEAD_SHY_UNITS = 8  # on all of the head of a head-shy horse, strokes and all
HEAD_SHY_WORK_UNITS = 4  # so much of it is work: a light technique, none that moves the head
# Structures and regions that firm pressure is never planned on: thin muscle over bone or over what it could hurt.
DEEPEST: Mapping[str, str] = {
    "poll": "moderate",
    "jaw": "moderate",
    "loin": "moderate",
    "ribcage": "moderate",
    "girth": "moderate",
    "sacroiliac": "moderate",
    "belly": "moderate",
    "brachiocephalicus": "moderate",
    "sternomandibularis": "moderate",
    "scalenus": "moderate",
}

MAINTENANCE_UNITS = (4, 8)  # fewest and most on a region and side without a finding
FEW_NEEDS = 12  # with more needs than this no maintenance is planned
LEFT_OVER_MINUTES = 3  # so much unplanned time is told, with what to do in it

# Concave benefit: four segments of dose (minutes × relative help), each with its benefit per minute; full dose gives 1.
SEGMENTS = ((1.0, 0.40), (1.5, 0.24), (2.0, 0.09), (2.5, 0.024))
ENOUGH = 0.40  # a need that got less than this share of its benefit is told as got less than it asked for

PRESSURES = ("light", "moderate", "firm")
PRESSURE_LOSS = 0.2  # help lost for each step that a cap takes off the usual pressure
# The heaviest pressure that a stage is planned with; only deep work goes to firm.
STAGE_PRESSURE: Mapping[str, str] = {"deep": "firm", "preparing": "moderate", "stretch": "moderate"}
STAGES = ("opening", "preparing", "deep", "stretch", "closing")
LIGHTEST_DEEP = "moderate"  # deep work under a light cap is no longer deep work


def bout_units(technique: str, stage: str, help_: float, minutes_per_pass: float) -> tuple[int, int]:
    """The fewest and most units of one bout; fewer where it helps nothing and only prepares."""
    least, most = {**HOLDS, **BLOWS}.get(technique, (SHORTEST_BOUT_UNITS[stage], LONGEST_BOUT_UNITS[stage]))
    if help_ <= 0:
        least = SHORTEST_PREPARATION_UNITS
    one_pass = units_in(minutes_per_pass)
    return max(least, one_pass), max(most, one_pass)


def most_places(minutes: int) -> int:
    """How many structures and sides may be worked in a visit of so many minutes."""
    return max(1, minutes // MINUTES_A_PLACE)


def units_in(minutes: float) -> int:
    """The least number of units that holds these minutes."""
    return ceil(minutes / UNIT_MINUTES - 1e-9)


def share_of_benefit(dose: float) -> float:
    """Benefit 0 to 1 of a dose in minutes of full help."""
    share = 0.0
    for width, slope in SEGMENTS:
        step = min(max(dose, 0.0), width)
        share += step * slope
        dose -= step
    return share
