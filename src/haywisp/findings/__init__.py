"""Conclude with evidence and strength: the screening gate and compensation patterns; never a diagnosis."""

from haywisp.findings.carrying import Earlier, carried
from haywisp.findings.facts import facts_from_entries
from haywisp.findings.gate import gate
from haywisp.findings.patterns import patterns, worth_showing
from haywisp.findings.types import Cause, Fact, GateVerdict, Limits, PatternMatch, Reason
from haywisp.findings.words import say

__all__ = [
    "Cause",
    "Earlier",
    "Fact",
    "GateVerdict",
    "Limits",
    "PatternMatch",
    "Reason",
    "carried",
    "facts_from_entries",
    "gate",
    "patterns",
    "say",
    "worth_showing",
]
