"""Scores on the scales of the tables: given within limits, put together, put into words and compared."""

from collections.abc import Mapping, Sequence
from datetime import date
from math import floor, hypot, isfinite

from haywisp.errors import HaywispError
from haywisp.knowledge import Scale
from haywisp.measure.types import Meaning, Quantity, Score, ScoreChange

SIDES = (None, "left", "right")
#: 95 % of differences between two scores of the same thing lie within so many of their standard errors.
TWO_SIDED_95 = 1.96


class BadScore(HaywispError):
    """A score that its scale can't take; the sentence names the scale, what is wrong and what to give."""

    def __init__(self, scale: Scale, wrong: str) -> None:
        super().__init__(f"{scale.name}: {wrong}")


class ScoresDiffer(HaywispError):
    """Two scores that can't be set against each other."""

    def __init__(self, earlier: Score, later: Score, wrong: str) -> None:
        super().__init__(
            f"The scores of {earlier.day.isoformat()} and {later.day.isoformat()} can't be compared: {wrong}"
        )


def score(
    scale: Scale,
    value: float,
    observer: str,
    day: date,
    *,
    site: str = "",
    side: str | None = None,
    error: float | None = None,
    limits: tuple[float, float] | None = None,
) -> Score:
    """A score of the whole horse, or of one part named by ``site``, stored with its limits.

    ``limits`` are others that the scale knows, where a practitioner keeps to those; a published error of the scale
    stands in where ``error`` is None. Raises BadScore.
    """
    minimum, maximum = _limits(scale, site, limits)
    if not isfinite(value) or not minimum <= value <= maximum:
        raise BadScore(
            scale, f"{value:g} is outside {minimum:g} to {maximum:g} {scale.unit}; look again and score anew."
        )
    steps = (value - minimum) / scale.step
    if abs(steps - round(steps)) > 1e-9:
        below = minimum + floor(steps) * scale.step
        raise BadScore(
            scale, f"{value:g} lies between two steps; give {below:g} or {below + scale.step:g} {scale.unit}."
        )
    if side not in SIDES:
        raise BadScore(scale, f"the side “{side}” is not known; give left, right or none.")
    if not observer.strip():
        raise BadScore(scale, "it isn't said who scored; give the name of whoever looked and felt.")
    if error is not None and not (isfinite(error) and error >= 0):
        raise BadScore(scale, f"the error {error:g} can't be; give 0 or more, or leave it out.")
    known = scale.error if error is None else error
    return Score(scale.id, scale.unit, minimum, maximum, scale.step, float(value), observer, day, site, side, known)


def _limits(scale: Scale, site: str, limits: tuple[float, float] | None) -> tuple[float, float]:
    if site and site not in scale.parts:
        places = f"it is scored at {', '.join(scale.parts)}" if scale.parts else "it is scored of the whole horse"
        raise BadScore(scale, f"it has no part “{site}”; {places}.")
    if not site and scale.parts and not scale.combine:
        raise BadScore(scale, f"its parts have no whole; score each by itself: {', '.join(scale.parts)}.")
    own = (scale.part_minimum, scale.part_maximum) if site else (scale.minimum, scale.maximum)
    if limits is None or limits == own:
        return own
    others = [(other.minimum, other.maximum) for other in scale.other_limits]
    if limits not in others:
        known = " or ".join(f"{low:g} to {high:g}" for low, high in (own, *others))
        raise BadScore(scale, f"limits of {limits[0]:g} to {limits[1]:g} are not known for it; it runs from {known}.")
    return limits


def combined(scale: Scale, parts: Sequence[Score]) -> Score:
    """The whole of a scale from one score of each of its parts, by one observer on one day.

    A mean is taken to the nearest step, a half step upwards (that rule is from memory); the errors of the parts are
    taken as independent, and the rounding of a mean adds none. Raises BadScore.
    """
    if not scale.combine:
        raise BadScore(scale, "it has no rule that makes one score of several.")
    sites = [part.site for part in parts]
    missing = [name for name in scale.parts if name not in sites]
    if missing:
        raise BadScore(scale, f"there is no score of: {', '.join(missing)}; score them too.")
    if len(sites) != len(scale.parts):
        raise BadScore(scale, f"each of {', '.join(scale.parts)} must be scored once, and nothing else.")
    own = (scale.id, scale.part_minimum, scale.part_maximum)
    if any((part.scale, part.minimum, part.maximum) != own for part in parts):
        raise BadScore(scale, f"a part was scored on other limits than {own[1]:g} to {own[2]:g}; score it anew.")
    if len({(part.observer, part.day) for part in parts}) > 1:
        raise BadScore(scale, "its parts are of several observers or days; put together only what one saw on one day.")
    total = sum(part.value for part in parts)
    errors = [part.error for part in parts if part.error is not None]
    error = hypot(*errors) if len(errors) == len(parts) else None
    if scale.combine == "mean":
        steps = (total / len(parts) - scale.minimum) / scale.step
        total = scale.minimum + floor(steps + 0.5 + 1e-9) * scale.step
        error = None if error is None else error / len(parts)
    return score(scale, total, parts[0].observer, parts[0].day, error=error)


def meaning(scale: Scale, given: Score) -> Meaning:
    """A score in words: its level, what the marks make of it, and what the screening gate should hear.

    Marks are of the whole: a part has a level at most, and none where parts are summed.
    Raises BadScore where the score was given on another scale or other limits than the scale has now.
    """
    own = (scale.part_minimum, scale.part_maximum) if given.site else (scale.minimum, scale.maximum)
    if given.scale != scale.id or (given.minimum, given.maximum) != own:
        raise BadScore(
            scale,
            f"the score was given on {given.scale} from {given.minimum:g} to {given.maximum:g}, and its words are of "
            f"{own[0]:g} to {own[1]:g}; read it by its own limits.",
        )
    whole = not given.site
    reached = [band for band in scale.bands if whole and band.at_least <= given.value]
    mark = reached[-1] if reached else None
    return Meaning(
        level=_level(scale, given.value) if whole or scale.combine != "sum" else "",
        mark=mark.says if mark else "",
        mark_source=mark.source if mark else "",
        flag=mark.flag if mark else "",
        caution=scale.caution,
    )


def _level(scale: Scale, value: float) -> str:
    """The level in words; of a value between two levels that are a step apart, both; empty where none is worded."""
    levels: Mapping[float, str] = {
        level.value: f"{level.name}: {level.says}" if level.says else level.name for level in scale.levels
    }
    if value in levels:
        return levels[value]
    around = [levels.get(float(floor(value))), levels.get(float(floor(value)) + 1)]
    return f"between “{around[0]}” and “{around[1]}”" if all(around) and value != floor(value) else ""


def change(earlier: Score, later: Score) -> ScoreChange:
    """The later score less the earlier, with its error, and whether it is larger than 1.96 standard errors of it.

    Left may be set against right. Raises ScoresDiffer unless scale, limits and site agree.
    """
    if earlier.scale != later.scale:
        raise ScoresDiffer(earlier, later, f"one is of {earlier.scale}, the other of {later.scale}.")
    if (earlier.minimum, earlier.maximum) != (later.minimum, later.maximum):
        raise ScoresDiffer(
            earlier,
            later,
            f"one was given from {earlier.minimum:g} to {earlier.maximum:g}, the other from {later.minimum:g} to "
            f"{later.maximum:g}; score once more on the limits of the first.",
        )
    if earlier.site != later.site:
        first, second = (one.site or "the whole horse" for one in (earlier, later))
        raise ScoresDiffer(earlier, later, f"one is of {first}, the other of {second}.")
    if earlier.unit != later.unit:
        raise ScoresDiffer(earlier, later, f"one is in {earlier.unit}, the other in {later.unit}.")
    both = None if earlier.error is None or later.error is None else hypot(earlier.error, later.error)
    difference = later.value - earlier.value
    quantity = Quantity(difference, earlier.unit, both, "later score − earlier score", f"scale {earlier.scale}")
    return ScoreChange(earlier, later, quantity, None if both is None else abs(difference) > TWO_SIDED_95 * both)
