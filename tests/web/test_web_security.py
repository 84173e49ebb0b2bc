"""What every request passes first: safety headers, own host, own origin; and faults that tell nothing of the inside."""

from dataclasses import replace
from typing import NoReturn

import httpx
import pytest
from starlette.datastructures import Headers
from web_practice import a_heard_visit, a_horse, client_of

from haywisp.usecases import App
from haywisp.usecases.said import entry_of, said
from haywisp.usecases.views import EntryView
from haywisp.web.security import own_host, refusal_of


def entry(app: App, visit_id: str) -> EntryView:
    return said(app, visit_id).entries[0]


@pytest.mark.parametrize("path", ["/", "/horses/nobody", "/nowhere", "/static/base.css"])
def test_every_answer_carries_the_safety_headers(client: httpx.Client, path: str) -> None:
    headers = client.get(path).headers
    policy = headers["content-security-policy"]
    assert "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' data:" in policy
    assert "unsafe" not in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"
    assert headers["x-frame-options"] == "DENY"


def test_pages_are_not_kept_and_marked_files_are(client: httpx.Client) -> None:
    assert client.get("/").headers["cache-control"] == "no-store"
    assert "immutable" in client.get("/static/base.css?v=1").headers["cache-control"]


@pytest.mark.parametrize(
    "headers",
    [
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Origin": "https://elsewhere.example"},
        {"Origin": "null"},
        {"Origin": "http://localhost:9999"},
    ],
)
def test_forms_from_elsewhere_change_nothing(app: App, client: httpx.Client, headers: dict[str, str]) -> None:
    visit_id = a_heard_visit(app)
    thread = entry(app, visit_id).thread
    sent = client.post(f"/visits/{visit_id}/said/{thread}/accept", data={"version": "1"}, headers=headers)
    assert sent.status_code == 403
    assert "sent from another site" in sent.text
    assert entry_of(app, thread).version == 1


@pytest.mark.parametrize(
    "headers", [{}, {"Sec-Fetch-Site": "same-origin"}, {"Sec-Fetch-Site": "none"}, {"Origin": "http://localhost"}]
)
def test_our_own_forms_pass(client: httpx.Client, headers: dict[str, str]) -> None:
    assert client.post("/owners", data={"name": "Ann Example"}, headers=headers).status_code == 303


@pytest.mark.parametrize(
    "host", ["localhost:8000", "127.0.0.1", "[::1]:8000", "192.168.1.7:80", "barn-laptop", "barn.local"]
)
def test_this_machines_own_names(host: str) -> None:
    assert own_host(host)


@pytest.mark.parametrize(
    "host", ["", "evil.example", "evil.example:8000", "127.0.0.1.evil.example", "local.evil.example"]
)
def test_names_that_a_stranger_could_point_here(host: str) -> None:
    assert not own_host(host)


def test_a_practices_own_domain_is_told_at_the_start() -> None:
    headers = Headers({"host": "records.example"})
    assert refusal_of("GET", headers, ()) is not None
    assert refusal_of("GET", headers, {"records.example"}) is None


def test_a_strange_host_gets_a_sentence(client: httpx.Client) -> None:
    answer = client.get("/", headers={"Host": "evil.example"})
    assert answer.status_code == 400
    assert "does not answer under the name “evil.example”" in answer.text


def test_a_form_can_not_be_asked_for(client: httpx.Client) -> None:
    answer = client.get("/owners")
    assert answer.status_code == 405
    assert "This address is part of a form" in answer.text


def test_an_unknown_fault_shows_a_page_and_nothing_of_the_inside(app: App) -> None:
    def broken() -> NoReturn:
        raise RuntimeError("secret inside")

    with client_of(replace(app, tables=broken)) as client:
        answer = client.get(f"/horses/{a_horse(app)}")
    assert answer.status_code == 500
    assert "Something went wrong on our side" in answer.text
    assert "secret inside" not in answer.text
    assert "script-src 'self'" in answer.headers["content-security-policy"]


def test_a_fault_for_htmx_goes_to_the_notice(client: httpx.Client) -> None:
    answer = client.get("/horses/nobody", headers={"HX-Request": "true"})
    assert answer.headers["hx-retarget"] == "#notice"
    assert "<html" not in answer.text


def test_no_schema_pages_that_would_load_from_elsewhere(client: httpx.Client) -> None:
    assert {client.get(path).status_code for path in ("/docs", "/redoc", "/openapi.json")} == {404}
