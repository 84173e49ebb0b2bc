"""Hear: timed words to statements with their span, time and modality, and to questions where in doubt."""

from haywisp.narration.decoding import Unreadable
from haywisp.narration.reading import read_bytes
from haywisp.narration.types import (
    Action,
    Bout,
    Choice,
    Finding,
    Narration,
    OwnWord,
    Problem,
    Question,
    Repair,
    Response,
    Span,
    Statement,
    Transcript,
    Word,
)
from haywisp.narration.understanding import understand

__all__ = [
    "Action",
    "Bout",
    "Choice",
    "Finding",
    "Narration",
    "OwnWord",
    "Problem",
    "Question",
    "Repair",
    "Response",
    "Span",
    "Statement",
    "Transcript",
    "Unreadable",
    "Word",
    "read_bytes",
    "understand",
]
