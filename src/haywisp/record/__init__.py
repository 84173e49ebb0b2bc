"""Remember what was said, seen and measured: entries are superseded by new versions, never overwritten."""

from haywisp.record.bodies import Allowed, problems_of
from haywisp.record.entries import accept, by_hand, correct, from_narration, offered, reject
from haywisp.record.errors import BadBody, BadIdentifier
from haywisp.record.identifiers import Microchip, Ueln, microchip, ueln, ueln_of
from haywisp.record.types import Entry, Horse, StoredNarration, StoredOwnWord, StoredQuestion, Visit, current

__all__ = [
    "Allowed",
    "BadBody",
    "BadIdentifier",
    "Entry",
    "Horse",
    "Microchip",
    "StoredNarration",
    "StoredOwnWord",
    "StoredQuestion",
    "Ueln",
    "Visit",
    "accept",
    "by_hand",
    "correct",
    "current",
    "from_narration",
    "microchip",
    "offered",
    "problems_of",
    "reject",
    "ueln",
    "ueln_of",
]
