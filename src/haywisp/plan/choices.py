"""What may be chosen from: blocks, the options inside them, and what matches them on the other side."""

from dataclasses import dataclass, field

from haywisp.plan.units import CLOSING_UNITS, MATCHING_UNITS, OPENING_UNITS


@dataclass(frozen=True, slots=True)
class Block:
    """A region on a side, the techniques that open and close it, and the side that one stands on for it."""

    region: str
    side: str | None
    stand: str
    opening: str
    closing: str
    clear_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Option:
    """One technique for one need: ``help`` is after loss by a cap; units are halves of a minute."""

    need: int
    block: int
    technique: str
    stage: str
    pressure: str
    help: float
    thumb: float
    shortest: int
    longest: int


@dataclass(frozen=True, slots=True)
class Match:
    """Light attention to the side across from the block at index ``across``: strokes, and ``loosening`` if one may."""

    across: int
    block: Block
    loosening: str
    thumb: float

    @property
    def units(self) -> int:
        """How long it takes; strokes alone take as long as opening and closing."""
        return OPENING_UNITS + CLOSING_UNITS + (MATCHING_UNITS if self.loosening else 0)


@dataclass(frozen=True, slots=True)
class Choices:
    """All that may be chosen from.

    ``barred`` says for the index of a need why nothing may be done for it, ``alone`` for the index of a block why the
    side across from it can't be matched.
    """

    greeting: tuple[str, str, int] | None
    blocks: tuple[Block, ...]
    options: tuple[Option, ...]
    maintenance: tuple[Block, ...]
    barred: dict[int, str]
    matches: tuple[Match, ...] = ()
    alone: dict[int, str] = field(default_factory=dict)
