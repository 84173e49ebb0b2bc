"""Today and the ways from it to any other day."""

import re
from datetime import timedelta

import httpx
import pytest
from web_practice import TODAY, a_visit

from haywisp.usecases import App


def ways(page: str) -> list[str]:
    return re.findall(r'href="(/\?day=[\d-]+)"', page)


def test_today_leads_to_the_day_before_and_the_day_after(app: App, client: httpx.Client) -> None:
    a_visit(app, "Bramble")
    a_visit(app, "Thistle", TODAY + timedelta(days=1))
    page = client.get("/").text
    assert ways(page) == ["/?day=2031-03-13", "/?day=2031-03-15"]

    morrow = client.get(ways(page)[1]).text

    assert "<h1>Saturday 15 March 2031</h1>" in morrow
    assert "Thistle" in morrow and "Bramble" not in morrow and "Example Farm" in morrow
    assert ways(morrow) == ["/?day=2031-03-14", "/?day=2031-03-16"]
    assert '<a class="button" href="/">Today</a>' in morrow


@pytest.mark.parametrize("day", ["", "2031-03-14", " 2031-03-14 "])
def test_no_day_and_todays_day_are_today(app: App, client: httpx.Client, day: str) -> None:
    a_visit(app)
    page = client.get("/", params={"day": day})
    assert (page.status_code, "<h1>Today</h1>" in page.text) == (200, True)


def test_a_day_without_visits_says_so(app: App, client: httpx.Client) -> None:
    assert "No visits on this day." in client.get("/?day=2031-03-20").text


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31"])
def test_the_calendar_ends_without_a_fault(client: httpx.Client, day: str) -> None:
    answer = client.get(f"/?day={day}")
    assert answer.status_code == 200
    assert len(ways(answer.text)) == 1


@pytest.mark.parametrize("day", ["tomorrow", "2031-02-30", "2031-03-14T09:00", "²031-03-14", "\0"])
def test_what_is_no_day_is_refused_with_a_sentence(client: httpx.Client, day: str) -> None:
    answer = client.get("/", params={"day": day})
    assert answer.status_code == 422
    assert "is no day. Choose one, or write it as year-month-day" in answer.text
