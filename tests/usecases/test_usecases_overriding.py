"""Work against the gate: kept with its reason, for one visit, shown everywhere, and never against an absolute row."""

from datetime import date

import pytest
from fakes import fake_app, ticking_app, with_visit

from haywisp.usecases import App, Refused
from haywisp.usecases.asking import keep_answers
from haywisp.usecases.exchanging import export_visit, import_visit
from haywisp.usecases.horses import horse_page
from haywisp.usecases.overriding import work_against
from haywisp.usecases.people import edit_horse
from haywisp.usecases.plans import plan_next
from haywisp.usecases.reports import owner_report, owner_report_pdf, owner_report_printed
from haywisp.usecases.said import accept_all, add, correct, reject, said
from haywisp.usecases.vet import vet_said
from haywisp.usecases.visits import open_visit, visit_page

REASON = "The vet saw him on Monday and can't be reached today."
TIGHT = {"structure": "splenius", "side": "left", "aspect": "tone", "value": "tight"}
SHOWN = "Work without waiting for the vet, who should come first"


@pytest.fixture
def app() -> App:
    return ticking_app()


@pytest.fixture
def visit(app: App) -> str:
    """A visit to a horse with a tight muscle from the time before, and lame today without a reason."""
    first = with_visit(app, date(2031, 1, 5))
    add(app, first, "finding", TIGHT, 3.0)
    accept_all(app, first)
    today = open_visit(app, visit_page(app, first).horse.id, date(2031, 2, 5)).id
    keep_answers(app, today, ["unexplained-lameness"])
    return today


def test_with_a_reason_there_is_a_light_plan_and_it_says_why(app: App, visit: str) -> None:
    refused = plan_next(app, visit)
    kept = work_against(app, visit, f"  {REASON} ")
    plan = plan_next(app, visit)

    assert refused.verdict.can_be_set_aside and refused.bouts == ()
    assert kept.body == {"kind": "override", "cautions": ["unexplained-lameness"], "text": REASON}
    assert plan.verdict.verdict == "within-limits"
    assert {bout.pressure for bout in plan.bouts} == {"light"}
    assert plan.problems == ()
    (line,) = plan.verdict.set_aside
    assert SHOWN in line and REASON in line
    assert visit_page(app, visit).at_start == plan.verdict
    assert horse_page(app, visit_page(app, visit).horse.id).verdict == plan.verdict


def test_it_holds_for_its_visit_alone(app: App, visit: str) -> None:
    work_against(app, visit, REASON)
    horse = visit_page(app, visit).horse.id
    later = open_visit(app, horse, date(2031, 3, 5)).id
    assert visit_page(app, later).at_start.verdict == "vet-first"
    assert visit_page(app, later).at_start.set_aside == ()

    add(app, visit, "bout", {"technique": "effleurage", "structures": ["neck"], "side": "left"}, 5.0)

    page = visit_page(app, visit)
    assert (page.at_start.verdict, page.verdict.verdict) == ("within-limits", "vet-first")
    assert page.verdict.set_aside == () and page.at_start.set_aside != ()
    assert plan_next(app, visit).verdict.verdict == "vet-first"


def test_every_form_of_the_owners_report_shows_it_first(app: App, visit: str) -> None:
    work_against(app, visit, REASON)
    add(app, visit, "bout", {"technique": "effleurage", "structures": ["neck"], "side": "left"}, 5.0)
    report = owner_report(app, visit)
    assert SHOWN in report.urgent[0].text and REASON in report.urgent[0].text
    assert "Lameness that no vet has looked at" in [line.text for line in report.urgent]
    for form in ("text", "html"):
        told = " ".join(owner_report_printed(app, visit, form).replace("&#39;", "'").split())
        assert REASON in told and SHOWN in told
    assert owner_report_pdf(app, visit).startswith(b"%PDF")


def test_it_is_shown_after_the_vet_has_answered_too(app: App, visit: str) -> None:
    work_against(app, visit, REASON)
    add(app, visit, "bout", {"technique": "effleurage", "structures": ["neck"], "side": "left"}, 5.0)
    vet_said(app, visit, "Nothing found, go on gently.")
    report = owner_report(app, visit)
    assert report.urgent == ()
    assert SHOWN in report.cautions[0].text and REASON in report.cautions[0].text
    assert SHOWN in visit_page(app, visit).at_start.set_aside[0]


def test_a_fact_that_is_told_after_the_reason_asks_again(app: App, visit: str) -> None:
    work_against(app, visit, REASON)
    add(app, visit, "flag", {"flag": "unexplained-lameness"})
    page = visit_page(app, visit)
    assert page.at_start.verdict == "vet-first"
    assert SHOWN in page.at_start.set_aside[0]
    work_against(app, visit, "He was trotted up again and it is the same.")
    assert visit_page(app, visit).at_start.verdict == "within-limits"


def test_deciding_on_the_flag_afterwards_is_no_new_fact(app: App, visit: str) -> None:
    work_against(app, visit, REASON)
    flag = next(entry for entry in said(app, visit).entries if entry.part == "flag")
    correct(app, flag.thread, flag.version, {"flag": "unexplained-lameness"}, "asked again")
    assert visit_page(app, visit).at_start.verdict == "within-limits"


def test_a_reason_that_is_left_out_sets_nothing_aside(app: App, visit: str) -> None:
    kept = work_against(app, visit, REASON)
    reject(app, kept.thread, kept.version, "the vet was reached after all")
    page = visit_page(app, visit)
    assert (page.at_start.verdict, page.at_start.set_aside) == ("vet-first", ())


def test_one_row_of_several_can_be_named_and_the_others_go_on_asking(app: App, visit: str) -> None:
    keep_answers(app, visit, ["unexplained-lameness", "unwell"])
    work_against(app, visit, REASON, ["unwell"])
    assert visit_page(app, visit).at_start.verdict == "vet-first"
    with pytest.raises(
        Refused, match="“unwell” does not ask for the vet before this visit; choose from unexplained-lame"
    ):
        work_against(app, visit, REASON, ["unwell"])
    work_against(app, visit, REASON)
    page = visit_page(app, visit)
    assert page.at_start.verdict == "within-limits" and len(page.at_start.set_aside) == 2


@pytest.mark.parametrize(
    ("flag", "name"),
    [("colic", "Colic"), ("vet-agreement-missing", "Vet's agreement missing"), ("sedated", "Sedation today")],
)
def test_what_is_absolute_or_the_laws_is_never_set_aside(app: App, visit: str, flag: str, name: str) -> None:
    keep_answers(app, visit, ["unexplained-lameness", flag])
    before = said(app, visit).entries
    with pytest.raises(Refused, match=f"No reason sets this aside: {name}"):
        work_against(app, visit, REASON)
    assert said(app, visit).entries == before
    assert not visit_page(app, visit).at_start.can_be_set_aside


def test_the_vets_wait_is_not_the_practitioners_to_set_aside(app: App, visit: str) -> None:
    vet_said(app, visit, "Not before I have seen him.", agrees=False)
    with pytest.raises(Refused, match="No reason sets this aside: The vet says to wait"):
        work_against(app, visit, REASON)


def test_an_absolute_row_that_comes_later_stops_the_work_again(app: App, visit: str) -> None:
    work_against(app, visit, REASON)
    keep_answers(app, visit, ["unexplained-lameness", "fever"])
    assert plan_next(app, visit).bouts == ()
    assert visit_page(app, visit).at_start.verdict == "vet-first"


def test_a_flag_that_stays_with_the_horse_can_be_set_aside_too(app: App) -> None:
    visit = with_visit(app)
    edit_horse(app, visit_page(app, visit).horse.id, flags=["known-condition"])
    work_against(app, visit, REASON)
    assert visit_page(app, visit).at_start.verdict == "within-limits"


@pytest.mark.parametrize("reason", ["", "  ", "just because", "notwithstanding-all-of-it"])
def test_a_reason_is_a_sentence(app: App, visit: str, reason: str) -> None:
    with pytest.raises(Refused, match=r"too short to be read later|The note is empty"):
        work_against(app, visit, reason)
    assert visit_page(app, visit).at_start.verdict == "vet-first"


def test_nothing_to_set_aside_is_refused(app: App) -> None:
    with pytest.raises(Refused, match="Nothing asks for the vet before this visit"):
        work_against(app, with_visit(app), REASON)


def test_the_way_round_by_a_note_is_refused_too(app: App, visit: str) -> None:
    body = {"kind": "override", "cautions": ["fever"], "text": REASON}
    with pytest.raises(Refused, match="“fever” can't be set aside by a written reason"):
        add(app, visit, "note", body)
    kept = work_against(app, visit, REASON)
    with pytest.raises(Refused, match="“fever” can't be set aside"):
        correct(app, kept.thread, kept.version, {"cautions": "fever"})


def test_the_note_says_in_words_what_it_set_aside(app: App, visit: str) -> None:
    kept = work_against(app, visit, REASON)
    shown = {field.value: field.label for field in kept.fields}
    assert shown["kind"] == SHOWN
    assert shown["cautions"] == "Lameness that no vet has looked at"


def test_a_visit_that_goes_to_another_practice_takes_its_reason_along(app: App, visit: str) -> None:
    work_against(app, visit, REASON)
    other = fake_app()
    there = import_visit(other, export_visit(app, visit))
    page = visit_page(other, there.id)
    assert (page.at_start.verdict, page.at_start.set_aside) == (
        "within-limits",
        visit_page(app, visit).at_start.set_aside,
    )
