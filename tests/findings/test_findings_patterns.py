"""Patterns: log-odds worked out by hand on a small table."""

from math import exp, log

import pytest
from findings_tables import finding, small_tables

from haywisp.findings import Fact, patterns, worth_showing

TABLES = small_tables()


def probability(odds: float) -> float:
    return 1 / (1 + exp(-odds))


PRIOR = log(0.2 / 0.8)
GLUTEUS = finding("gluteus-medius", "left", "tone", "tight")
NECK = finding("splenius", "right", "tone", "tight")


def test_nothing_found_matches_nothing() -> None:
    assert patterns((), TABLES) == ()
    assert patterns((Fact("flag", "old"),), TABLES) == ()


def test_one_piece_of_evidence_and_the_rest_missing() -> None:
    (match,) = patterns((GLUTEUS,), TABLES)
    assert match.pattern == "croup-guards"
    assert match.probability == pytest.approx(probability(PRIOR + 1.5))
    assert (match.support, match.against) == ((GLUTEUS,), ())


def test_the_same_evidence_twice_counts_once() -> None:
    other = finding("gluteus-medius", "right", "tone", "tight")
    (match,) = patterns((GLUTEUS, other), TABLES)
    assert match.probability == pytest.approx(probability(PRIOR + 1.5))
    assert match.support == (GLUTEUS, other)


def test_a_pattern_of_one_finding_or_unlikely_is_not_worth_showing() -> None:
    """Two glutei make it 0.53 likely; one of them is likely too, but one finding alone; with the neck it is 0.38."""
    right = finding("gluteus-medius", "right", "tone", "tight")

    def shown(*facts: Fact) -> list[str]:
        return [match.pattern for match in patterns(facts, TABLES) if worth_showing(match)]

    assert shown(GLUTEUS, right) == ["croup-guards"]
    assert shown(GLUTEUS, GLUTEUS) == []
    assert shown(GLUTEUS, right, NECK) == []


def test_negative_weight_is_counter_evidence_and_ranks_it_lower() -> None:
    ranked = patterns((GLUTEUS, NECK), TABLES)
    assert [match.pattern for match in ranked] == ["neck-braces", "croup-guards"]
    assert [match.probability for match in ranked] == [
        pytest.approx(probability(PRIOR + 1.0)),
        pytest.approx(probability(PRIOR + 1.5 - 0.6)),
    ]
    assert ranked[1].against == (NECK,)


def test_a_usual_finding_where_evidence_was_looked_for_speaks_against() -> None:
    normal = finding("hamstrings", "left", "tone", "normal")
    (match,) = patterns((GLUTEUS, normal), TABLES)
    assert match.probability == pytest.approx(probability(PRIOR + 1.5 - 0.4))
    assert match.against == (normal,)


def test_only_counter_evidence_is_no_match() -> None:
    assert patterns((finding("gluteus-medius", "left", "tone", "normal"),), TABLES) == ()


def test_a_usual_finding_that_the_table_weighs_counts_as_the_table_says_and_once() -> None:
    clear = finding("croup", "left", "skin", "clear")
    (match,) = patterns((GLUTEUS, clear), TABLES)
    assert match.probability == pytest.approx(probability(PRIOR + 1.5 - 0.3))
    assert match.against == (clear,)
