"""Count: tape measures, hands, scales, vital signs and photographs, as quantities with unit, error and source."""

from haywisp.measure.hands import cm_from_hands, hands_from_cm
from haywisp.measure.photographs import CameraNotes, Frame, KeptPhoto, NotTaken, PhotoSizes, Point, take_in
from haywisp.measure.quantities import UnitsDiffer, ZeroDivisor, minus, plus, ratio
from haywisp.measure.readings import BadReading
from haywisp.measure.scores import BadScore, ScoresDiffer, change, combined, meaning, score
from haywisp.measure.tape import (
    above_crest_mark,
    girth_mark,
    girth_to_height_ratio,
    neck_to_height_ratio,
    weight_from_tape,
)
from haywisp.measure.types import (
    LeftOut,
    Meaning,
    Quantity,
    Score,
    ScoreChange,
    TapeHorse,
    VitalReading,
    Weighed,
    Weights,
)
from haywisp.measure.units import NoConversion, converted
from haywisp.measure.vital_signs import BadVitalSign, read_vital_sign
from haywisp.measure.weights import (
    NoWeight,
    ReadingsMissing,
    UnknownReading,
    formula_words,
    needed,
    weight_by,
    weights_of,
    why_not,
)

__all__ = [
    "BadReading",
    "BadScore",
    "BadVitalSign",
    "CameraNotes",
    "Frame",
    "KeptPhoto",
    "LeftOut",
    "Meaning",
    "NoConversion",
    "NoWeight",
    "NotTaken",
    "PhotoSizes",
    "Point",
    "Quantity",
    "ReadingsMissing",
    "Score",
    "ScoreChange",
    "ScoresDiffer",
    "TapeHorse",
    "UnitsDiffer",
    "UnknownReading",
    "VitalReading",
    "Weighed",
    "Weights",
    "ZeroDivisor",
    "above_crest_mark",
    "change",
    "cm_from_hands",
    "combined",
    "converted",
    "formula_words",
    "girth_mark",
    "girth_to_height_ratio",
    "hands_from_cm",
    "meaning",
    "minus",
    "neck_to_height_ratio",
    "needed",
    "plus",
    "ratio",
    "read_vital_sign",
    "score",
    "take_in",
    "weight_by",
    "weight_from_tape",
    "weights_of",
    "why_not",
]
