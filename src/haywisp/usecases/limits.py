"""The gate's limits and their reasons in plain sentences."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from haywisp.findings.types import Cause, Fact, GateVerdict, Limits, Reason
from haywisp.knowledge.types import Tables
from haywisp.report.causes import causes_words
from haywisp.report.phrases import joined
from haywisp.report.wording import place_title
from haywisp.usecases.days import day_words
from haywisp.usecases.wording import label

Site = tuple[str, str | None]
WITH_ALL = " and what lies there"
HEAVIEST = "firm"
LAST_VISIT = " at the last visit"


def excluded_sentences(limits: Limits, tables: Tables) -> tuple[str, ...]:
    """``Chest and what lies there: not worked, because of a rub on the skin (chest)``; the whole body is told once."""
    whole = _of_the_whole_body(limits, tables)
    if whole:
        return (f"The whole body: not worked, because of {dated_words(whole, tables)}",)
    return tuple(
        f"{named}: not worked{_because(limits, site, 'excluded', tables)}"
        for site, named in _places(dict.fromkeys(limits.excluded, ""), tables)
    )


def technique_sentences(limits: Limits, tables: Tables) -> tuple[str, ...]:
    """``Hacking: not used, because of …``."""
    return tuple(
        f"{label(tables.techniques, technique)}: not used{_because(limits, (technique, None), 'technique', tables)}"
        for technique in sorted(limits.techniques)
    )


def cap_sentences(limits: Limits, tables: Tables) -> tuple[str, ...]:
    """``Left neck: light pressure at most, because of …``, the lightest first."""
    return tuple(
        f"{named}: {pressure} pressure at most{_because(limits, site, 'cap', tables)}"
        for pressure in sorted(set(limits.caps.values()))
        for site, named in _places({site: cap for site, cap in limits.caps.items() if cap == pressure}, tables)
    )


def pressure_sentence(limits: Limits, tables: Tables) -> str:
    """What holds everywhere; "" where nothing does."""
    if limits.pressure_cap == HEAVIEST:
        return ""
    because = _because(limits, ("pressure", None), "pressure", tables)
    return f"Everywhere: {limits.pressure_cap} pressure at most{because}"


def worded(verdict: GateVerdict, tables: Tables) -> GateVerdict:
    """The same verdict with each ``why`` in words that go after "because of", for the sentences of a plan.

    Where a side has a limit of its own, its reasons are told apart under ``structure:side``.
    """
    limits = verdict.limits
    why = {key: dated_words(causes, tables) for key, causes in limits.causes.items()}
    for site, effect in [*((site, "cap") for site in limits.caps), *((site, "excluded") for site in limits.excluded)]:
        words = dated_words(_causes(limits, site, effect), tables)
        if words:
            why[f"{site[0]}:{site[1]}"] = words
    return replace(verdict, limits=replace(limits, why=why))


def refusal_sentence(verdict: GateVerdict, tables: Tables) -> str:
    """Why there is no plan where a vet comes first; "" where none has to."""
    first = [reason for reason in verdict.reasons if reason.verdict == "vet-first"]
    if verdict.verdict != "vet-first":
        return ""
    words = dated_words(first, tables)
    return f"No plan: a vet comes first{f', because of {words}' if words else ''}."


def dated_words(causes: Sequence[Cause | Reason], tables: Tables) -> str:
    """Causes as words that go after "because of"; what stands from an earlier visit is told apart, with its day."""
    days = sorted({fact.since for cause in causes for fact in cause.facts if fact.since is not None})
    told = [causes_words(_since(None, causes), tables)]
    for day in days:
        then = _since(day, causes)
        facts = [fact for cause in then for fact in cause.facts]
        told.append(causes_words(then, tables).removesuffix(LAST_VISIT) + standing_since(facts))
    return joined([words for words in told if words])


def standing_since(facts: Iterable[Fact]) -> str:
    """The end of a sentence on facts of one earlier visit; "" for those of the newest."""
    known = [fact for fact in facts if fact.since is not None]
    if not known or known[0].since is None:
        return ""
    day = day_words(known[0].since)
    felt = any(fact.kind == "finding" for fact in known)
    return f" (not felt last time: from the visit of {day})" if felt else f" at the visit of {day}"


def _since(day: date | None, causes: Sequence[Cause | Reason]) -> list[Cause | Reason]:
    """The causes with the facts of that day alone, without those that have none."""
    held = [(cause, replace(cause, facts=tuple(fact for fact in cause.facts if fact.since == day))) for cause in causes]
    return [part for cause, part in held if part.facts or (day is None and not cause.facts)]


def _because(limits: Limits, site: Site, effect: str, tables: Tables) -> str:
    words = dated_words(_causes(limits, site, effect), tables)
    return f", because of {words}" if words else ""


def _causes(limits: Limits, site: Site, effect: str) -> list[Cause]:
    """What stands behind a limit of this kind, on this side."""
    known = [cause for cause in limits.causes.get(site[0], ()) if cause.effect == effect]
    return [cause for cause in known if any(_touches(fact, site[1]) for fact in cause.facts)]


def _of_the_whole_body(limits: Limits, tables: Tables) -> list[Cause]:
    """What excludes every structure on every side; none where one place is free."""
    if not tables.structures or any((structure, None) not in limits.excluded for structure in tables.structures):
        return []
    of_each = [limits.causes.get(structure, ()) for structure in tables.structures]
    return [cause for cause in of_each[0] if cause.effect == "excluded" and all(cause in causes for causes in of_each)]


def _touches(fact: Fact, side: str | None) -> bool:
    return side is None or fact.side in (side, None, "both")


def _places(limited: Mapping[Site, str], tables: Tables) -> list[tuple[Site, str]]:
    """Each limited structure with its name, in the tables' order, without those that their region stands for."""
    ranks = {key: rank for rank, key in enumerate(tables.structures)}

    def stands_for(site: Site) -> Site | None:
        structure, side = site
        row = tables.structures.get(structure)
        if row is None or row.region == structure:
            return None
        sides = (side, None) if row.paired else ("left", "right", None)
        return next(((row.region, one) for one in sides if (row.region, one) in limited), None)

    regions = {site: stands_for(site) for site in limited}
    whole = set(regions.values())
    shown = sorted(
        (site for site, region in regions.items() if region is None),
        key=lambda site: (ranks.get(site[0], len(ranks)), site[1] or ""),
    )
    return [(site, place_title(*site, tables) + (WITH_ALL if site in whole else "")) for site in shown]
