"""Conclude with evidence and strength: the screening gate and compensation patterns; never a diagnosis."""

from haywisp.findings.carrying import OF_THE_DAY, Earlier, carried
from haywisp.findings.errors import BadScore
from haywisp.findings.facts import facts_from_entries
from haywisp.findings.gate import asks_alone, gate
from haywisp.findings.overriding import held, may_be_set_aside, override_text, overrides_in
from haywisp.findings.patterns import patterns, worth_showing
from haywisp.findings.scales import flags_of_scales
from haywisp.findings.types import Cause, Fact, GateVerdict, Held, Limits, Overridden, Override, PatternMatch, Reason
from haywisp.findings.words import say

__all__ = [
    "OF_THE_DAY",
    "BadScore",
    "Cause",
    "Earlier",
    "Fact",
    "GateVerdict",
    "Held",
    "Limits",
    "Overridden",
    "Override",
    "PatternMatch",
    "Reason",
    "asks_alone",
    "carried",
    "facts_from_entries",
    "flags_of_scales",
    "gate",
    "held",
    "may_be_set_aside",
    "override_text",
    "overrides_in",
    "patterns",
    "say",
    "worth_showing",
]
