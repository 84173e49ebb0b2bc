"""What is found, in the words of many sorts of people: each sentence of a table gives its one finding."""

from pathlib import Path

import pytest
from narration_samples import understood

TABLE = Path(__file__).with_name("finding_sentences.tsv")


def rows() -> dict[tuple[str, str], list[str]]:
    """Sentences by aspect and value."""
    held: dict[tuple[str, str], list[str]] = {}
    for line in TABLE.read_text("utf-8").splitlines():
        if line and not line.startswith("#"):
            aspect, value, sentence = line.split("\t")
            held.setdefault((aspect, value), []).append(sentence)
    return held


@pytest.mark.parametrize(("meant", "sentences"), rows().items(), ids=[" ".join(meant) for meant in rows()])
def test_it_is_found_however_it_is_said(meant: tuple[str, str], sentences: list[str]) -> None:
    heard = {s: understood(f"[0:02] Kneading the left triceps. [0:20] {s}. [0:30]").findings for s in sentences}
    assert {s: found for s, found in heard.items() if [(f.aspect, f.value) for f in found] != [meant]} == {}


@pytest.mark.parametrize("meant", rows(), ids=" ".join)
def test_every_value_is_said_in_many_ways(meant: tuple[str, str]) -> None:
    assert len(rows()[meant]) >= 15
