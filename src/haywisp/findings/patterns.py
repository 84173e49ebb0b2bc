"""Compensation patterns: weighted evidence for and against, with missing findings allowed. Never a diagnosis."""

from collections.abc import Sequence
from math import exp, log

from haywisp.findings.types import Fact, PatternMatch
from haywisp.knowledge import covers
from haywisp.knowledge.types import Evidence, Pattern, Tables

# How much of its weight a piece of evidence loses the pattern when that very place was looked at and found to be
# as usual; from memory, no source.
CONTRARY_SHARE = 0.5
# What is less likely than this, or rests on one finding alone, would be read as more than it is; own choice, no source.
LEAST_PROBABILITY = 0.4
FEWEST_FINDINGS = 2


def patterns(facts: Sequence[Fact], tables: Tables) -> tuple[PatternMatch, ...]:
    """The patterns that at least one finding speaks for, likeliest first.

    Log-odds add up from the pattern's prior; what was not looked at adds nothing, and each piece of evidence counts
    once however often it was found.
    """
    findings = [fact for fact in facts if fact.kind == "finding"]
    matches = [match for pattern in tables.patterns.values() if (match := _match(pattern, findings, tables))]
    return tuple(sorted(matches, key=lambda match: (-match.probability, match.pattern)))


def worth_showing(match: PatternMatch) -> bool:
    """Whether a pattern is likely enough, and rests on enough different findings, to be put before a person."""
    found = {(fact.structure, fact.side, fact.aspect, fact.value) for fact in match.support}
    return match.probability >= LEAST_PROBABILITY and len(found) >= FEWEST_FINDINGS


def _match(pattern: Pattern, findings: Sequence[Fact], tables: Tables) -> PatternMatch | None:
    support: list[Fact] = []
    against: list[Fact] = []
    odds = log(pattern.prior / (1 - pattern.prior))
    for evidence in pattern.evidence:
        there = [fact for fact in findings if _looked_at(evidence, fact, tables)]
        found = [fact for fact in there if fact.value == evidence.value]
        usual = [
            fact
            for fact in there
            if fact.value == _usual(evidence, tables) != evidence.value and not _weighed(fact, pattern, tables)
        ]
        if found:
            odds += evidence.weight
            (support if evidence.weight > 0 else against).extend(found)
        elif usual and evidence.weight > 0:
            odds -= CONTRARY_SHARE * evidence.weight
            against.extend(usual)
    if not support:
        return None
    return PatternMatch(
        pattern.id,
        pattern.name,
        pattern.says,
        1 / (1 + exp(-odds)),
        tuple(dict.fromkeys(support)),
        tuple(dict.fromkeys(against)),
        pattern.check_next,
        pattern.call,
        pattern.source,
    )


def _weighed(fact: Fact, pattern: Pattern, tables: Tables) -> bool:
    """Whether the table itself weighs a finding for this pattern, so that it must not count a second time."""
    return any(each.value == fact.value and _looked_at(each, fact, tables) for each in pattern.evidence)


def _looked_at(evidence: Evidence, fact: Fact, tables: Tables) -> bool:
    if fact.aspect != evidence.aspect:
        return False
    row = tables.structures.get(fact.structure)
    if not evidence.structures or row is None:
        return not evidence.structures or fact.structure in evidence.structures
    return covers(evidence.structures, row)


def _usual(evidence: Evidence, tables: Tables) -> str:
    aspect = tables.aspects.get(evidence.aspect)
    return "" if aspect is None else aspect.usual
