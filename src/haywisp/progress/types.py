"""Change from visit to visit."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Strand:
    """What one structure and side was found to be at each visit, oldest first, for one aspect."""

    structure: str
    side: str | None
    aspect: str
    values: tuple[tuple[date, str], ...]
    change: str
