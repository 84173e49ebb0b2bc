"""What was agreed and what is missing on a visit's day; the law is the practice's own text and never Haywisp's."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from haywisp.knowledge import load_tables
from haywisp.practice import CAUTION, Agreed, BadAgreement, Gap, PlaceRule, agreed, gaps, place_rule
from haywisp.practice.consent import THINGS
from haywisp.practice.types import HANDS_ON, SCOPES

DAY = date(2031, 3, 14)
OWNER = Agreed("Ann Example", date(2031, 1, 5), frozenset({"massage", "photographs"}), "in writing")
VET = Agreed("Dr Example", date(2031, 2, 1), frozenset({"massage"}), "by telephone", until=date(2031, 3, 14))
RULE = PlaceRule("Exampleshire", "A vet has to agree first.", "letter of the vet, invented", date(2031, 1, 2), True)


def kinds(found: tuple[Gap, ...]) -> list[tuple[str, str]]:
    return [(gap.kind, gap.thing) for gap in found]


def test_nothing_is_missing_where_all_was_agreed() -> None:
    assert gaps(DAY, ["massage", "photographs"], [OWNER], [VET], RULE) == ()


def test_each_thing_needs_its_own_consent() -> None:
    assert kinds(
        gaps(DAY, ["sharing-with-vet", "massage", "stretches"], [OWNER], [VET], replace(RULE, wants_vet=False))
    ) == [
        ("consent-missing", "stretches"),
        ("consent-missing", "sharing-with-vet"),
    ]


@pytest.mark.parametrize(("later", "found"), [(0, []), (1, [("agreement-over", "massage")])])
def test_an_agreement_holds_on_its_last_day_and_not_after(later: int, found: list[tuple[str, str]]) -> None:
    assert kinds(gaps(DAY + timedelta(days=later), ["massage"], [OWNER], [VET], RULE)) == found


def test_what_is_over_says_since_when_and_a_newer_one_takes_its_place() -> None:
    old = replace(VET, until=date(2031, 2, 10))
    (gap,) = gaps(DAY, ["massage"], [OWNER], [old], RULE)
    assert gap == Gap("agreement-over", "massage", "The vet's agreement to massage was over on 2031-02-10.", old.until)
    assert gaps(DAY, ["massage"], [OWNER], [old, VET], RULE) == ()


def test_a_vets_agreement_that_is_missing_or_over_is_a_red_flag_of_the_gate() -> None:
    found = gaps(DAY, ["massage"], [], [], RULE) + gaps(DAY + timedelta(1), ["massage"], [], [VET], RULE)
    assert [(gap.kind, gap.flag) for gap in found] == [
        ("consent-missing", ""),
        ("agreement-missing", "vet-agreement-missing"),
        ("consent-missing", ""),
        ("agreement-over", "vet-agreement-missing"),
    ]
    assert {gap.flag for gap in found} - {""} <= set(load_tables().flags)


def test_a_thing_that_nobody_knows_is_refused() -> None:
    with pytest.raises(BadAgreement, match="“surgery” can't be agreed to here"):
        gaps(DAY, ["surgery"], [OWNER])


def test_what_is_agreed_to_later_does_not_count_yet() -> None:
    assert kinds(gaps(date(2031, 1, 4), ["massage"], [OWNER], [VET], RULE)) == [
        ("consent-missing", "massage"),
        ("agreement-missing", "massage"),
    ]


def test_the_vet_is_asked_only_where_the_practice_wrote_so_and_for_what_it_covers() -> None:
    assert gaps(DAY, ["massage"], [OWNER], [], replace(RULE, wants_vet=False)) == ()
    assert kinds(gaps(DAY, ["massage", "photographs"], [OWNER], [], RULE)) == [("agreement-missing", "massage")]
    wider = replace(RULE, covers=frozenset({"photographs"}))
    assert kinds(gaps(DAY, ["massage", "photographs"], [OWNER], [], wider)) == [("agreement-missing", "photographs")]


def test_without_a_rule_nothing_is_taken_to_be_allowed() -> None:
    assert kinds(gaps(DAY, ["massage"], [OWNER], [VET])) == [("rule-missing", "")]
    assert kinds(gaps(DAY, ["massage"], [OWNER], [VET], replace(RULE, wants_vet=None))) == [("rule-unclear", "")]


@pytest.mark.parametrize(("days", "found"), [(365, []), (366, [("rule-old", "")])])
def test_a_rule_of_more_than_a_year_is_looked_up_again(days: int, found: list[tuple[str, str]]) -> None:
    rule = replace(RULE, looked_up=DAY - timedelta(days=days))
    assert kinds(gaps(DAY, ["massage"], [OWNER], [VET], rule)) == found


def test_the_caution_defers_to_law_and_vet() -> None:
    assert "law of the place and the vet come before everything" in CAUTION


def test_every_thing_has_its_words() -> None:
    assert tuple(THINGS) == SCOPES
    assert set(SCOPES) > HANDS_ON


@pytest.mark.parametrize(
    ("change", "wrong"),
    [
        ({"who": "  "}, "who agreed is missing"),
        ({"who": "x" * 401}, "the name is 401 characters long"),
        ({"how": "by pigeon"}, "“by pigeon” is no way to agree; choose one of in writing, "),
        ({"scope": frozenset()}, "what was agreed to is missing"),
        ({"scope": frozenset({"massage", "surgery"})}, "“surgery” can't be agreed to here"),
        ({"until": date(2031, 1, 4)}, "it ends on 2031-01-04, before the day that it was given (2031-01-05)"),
    ],
)
def test_what_cannot_have_been_agreed_says_why(change: dict[str, object], wrong: str) -> None:
    with pytest.raises(BadAgreement) as refused:
        agreed(replace(OWNER, **change))  # type: ignore[arg-type]
    assert wrong in str(refused.value)


@pytest.mark.parametrize(
    ("change", "wrong"),
    [
        ({"place": " "}, "the place that the rule holds for is missing"),
        ({"text": ""}, "what holds in Exampleshire is missing"),
        ({"source": "\n"}, "the source of what holds in Exampleshire is missing"),
        ({"covers": frozenset({"shoeing"})}, "“shoeing” can't be agreed to here"),
        ({"text": "x" * 4001}, "the rule is 4001 characters long; 4000 is the most"),
    ],
)
def test_a_rule_needs_its_place_text_and_source(change: dict[str, object], wrong: str) -> None:
    with pytest.raises(BadAgreement) as refused:
        place_rule(replace(RULE, **change))  # type: ignore[arg-type]
    assert wrong in str(refused.value)


def test_stray_blanks_are_taken_off() -> None:
    assert agreed(replace(OWNER, who="  Ann   Example ")) == OWNER
    assert place_rule(replace(RULE, place=" Exampleshire ")) == RULE


days = st.dates(date(2030, 1, 1), date(2032, 1, 1))
one_agreed = st.builds(
    lambda day, scope, length: Agreed(
        "A", day, scope, "in writing", None if length is None else day + timedelta(length)
    ),
    days,
    st.frozensets(st.sampled_from(SCOPES), min_size=1),
    st.none() | st.integers(0, 400),
)


@given(
    days,
    st.sets(st.sampled_from(SCOPES)),
    st.lists(one_agreed, max_size=4),
    st.lists(one_agreed, max_size=4),
    one_agreed,
)
def test_one_more_agreement_never_makes_more_gaps(
    day: date, wanted: set[str], consents: list[Agreed], agreements: list[Agreed], more: Agreed
) -> None:
    before = {gap.thing for gap in gaps(day, wanted, consents, agreements, RULE) if gap.kind.startswith("consent")}
    after = {
        gap.thing for gap in gaps(day, wanted, [*consents, more], agreements, RULE) if gap.kind.startswith("consent")
    }
    assert after <= before <= wanted
