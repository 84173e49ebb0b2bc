"""Remember what was said, seen and measured: entries are superseded by new versions, never overwritten."""

from haywisp.record.bodies import Allowed, problems_of
from haywisp.record.entries import accept, by_hand, correct, from_narration, offered, reject
from haywisp.record.errors import BadBody
from haywisp.record.types import Entry, Horse, StoredNarration, StoredOwnWord, StoredQuestion, Visit, current

__all__ = [
    "Allowed",
    "BadBody",
    "Entry",
    "Horse",
    "StoredNarration",
    "StoredOwnWord",
    "StoredQuestion",
    "Visit",
    "accept",
    "by_hand",
    "correct",
    "current",
    "from_narration",
    "offered",
    "problems_of",
    "reject",
]
