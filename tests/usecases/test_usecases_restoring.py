"""Going back to an earlier version, in a record that only grows."""

import pytest
from fakes import fake_app, heard_visit

from haywisp.usecases import Changed, NotFound
from haywisp.usecases.restoring import go_back
from haywisp.usecases.said import answer, correct, history, said


def test_an_earlier_version_counts_again_and_nothing_is_lost() -> None:
    app = fake_app()
    bout = said(app, heard_visit(app)).entries[0]
    correct(app, bout.thread, 1, {"side": "right"})

    restored = go_back(app, bout.thread, 2, 1)

    assert (restored.version, restored.body["side"], restored.status) == (3, "left", "proposed")
    assert [view.body["side"] for view in history(app, bout.thread)] == ["left", "right", "left"]


def test_a_doubt_that_was_settled_is_a_doubt_again() -> None:
    app = fake_app()
    visit_id = heard_visit(app)
    asked = said(app, visit_id).questions
    for question in asked:
        answer(app, question.id, question.choices[0].value)

    go_back(app, asked[0].thread, 2, 1)

    page = said(app, visit_id)
    assert [view.id for view in page.questions] == [asked[0].id]
    assert [view.id for view in page.answered] == [asked[1].id]


def test_only_from_the_version_seen_and_to_one_that_is_there() -> None:
    app = fake_app()
    bout = said(app, heard_visit(app)).entries[0]
    correct(app, bout.thread, 1, {"side": "right"})

    with pytest.raises(Changed):
        go_back(app, bout.thread, 1, 1)
    with pytest.raises(NotFound, match="no version “7”"):
        go_back(app, bout.thread, 2, 7)
