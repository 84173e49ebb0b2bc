"""Conclude with evidence and strength: the screening gate and compensation patterns; never a diagnosis."""

from haywisp.findings.facts import facts_from_entries
from haywisp.findings.gate import gate
from haywisp.findings.patterns import patterns
from haywisp.findings.types import Cause, Fact, GateVerdict, Limits, PatternMatch, Reason
from haywisp.findings.words import say

__all__ = [
    "Cause",
    "Fact",
    "GateVerdict",
    "Limits",
    "PatternMatch",
    "Reason",
    "facts_from_entries",
    "gate",
    "patterns",
    "say",
]
