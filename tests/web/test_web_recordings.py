"""Recordings on the pages, without a browser: sent in pieces, listed, listened to, written in, deleted."""

import re
from dataclasses import replace

import httpx
import pytest
from web_practice import a_heard_visit, a_visit, client_of, hear_waiting, tone

from haywisp.usecases import App, recordings
from haywisp.usecases.listening import listen
from haywisp.usecases.said import said

ID = "0123456789abcdef"


@pytest.fixture
def hearing_app(app: App) -> App:
    """The practice with the real understanding: what a given ear hears is in the trade's words."""
    return replace(app, listen=listen)


@pytest.fixture
def reading(hearing_app: App) -> httpx.Client:
    return client_of(hearing_app)


def sent(client: httpx.Client, visit_id: str, *pieces: bytes) -> None:
    """A recording as the script of the page sends it."""
    begun = client.post(f"/visits/{visit_id}/recordings", data={"id": ID, "mime": "audio/webm;codecs=opus"})
    assert begun.json() == {"id": ID, "state": "recording", "pieces": []}
    for number, piece in enumerate(pieces):
        assert client.put(f"/recordings/{ID}/pieces/{number}?mark=m{number}", content=piece).status_code == 204
    told = {"count": str(len(pieces)), "seconds": "15", "told": "yes"}
    assert client.post(f"/recordings/{ID}/finish", data=told).json()["state"] == "waiting"


def a_heard_recording(app: App, client: httpx.Client) -> str:
    visit_id = a_visit(app)
    sent(client, visit_id, tone(15))
    hear_waiting(app)
    return visit_id


def test_only_the_page_that_records_may_use_the_microphone(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    assert "microphone=(self)" in client.get(f"/visits/{visit_id}/record").headers["permissions-policy"]
    for page in (f"/visits/{visit_id}", f"/visits/{visit_id}/said", "/"):
        assert "microphone=()" in client.get(page).headers["permissions-policy"]


def test_a_recording_is_sent_heard_and_looked_through(hearing_app: App, reading: httpx.Client) -> None:
    visit_id = a_visit(hearing_app)
    sent(reading, visit_id, b"one ", b"two")
    assert reading.get(f"/recordings/{ID}/pieces").json() == {"id": ID, "state": "waiting", "pieces": []}
    waiting = reading.get(f"/visits/{visit_id}/recordings", headers={"HX-Request": "true"}).text
    assert "waits to be heard" in waiting and "every 2s" in waiting
    hear_waiting(hearing_app)
    heard = reading.get(f"/visits/{visit_id}/recordings", headers={"HX-Request": "true"}).text
    assert "Look through it" in heard and "every 2s" not in heard and "2 passages to listen to again" in heard


def test_what_is_not_all_there_is_told_in_a_sentence(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    client.post(f"/visits/{visit_id}/recordings", data={"id": ID, "mime": "audio/mp4"})
    client.put(f"/recordings/{ID}/pieces/0?mark=a", content=b"one")
    refused = client.post(f"/recordings/{ID}/finish", data={"count": "2"}, headers={"HX-Request": "true"})
    assert refused.status_code == 422 and "1 of 2 pieces" in refused.text
    assert "1 piece has arrived" in client.get(f"/visits/{visit_id}/record").text
    done = client.post(f"/recordings/{ID}/finish", follow_redirects=True)
    assert "waits to be heard" in done.text


@pytest.mark.parametrize(
    ("method", "where", "status"),
    [
        ("PUT", "/recordings/0000000000000000/pieces/0?mark=a", 404),
        ("GET", "/recordings/0000000000000000/sound", 404),
        ("GET", "/recordings/..%2f..%2fetc/sound", 404),
        ("GET", "/recordings/0000000000000000/delete", 404),
        ("POST", "/recordings/0000000000000000/hear", 404),
        ("POST", "/recordings/0000000000000000/passages/0/listened", 404),
        ("PUT", "/recordings/0000000000000000/pieces/-1?mark=a", 422),
    ],
)
def test_what_is_not_there_is_said(client: httpx.Client, method: str, where: str, status: int) -> None:
    answer = client.request(method, where)
    assert answer.status_code == status
    assert "message" in answer.text or "<h1>" in answer.text


def test_it_stops_and_goes_on_from_the_page(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    sent(client, visit_id, b"one")
    stopped = client.post(f"/recordings/{ID}/stop", headers={"HX-Request": "true"}).text
    assert "Go on" in stopped and "every 2s" not in stopped
    assert "waits to be heard" in client.post(f"/recordings/{ID}/hear", follow_redirects=True).text


def test_a_failure_shows_its_sentence_and_the_sound_stays(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    sent(client, visit_id, b"one")
    with app.units() as unit:
        known = unit.recording(ID)
        assert known is not None
        unit.save_recording(replace(known, state="failed", sentence="Install the speech extra."))
    page = client.get(f"/visits/{visit_id}/record").text
    assert "Install the speech extra." in page and "Try again" in page and "<audio" in page


def test_a_player_gets_the_stretch_that_it_asks_for(app: App, client: httpx.Client) -> None:
    sent(client, a_visit(app), b"0123456789")
    whole = client.get(f"/recordings/{ID}/sound")
    assert (whole.content, whole.headers["content-type"]) == (b"0123456789", "audio/webm")
    part = client.get(f"/recordings/{ID}/sound", headers={"Range": "bytes=3-5"})
    assert (part.status_code, part.content, part.headers["content-range"]) == (206, b"345", "bytes 3-5/10")


def test_a_sound_file_goes_where_transcripts_go(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    answer = client.post(
        f"/visits/{visit_id}/narration", files={"file": ("a walk.wav", tone(1))}, follow_redirects=True
    )
    assert "a walk.wav" in answer.text and "waits to be heard" in answer.text


def test_without_a_folder_the_page_says_so(app: App) -> None:
    bare = client_of(replace(app, shelf=None))
    page = bare.get(f"/visits/{a_visit(app)}/record")
    assert page.status_code == 200 and "--recordings DIR" in page.text and "data-recorder" not in page.text


def test_words_know_their_second_and_passages_are_marked(hearing_app: App, reading: httpx.Client) -> None:
    visit_id = a_heard_recording(hearing_app, reading)
    page = reading.get(f"/visits/{visit_id}/said").text
    words = said(hearing_app, visit_id).words
    assert re.findall(r'data-at="([\d.]+)"', page) == [str(word.start) for word in words]
    assert page.count('class="doubtful"') == 2
    assert page.count('class="again-mark"') == 2
    assert "A trade word that may not have been said." in page
    assert f'data-sound="/recordings/{ID}/sound"' in page


def test_a_visit_without_a_recording_has_no_player(app: App, client: httpx.Client) -> None:
    page = client.get(f"/visits/{a_heard_visit(app)}/said").text
    assert "data-at=" not in page and "data-listen " not in page and "Listen again" not in page


def test_words_are_written_in_and_understood_anew_after_a_question(hearing_app: App, reading: httpx.Client) -> None:
    visit_id = a_heard_recording(hearing_app, reading)
    kept = reading.post(
        f"/recordings/{ID}/passages/1/words", data={"words": "right poll tender"}, headers={"HX-Request": "true"}
    ).text
    assert "Understand the narration anew with your words?" in kept and "You wrote: “right poll tender”" in kept
    page = reading.post(f"/visits/{visit_id}/said/anew", follow_redirects=True).text
    assert "Right poll: tender" in page
    assert "Understand the narration anew" not in page


def test_deleting_asks_first_and_says_what_stays(hearing_app: App, reading: httpx.Client) -> None:
    visit_id = a_heard_recording(hearing_app, reading)
    question = reading.get(f"/recordings/{ID}/delete").text
    assert "stay in the record" in question and "can’t be undone" in question
    assert recordings.row(hearing_app, ID).state == "heard"
    after = reading.post(f"/recordings/{ID}/delete", follow_redirects=True).text
    assert "None yet." in after
    page = reading.get(f"/visits/{visit_id}/said").text
    assert "has been deleted or moved" in page
