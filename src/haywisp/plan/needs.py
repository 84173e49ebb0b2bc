"""From findings to needs: what each structure asks for, how much, and which techniques help it."""

from collections.abc import Mapping, Sequence

from haywisp.findings.types import Fact
from haywisp.knowledge.types import Tables
from haywisp.plan.types import Need

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

Site = tuple[str, str | None]


def needs_from_facts(facts: Sequence[Fact], tables: Tables) -> tuple[Need, ...]:
    """One need for each structure and side with a finding that hands can help, heaviest first.

    A later usual finding of the same aspect takes an earlier one back. Findings of both or of unknown side count for
    each side; several findings join as 1 - Π(1 - severity).
    """
    found: dict[Site, list[tuple[str, str, str]]] = {}
    for fact in facts:
        if fact.kind != "finding" or fact.structure not in tables.structures:
            continue
        for side in _sides(fact, tables):
            known = found.setdefault((fact.structure, side), [])
            if _is_usual(fact, tables):
                known[:] = [each for each in known if each[0] != fact.aspect]
            elif (fact.aspect, fact.value) in ASKS:
                note = "" if fact.side or side is None else " (side not said)"
                if (fact.aspect, fact.value) not in [each[:2] for each in known]:
                    known.append((fact.aspect, fact.value, ASKS[fact.aspect, fact.value][1] + note))
    needs = [_need(site, known, tables) for site, known in found.items() if known]
    order = list(tables.structures)
    return tuple(sorted(needs, key=lambda need: (-need.weight, order.index(need.structure), need.side or "")))


def _sides(fact: Fact, tables: Tables) -> tuple[str | None, ...]:
    if not tables.structures[fact.structure].paired:
        return (None,)
    return (fact.side,) if fact.side in ("left", "right") else ("left", "right")


def _is_usual(fact: Fact, tables: Tables) -> bool:
    aspect = tables.aspects.get(fact.aspect)
    return aspect is not None and aspect.usual == fact.value


def _need(site: Site, found: Sequence[tuple[str, str, str]], tables: Tables) -> Need:
    severities = {f"{aspect}:{value}": ASKS[aspect, value][0] for aspect, value, _ in found}
    spared = 1.0
    for severity in severities.values():
        spared *= 1 - severity
    total = sum(severities.values())
    helps = {
        technique.id: sum(severity * technique.helps.get(key, 0.0) for key, severity in severities.items()) / total
        for technique in tables.techniques.values()
    }
    return Need(
        site[0],
        site[1],
        1 - spared,
        tuple(phrase for _, _, phrase in found),
        {technique: help_ for technique, help_ in helps.items() if help_ > 0},
    )
