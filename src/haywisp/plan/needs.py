"""From findings to needs: what each structure asks for, how much, and which techniques help it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from haywisp.findings.types import Fact
from haywisp.knowledge import TOGETHER, is_usual
from haywisp.knowledge.types import Tables
from haywisp.plan.types import Need
from haywisp.plan.units import AS_ONE, NOT_FELT

# How much a finding asks for, 0 to 1, and its name in a plan's reasons: common practice, no source. A finding that is
# not here asks for nothing of the hands: it is the gate's business (wounds, swelling, heat) or says where to look
# (symmetry).
ASKS: Mapping[tuple[str, str], tuple[float, str]] = {
    ("tone", "tight"): (0.6, "tightness"),
    ("tone", "slack"): (0.25, "slackness"),
    ("texture", "knotted"): (0.6, "knots"),
    ("texture", "fibrous"): (0.45, "fibrous texture"),
    ("mobility", "restricted"): (0.5, "restricted movement"),
    ("tenderness", "present"): (0.4, "tenderness"),
    ("spasm", "present"): (0.7, "spasm"),
    ("development", "under"): (0.35, "underdevelopment"),
    ("development", "over"): (0.3, "overdevelopment"),
    ("warmth", "cool"): (0.25, "coolness"),
}

# The share of what it asks for that a finding keeps that was not felt again at the newest visit; own choice, no source.
CARRIED = 0.6

Site = tuple[str, str | None]


@dataclass(frozen=True, slots=True)
class _Found:
    aspect: str
    value: str
    asks: float
    phrase: str
    felt: bool


def needs_from_facts(facts: Sequence[Fact], tables: Tables) -> tuple[Need, ...]:
    """One need for each structure and side with a finding that hands can help, heaviest first.

    A later finding of the same aspect takes an earlier one back. Findings of both or of unknown side count for each
    side, but the poll is one place: found on both, or on a side not told, it is one need of both. Several findings join
    as 1 - Π(1 - severity); one not felt at the newest visit asks for less, and where none was felt, for no deep work.
    """
    found: dict[Site, list[_Found]] = {}
    for fact in facts:
        if fact.kind != "finding" or fact.structure not in tables.structures:
            continue
        for side in _sides(fact, tables):
            known = found.setdefault((fact.structure, side), [])
            if is_usual(fact.aspect, fact.value, tables) or fact.aspect not in TOGETHER:
                known[:] = [each for each in known if each.aspect != fact.aspect]
            if (fact.aspect, fact.value) in ASKS and (fact.aspect, fact.value) not in [
                (each.aspect, each.value) for each in known
            ]:
                known.append(_asked(fact, side, tables))
    together = _joined({site: known for site, known in found.items() if known}, tables)
    needs = [_need(site, known, tables) for site, known in together.items()]
    order = list(tables.structures)
    return tuple(sorted(needs, key=lambda need: (-need.weight, order.index(need.structure), need.side or "")))


def _sides(fact: Fact, tables: Tables) -> tuple[str | None, ...]:
    if not tables.structures[fact.structure].paired:
        return (None,)
    return (fact.side,) if fact.side in ("left", "right") else ("left", "right")


def _asked(fact: Fact, side: str | None, tables: Tables) -> _Found:
    asks, phrase = ASKS[fact.aspect, fact.value]
    one = tables.structures[fact.structure].region in AS_ONE
    note = "" if fact.side or side is None or one else " (side not said)"
    if fact.since is not None:
        asks *= CARRIED
        note += f"{NOT_FELT} {fact.since.day} {fact.since:%B %Y})"
    return _Found(fact.aspect, fact.value, asks, phrase + note, fact.since is None)


def _joined(found: Mapping[Site, list[_Found]], tables: Tables) -> dict[Site, list[_Found]]:
    """A region that is worked as one and has findings on both sides gets needs of both, each finding told once."""
    sides: dict[str, set[str | None]] = {}
    for structure, side in found:
        sides.setdefault(tables.structures[structure].region, set()).add(side)
    joined: dict[Site, list[_Found]] = {}
    for (structure, side), known in found.items():
        region = tables.structures[structure].region
        one = region in AS_ONE and len(sides[region]) > 1
        into = joined.setdefault((structure, "both" if one and side else side), [])
        into += [each for each in known if (each.aspect, each.value) not in [(e.aspect, e.value) for e in into]]
    return joined


def _need(site: Site, found: Sequence[_Found], tables: Tables) -> Need:
    severities = {f"{each.aspect}:{each.value}": each.asks for each in found}
    spared = 1.0
    for severity in severities.values():
        spared *= 1 - severity
    total = sum(severities.values())
    helps = {
        technique.id: sum(severity * technique.helps.get(key, 0.0) for key, severity in severities.items()) / total
        for technique in tables.techniques.values()
        if technique.stage != "deep" or any(each.felt for each in found)
    }
    return Need(
        site[0],
        site[1],
        1 - spared,
        tuple(each.phrase for each in found),
        {technique: help_ for technique, help_ in helps.items() if help_ > 0},
        tuple(severities),
    )
