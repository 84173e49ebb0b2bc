"""What the screening gate says, asked on its own."""

from collections.abc import Mapping
from dataclasses import dataclass

from haywisp.usecases.views.shared import Ref, VerdictView


@dataclass(frozen=True, slots=True)
class GateView:
    """The verdict of the gate on ``facts``, each in words; ``horse`` and ``visit`` are None where none was named.

    ``visit`` is the one that the facts are from, by its day. Ids for a machine: ``excluded`` and ``caps`` are by
    structure and side (``neck:left``; without a side for both), ``techniques`` are kept out everywhere. ``cautions``
    always hold.
    """

    verdict: VerdictView
    facts: tuple[str, ...]
    excluded: tuple[str, ...]
    techniques: tuple[str, ...]
    caps: Mapping[str, str]
    pressure_cap: str
    cautions: tuple[str, ...]
    horse: Ref | None = None
    visit: Ref | None = None
