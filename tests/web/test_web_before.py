"""Before touching: today's questions and their answers, and the box of the tape."""

import html
import re
from datetime import timedelta

import httpx
import pytest
from web_practice import TODAY, a_heard_visit, a_visit

from haywisp.usecases import App
from haywisp.usecases.asking import ask_page
from haywisp.usecases.people import edit_horse
from haywisp.usecases.said import accept_all, add, said
from haywisp.usecases.visits import open_visit, visit_page


def words(page: str) -> str:
    """The text of a page in one line."""
    return re.sub(r"\s+([.,:])", r"\1", " ".join(html.unescape(re.sub(r"<[^>]+>", " ", page)).split()))


def ticked(page: str) -> list[str]:
    return re.findall(r'name="yes" value="([\w-]+)" checked', page)


def test_todays_questions_are_asked_and_their_yes_holds_the_gate(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    assert "Before touching: vet first" not in client.get(f"/visits/{visit_id}").text

    sent = client.post(
        f"/visits/{visit_id}/asked", data={"yes": ["fever"], "agreement": "Dr Example by telephone, 13 March"}
    )

    assert (sent.status_code, sent.headers["location"]) == (303, f"/visits/{visit_id}#before")
    page = client.get(f"/visits/{visit_id}").text
    assert "Before touching: vet first" in page
    assert ticked(page) == ["fever"]
    assert "yes to 1 of" in page and "Agreement and consent: Dr Example by telephone, 13 March" in page
    assert 'value="Dr Example by telephone, 13 March"' in page
    assert [(entry.part, entry.source) for entry in said(app, visit_id).entries] == [
        ("flag", "by hand"),
        ("note", "by hand"),
    ]


def test_asked_with_nothing_to_tell_is_kept_too(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    client.post(f"/visits/{visit_id}/asked", data={})
    page = client.get(f"/visits/{visit_id}").text
    assert "Asked first" in page and "Asked before touching: no to all" in page
    assert "vet first" not in page[page.index("<h1>") : page.index("Asked first")]


def test_an_unknown_question_is_refused_and_keeps_what_was_written(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    answer = client.post(f"/visits/{visit_id}/asked", data={"yes": ["fever", "wings"], "agreement": "by letter"})
    assert answer.status_code == 422
    assert "“wings” is no question of today" in answer.text
    assert ticked(answer.text) == ["fever"] and 'value="by letter"' in answer.text
    assert said(app, visit_id).entries == ()


def test_before_and_next_time_stand_apart(app: App, client: httpx.Client) -> None:
    visit_id = a_heard_visit(app)
    page = client.get(f"/visits/{visit_id}").text
    before, after = page.index("Before touching: "), page.index("For next time, from this visit: ")
    known, found = page[before:after], page[after:]
    assert "Because: Poll: tender" in found and "Because: Poll: tender" not in known
    assert "What was known before this visit." in known
    assert '<details class="card ask" id="before">' in page


def test_the_line_below_the_verdict_tells_of_todays_answers(app: App, client: httpx.Client) -> None:
    before = a_heard_visit(app, day=TODAY - timedelta(days=30))
    accept_all(app, before)
    visit_id = open_visit(app, visit_page(app, before).horse.id, TODAY).id
    known = "What was known before this visit, from the one of 12 February 2031"
    assert f"{known}: nothing is recorded of this one yet." in words(client.get(f"/visits/{visit_id}").text)

    client.post(f"/visits/{visit_id}/asked", data={"yes": ["fever"]})

    assert f"{known}, and what was answered today." in words(client.get(f"/visits/{visit_id}").text)


def test_a_red_flag_says_when_it_was_asked(app: App, client: httpx.Client) -> None:
    earlier = a_visit(app, day=TODAY - timedelta(days=30))
    client.post(f"/visits/{earlier}/asked", data={"yes": ["fracture"]})
    add(app, earlier, "finding", {"structure": "splenius", "side": "left", "aspect": "tone", "value": "tight"})
    horse = visit_page(app, earlier).horse.id
    visit_id = open_visit(app, horse, TODAY).id
    client.post(f"/visits/{visit_id}/asked", data={"yes": ["colic"]})
    edit_horse(app, horse, flags=["laminitis"])

    page = words(client.get(f"/visits/{visit_id}").text)

    assert "Because: asked today." in page and "Because: asked on 12 February 2031." in page
    assert "Because: it stays with the horse." in page
    assert "Because: asked today." in words(client.get(f"/visits/{visit_id}/plan").text)
    assert "Because: asked on 12 February 2031." in words(client.get(f"/horses/{horse}").text)


def test_what_lasts_is_not_asked_again(app: App, client: httpx.Client) -> None:
    page = client.get(f"/visits/{a_visit(app)}").text
    for flag, row in app.tables().flags.items():
        asked = not row.lasting and flag != "first-visit" and row.group != "readings"
        assert (f'name="yes" value="{flag}"' in page) is asked, flag


def test_a_gelding_is_not_asked_whether_it_is_in_foal(app: App) -> None:
    visit_id = a_visit(app)
    edit_horse(app, visit_page(app, visit_id).horse.id, sex="Gelding")
    ask = ask_page(app, visit_id)
    assert not [view for view in (*ask.vet_first, *ask.limits) if "in foal" in view.text]


@pytest.mark.parametrize("path", ["/tape?girth=180&length=160", "/tape?girth=180,0&length=160 cm"])
def test_the_tape_is_reckoned_with_its_source_and_keeps_nothing(app: App, client: httpx.Client, path: str) -> None:
    visit_id = a_visit(app)
    page = client.get(f"/visits/{visit_id}{path}").text
    # 180² × 160 / 11900 = 435.63
    assert "About 436 kg by the tape." in page
    assert "the source gives no error in kg" in page and "Carroll &amp; Huntington 1988" in page
    assert said(app, visit_id).entries == ()


def test_the_tape_can_be_kept_as_a_note(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    client.post(f"/visits/{visit_id}/tape", data={"girth": "180", "length": "160"})
    (note,) = said(app, visit_id).entries
    assert note.part == "note"
    assert str(note.body["text"]).startswith("Tape: girth 180 cm, body length 160 cm. About 436 kg by the tape.")


def test_a_reading_that_is_none_keeps_what_was_typed(app: App, client: httpx.Client) -> None:
    answer = client.get(f"/visits/{a_visit(app)}/tape", params={"girth": "1.8", "length": "160"})
    assert answer.status_code == 422
    assert "The girth of 1.8 cm is outside" in answer.text and 'value="1.8"' in answer.text


def test_a_visit_that_is_not_there_has_no_questions(client: httpx.Client) -> None:
    assert client.post("/visits/none/asked", data={}).status_code == 404
    assert client.get("/visits/none/tape", params={"girth": "180", "length": "160"}).status_code == 404


def test_a_vital_sign_is_kept_and_holds_the_gate(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    sent = client.post(f"/visits/{visit_id}/readings", data={"what": "temperature", "value": "39,4"})
    assert (sent.status_code, sent.headers["location"]) == (303, f"/visits/{visit_id}#readings")
    page = words(client.get(f"/visits/{visit_id}").text)
    assert "Rectal temperature: 39.4 °C" in page and "Before touching: vet first" in page


def test_a_refused_reading_is_shown_again_as_it_was_typed(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    answer = client.post(f"/visits/{visit_id}/readings", data={"what": "body-condition", "value": "12"})
    assert answer.status_code == 422
    assert "outside" in words(answer.text)
    assert 'value="12"' in answer.text and '<option value="body-condition" selected>' in answer.text
