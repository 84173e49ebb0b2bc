"""The real ear: a narration of the demo heard, read back and heard again."""

from dataclasses import replace

import pytest
from fakes import fake_app, with_visit

from haywisp.demo import DemoVisit, load
from haywisp.errors import HaywispError
from haywisp.usecases import App
from haywisp.usecases.listening import listen
from haywisp.usecases.narrating import narrated
from haywisp.usecases.said import accept_all, said
from haywisp.usecases.visits import hear


def hearing_app() -> App:
    return replace(fake_app(), listen=listen)


def samples() -> list[DemoVisit]:
    """The first narration of each form."""
    forms: dict[str, DemoVisit] = {}
    for visit in load().visits:
        forms.setdefault(visit.narration_file.split(".", 1)[1], visit)
    return list(forms.values())


@pytest.mark.parametrize("visit", samples(), ids=lambda visit: visit.narration_file)
def test_entries_point_into_the_words_that_are_shown(visit: DemoVisit) -> None:
    app = hearing_app()
    visit_id = with_visit(app)
    heard = hear(app, visit_id, visit.narration_file, visit.content())

    page = said(app, visit_id)

    assert heard.words == len(page.words) > 100
    assert len(page.entries) > 10
    assert all(0 <= entry.first_word < entry.last_word <= len(page.words) for entry in page.entries)
    assert all(0 <= question.first_word < question.last_word <= len(page.words) for question in page.questions)
    about = {question.thread for question in page.questions if not question.offers}
    assert about <= {entry.thread for entry in page.entries}
    assert {question.thread for question in page.questions if question.offers} <= {""}
    assert page.by_region.length_s >= page.words[-1].end


def test_the_same_narration_again_changes_nothing_that_was_stood_by() -> None:
    app = hearing_app()
    visit_id, visit = with_visit(app), load().visits[0]
    hear(app, visit_id, visit.narration_file, visit.content())
    accept_all(app, visit_id)
    before = said(app, visit_id)

    hear(app, visit_id, visit.narration_file, visit.content(), again=True)

    after = said(app, visit_id)
    assert [(view.sentence, view.time_s, view.first_word, view.status) for view in after.entries] == [
        (view.sentence, view.time_s, view.first_word, view.status) for view in before.entries
    ]
    assert [view.text for view in after.questions] == [view.text for view in before.questions]


@pytest.mark.parametrize("data", [b"", b"   ", b"\x00\x01\x02", b"WEBVTT\n\n", b"{}", b"[1, 2", b"\xff\xfe\x00"])
def test_what_cannot_be_read_is_refused_and_the_visit_stays_as_it_was(data: bytes) -> None:
    app = hearing_app()
    visit_id = with_visit(app)

    with pytest.raises(HaywispError, match=r"odd\.vtt"):
        hear(app, visit_id, "odd.vtt", data)

    page = said(app, visit_id)
    assert (page.visit.status, page.file_name, page.entries) == ("planned", "", ())


@pytest.mark.parametrize(("form", "has"), [("json", '"treatments"'), ("text", "Bouts"), ("html", "</html>")])
def test_a_narration_is_printed_in_each_form(form: str, has: str) -> None:
    visit = load().visits[0]

    assert has in narrated(visit.content(), visit.narration_file, form, fake_app().tables())
