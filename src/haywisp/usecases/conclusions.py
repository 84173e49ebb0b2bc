"""Verdicts, patterns and facts as the pages show them."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from haywisp.findings import Earlier, may_be_set_aside, override_text
from haywisp.findings.types import Fact, GateVerdict, Held, Override, PatternMatch, Reason
from haywisp.knowledge.types import Tables
from haywisp.record.types import Entry, Horse
from haywisp.usecases.limits import (
    cap_sentences,
    excluded_sentences,
    pressure_sentence,
    standing_since,
    technique_sentences,
)
from haywisp.usecases.views import FactView, PatternView, ReasonView, VerdictView
from haywisp.usecases.wording import VERDICTS, fact_sentence


def standing(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """The entries that nobody rejected."""
    return tuple(entry for entry in entries if entry.status != "rejected")


def reviewed(entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """The entries that someone stood by."""
    return tuple(entry for entry in entries if entry.status in {"accepted", "corrected"})


def held_of(
    entries: Sequence[Entry],
    horse: Horse,
    tables: Tables,
    *,
    first_visit: bool,
    before: Sequence[Earlier] = (),
    overrides: Sequence[Override] = (),
    also: Sequence[Fact] = (),
) -> Held:
    """The gate's advice on a visit's entries, and the verdict that holds where rows of it were set aside.

    ``also`` are further facts, such as what somebody asks about.
    """
    from haywisp.findings import carried, facts_from_entries, held

    facts = carried(entries, before, tables, flags=horse.flags) + facts_from_entries(standing(entries), horse.flags)
    return held((*facts, *also), overrides, tables, first_visit=first_visit)


def verdict_of(
    entries: Sequence[Entry], horse: Horse, tables: Tables, *, first_visit: bool, before: Sequence[Earlier] = ()
) -> GateVerdict:
    """The gate's verdict on a visit's entries, and on what was found ``before`` and not felt again.

    Proposed entries count too: a wound or a fever that was heard stops the work until someone says it was misheard.
    """
    return held_of(entries, horse, tables, first_visit=first_visit, before=before).advice


def facts_asking(
    entries: Sequence[Entry], before: Sequence[Earlier], horse: Horse, tables: Tables, *, not_before: date
) -> tuple[Fact, ...]:
    """What a plan's needs are read from: what someone stood by at the visit, or before it since ``not_before``."""
    from haywisp.findings import carried, facts_from_entries

    stood_by = [replace(visit, entries=reviewed(visit.entries)) for visit in before]
    known = carried(reviewed(entries), stood_by, tables, not_before=not_before)
    return known + facts_from_entries(reviewed(entries), horse.flags)


def pattern_views(entries: Sequence[Entry], horse: Horse, tables: Tables) -> tuple[PatternView, ...]:
    """The patterns that are worth showing, likeliest first."""
    from haywisp.findings import facts_from_entries, patterns, worth_showing

    matches = patterns(facts_from_entries(entries, horse.flags), tables)
    return tuple(_pattern_view(match, tables) for match in matches if worth_showing(match))


def verdict_view(verdict: GateVerdict, tables: Tables, overrides: Sequence[Override] = ()) -> VerdictView:
    """The verdict in sentences; a region stands for everything in it that has the same limit.

    ``overrides`` are what was set aside to come to it, which is shown wherever it is.
    """
    reasons = tuple(_reason_view(reason, tables) for reason in verdict.reasons)
    return VerdictView(
        verdict=verdict.verdict,
        name=VERDICTS.get(verdict.verdict, verdict.verdict),
        reasons=reasons,
        excluded=excluded_sentences(verdict.limits, tables),
        techniques=technique_sentences(verdict.limits, tables),
        caps=cap_sentences(verdict.limits, tables),
        pressure_cap=verdict.limits.pressure_cap,
        pressure=pressure_sentence(verdict.limits, tables),
        set_aside=override_text(overrides, tables),
        can_be_set_aside={reason.gives_way_to for reason in reasons} - {""} == {"reason"},
    )


def fact_views(facts: Sequence[Fact], tables: Tables) -> tuple[FactView, ...]:
    return tuple(
        FactView(sentence=fact_sentence(fact, tables) + standing_since([fact]), thread=fact.entry) for fact in facts
    )


def _reason_view(reason: Reason, tables: Tables) -> ReasonView:
    return ReasonView(
        caution=reason.caution,
        name=reason.name,
        wording=reason.wording,
        because=fact_views(reason.facts, tables),
        absolute=reason.absolute,
        source=reason.source,
        gives_way_to=_gives_way_to(reason, tables),
    )


def _gives_way_to(reason: Reason, tables: Tables) -> str:
    row = tables.cautions.get(reason.caution)
    if reason.verdict != "vet-first" or row is None:
        return ""
    return "reason" if may_be_set_aside(row) else "vet" if row.vet_alone else "nobody"


def _pattern_view(match: PatternMatch, tables: Tables) -> PatternView:
    return PatternView(
        pattern=match.pattern,
        name=match.name,
        says=match.says,
        probability=match.probability,
        support=fact_views(match.support, tables),
        against=fact_views(match.against, tables),
        check_next=match.check_next,
        call=match.call,
        source=match.source,
    )
