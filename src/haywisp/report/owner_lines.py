"""The lines of the owner's report, put together by part of the body instead of one a bout."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry
from haywisp.report.marks import head_to_tail, part_of_body
from haywisp.report.phrases import Phrases, cap, joined, phrases, table
from haywisp.report.types import ReportLine
from haywisp.report.wording import (
    finding_words,
    minutes_words,
    place,
    place_title,
    sign_words,
    technique_name,
)

SIDES = ("left", "right", "both", None)
PRESSURES = ("light", "moderate", "firm")
# An answer this long after a bout is still told with it.
AFTER_S = 10.0


@dataclass
class _Part:
    """What was done at one part of the body and side, while it is being added up."""

    seconds: float = 0.0
    techniques: list[str] = field(default_factory=list)
    pressures: set[str] = field(default_factory=set)


def structures_of(entry: Entry) -> list[str]:
    """The structures that a bout or finding names."""
    several = entry.body.get("structures")
    if isinstance(several, list | tuple):
        return [str(one) for one in several]
    one = entry.body.get("structure")
    return [str(one)] if one else []


def side_of(entry: Entry) -> str | None:
    """The side that an entry tells, None for none and for anything that is no side."""
    side = entry.body.get("side")
    return next((one for one in SIDES if one == side), None)


def parts_worked(kept: Iterable[Entry], tables: Tables) -> list[str]:
    """Regions that were worked on, from head to tail."""
    regions = {part_of_body(one, tables) for entry in kept if entry.part == "bout" for one in structures_of(entry)}
    return head_to_tail(regions, tables)


def done_lines(kept: Sequence[Entry], tables: Tables) -> tuple[ReportLine, ...]:
    """One line for each part of the body and side; a bout over several parts shares its time among them."""
    parts = _added_up(kept, tables)
    regions = head_to_tail({region for region, _ in parts}, tables)
    ordered = [(region, side) for region in regions for side in SIDES if (region, side) in parts]
    told: set[str] = set()
    return tuple(
        ReportLine(place_title(region, side, tables, "owner"), _done_detail(parts[region, side], told, tables))
        for region, side in ordered
    )


def _added_up(kept: Sequence[Entry], tables: Tables) -> dict[tuple[str, str | None], _Part]:
    parts: dict[tuple[str, str | None], _Part] = {}
    for entry in kept:
        if entry.part != "bout":
            continue
        regions = list(dict.fromkeys(part_of_body(one, tables) for one in structures_of(entry)))
        technique, pressure = entry.body.get("technique"), entry.body.get("pressure")
        for region in regions:
            part = parts.setdefault((region, side_of(entry)), _Part())
            part.seconds += max(0.0, entry.end_s - entry.time_s) / len(regions)
            if technique and str(technique) not in part.techniques:
                part.techniques.append(str(technique))
            if pressure in PRESSURES:
                part.pressures.add(str(pressure))
    return parts


def _done_detail(part: _Part, told: set[str], tables: Tables) -> str:
    """Techniques, pressure and time; the trade term stands in brackets where a technique is first told."""
    says = table("owner", tables.language.code)["lines"]
    names = [technique_name(one, tables, "owner", brackets=one not in told) for one in part.techniques]
    told.update(part.techniques)
    pressure = _pressure(part.pressures, says, tables)
    techniques = joined([*names]) + (f", {pressure}" if pressure else "")
    return cap(says["done"].format(techniques=techniques, total=minutes_words(part.seconds, tables)))


def _pressure(pressures: set[str], says: Phrases, tables: Tables) -> str:
    words = phrases(tables.language.code)["pressures"]
    steps = [words[one] for one in PRESSURES if one in pressures]
    if len(steps) > 1:
        return str(says["pressure_from_to"].format(light=steps[0], firm=steps[-1]))
    return str(says["pressure"].format(pressure=steps[0])) if steps else ""


def usual(aspect: str, value: str, tables: Tables) -> bool:
    """Whether a value says that all is as it should be."""
    row = tables.aspects.get(aspect)
    return row is not None and row.usual == value


def found_lines(kept: Sequence[Entry], tables: Tables) -> tuple[ReportLine, ...]:
    """One line for each structure and side, from head to tail; where all is as usual comes after the rest."""
    by_place: dict[tuple[str, str | None], dict[str, list[str]]] = {}
    for entry in kept:
        if entry.part == "finding":
            key = (str(entry.body.get("structure", "")), side_of(entry))
            values = by_place.setdefault(key, {}).setdefault(str(entry.body.get("aspect", "")), [])
            value = str(entry.body.get("value", ""))
            if not values or values[-1] != value:
                values.append(value)
    _merge_sides(by_place)
    regions = head_to_tail({part_of_body(structure, tables) for structure, _ in by_place}, tables)

    def reading_order(key: tuple[str, str | None]) -> tuple[bool, int, int]:
        well = all(usual(aspect, values[-1], tables) for aspect, values in by_place[key].items())
        return (well, regions.index(part_of_body(key[0], tables)), SIDES.index(key[1]))

    ordered = sorted(by_place, key=reading_order)
    return tuple(
        ReportLine(place_title(*key, tables, "owner"), _found_detail(by_place[key], tables)) for key in ordered
    )


def _merge_sides(by_place: dict[tuple[str, str | None], dict[str, list[str]]]) -> None:
    """What was found the same left and right is one line for both sides."""
    for structure in {structure for structure, _ in by_place}:
        left, right = by_place.get((structure, "left")), by_place.get((structure, "right"))
        if left is not None and left == right and (structure, "both") not in by_place:
            by_place[structure, "both"] = left
            del by_place[structure, "left"], by_place[structure, "right"]


def _found_detail(aspects: dict[str, list[str]], tables: Tables) -> str:
    """What is not as usual comes first."""
    says = table("owner", tables.language.code)["lines"]
    details = []
    for aspect, values in aspects.items():
        names = [finding_words(aspect, value, tables, "owner") for value in values]
        text = names[0] if len(names) == 1 else says["later"].format(first=names[0], last=names[-1])
        details.append((usual(aspect, values[-1], tables), text))
    return cap(", ".join(text for _, text in sorted(details, key=lambda one: one[0])))


def answered_lines(kept: Sequence[Entry], tables: Tables) -> tuple[ReportLine, ...]:
    """One line for settling and one for guarding; guarding is told by where the hands were."""
    says = table("owner", tables.language.code)["lines"]
    bouts = [one for one in kept if one.part == "bout"]
    settled: dict[str, int] = {}
    guarded: dict[str, dict[str, int]] = {}
    for entry in kept:
        if entry.part != "response":
            continue
        sign = str(entry.body.get("sign", ""))
        row = tables.signs.get(sign)
        settling = row is not None and row.direction == "settling"
        told = settled if settling else guarded.setdefault(_where(entry.time_s, bouts, tables), {})
        text = sign_words(sign, tables)
        told[text] = told.get(text, 0) + 1
    ways = {
        "settling": _signs(settled, tables),
        "guarding": "; ".join(" ".join(filter(None, [_signs(signs, tables), at])) for at, signs in guarded.items()),
    }
    return tuple(ReportLine(says[way], cap(text)) for way, text in ways.items() if text)


def _signs(signs: dict[str, int], tables: Tables) -> str:
    """``licked and chewed (2 times), sighed and yawned``."""
    words = table("owner", tables.language.code)["lines"]["again"]
    texts = [words.format(sign=sign, n=times) if times > 1 else sign for sign, times in signs.items()]
    texts = [text[:1].lower() + text[1:] for text in texts]
    # "Licked and chewed" has its own "and": another one would run them together.
    return ", ".join(texts) if any(" and " in text for text in texts) else joined(texts)


def _where(time_s: float, bouts: Sequence[Entry], tables: Tables) -> str:
    """Where the hands were at that time, in the words of the part of the body."""
    says = table("owner", tables.language.code)["lines"]
    at = [one for one in bouts if one.time_s <= time_s <= one.end_s + AFTER_S]
    if not at:
        return ""
    regions = list(dict.fromkeys(part_of_body(one, tables) for one in structures_of(at[-1])))
    return str(says["where"].format(where=place(regions, side_of(at[-1]), tables, "owner"))) if regions else ""
