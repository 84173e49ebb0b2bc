"""What a visit is told before touching stands at the next one, until the question it belongs to is answered."""

from datetime import date, timedelta

import pytest
from fakes import ticking_app, with_visit

from haywisp.usecases import App
from haywisp.usecases.asking import ask_page, keep_answers
from haywisp.usecases.horses import horse_page
from haywisp.usecases.plans import plan_next
from haywisp.usecases.reports import owner_report
from haywisp.usecases.said import add, reject
from haywisp.usecases.vet import vet_said
from haywisp.usecases.visits import open_visit, visit_page

DAYS = [date(2031, 1, 5) + timedelta(days=28 * number) for number in range(4)]
TIGHT = {"structure": "splenius", "side": "left", "aspect": "tone", "value": "tight"}
WORKED = {"technique": "kneading", "structures": ["splenius"], "side": "left", "passes": None, "pressure": "light"}


@pytest.fixture
def app() -> App:
    return ticking_app()


def work(app: App, visit_id: str) -> None:
    add(app, visit_id, "finding", TIGHT, 60.0)
    add(app, visit_id, "bout", WORKED, 70.0, 130.0)


@pytest.fixture
def first(app: App) -> str:
    """A visit at which the horse was felt and worked."""
    visit_id = with_visit(app, DAYS[0])
    work(app, visit_id)
    return visit_id


def later(app: App, visit_id: str, number: int) -> str:
    return open_visit(app, visit_page(app, visit_id).horse.id, DAYS[number]).id


def reasons(app: App, visit_id: str) -> set[str]:
    """The cautions that a plan names; the visit's page says the same."""
    plan, page = plan_next(app, visit_id), visit_page(app, visit_id)
    assert plan.verdict == page.verdict
    return {reason.caution for reason in plan.verdict.reasons}


def of_the_horse(app: App, visit_id: str) -> set[str]:
    page = horse_page(app, visit_page(app, visit_id).horse.id)
    return {reason.caution for reason in page.verdict.reasons}


def test_a_fever_that_sent_the_practitioner_home_stands_at_the_next_visit_with_its_day(app: App, first: str) -> None:
    second = later(app, first, 1)
    keep_answers(app, second, ["fever"])
    assert "fever" in reasons(app, second) & of_the_horse(app, first)

    third = later(app, first, 2)

    assert "fever" in reasons(app, third) & of_the_horse(app, first)
    plan = plan_next(app, third)
    assert plan.bouts == ()
    assert plan.plan.refusal == "No plan: a vet comes first, because of fever at the visit of 2 February 2031."
    assert plan.made_from is not None and plan.made_from.id == first


def test_a_vet_who_says_wait_at_a_visit_where_nothing_is_done_is_heard_at_the_next(app: App, first: str) -> None:
    second = later(app, first, 1)
    vet_said(app, second, "Not before the scan.", agrees=False)
    third = later(app, first, 2)
    assert "vet-says-wait" in reasons(app, third) & of_the_horse(app, first)

    vet_said(app, third, "The scan is clear, go on.")
    assert "vet-says-wait" not in reasons(app, third) | of_the_horse(app, first)


def test_what_the_first_visits_were_told_stands_too_where_none_was_worked(app: App) -> None:
    first = with_visit(app, DAYS[0])
    keep_answers(app, first, ["colic"])
    second, third = later(app, first, 1), later(app, first, 2)
    for visit_id in (first, second, third):
        assert reasons(app, visit_id) == {"colic", "first-visit"}
    assert of_the_horse(app, first) == {"colic", "first-visit"}


def test_what_was_so_on_the_day_is_over_by_the_next_visit(app: App, first: str) -> None:
    second = later(app, first, 1)
    keep_answers(app, second, ["just-worked", "pregnant"])
    third = later(app, first, 2)
    assert reasons(app, second) == {"just-worked", "pregnant"}
    assert reasons(app, third) == {"pregnant"}


def test_a_limit_stands_after_a_visit_that_did_not_ask_until_one_is_told_that_it_is_over(app: App) -> None:
    first = with_visit(app, DAYS[0])
    keep_answers(app, first, ["pregnant", "isolation"])
    work(app, first)
    second = later(app, first, 1)
    work(app, second)
    third = later(app, first, 2)
    assert reasons(app, second) == reasons(app, third) == {"pregnant", "isolation"}

    keep_answers(app, third, ["isolation"])

    assert reasons(app, third) == of_the_horse(app, first) == {"isolation"}
    work(app, third)
    assert reasons(app, third) == reasons(app, later(app, first, 3)) == {"isolation"}
    # The visit before was planned with what was known then, and its letter says it.
    assert reasons(app, second) == {"pregnant", "isolation"}
    assert "foal" in str(owner_report(app, second)) and "foal" not in str(owner_report(app, third))


def test_a_no_at_a_visit_to_come_takes_back_what_the_one_planned_from_was_told(app: App) -> None:
    first = with_visit(app, DAYS[0])
    keep_answers(app, first, ["pregnant"])
    work(app, first)
    to_come = later(app, first, 1)
    keep_answers(app, to_come, [])
    assert reasons(app, to_come) == set()
    assert reasons(app, first) == {"pregnant"}


def test_an_owners_no_is_no_answer_of_the_vet(app: App, first: str) -> None:
    second = later(app, first, 1)
    keep_answers(app, second, ["unexplained-lameness"])
    third = later(app, first, 2)
    keep_answers(app, third, [])
    assert reasons(app, third) == {"unexplained-lameness"}
    vet_said(app, third, "Sound again.")
    assert reasons(app, third) == set()


def test_a_yes_that_is_given_again_is_told_once(app: App, first: str) -> None:
    add(app, first, "flag", {"flag": "pregnant"}, 90.0)
    second = later(app, first, 1)
    keep_answers(app, second, ["pregnant"])
    third = later(app, first, 2)
    for visit_id in (second, third):
        (reason,) = plan_next(app, visit_id).verdict.reasons
        assert [fact.sentence.split(" at ")[0] for fact in reason.because] == ["In foal"]


def test_what_is_known_and_limits_is_ticked_before_it_is_asked_again(app: App, first: str) -> None:
    second = later(app, first, 1)
    keep_answers(app, second, ["pregnant", "fever", "just-worked"])
    third = later(app, first, 2)

    def ticked() -> set[str]:
        page = ask_page(app, third)
        return {view.flag for view in (*page.vet_first, *page.limits) if view.yes}

    assert ticked() == {"pregnant"}
    keep_answers(app, third, [])
    assert ticked() == set()


def test_the_first_session_is_the_one_before_which_nobody_worked(app: App) -> None:
    first = with_visit(app, DAYS[1])
    add(app, first, "finding", TIGHT, 60.0)
    assert "first-visit" in reasons(app, first)
    second = later(app, first, 2)
    assert "first-visit" in reasons(app, first) & reasons(app, second) & of_the_horse(app, first)

    bout = add(app, second, "bout", WORKED, 70.0, 130.0)
    third = later(app, first, 3)
    assert "first-visit" not in reasons(app, second) | reasons(app, third)
    assert "first-visit" in reasons(app, first)
    at_start = {reason.caution for reason in visit_page(app, second).at_start.reasons}
    assert "first-visit" in at_start

    reject(app, bout.thread, bout.version, "another horse")
    assert "first-visit" in reasons(app, third)
