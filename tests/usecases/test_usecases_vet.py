"""What the vet answered: it is kept, shown, and lifts what was asked before it; nothing else does."""

from datetime import date

import pytest
from fakes import ticking_app, with_visit

from haywisp.usecases import App, Refused
from haywisp.usecases.horses import horse_page
from haywisp.usecases.plans import plan_next
from haywisp.usecases.reports import owner_report
from haywisp.usecases.said import accept, add, correct, reject
from haywisp.usecases.vet import vet_said
from haywisp.usecases.visits import open_visit, visit_page

FIT = "Nothing found, carry on gently."
TIGHT = {"structure": "splenius", "side": "left", "aspect": "tone", "value": "tight"}


@pytest.fixture
def app() -> App:
    return ticking_app()


@pytest.fixture
def asked(app: App) -> str:
    """A visit with a finding at which the vet was asked for."""
    visit_id = with_visit(app, date(2031, 1, 5))
    add(app, visit_id, "finding", TIGHT, 3.0)
    add(app, visit_id, "action", {"kind": "refer-vet"}, 9.0)
    return visit_id


def later(app: App, visit_id: str, day: date) -> str:
    return open_visit(app, visit_page(app, visit_id).horse.id, day).id


def verdict(app: App, visit_id: str) -> str:
    """The verdict, which the plan and the visit tell alike."""
    page = plan_next(app, visit_id)
    assert visit_page(app, visit_id).verdict == page.verdict
    return page.verdict.verdict


def test_a_referral_stands_until_it_is_answered_also_when_a_later_visit_does_not_mention_it(
    app: App, asked: str
) -> None:
    second = later(app, asked, date(2031, 2, 5))
    add(app, second, "finding", {**TIGHT, "value": "normal"})
    to_come = later(app, asked, date(2031, 3, 20))

    before = [verdict(app, each) for each in (asked, second, to_come)]
    horse = visit_page(app, asked).horse.id
    horse_before = horse_page(app, horse).verdict.verdict
    vet_said(app, second, FIT)

    assert before == ["vet-first"] * 3
    assert horse_before == "vet-first"
    assert "vet-first" not in [verdict(app, each) for each in (asked, second, to_come)]
    assert horse_page(app, horse).verdict.verdict != "vet-first"


def test_the_answer_is_shown_and_the_visit_to_come_is_still_planned_from_the_one_before(app: App, asked: str) -> None:
    to_come = later(app, asked, date(2031, 3, 20))
    vet_said(app, to_come, f"  {FIT}  ")

    page = plan_next(app, to_come)

    assert page.made_from is not None
    assert page.made_from.id == asked
    assert page.bouts != ()
    assert [(word.text, word.agrees) for word in page.vet_said] == [(FIT, True)]
    assert visit_page(app, to_come).vet_said == page.vet_said


def test_deciding_on_the_referral_afterwards_does_not_ask_again(app: App, asked: str) -> None:
    referral = add(app, asked, "action", {"kind": "refer-vet"}, 10.0)
    vet_said(app, asked, FIT)
    accept(app, referral.thread, referral.version)
    assert verdict(app, asked) != "vet-first"


def test_a_new_referral_needs_a_new_answer(app: App, asked: str) -> None:
    vet_said(app, asked, FIT)
    second = later(app, asked, date(2031, 2, 5))
    add(app, second, "action", {"kind": "refer-vet"})
    assert verdict(app, second) == "vet-first"


def test_an_answer_to_wait_holds_until_the_vet_agrees(app: App) -> None:
    first = with_visit(app, date(2031, 1, 5))
    add(app, first, "finding", TIGHT)
    vet_said(app, first, "Not before I have seen him again.", agrees=False)
    second = later(app, first, date(2031, 2, 5))
    add(app, second, "finding", TIGHT)

    assert (verdict(app, first), verdict(app, second)) == ("vet-first", "vet-first")
    assert "The vet says to wait" in [reason.name for reason in plan_next(app, second).verdict.reasons]
    vet_said(app, second, FIT)
    assert verdict(app, second) != "vet-first"


def test_an_answer_lifts_no_absolute_row_where_it_was_recorded_and_no_limit(app: App) -> None:
    first = with_visit(app, date(2031, 1, 5))
    for flag in ("colic", "unexplained-lameness", "vaccinated-recently"):
        add(app, first, "flag", {"flag": flag})
    vet_said(app, first, FIT)

    reasons = {reason.caution for reason in plan_next(app, first).verdict.reasons}
    second = later(app, first, date(2031, 2, 5))
    add(app, second, "finding", TIGHT)

    assert reasons >= {"colic", "vaccinated-recently"}
    assert "unexplained-lameness" not in reasons
    assert verdict(app, second) != "vet-first"


def test_a_lameness_with_a_warm_place_is_not_lifted_where_both_were_recorded(app: App) -> None:
    first = with_visit(app, date(2031, 1, 5))
    add(app, first, "flag", {"flag": "unexplained-lameness"})
    add(app, first, "finding", {**TIGHT, "aspect": "warmth", "value": "warm"})
    vet_said(app, first, FIT)
    assert "lame-and-hot" in {reason.caution for reason in plan_next(app, first).verdict.reasons}

    second = later(app, first, date(2031, 2, 5))
    add(app, second, "finding", {**TIGHT, "aspect": "warmth", "value": "warm"})

    assert verdict(app, second) == "within-limits"


def test_red_flags_for_the_vet_stand_at_later_visits_and_those_of_the_day_do_not(app: App) -> None:
    first = with_visit(app, date(2031, 1, 5))
    for flag in ("unexplained-lameness", "vaccinated-recently", "ppid"):
        add(app, first, "flag", {"flag": flag})
    second = later(app, first, date(2031, 2, 5))
    add(app, second, "finding", TIGHT)

    reasons = {reason.caution for reason in plan_next(app, second).verdict.reasons}

    assert reasons >= {"unexplained-lameness", "ppid"}
    assert "vaccinated-recently" not in reasons


def test_an_answer_lifts_a_referral_of_its_own_visit_and_of_those_before(app: App, asked: str) -> None:
    second = later(app, asked, date(2031, 2, 5))
    add(app, second, "finding", TIGHT)
    for visit_id in (asked, second):
        kept = vet_said(app, visit_id, FIT)
        assert {verdict(app, asked), verdict(app, second)} == {"within-limits"}
        reject(app, kept.thread, kept.version)
        assert {verdict(app, asked), verdict(app, second)} == {"vet-first"}


def test_a_wait_that_is_written_down_later_on_an_older_visit_is_the_newest_answer(app: App, asked: str) -> None:
    second = later(app, asked, date(2031, 2, 5))
    vet_said(app, second, FIT)
    add(app, second, "finding", TIGHT)
    vet_said(app, asked, "No, wait after all.", agrees=False)
    third = later(app, asked, date(2031, 3, 5))
    assert [verdict(app, each) for each in (asked, second, third)] == ["vet-first"] * 3


def test_correcting_the_words_of_an_answer_answers_nothing_that_was_told_after_it(app: App) -> None:
    first = with_visit(app, date(2031, 1, 5))
    add(app, first, "finding", TIGHT)
    kept = vet_said(app, first, FIT)
    add(app, first, "flag", {"flag": "unexplained-lameness"}, 200.0)
    second = later(app, first, date(2031, 2, 5))
    add(app, second, "finding", TIGHT)
    assert verdict(app, second) == "vet-first"

    correct(app, kept.thread, kept.version, {"text": "Nothing found, go on."})

    assert verdict(app, second) == "vet-first"


def test_an_answer_that_was_left_out_lifts_nothing(app: App, asked: str) -> None:
    kept = vet_said(app, asked, FIT)
    reject(app, kept.thread, kept.version, "another horse")
    assert verdict(app, asked) == "vet-first"
    assert plan_next(app, asked).vet_said == ()


def test_the_letter_asks_for_the_vet_until_the_answer_and_then_tells_it(app: App, asked: str) -> None:
    before = owner_report(app, asked)
    vet_said(app, asked, FIT)
    after = owner_report(app, asked)

    assert before.urgent != ()
    assert [line.text for line in before.homework] == [
        "Please have your vet look at this before the next session.",
        "Leave work, stretches and massage until your vet has agreed.",
    ]
    assert "last time" not in str(before)
    assert (after.urgent, after.homework[0].detail) == ((), f"“{FIT}”")
    assert after.homework[0].text == "Your vet answered on 14 March 2031"
    assert len(after.homework) == 1


def test_an_empty_answer_is_refused(app: App, asked: str) -> None:
    with pytest.raises(Refused, match="The note is empty"):
        vet_said(app, asked, "   ")
