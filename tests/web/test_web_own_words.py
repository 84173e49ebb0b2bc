"""My words on the pages without scripts: taught after a correction, listed, taken off, and an old visit read again."""

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import httpx
import pytest
from web_practice import a_visit, practice

from haywisp.narration.types import OwnWord
from haywisp.usecases import App
from haywisp.usecases.listening import listen
from haywisp.usecases.own_words import own_words, teach
from haywisp.usecases.said import said
from haywisp.usecases.views import EntryView
from haywisp.usecases.visits import hear

HUG = OwnWord("technique", "the bear hug", "compression")
SAID = (
    b"[0:00] Left side, hands on his neck. [0:10] Effleurage on the big fella at the bottom, five times. "
    b"[0:40] Then the bear hug on his splenius. [1:40] Done."
)
FELLA = {"phrase": "big fella at the bottom", "meaning": "structure:brachiocephalicus"}


@pytest.fixture
def app(tmp_path: Path) -> Iterator[App]:
    with practice(tmp_path) as made:
        yield replace(made, listen=listen)


@pytest.fixture
def visit(app: App) -> str:
    visit_id = a_visit(app)
    hear(app, visit_id, "told.txt", SAID)
    return visit_id


def effleurage(app: App, visit_id: str) -> EntryView:
    return next(one for one in said(app, visit_id).entries if one.sentence.startswith("Effleurage"))


def test_a_correction_offers_its_words_and_one_form_keeps_them(app: App, client: httpx.Client, visit: str) -> None:
    bout = effleurage(app, visit)
    form = {"version": str(bout.version), "technique": "effleurage", "structures": "brachiocephalicus", "side": "left"}
    answer = client.post(f"/visits/{visit}/said/{bout.thread}/correct", data=form)
    assert answer.status_code == 303
    assert f"offer={bout.thread}" in answer.headers["location"]
    shown = client.get(answer.headers["location"]).text
    assert 'class="own-offer"' in shown
    assert 'name="phrase" value="big fella at the bottom"' in shown
    assert own_words(app) == ()
    kept = client.post("/words", data=FELLA | {"visit": visit, "thread": bout.thread})
    assert kept.headers["location"] == f"/visits/{visit}/said#entry-{bout.thread}"
    assert [row.meaning for row in own_words(app)] == ["brachiocephalicus"]
    assert 'class="own-offer"' not in client.get(f"/visits/{visit}/said?offer={bout.thread}").text


def test_a_correction_that_teaches_nothing_offers_nothing(app: App, client: httpx.Client, visit: str) -> None:
    bout = effleurage(app, visit)
    form = {"version": str(bout.version), "technique": "effleurage", "structures": "neck", "side": "right"}
    answer = client.post(f"/visits/{visit}/said/{bout.thread}/correct", data=form)
    assert "offer=" not in answer.headers["location"]


def test_the_list_shows_adds_and_takes_off_and_puts_back(app: App, client: httpx.Client, visit: str) -> None:
    assert client.post("/words", data=FELLA).status_code == 303
    (row,) = own_words(app)
    page = client.get(f"/words?heard={row.id}").text
    assert "“big fella at the bottom”" in page
    assert f'href="/visits/{visit}/said"' in page
    gone = client.post(f"/words/{row.id}/forget")
    assert own_words(app) == ()
    after = client.get(gone.headers["location"]).text
    assert "is off the list" in after
    back = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', after))
    assert client.post("/words", data=back).status_code == 303
    assert [one.phrase for one in own_words(app)] == ["big fella at the bottom"]


@pytest.mark.parametrize(
    ("form", "why"),
    [
        ({"phrase": "on the left", "meaning": "structure:splenius"}, "only everyday words"),
        ({"phrase": "bear hug", "meaning": ""}, "Choose what the words mean"),
        ({"phrase": "<b>bear</b>", "meaning": "planet:mars"}, "no structure, technique or sign"),
        ({"phrase": "", "meaning": "structure:splenius"}, "Write the words"),
    ],
)
def test_refused_words_stay_in_their_form(app: App, client: httpx.Client, form: dict[str, str], why: str) -> None:
    answer = client.post("/words", data=form)
    assert answer.status_code == 422
    assert why in answer.text
    assert "<b>bear" not in answer.text
    if form["meaning"] == "structure:splenius":
        assert 'value="structure:splenius" selected' in answer.text
    assert own_words(app) == ()


def test_words_with_another_meaning_ask_once_more(app: App, client: httpx.Client) -> None:
    form = {"phrase": "the poll", "meaning": "structure:splenius"}
    asked = client.post("/words", data=form)
    assert "heard as poll now" in asked.text
    assert 'name="anyway"' in asked.text
    assert client.post("/words", data=form | {"anyway": "yes"}).status_code == 303


def test_an_old_visit_tells_what_would_change_and_asks_first(app: App, client: httpx.Client, visit: str) -> None:
    assert "read-again" not in client.get(f"/visits/{visit}/said").text
    teach(app, HUG)
    assert f"/visits/{visit}/read-again" in client.get(f"/visits/{visit}/said").text
    page = client.get(f"/visits/{visit}/read-again").text
    assert "Compression on the left splenius" in page
    assert "Compression" not in " ".join(entry.sentence for entry in said(app, visit).entries)
    mark = re.findall(r'name="mark" value="(\w+)"', page)[0]
    assert client.post(f"/visits/{visit}/read-again", data={"mark": mark}).status_code == 303
    assert "Compression on the left splenius" in [entry.sentence for entry in said(app, visit).entries]


def test_another_list_than_was_shown_is_shown_anew(app: App, client: httpx.Client, visit: str) -> None:
    teach(app, HUG)
    refused = client.post(f"/visits/{visit}/read-again", data={"mark": "stale"})
    assert refused.status_code == 422
    assert "look again" in refused.text
    assert "Compression on the left splenius" in refused.text


@pytest.mark.parametrize("where", ["/words/none/forget", "/visits/none/read-again"])
def test_what_is_not_there_is_said_to_be_not_there(client: httpx.Client, where: str) -> None:
    assert client.post(where).status_code == 404
