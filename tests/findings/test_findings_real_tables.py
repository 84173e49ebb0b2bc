"""The gate and the patterns on the tables that come with Haywisp."""

from hypothesis import given, settings
from hypothesis import strategies as st
from strictness import STRICTNESS, no_looser

from haywisp.findings import Fact, gate, patterns
from haywisp.knowledge import load_tables

TABLES = load_tables()
VALUES = [(aspect.id, value) for aspect in TABLES.aspects.values() for value in aspect.values]

facts = st.one_of(
    st.builds(
        lambda structure, side, found: Fact("finding", structure=structure, side=side, aspect=found[0], value=found[1]),
        st.sampled_from(sorted(TABLES.structures)),
        st.sampled_from(["left", "right", "both", None]),
        st.sampled_from(VALUES),
    ),
    st.builds(Fact, st.just("flag"), st.sampled_from(sorted(TABLES.flags))),
    st.builds(Fact, st.just("sign"), st.sampled_from(sorted(TABLES.signs))),
    st.builds(Fact, st.just("action"), st.sampled_from(sorted(TABLES.actions))),
)


@settings(max_examples=60, deadline=None)
@given(st.lists(facts, max_size=5), facts)
def test_a_further_fact_never_loosens_the_verdict(known: list[Fact], further: Fact) -> None:
    before, after = gate(known, TABLES), gate([further, *known], TABLES)
    no_looser(before, after)


def test_every_caution_can_be_met_and_says_why() -> None:
    for caution in TABLES.cautions.values():
        met = [
            Fact(
                trigger.kind,
                id=trigger.id,
                structure=next(iter(trigger.structures), "gaskin"),
                side="left",
                aspect=trigger.aspect,
                value=trigger.value,
            )
            for trigger in caution.triggers
        ]
        verdict = gate(met, TABLES)
        (reason,) = [each for each in verdict.reasons if each.caution == caution.id]
        assert reason.verdict == caution.verdict
        assert STRICTNESS.index(verdict.verdict) >= STRICTNESS.index(caution.verdict)


def test_a_fever_sends_the_horse_to_the_vet_and_nothing_is_free() -> None:
    """Fever is taught as a reason not to work at all (three course pages, secondary)."""
    verdict = gate([Fact("flag", "fever")], TABLES)
    assert verdict.verdict == "vet-first"
    assert {structure for structure, _ in verdict.limits.excluded} == set(TABLES.structures)


def test_all_evidence_for_a_pattern_raises_it_above_its_prior() -> None:
    for pattern in TABLES.patterns.values():
        found = [
            Fact("finding", structure=evidence.structures[0], aspect=evidence.aspect, value=evidence.value)
            for evidence in pattern.evidence
            if evidence.weight > 0
        ]
        ranked = patterns(found, TABLES)
        probability = {match.pattern: match.probability for match in ranked}
        assert probability[pattern.id] > pattern.prior
        assert [match.probability for match in ranked] == sorted(probability.values(), reverse=True)
