"""Quantities that carry their unit and error."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value with its unit and its standard error in the same unit (None where the source gives none)."""

    value: float
    unit: str
    error: float | None
    method: str
    source: str
