"""Count: tape measures, hands and scales, as quantities that carry their unit, error and source."""

from haywisp.measure.hands import cm_from_hands, hands_from_cm
from haywisp.measure.quantities import UnitsDiffer, ZeroDivisor, minus, plus, ratio
from haywisp.measure.readings import BadReading
from haywisp.measure.tape import above_crest_mark, neck_to_height_ratio, weight_from_tape
from haywisp.measure.types import Quantity

__all__ = [
    "BadReading",
    "Quantity",
    "UnitsDiffer",
    "ZeroDivisor",
    "above_crest_mark",
    "cm_from_hands",
    "hands_from_cm",
    "minus",
    "neck_to_height_ratio",
    "plus",
    "ratio",
    "weight_from_tape",
]
