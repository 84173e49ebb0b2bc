"""Posture from a side view: landmarks on a photograph to angles, ratios and curves with their errors."""

from haywisp.measure.posture.comparing import compare, second_to_first
from haywisp.measure.posture.landmarks import LANDMARKS, TRACES, Landmark
from haywisp.measure.posture.measuring import measure_posture
from haywisp.measure.posture.placing import DEFAULT_PLACING, mean_placing, of_mean, placing_error, pooled_sd
from haywisp.measure.posture.types import (
    Comparison,
    CurvePoint,
    Difference,
    Flag,
    KnownSizes,
    Measure,
    Overlay,
    PlacedLandmarks,
    PlacingError,
    Posture,
    Refusal,
    Yaw,
)

__all__ = [
    "DEFAULT_PLACING",
    "LANDMARKS",
    "TRACES",
    "Comparison",
    "CurvePoint",
    "Difference",
    "Flag",
    "KnownSizes",
    "Landmark",
    "Measure",
    "Overlay",
    "PlacedLandmarks",
    "PlacingError",
    "Posture",
    "Refusal",
    "Yaw",
    "compare",
    "mean_placing",
    "measure_posture",
    "of_mean",
    "placing_error",
    "pooled_sd",
    "second_to_first",
]
