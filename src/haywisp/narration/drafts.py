"""Bouts as they are being heard, before they are finished."""

from dataclasses import dataclass, field

from haywisp.narration.clauses import Clause
from haywisp.narration.mentions import Mention

OPPOSITE = {"left": "right", "right": "left"}
LEVELS = {"light": 1, "moderate": 2, "firm": 3}
STRETCHES = {"passive-stretch", "tail-traction"}


@dataclass(eq=False)
class Draft:
    """A bout as it is being heard; ``doubts`` names the fields that were not said but inferred."""

    technique: str
    structures: list[str]
    side: str | None
    start: float
    first: int
    last: int
    pressure: str | None = None
    passes: int | None = None
    end: float | None = None
    number: int = -1
    named: bool = True
    side_said: bool = False
    mirrored: bool = False
    repaired: float = 1.0
    model: "Draft | None" = None
    tools: set[str] = field(default_factory=set)
    doubts: list[str] = field(default_factory=list)

    @property
    def open(self) -> bool:
        """Whether the hands are still on it."""
        return self.end is None


@dataclass(frozen=True)
class Found:
    """What was last found to be out of the usual: where, on which side, and when."""

    structures: tuple[str, ...]
    side: str | None
    when: float


@dataclass
class Pending:
    """Structures named before the technique that goes with them."""

    structures: list[str]
    first: int
    start: float


@dataclass
class Waiting:
    """A technique named before the structure that it goes to."""

    technique: Mention
    clause: Clause
    first: int
    start: float
