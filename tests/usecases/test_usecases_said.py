"""What was said and the decisions on it."""

import pytest
from fakes import FakeStore, fake_app, heard_visit, with_visit

from haywisp.usecases import App, Changed, NotFound, Refused
from haywisp.usecases.said import accept, accept_all, add, answer, correct, finish, history, reject, said
from haywisp.usecases.views import EntryView, QuestionView
from haywisp.usecases.visits import visit_page


def entry(app: App, visit_id: str, part: str, **body: object) -> EntryView:
    page = said(app, visit_id)
    return next(
        view
        for view in (*page.entries, *page.rejected)
        if view.part == part and all(view.body[key] == value for key, value in body.items())
    )


def question(app: App, visit_id: str, text: str) -> QuestionView:
    return next(view for view in said(app, visit_id).questions if view.text.startswith(text))


def test_the_page_has_the_words_in_lines_with_the_repair() -> None:
    app = fake_app()
    page = said(app, heard_visit(app))

    assert [(line.first, line.last, line.time) for line in page.lines[:2]] == [(0, 6, "0:00"), (6, 12, "0:03")]
    assert sum(len(line.words) for line in page.lines) == len(page.words) == 31
    assert [(word.text, word.meant) for word in page.words if word.meant] == [("pole", "poll")]
    assert (page.repairs[0].heard, page.repairs[0].meant) == ("pole", "poll")


def test_an_entry_reads_as_a_sentence_and_keeps_its_words_and_time() -> None:
    app = fake_app()
    view = entry(app, heard_visit(app), "bout")

    assert view.sentence == "Effleurage along the left neck, 5 passes, light"
    assert (view.time, view.end, view.first_word, view.last_word) == ("0:00", "1:00", 0, 11)
    assert [(field.value, field.label) for field in view.fields] == [
        ("technique", "Effleurage"),
        ("structures", "Neck"),
        ("side", "Left"),
        ("passes", "5"),
        ("pressure", "Light"),
    ]


def test_questions_carry_their_choices_and_what_they_are_about() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    view = question(app, visit_id, "Which side")

    assert [(choice.value, choice.label) for choice in view.choices] == [("left", "Left"), ("right", "Right")]
    assert view.about == entry(app, visit_id, "finding", structure="poll").sentence
    assert entry(app, visit_id, "finding", structure="poll").questions == (view.id,)


def test_the_timeline_has_the_bout_in_its_region_and_the_answer_as_a_mark() -> None:
    app = fake_app()
    page = said(app, heard_visit(app))

    assert [(lane.id, lane.name) for lane in page.by_region.lanes] == [("neck", "Neck")]
    assert [(bar.lane, bar.start, bar.end, bar.label) for bar in page.by_region.bars] == [
        ("neck", 0.0, 60.0, "Effleurage")
    ]
    assert [(bar.lane, bar.label) for bar in page.by_technique.bars] == [("effleurage", "Neck")]
    assert [(mark.time_s, mark.direction) for mark in page.by_region.marks] == [(10.0, "settling")]
    assert page.by_region.length_s == 60.0
    assert page.minutes_of_work == 1.0


def test_accepting_closes_the_entry_and_its_questions() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    poll = entry(app, visit_id, "finding", structure="poll")

    accepted = accept(app, poll.thread, poll.version)

    assert (accepted.status, accepted.version, accepted.questions) == ("accepted", 2, ())
    assert [view.text for view in said(app, visit_id).questions] == ["Was a return decided?"]


def test_a_decision_on_an_old_version_is_refused_and_changes_nothing() -> None:
    store = FakeStore()
    app = fake_app(store)
    bout = entry(app, heard_visit(app), "bout")
    reject(app, bout.thread, 1)
    before = list(store.rows.entries)

    with pytest.raises(Changed, match="changed since version 1"):
        correct(app, bout.thread, 1, {"side": "right"})

    assert store.rows.entries == before


def test_a_correction_takes_texts_from_a_form_and_closes_the_question_on_that_field() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    bout = entry(app, visit_id, "bout")
    poll = entry(app, visit_id, "finding", structure="poll")

    changed = correct(app, bout.thread, 1, {"structures": "neck, splenius", "passes": "", "side": "none"}, "misheard")
    correct(app, poll.thread, 1, {"side": "left"})

    assert changed.body["structures"] == ["neck", "splenius"]
    assert (changed.body["passes"], changed.body["side"], changed.reason) == (None, None, "misheard")
    answered = said(app, visit_id).answered
    assert [(view.answer, view.answer_label) for view in answered] == [("left", "Left")]


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"technique": "magic"}, "magic"),
        ({"side": "up"}, "up"),
        ({"passes": "many"}, "many"),
        ({"passes": "²"}, "²"),
        ({"structures": ""}, "structure"),
        ({"value": "tight"}, "value"),
    ],
)
def test_a_correction_to_what_the_tables_do_not_know_is_refused(changes: dict[str, object], says: str) -> None:
    store = FakeStore()
    app = fake_app(store)
    bout = entry(app, heard_visit(app), "bout")
    before = list(store.rows.entries)

    with pytest.raises(Refused, match=says):
        correct(app, bout.thread, 1, changes)

    assert store.rows.entries == before


def test_a_rejected_entry_stays_with_its_reason_and_can_come_back() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    bout = entry(app, visit_id, "bout")

    rejected = reject(app, bout.thread, 1, "another horse")
    page = said(app, visit_id)
    restored = accept(app, bout.thread, rejected.version)

    assert (rejected.status, rejected.reason) == ("rejected", "another horse")
    assert bout.thread not in {view.thread for view in page.entries}
    assert [view.thread for view in page.rejected] == [bout.thread]
    assert page.by_region.bars == ()
    assert [view.status for view in history(app, bout.thread)] == ["proposed", "rejected", "accepted"]
    assert restored.status == "accepted"


def test_answers_accept_reject_or_correct() -> None:
    app = fake_app()
    visit_id = heard_visit(app)

    side = answer(app, question(app, visit_id, "Which side").id, "right")
    gone = answer(app, question(app, visit_id, "Was a return").id, "drop")

    assert side is not None
    assert gone is not None
    assert (side.status, side.body["side"]) == ("corrected", "right")
    assert (gone.status, gone.reason) == ("rejected", "Was a return decided?")
    assert said(app, visit_id).questions == ()


def test_an_answer_is_given_once_and_must_answer() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    whole = question(app, visit_id, "Was a return").id

    with pytest.raises(Refused, match="answers nothing"):
        answer(app, whole, "left")
    answer(app, whole, "keep")
    with pytest.raises(Refused, match="answered already"):
        answer(app, whole, "drop")
    with pytest.raises(NotFound, match="no question"):
        answer(app, "gone", "keep")


def test_an_answer_that_is_refused_leaves_the_question_open() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    side = question(app, visit_id, "Which side").id

    with pytest.raises(Refused, match="upwards"):
        answer(app, side, "upwards")

    assert side in {view.id for view in said(app, visit_id).questions}


def test_accept_all_leaves_what_is_in_doubt() -> None:
    app = fake_app()
    visit_id = heard_visit(app)

    counts = accept_all(app, visit_id)

    assert (counts.accepted, counts.proposed, counts.open_questions) == (3, 2, 2)


def test_finishing_waits_for_answers_unless_forced() -> None:
    app = fake_app()
    visit_id = heard_visit(app)

    with pytest.raises(Refused, match="2 questions are still open"):
        finish(app, visit_id)
    assert finish(app, visit_id, force=True).status == "reviewed"
    assert said(app, visit_id).counts.open_questions == 2


def test_an_entry_by_hand_is_stood_by() -> None:
    app = fake_app()
    visit_id = with_visit(app)

    added = add(app, visit_id, "finding", {"structure": "loin", "side": "", "aspect": "tone", "value": "tight"}, 90.0)

    assert (added.status, added.first_word, added.time) == ("accepted", -1, "1:30")
    with pytest.raises(Refused, match="missing"):
        add(app, visit_id, "finding", {"structure": "loin"})
    with pytest.raises(Refused, match="gossip"):
        add(app, visit_id, "gossip", {"text": "hm"})


def test_a_visit_without_a_narration_has_an_empty_page() -> None:
    app = fake_app()
    page = said(app, with_visit(app))

    assert (page.lines, page.entries, page.questions, page.file_name) == ((), (), (), "")
    assert page.by_region.ticks == ((0.0, "0:00"),)


def test_what_can_be_accepted_at_once_is_counted_alike_everywhere() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    page = said(app, visit_id)
    assert (page.counts.proposed, page.counts.acceptable) == (5, 3)
    assert visit_page(app, visit_id).counts == page.counts

    after = accept_all(app, visit_id)

    assert (after.accepted, after.proposed, after.acceptable, after.open_questions) == (3, 2, 0, 2)
    answer(app, page.questions[0].id, "keep")
    assert said(app, visit_id).counts.acceptable == 0
