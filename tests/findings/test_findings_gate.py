"""The gate: what raises a caution, what it limits, and that more facts never loosen it."""

from findings_tables import finding, small_tables
from hypothesis import given
from hypothesis import strategies as st
from strictness import no_looser

from haywisp.findings import Cause, Fact, GateVerdict, gate

TABLES = small_tables()


def verdict(*facts: Fact, first_visit: bool = False) -> GateVerdict:
    return gate(facts, TABLES, first_visit=first_visit)


def test_nothing_found_is_work_without_limits() -> None:
    result = verdict()
    assert (result.verdict, result.reasons) == ("work", ())
    assert result.limits.pressure_cap == "firm"
    assert not result.limits.excluded


def test_a_usual_finding_raises_nothing() -> None:
    assert verdict(finding("neck", "left", "skin", "clear")).verdict == "work"


def test_a_first_visit_caps_pressure_and_says_so() -> None:
    result = verdict(first_visit=True)
    assert result.limits.pressure_cap == "moderate"
    assert result.limits.why["pressure"] == "First-Visit: first-visit"
    assert result == verdict(Fact("flag", "first-visit"))


def test_a_wound_excludes_its_own_side_and_names_rule_and_fact() -> None:
    result = verdict(finding("splenius", "left", "skin", "wound"))
    assert result.verdict == "within-limits"
    assert result.limits.excluded == {("splenius", "left")}
    assert result.limits.why["splenius"] == "Wound: skin wound (Splenius, left)"
    assert result.reasons[0].facts == (finding("splenius", "left", "skin", "wound"),)


def test_a_wound_of_a_region_excludes_what_lies_in_it() -> None:
    excluded = verdict(finding("neck", "left", "skin", "wound")).limits.excluded
    assert excluded == {("neck", "left"), ("splenius", "left"), ("nuchal-ligament", "left")}


def test_a_wound_of_unknown_side_excludes_both() -> None:
    assert verdict(finding("splenius", None, "skin", "wound")).limits.excluded == {("splenius", None)}


def test_a_region_of_several_parts_takes_them_along() -> None:
    excluded = verdict(finding("hindquarters", "right", "skin", "wound")).limits.excluded
    assert {("croup", "right"), ("gluteus-medius", "right"), ("hamstrings", "right")} <= excluded


def test_warmth_and_swelling_must_be_of_one_place() -> None:
    warm = finding("splenius", "left", "warmth", "warm")
    assert verdict(warm, finding("splenius", "right", "swelling", "present")).verdict == "work"
    assert verdict(warm, finding("croup", "left", "swelling", "present")).verdict == "work"
    assert verdict(warm, finding("neck", "left", "swelling", "present")).verdict == "vet-first"
    assert verdict(warm, finding("splenius", None, "swelling", "present")).verdict == "vet-first"


def test_a_vet_first_caution_leads_the_reasons() -> None:
    result = verdict(Fact("flag", "old"), Fact("flag", "fever"))
    assert [reason.caution for reason in result.reasons] == ["fever", "old"]
    assert result.reasons[0].absolute
    assert ("splenius", None) in result.limits.excluded


def test_an_action_and_a_sign_raise_cautions() -> None:
    assert verdict(Fact("action", "stop-session")).verdict == "vet-first"
    assert ("hindquarters", None) in verdict(Fact("sign", "kick-threat")).limits.excluded


def test_each_place_is_explained_by_its_own_facts() -> None:
    why = verdict(finding("splenius", "left", "skin", "wound"), finding("croup", None, "skin", "wound")).limits.why
    assert why["splenius"] == "Wound: skin wound (Splenius, left)"
    assert why["gluteus-medius"] == "Wound: skin wound (Croup)"


def test_a_limit_carries_its_caution_and_facts_unworded() -> None:
    rub, wound = finding("splenius", "left", "skin", "rub"), finding("splenius", "right", "skin", "wound")
    causes = verdict(rub, wound, Fact("flag", "old")).limits.causes
    assert causes["splenius"] == (
        Cause("rub", "Rub", (rub,), "cap"),
        Cause("wound", "Wound", (wound,), "excluded"),
    )
    assert causes["hacking"] == (Cause("old", "Old", (Fact("flag", "old"),), "technique"),)
    assert [cause.effect for cause in causes["pressure"]] == ["pressure"]


def test_caps_hold_where_found_or_everywhere() -> None:
    limits = verdict(finding("splenius", "left", "skin", "rub"), Fact("flag", "old")).limits
    assert limits.caps == {("splenius", "left"): "light"}
    assert limits.pressure_cap == "moderate"
    assert limits.techniques == {"hacking"}
    assert limits.why["hacking"] == "Old: old"


facts = st.one_of(
    st.builds(
        finding,
        st.sampled_from(sorted(TABLES.structures)),
        st.sampled_from(["left", "right", "both", None]),
        st.just("skin"),
        st.sampled_from(["wound", "rub", "clear"]),
    ),
    st.builds(
        finding,
        st.sampled_from(sorted(TABLES.structures)),
        st.sampled_from(["left", "right", "both", None]),
        st.sampled_from(["warmth", "swelling"]),
        st.sampled_from(["warm", "present", "normal"]),
    ),
    st.builds(Fact, st.just("flag"), st.sampled_from(["fever", "old", "other"])),
    st.builds(Fact, st.just("sign"), st.sampled_from(["kick-threat", "yawn"])),
    st.builds(Fact, st.just("action"), st.sampled_from(["stop-session", "recheck"])),
)


@given(st.lists(facts, max_size=6), facts, st.integers(0, 6), st.booleans())
def test_a_further_fact_never_loosens_the_verdict(known: list[Fact], further: Fact, place: int, first: bool) -> None:
    before = gate(known, TABLES, first_visit=first)
    after = gate([*known[:place], further, *known[place:]], TABLES, first_visit=first)
    no_looser(before, after)


@given(st.lists(facts, max_size=6))
def test_every_limit_has_its_why(known: list[Fact]) -> None:
    limits = gate(known, TABLES).limits
    keys = {site[0] for site in [*limits.excluded, *limits.caps]} | limits.techniques
    if limits.pressure_cap != "firm":
        keys.add("pressure")
    assert keys == set(limits.why) == set(limits.causes)
    assert all(cause.facts for causes in limits.causes.values() for cause in causes)
    if limits.pressure_cap != "firm":
        assert any(cause.effect == "pressure" for cause in limits.causes["pressure"])
    for effect, sites in (("excluded", limits.excluded), ("cap", limits.caps)):
        assert all(any(cause.effect == effect for cause in limits.causes[structure]) for structure, _ in sites)
