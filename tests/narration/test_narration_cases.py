"""The development cases and batches that were first scored unseen, as a whole against their gold records.

The gold follows the contract's rulings (common practice, no source). The bars are the floor below which a change must
not push the grammar; the figures themselves stand in the README.
"""

import json
from pathlib import Path

import pytest
import scoring

from haywisp.exchange import contract_json
from haywisp.knowledge import load_tables
from haywisp.narration import read_bytes, understand

CASES = Path(__file__).parent / "cases"
DEVELOPMENT = {"all": 0.90, "treatments": 0.90, "findings": 0.85, "responses": 0.93, "actions": 0.96}
# Their first looks stand in benchmarks/narration/first_look.toml. All have been looked into since, but for g, which was
# written to check what was learnt from the others and has only been scored, and k, which is still to be looked into.
LATER = {
    "n": 0.79,
    "m": 0.76,
    "a": 0.86,
    "b": 0.81,
    "d": 0.78,
    "e": 0.86,
    "f": 0.81,
    "g": 0.78,
    "h": 0.79,
    "i": 0.77,
    "j": 0.76,
}


@pytest.fixture(scope="module")
def totals() -> dict[str, dict[str, list[int]]]:
    tables = load_tables()
    found: dict[str, dict[str, list[int]]] = {}
    for gold_file in sorted(CASES.glob("*.gold.json")):
        name = gold_file.name.removesuffix(".gold.json")
        source = next(path for path in CASES.glob(f"{name}.*") if path != gold_file)
        narration = understand(read_bytes(source.read_bytes(), source.name), tables)
        record = json.loads(contract_json.write(narration))
        gold = json.loads(gold_file.read_text())
        batch = found.setdefault(name[0], {part: [0, 0, 0] for part in scoring.PARTS})
        for part, weight in scoring.PARTS.items():
            pairs = scoring.best_pairs(gold[part], record[part], weight)
            for place, count in enumerate((len(pairs), len(gold[part]), len(record[part]))):
                batch[part][place] += count
    return found


def f1(batch: dict[str, list[int]], part: str) -> float:
    rows = batch.values() if part == "all" else [batch[part]]
    right, wanted, given = (sum(column) for column in zip(*rows, strict=True))
    return scoring.f1(right, wanted, given)


@pytest.mark.parametrize("part", DEVELOPMENT)
def test_development_cases(totals: dict[str, dict[str, list[int]]], part: str) -> None:
    assert f1(totals["c"], part) >= DEVELOPMENT[part]


@pytest.mark.parametrize("batch", LATER)
def test_batches_first_scored_unseen(totals: dict[str, dict[str, list[int]]], batch: str) -> None:
    assert f1(totals[batch], "all") >= LATER[batch]
