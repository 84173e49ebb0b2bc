"""The screening gate: which cautions the facts raise, and what the plan may then not do.

It decides nothing about illness: it says when a vet comes first. More facts never loosen it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import product

from haywisp.findings.sites import Site, same_place, site_of
from haywisp.findings.types import Cause, Fact, GateVerdict, Limits, Reason
from haywisp.findings.words import say
from haywisp.knowledge import covers, inside
from haywisp.knowledge.types import Caution, Tables, Trigger

PRESSURES = ("light", "moderate", "firm")
FIRST_VISIT = Fact("flag", "first-visit")


def asks_alone(tables: Tables) -> frozenset[tuple[str, str]]:
    """The flags, actions and signs, as (kind, id), that by themselves mean a vet first."""
    return frozenset(
        (trigger.kind, trigger.id)
        for caution in tables.cautions.values()
        if caution.verdict == "vet-first" and not caution.all_triggers
        for trigger in caution.triggers
        if trigger.kind != "finding"
    )


def lighter(one: str, other: str) -> str:
    """The lighter of two pressures."""
    return min(one, other, key=PRESSURES.index)


def gate(facts: Sequence[Fact], tables: Tables, *, first_visit: bool = False) -> GateVerdict:
    """The strictest verdict of all cautions that apply, their reasons (strictest first) and their joint limits.

    A first visit is one more fact, the flag ``first-visit``; what it limits is the table's to say.
    """
    if first_visit and FIRST_VISIT not in facts:
        facts = (*facts, FIRST_VISIT)
    met = [(caution, found) for caution in tables.cautions.values() if (found := met_by(caution, facts, tables))]
    met.sort(key=lambda pair: (pair[0].verdict != "vet-first", not pair[0].absolute, pair[0].id))
    reasons = tuple(_reason(caution, found) for caution, found in met)
    draft = _Draft(tables)
    for caution, found in met:
        draft.apply(caution, found)
    verdict = "work"
    if reasons:
        verdict = "vet-first" if any(reason.verdict == "vet-first" for reason in reasons) else "within-limits"
    return GateVerdict(verdict, reasons, draft.limits())


def met_by(caution: Caution, facts: Sequence[Fact], tables: Tables) -> tuple[Fact, ...]:
    """The facts that raise a caution, none when it does not apply.

    One trigger is enough, unless the caution wants all of them: then findings must be of one place.
    """
    hits = [[fact for fact in facts if matches(trigger, fact, tables)] for trigger in caution.triggers]
    if not caution.all_triggers:
        return _distinct(fact for found in hits for fact in found)
    together = [facts_met for facts_met in product(*hits) if _of_one_place(facts_met, tables)] if hits else []
    return _distinct(fact for facts_met in together for fact in facts_met)


def matches(trigger: Trigger, fact: Fact, tables: Tables) -> bool:
    """Whether a fact is what a trigger asks for; an empty field of the trigger asks for nothing."""
    if trigger.kind != fact.kind:
        return False
    if fact.kind != "finding":
        return trigger.id in ("", fact.id)
    if trigger.aspect not in ("", fact.aspect) or trigger.value not in ("", fact.value):
        return False
    row = tables.structures.get(fact.structure)
    if not trigger.structures or row is None:
        return not trigger.structures or fact.structure in trigger.structures
    return covers(trigger.structures, row)


def _of_one_place(facts: tuple[Fact, ...], tables: Tables) -> bool:
    found = [fact for fact in facts if fact.kind == "finding"]
    return all(same_place(one, other, tables) for number, one in enumerate(found) for other in found[:number])


def _distinct(facts: Iterable[Fact]) -> tuple[Fact, ...]:
    return tuple(dict.fromkeys(facts))


def _reason(caution: Caution, found: tuple[Fact, ...]) -> Reason:
    return Reason(
        caution.id, caution.name, caution.owner_wording, found, caution.absolute, caution.source, caution.verdict
    )


def _one(side: str | None) -> str | None:
    return side if side in ("left", "right") else None


@dataclass
class _Draft:
    """Limits while cautions are being laid over one another; they only ever tighten."""

    tables: Tables
    excluded: set[Site] = field(default_factory=set)
    techniques: set[str] = field(default_factory=set)
    caps: dict[Site, str] = field(default_factory=dict)
    pressure_cap: str = "firm"
    causes: dict[str, list[Cause]] = field(default_factory=dict)

    def apply(self, caution: Caution, found: tuple[Fact, ...]) -> None:
        for fact in found:
            if fact.kind == "finding":
                self._apply_at(fact, caution, found)
        if caution.site == "body":
            self._exclude([(structure, None) for structure in self.tables.structures], caution, found)
        self._exclude([(structure, None) for structure in self._named(caution.structures)], caution, found)
        for technique in caution.techniques:
            self.techniques.add(technique)
            self._explain(technique, caution, found, "technique")
        if caution.pressure_cap and caution.site != "found-cap":
            self.pressure_cap = lighter(self.pressure_cap, caution.pressure_cap)
            self._explain("pressure", caution, found, "pressure")

    def _apply_at(self, fact: Fact, caution: Caution, found: tuple[Fact, ...]) -> None:
        """What a caution does to the place of one finding, explained by the facts of that place alone."""
        here = tuple(each for each in found if each.kind != "finding" or same_place(each, fact, self.tables))
        facts = here if caution.all_triggers else (fact,)
        if caution.site == "found":
            self._exclude([(fact.structure, fact.side)], caution, facts)
        if caution.site == "found-cap" and caution.pressure_cap:
            self._cap([(fact.structure, fact.side)], caution, facts)

    def _explain(self, key: str, caution: Caution, facts: tuple[Fact, ...], effect: str) -> None:
        cause = Cause(caution.id, caution.name, facts, effect)
        known = self.causes.setdefault(key, [])
        if cause not in known:
            known.append(cause)

    def limits(self) -> Limits:
        return Limits(
            frozenset(self.excluded),
            frozenset(self.techniques),
            dict(self.caps),
            self.pressure_cap,
            {key: "; ".join(dict.fromkeys(map(self._text, causes))) for key, causes in self.causes.items()},
            {key: tuple(causes) for key, causes in self.causes.items()},
        )

    def _text(self, cause: Cause) -> str:
        return f"{cause.name}: {'; '.join(say(fact, self.tables) for fact in cause.facts)}"

    def _exclude(self, sites: Iterable[Site], caution: Caution, facts: tuple[Fact, ...]) -> None:
        for site in self._spread(sites):
            self.excluded.add(site)
            self._explain(site[0], caution, facts, "excluded")

    def _cap(self, sites: Iterable[Site], caution: Caution, facts: tuple[Fact, ...]) -> None:
        for site in self._spread(sites):
            self.caps[site] = lighter(self.caps.get(site, "firm"), caution.pressure_cap)
            self._explain(site[0], caution, facts, "cap")

    def _spread(self, sites: Iterable[Site]) -> list[Site]:
        """The places and all that lies in them; of the midline within a paired region, only the side that was found."""
        return [
            site_of(part, side, self.tables) if part == structure or self._is_midline(structure) else (part, _one(side))
            for structure, side in sites
            for part in inside(structure, self.tables)
        ]

    def _is_midline(self, structure: str) -> bool:
        row = self.tables.structures.get(structure)
        return row is not None and not row.paired

    def _named(self, ids: tuple[str, ...]) -> list[str]:
        """Structures that a caution names, by their own id or by that of their region or group."""
        return [row.id for row in self.tables.structures.values() if covers(ids, row)]
