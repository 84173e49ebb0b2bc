"""The scored narrations: a transcript and what a careful colleague would write down from it, by batch."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from haywisp.narration import Narration, Transcript, read_bytes

CASES = Path(__file__).resolve().parents[2] / "tests" / "narration" / "cases"
PARTS = ("treatments", "findings", "responses", "actions")
DEVELOPMENT = "c"

Row = Mapping[str, Any]
Record = Mapping[str, list[Row]]


@dataclass(frozen=True)
class Case:
    """One narration; the first letters of its name are the batch that it came with."""

    name: str
    transcript: Transcript
    gold: Record

    @property
    def batch(self) -> str:
        """The letters that the name begins with."""
        return self.name.rstrip("0123456789")


def cases(folder: Path = CASES) -> list[Case]:
    """Every case of a folder, the development cases first, then by name."""
    found = []
    for gold_file in sorted(folder.glob("*.gold.json")):
        name = gold_file.name.removesuffix(".gold.json")
        source = next(path for path in sorted(folder.glob(f"{name}.*")) if path != gold_file)
        gold = json.loads(gold_file.read_text(encoding="utf-8"))
        found.append(Case(name, read_bytes(source.read_bytes(), source.name), gold))
    return sorted(found, key=lambda case: (case.batch != DEVELOPMENT, case.name))


def by_batch(every: Iterable[Case]) -> dict[str, list[Case]]:
    """Cases by batch, in order."""
    batches: dict[str, list[Case]] = {}
    for case in every:
        batches.setdefault(case.batch, []).append(case)
    return batches


def record_of(narration: Narration) -> Record:
    """What was understood in the shape of the gold; the place of a row in its list is that of its questions."""
    return {
        "treatments": [
            {
                "technique": bout.technique,
                "structures": list(bout.structures),
                "side": bout.side,
                "start": bout.start,
                "end": bout.end,
                "passes": bout.passes,
                "pressure": bout.pressure,
            }
            for bout in narration.bouts
        ],
        "findings": [
            {
                "structure": finding.structure,
                "side": finding.side,
                "aspect": finding.aspect,
                "value": finding.value,
                "time": finding.time,
            }
            for finding in narration.findings
        ],
        "responses": [{"sign": response.sign, "time": response.time} for response in narration.responses],
        "actions": [{"kind": action.kind, "time": action.time} for action in narration.actions],
    }
