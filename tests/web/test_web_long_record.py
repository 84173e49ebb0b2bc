"""A very long session: its record comes in pieces, each with its own words and drawing."""

import re
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from web_practice import a_heard_visit, client_of, long_narration, practice

from haywisp.usecases import App
from haywisp.usecases.said import said
from haywisp.web.pieces import ENTRIES, lines_in, piece_of
from haywisp.web.said_page import Place, entries_in_time, place_in

ROUNDS = 600
HTMX = {"HX-Request": "true"}


@pytest.fixture(scope="module")
def long_app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[App]:
    folder: Path = tmp_path_factory.mktemp("long")
    with practice(folder, long_narration(ROUNDS)) as made:
        yield made


@pytest.fixture(scope="module")
def visit_id(long_app: App) -> str:
    return a_heard_visit(long_app)


@pytest.fixture
def client(long_app: App) -> Iterator[httpx.Client]:
    with client_of(long_app) as made:
        yield made


def cards(page: str) -> list[str]:
    return re.findall(r'data-entry="([^"]+)"', page)


def test_a_page_of_thousands_of_entries_stays_small(client: httpx.Client, visit_id: str) -> None:
    page = client.get(f"/visits/{visit_id}/said").text

    assert len(cards(page)) == ENTRIES
    assert f"Entries 1 to {ENTRIES} of {4 * ROUNDS}" in page
    assert f"<strong>0 of {4 * ROUNDS}</strong> looked at" in page
    assert len(page.encode()) < 1024 * 1024


def test_every_entry_and_every_word_is_on_some_piece(long_app: App, client: httpx.Client, visit_id: str) -> None:
    view = said(long_app, visit_id)
    seen: list[str] = []
    words: set[str] = set()
    address = f"/visits/{visit_id}/said"
    while address:
        page = client.get(address).text
        seen += cards(page)
        words |= set(re.findall(r'id="w-(\d+)"', page))
        on = re.search(r'href="([^"#]+)[^"]*">Show more', page)
        address = on.group(1) if on else ""

    assert seen == [entry.thread for entry in entries_in_time(view)]
    assert {str(entry.first_word) for entry in view.entries} <= words


def test_the_drawing_of_a_piece_goes_over_its_own_time(client: httpx.Client, visit_id: str) -> None:
    page = client.get(f"/visits/{visit_id}/said", params={"from": 2 * ENTRIES}).text
    bars = [float(x) for x in re.findall(r'<rect class="bar[^"]*" x="([\d.]+)"', page)]
    ticks = re.findall(r'class="tick-text"[^>]*>([\d:]+)<', page)
    assert min(bars) < 250 and max(bars) > 900
    # 200 entries are 50 rounds of 21 s: the piece that begins with round 100 begins after 35 minutes.
    assert ticks[0] == "36:00" and len(ticks) > 5


def test_an_entry_is_found_by_its_thread(long_app: App, client: httpx.Client, visit_id: str) -> None:
    last = said(long_app, visit_id).entries[-1].thread
    sent = client.post(f"/visits/{visit_id}/said/{last}/accept", data={"version": "1"})
    assert sent.headers["location"] == f"/visits/{visit_id}/said?at={last}#entry-{last}"
    assert last in cards(client.get(sent.headers["location"]).text)


def test_htmx_keeps_the_piece_that_someone_is_in(client: httpx.Client, visit_id: str) -> None:
    here = {"HX-Current-URL": f"http://localhost/visits/{visit_id}/said?from={ENTRIES}"}
    piece = client.post(f"/visits/{visit_id}/said/accept-all", headers=HTMX | here).text
    assert f"Entries {ENTRIES + 1} to {2 * ENTRIES} of" in piece


def test_an_address_of_the_page_that_is_none_is_no_fault(client: httpx.Client, visit_id: str) -> None:
    here = {"HX-Current-URL": "http://["}
    assert client.post(f"/visits/{visit_id}/said/accept-all", headers=HTMX | here).status_code == 200


@pytest.mark.parametrize(
    ("address", "place"),
    [
        ("", Place()),
        ("/visits/x/said?from=400", Place(400)),
        ("/visits/x/said?from=-4", Place()),
        ("/visits/x/said?from=many&at=t1", Place(0, "t1")),
        ("/visits/x/said?from=²", Place()),
        ("/visits/x/said?from=" + "9" * 40, Place()),
        ("http://[", Place()),
    ],
)
def test_a_place_that_is_none_is_the_beginning(client: httpx.Client, address: str, place: Place) -> None:
    assert place_in(address) == place


def test_a_place_past_the_end_is_the_last_piece(client: httpx.Client, visit_id: str) -> None:
    page = client.get(f"/visits/{visit_id}/said", params={"from": 999_999}).text
    assert f"to {4 * ROUNDS} of {4 * ROUNDS}" in page and "Show more" not in page


def test_a_short_record_is_one_piece(long_app: App, visit_id: str) -> None:
    view = said(long_app, visit_id)
    piece = piece_of(view.entries[:5])
    assert piece.whole and (piece.first, piece.last) == (0, 5)
    assert lines_in(view.lines, piece) == view.lines
    assert piece_of(()).whole
