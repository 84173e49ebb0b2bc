"""Hear: timed words to statements with their span, time and modality, and to questions where in doubt."""

from haywisp.narration.types import (
    Action,
    Bout,
    Choice,
    Finding,
    Narration,
    Problem,
    Question,
    Repair,
    Response,
    Span,
    Statement,
    Transcript,
    Word,
)

__all__ = [
    "Action",
    "Bout",
    "Choice",
    "Finding",
    "Narration",
    "Problem",
    "Question",
    "Repair",
    "Response",
    "Span",
    "Statement",
    "Transcript",
    "Word",
]
