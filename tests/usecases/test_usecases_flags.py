"""Red flags that were spoken of: they hold the gate, wait for an answer, and go where every entry goes."""

from dataclasses import replace

import pytest
from fakes import SMALL, fake_app, heard_visit, with_visit

from haywisp.narration.types import Alert, Choice, Question, Span
from haywisp.usecases import App, Refused
from haywisp.usecases.plans import plan_next
from haywisp.usecases.said import accept_all, add, answer, correct, said
from haywisp.usecases.views import EntryView, QuestionView
from haywisp.usecases.visits import visit_page

KEEP_OR_DROP = (Choice("Yes, keep it", "keep"), Choice("No, leave it out", "drop"))


def alarmed(flag: str = "colic", confidence: float = 0.85) -> App:
    asked = Question("flag", 0, None, "Colic was spoken of: is this so?", KEEP_OR_DROP, 14.0, Span(26, 29))
    alert = Alert(flag, "colic", 14.0, Span(26, 29), confidence)
    return fake_app(narration=replace(SMALL, alerts=(alert,), questions=(asked,)))


def flag_in(app: App, visit_id: str) -> tuple[EntryView, QuestionView | None]:
    page = said(app, visit_id)
    (entry,) = [one for one in (*page.entries, *page.rejected) if one.part == "flag"]
    return entry, next((one for one in page.questions if one.thread == entry.thread), None)


def test_a_flag_that_was_told_holds_the_gate_until_it_is_answered() -> None:
    app = alarmed()
    visit_id = heard_visit(app)
    accept_all(app, visit_id)

    entry, question = flag_in(app, visit_id)
    page = plan_next(app, visit_id)

    assert (entry.part_name, entry.sentence, entry.status) == ("Red flag", "Colic", "proposed")
    assert page.verdict.verdict == visit_page(app, visit_id).verdict.verdict == "vet-first"
    assert page.verdict.reasons[0].because[0].thread == entry.thread
    assert page.bouts == ()
    assert question is not None
    answer(app, question.id, "drop")
    assert plan_next(app, visit_id).verdict.verdict != "vet-first"


def test_a_flag_that_was_only_spoken_of_asks_and_counts_once_it_is_kept() -> None:
    app = alarmed(confidence=0.4)
    visit_id = heard_visit(app)

    _, question = flag_in(app, visit_id)
    before = visit_page(app, visit_id).verdict.verdict
    assert question is not None
    answer(app, question.id, "keep")

    assert before != "vet-first"
    assert visit_page(app, visit_id).verdict.verdict == "vet-first"


def test_correcting_a_flag_answers_its_question() -> None:
    app = alarmed()
    visit_id = heard_visit(app)
    entry, _ = flag_in(app, visit_id)

    corrected = correct(app, entry.thread, entry.version, {"flag": "vaccinated-recently"})

    assert corrected.sentence == "Vaccinated in the last days"
    assert [field.label for field in corrected.fields] == ["Vaccinated in the last days"]
    assert flag_in(app, visit_id)[1] is None
    assert visit_page(app, visit_id).verdict.verdict == "within-limits"


def test_a_flag_by_hand_is_one_of_the_table() -> None:
    app = fake_app()
    visit_id = with_visit(app)

    assert add(app, visit_id, "flag", {"flag": "fever"}).sentence == "Fever"
    assert visit_page(app, visit_id).verdict.reasons[0].absolute
    with pytest.raises(Refused, match="“hiccups” is no red flag"):
        add(app, visit_id, "flag", {"flag": "hiccups"})
