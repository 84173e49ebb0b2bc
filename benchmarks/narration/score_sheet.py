"""Records against their gold: what was matched, missed and added, and the figures of many cases together.

Pairs are made by the scorer of the tests (``tests/narration/scoring.py``), so that both always agree.
"""

import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from case_files import PARTS, Record, Row

sys.path.append(str(Path(__file__).resolve().parents[2] / "tests" / "narration"))

import scoring

ATTRIBUTES = ("side", "passes", "pressure")


@dataclass(frozen=True)
class Numbered:
    """A row with its place in its list."""

    place: int
    row: Row


@dataclass(frozen=True)
class Outcome:
    """One part of one case: pairs of gold and heard, gold that was missed, and what was heard that gold lacks."""

    part: str
    pairs: Sequence[tuple[Numbered, Numbered]]
    missed: Sequence[Numbered]
    extra: Sequence[Numbered]


def outcomes(gold: Record, record: Record) -> list[Outcome]:
    """What became of each row, part by part."""
    return [_outcome(part, gold.get(part, []), record.get(part, [])) for part in PARTS]


def _outcome(part: str, gold: Sequence[Row], heard: Sequence[Row]) -> Outcome:
    places = {id(row): place for rows in (gold, heard) for place, row in enumerate(rows)}
    pairs = scoring.best_pairs(gold, heard, scoring.PARTS[part])
    paired = {id(row) for pair in pairs for row in pair}
    return Outcome(
        part,
        [(Numbered(places[id(a)], a), Numbered(places[id(b)], b)) for a, b in pairs],
        [Numbered(place, row) for place, row in enumerate(gold) if id(row) not in paired],
        [Numbered(place, row) for place, row in enumerate(heard) if id(row) not in paired],
    )


@dataclass
class Sheet:
    """The counts of many cases. ``told`` is how often an attribute was right of those where gold says one."""

    counts: dict[str, list[int]] = field(default_factory=lambda: {part: [0, 0, 0] for part in PARTS})
    told: dict[str, list[int]] = field(default_factory=lambda: {name: [0, 0] for name in ATTRIBUTES})
    ious: list[float] = field(default_factory=list)
    cases: int = 0

    def add(self, found: Iterable[Outcome]) -> None:
        """Count one case."""
        self.cases += 1
        for outcome in found:
            right = len(outcome.pairs)
            given = (right, right + len(outcome.missed), right + len(outcome.extra))
            for place, number in enumerate(given):
                self.counts[outcome.part][place] += number
            if outcome.part == "treatments":
                self._add_attributes(outcome)

    def _add_attributes(self, outcome: Outcome) -> None:
        for wanted, heard in outcome.pairs:
            self.ious.append(scoring.overlap(wanted.row, heard.row)[1])
            for name in ATTRIBUTES:
                if wanted.row.get(name) is not None:
                    self.told[name][0] += wanted.row[name] == heard.row.get(name)
                    self.told[name][1] += 1

    def f1(self, part: str = "all") -> float:
        """F1 of a part, or of all."""
        rows = self.counts.values() if part == "all" else [self.counts[part]]
        right, wanted, given = (sum(column) for column in zip(*rows, strict=True))
        return scoring.f1(right, wanted, given)

    def share(self, attribute: str) -> float:
        """How often an attribute is right where gold says one."""
        return scoring.ratio(*self.told[attribute])

    def iou(self) -> float:
        """The mean overlap of matched bouts with their gold, intersection over union."""
        return scoring.ratio(sum(self.ious), len(self.ious))


def sheet_of(pairs: Iterable[tuple[Record, Record]]) -> Sheet:
    """The sheet of many golds with their records."""
    sheet = Sheet()
    for gold, record in pairs:
        sheet.add(outcomes(gold, record))
    return sheet
