"""A visit saved as a file from its page, and taken in on the page of the horses."""

import html
import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import httpx
import pytest
from web_practice import a_heard_visit, client_of, practice

from haywisp.usecases import App
from haywisp.usecases.horses import list_horses
from haywisp.usecases.listening import LARGEST_FILE
from haywisp.usecases.people import add_owner
from haywisp.usecases.said import correct, history, said


@pytest.fixture
def other(tmp_path: Path) -> Iterator[App]:
    """Another practice with nothing in it."""
    (tmp_path / "other").mkdir()
    with practice(tmp_path / "other") as made:
        yield made


@pytest.fixture
def elsewhere(other: App) -> Iterator[httpx.Client]:
    with client_of(other) as made:
        yield made


def sent(client: httpx.Client, data: bytes, **fields: str) -> httpx.Response:
    return client.post("/visits", files={"file": ("bramble.json", data)}, data=fields)


def test_a_visit_goes_out_of_one_practice_and_into_another(
    app: App, client: httpx.Client, other: App, elsewhere: httpx.Client
) -> None:
    visit_id = a_heard_visit(app)
    entry = said(app, visit_id).entries[0]
    correct(app, entry.thread, 1, {"side": "right"})
    assert f'href="/visits/{visit_id}/visit.json" download' in client.get(f"/visits/{visit_id}").text

    file = client.get(f"/visits/{visit_id}/visit.json")

    assert file.headers["content-type"] == "application/json"
    assert file.headers["content-disposition"] == "attachment; filename*=UTF-8''Bramble-2031-03-14.json"
    assert "Take in a visit from a file" in elsewhere.get("/horses").text
    answer = sent(elsewhere, file.content)
    assert (answer.status_code, answer.headers["location"]) == (303, f"/visits/{visit_id}")
    assert said(other, visit_id).entries == said(app, visit_id).entries
    assert len(history(other, entry.thread)) == 2


def test_names_that_are_kept_already_have_to_be_meant(
    app: App, client: httpx.Client, other: App, elsewhere: httpx.Client
) -> None:
    file = client.get(f"/visits/{a_heard_visit(app)}/visit.json").content
    add_owner(replace(other, new_id=lambda: "another-ann"), "Ann Example")

    refused = sent(elsewhere, file)

    assert refused.status_code == 422
    assert "an owner called “Ann Example” already" in refused.text and 'name="another"' in refused.text
    assert list_horses(other) == ()
    assert sent(elsewhere, file, another="yes").status_code == 303


def test_a_visit_that_is_kept_already_is_no_other_one(app: App, client: httpx.Client) -> None:
    file = client.get(f"/visits/{a_heard_visit(app)}/visit.json").content
    refused = sent(client, file, another="yes")
    assert refused.status_code == 422
    assert "is kept already" in refused.text and 'name="another"' not in refused.text


@pytest.mark.parametrize(
    ("data", "status", "says"),
    [
        (b"\xff\xfb\x90", 422, "bramble.json can't be read: it is no text in UTF-8"),
        (b"{}", 422, "visit document"),
        (json.dumps({"haywisp_visit": 99}).encode(), 422, "it is of version 99"),
        (b" " * (LARGEST_FILE + 1), 413, "bramble.json is larger than 10 MB"),
    ],
    ids=["sound", "other json", "later version", "too large"],
)
@pytest.mark.parametrize("headers", [{}, {"HX-Request": "true"}], ids=["page", "piece"])
def test_a_file_that_is_no_visit_is_refused_with_a_sentence(
    app: App, client: httpx.Client, data: bytes, status: int, says: str, headers: dict[str, str]
) -> None:
    answer = client.post("/visits", files={"file": ("bramble.json", data)}, headers=headers)
    assert answer.status_code == status
    assert says in html.unescape(answer.text)
    assert ("<html" in answer.text) is not bool(headers)
    assert list_horses(app) == ()


def test_no_file_at_all_is_said(client: httpx.Client) -> None:
    answer = client.post("/visits", data={"another": ""})
    assert answer.status_code == 422
    assert "There was no file." in answer.text


def test_a_visit_that_is_not_there_has_no_file(client: httpx.Client) -> None:
    assert client.get("/visits/none/visit.json").status_code == 404
