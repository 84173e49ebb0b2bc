"""What is known before anyone speaks: structures, techniques, signs, cautions, patterns, scales, with sources."""

from haywisp.knowledge.errors import KnowledgeFault
from haywisp.knowledge.figure import Figure, Landmark, Part, Shape, Stroke
from haywisp.knowledge.figure_reading import load_figure
from haywisp.knowledge.fit import covers, fits
from haywisp.knowledge.listing import Description, describe, find, ids
from haywisp.knowledge.loading import load_tables, load_weight_formulas
from haywisp.knowledge.places import REGION_PARTS, TOGETHER, inside, is_usual
from haywisp.knowledge.scale_types import (
    Alarm,
    Band,
    Level,
    Piece,
    Scale,
    ScaleLimits,
    Spread,
    Term,
    VitalSign,
    WeightFormula,
)
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
    "Alarm",
    "Aspect",
    "Band",
    "Caution",
    "Description",
    "Evidence",
    "Exercise",
    "Figure",
    "Flag",
    "KnowledgeFault",
    "Landmark",
    "Language",
    "Level",
    "Part",
    "Pattern",
    "Piece",
    "Scale",
    "ScaleLimits",
    "Shape",
    "Sign",
    "Spread",
    "Stroke",
    "Structure",
    "Tables",
    "Technique",
    "Term",
    "Trigger",
    "VitalSign",
    "WeightFormula",
    "covers",
    "describe",
    "find",
    "fits",
    "ids",
    "inside",
    "is_usual",
    "load_figure",
    "load_tables",
    "load_weight_formulas",
]
