"""What is known before anyone speaks: structures, techniques, signs, cautions, patterns and exercises, with sources."""

from haywisp.knowledge.errors import KnowledgeFault
from haywisp.knowledge.fit import covers, fits
from haywisp.knowledge.listing import Description, describe, find, ids
from haywisp.knowledge.loading import load_tables
from haywisp.knowledge.places import REGION_PARTS, TOGETHER, inside, is_usual
from haywisp.knowledge.types import (
    ActionKind,
    Aspect,
    Caution,
    Evidence,
    Exercise,
    Flag,
    Language,
    Pattern,
    Sign,
    Structure,
    Tables,
    Technique,
    Trigger,
)

__all__ = [
    "REGION_PARTS",
    "TOGETHER",
    "ActionKind",
    "Aspect",
    "Caution",
    "Description",
    "Evidence",
    "Exercise",
    "Flag",
    "KnowledgeFault",
    "Language",
    "Pattern",
    "Sign",
    "Structure",
    "Tables",
    "Technique",
    "Trigger",
    "covers",
    "describe",
    "find",
    "fits",
    "ids",
    "inside",
    "is_usual",
    "load_tables",
]
