"""Entries become facts: the newest version of each thread, nothing that was rejected."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime

from haywisp.findings import Fact, facts_from_entries
from haywisp.record.types import Entry

NOON = datetime(2030, 1, 1, 12, tzinfo=UTC)
TIGHT = {"structure": "splenius", "side": "left", "aspect": "tone", "value": "tight"}


def entry(thread: str, part: str, body: Mapping[str, object], time_s: float = 0, **more: object) -> Entry:
    version, status = more.get("version", 1), more.get("status", "accepted")
    return Entry(
        f"{thread}-{version}", thread, version, "v", part, body, time_s, time_s, 0, 1, 1.0, status, "test", "", NOON
    )  # type: ignore[arg-type]


def test_each_part_becomes_its_kind_of_fact() -> None:
    entries = [
        entry("a", "finding", TIGHT, 3),
        entry("b", "response", {"sign": "yawn"}, 2),
        entry("c", "action", {"kind": "recheck"}, 4),
        entry("d", "bout", {"technique": "kneading", "structures": ["splenius"]}, 1),
        entry("e", "note", {"text": "fly rug"}, 1),
    ]
    assert facts_from_entries(entries, {"old"}) == (
        Fact("sign", "yawn", entry="b"),
        Fact("finding", structure="splenius", side="left", aspect="tone", value="tight", entry="a"),
        Fact("action", "recheck", entry="c"),
        Fact("flag", "old"),
    )


def test_a_red_flag_is_a_fact_of_the_gate_once_it_was_told() -> None:
    told = entry("a", "flag", {"flag": "colic"}, status="proposed")
    asked = replace(entry("b", "flag", {"flag": "laminitis"}, status="proposed"), confidence=0.4)
    assert facts_from_entries([told, asked]) == (Fact("flag", "colic", entry="a"),)
    assert facts_from_entries([replace(asked, status="accepted")]) == (Fact("flag", "laminitis", entry="b"),)


def test_a_standing_flag_that_is_spoken_of_again_is_one_fact() -> None:
    assert facts_from_entries([entry("a", "flag", {"flag": "ppid"})], ["ppid"]) == (Fact("flag", "ppid", entry="a"),)


def test_a_correction_counts_instead_of_what_it_corrects() -> None:
    right = {**TIGHT, "side": "right"}
    entries = [entry("a", "finding", right, version=2, status="corrected"), entry("a", "finding", TIGHT)]
    assert [fact.side for fact in facts_from_entries(entries)] == ["right"]


def test_what_was_rejected_is_no_fact() -> None:
    entries = [entry("a", "finding", TIGHT), entry("a", "finding", TIGHT, version=2, status="rejected")]
    assert facts_from_entries(entries) == ()
