"""Every page with something on it, with nothing on it, and asked for what isn't there."""

import html
import re
from collections.abc import Callable
from datetime import timedelta
from html.parser import HTMLParser

import httpx
import pytest
from web_practice import NOW, a_heard_visit, a_horse, a_visit

from haywisp.usecases import App
from haywisp.usecases.people import add_horse, add_owner, add_yard
from haywisp.usecases.reports import owner_report
from haywisp.usecases.said import accept_all, add, finish, said
from haywisp.usecases.visits import hear, open_visit, visit_page
from haywisp.web.routes.horses import ROWS

HOSTILE = "<script>alert('neigh')</script>"


def horse_of(app: App, visit_id: str) -> str:
    return visit_page(app, visit_id).horse.id


def paths(app: App, visit_id: str) -> list[str]:
    """Every page that a practice with this visit has."""
    horse_id, thread = horse_of(app, visit_id), said(app, visit_id).entries[0].thread
    return [
        "/",
        "/horses",
        "/horses/new",
        f"/horses/{horse_id}",
        f"/horses/{horse_id}/edit",
        "/people",
        f"/visits/{visit_id}",
        f"/visits/{visit_id}/said",
        *(f"/visits/{visit_id}/said/add?part={part}" for part in ("bout", "finding", "response", "action", "note")),
        f"/visits/{visit_id}/said/{thread}",
        f"/visits/{visit_id}/feel",
        f"/visits/{visit_id}/feel?structure=poll",
        f"/visits/{visit_id}/plan",
        f"/visits/{visit_id}/report",
    ]


def test_today_says_what_waits(app: App, client: httpx.Client) -> None:
    a_heard_visit(app, "Bramble", NOW.date() - timedelta(days=2))
    a_visit(app, "Thistle")

    page = client.get("/").text

    today, _, rest = page.partition('id="waiting"')
    assert "Thistle" in today and "Bramble" not in today
    assert "Bramble" in rest and "1 question" in rest


def test_todays_visits_go_by_yard_and_end_in_isolation(app: App, client: httpx.Client) -> None:
    quarantine = add_yard(app, "A Quarantine", isolation=True).id
    owner, farm = add_owner(app, "Ann Example").id, add_yard(app, "Example Farm").id
    for name, yard in (("Aster", quarantine), ("Thistle", farm), ("Bramble", farm)):
        open_visit(app, add_horse(app, name, owner, yard).id, NOW.date())

    page = client.get("/").text

    visits = page[page.index('id="visits-today"') : page.index('id="waiting"')]
    places = [
        visits.index(text) for text in ("2 visits, 120 min", ">Bramble<", ">Thistle<", "isolation: last", ">Aster<")
    ]
    assert places == sorted(places)
    assert "At A Quarantine: own kit and clothing" in visits


def test_the_first_day_shows_where_to_begin(client: httpx.Client) -> None:
    page = client.get("/").text
    assert "Add the first horse" in page
    assert "No visits today" in page


def test_horses_are_found_by_name_owner_or_yard(app: App, client: httpx.Client) -> None:
    a_horse(app, "Bramble", owner="Ann Example")
    a_horse(app, "Thistle", owner="Bob Example")

    assert "Thistle" not in client.get("/horses", params={"q": "ann"}).text
    assert "Bramble" in client.get("/horses", params={"q": "ann"}).text


def test_a_search_that_finds_nothing_says_so(app: App, client: httpx.Client) -> None:
    a_horse(app)
    page = client.get("/horses", params={"q": "zebra"}).text
    assert "No horse, owner or yard has “zebra” in its name" in page


def test_a_search_as_you_type_gets_the_list_alone(app: App, client: httpx.Client) -> None:
    a_horse(app)
    piece = client.get("/horses", params={"q": "bram"}, headers={"HX-Request": "true"}).text
    assert "Bramble" in piece
    assert "<html" not in piece


def test_going_back_in_history_gets_the_whole_page(client: httpx.Client) -> None:
    headers = {"HX-Request": "true", "HX-History-Restore-Request": "true"}
    answer = client.get("/horses", headers=headers)
    assert "<html" in answer.text
    assert answer.headers["vary"] == "HX-Request"


def test_many_horses_come_in_pages(app: App, client: httpx.Client) -> None:
    owner, yard = add_owner(app, "Ann Example").id, add_yard(app, "Example Farm").id
    for number in range(ROWS + 2):
        add_horse(app, f"Horse {number:03d}", owner, yard)

    first = client.get("/horses").text
    (way_on,) = re.findall(r'href="(/horses\?q=&amp;after=[^"]+)"', first)
    rest = client.get(html.unescape(way_on)).text

    assert "Horse 000" in first and f"Horse {ROWS - 1:03d}" in first and f"Horse {ROWS:03d}" not in first
    assert f"Horse {ROWS:03d}" in rest and f"Horse {ROWS + 1:03d}" in rest and "More horses" not in rest


def test_a_horses_page_tells_its_story(app: App, client: httpx.Client) -> None:
    visit_id = a_heard_visit(app, day=NOW.date() - timedelta(days=30))
    accept_all(app, visit_id)
    finish(app, visit_id, force=True)
    later = open_visit(app, horse_of(app, visit_id), NOW.date())
    hear(app, later.id, "later.vtt", b"WEBVTT")
    accept_all(app, later.id)

    page = client.get(f"/horses/{horse_of(app, visit_id)}").text

    story = page[page.index('id="story"') :]
    assert story.index("14 March 2031") < story.index("12 February 2031")
    assert "Left splenius: tight" in page
    assert "What has changed" in page and "same" in page
    assert "Next time: vet first" in page


def test_a_horse_without_visits_says_what_to_do(app: App, client: httpx.Client) -> None:
    page = client.get(f"/horses/{a_horse(app)}").text
    assert "No visits yet" in page
    assert 'action="/horses/' in page


def test_owners_and_yards_are_listed(app: App, client: httpx.Client) -> None:
    a_horse(app, owner="Ann Example", yard="Example Farm")
    page = client.get("/people").text
    assert "Ann Example" in page and "Example Farm" in page


def test_a_visits_steps_are_links(app: App, client: httpx.Client) -> None:
    visit_id = a_heard_visit(app)
    page = client.get(f"/visits/{visit_id}").text
    for step in ("", "/said", "/plan", "/report"):
        assert f'href="/visits/{visit_id}{step}"' in page


def test_what_was_said_shows_words_entries_and_questions(app: App, client: httpx.Client) -> None:
    visit_id = a_heard_visit(app)
    page = client.get(f"/visits/{visit_id}/said").text
    assert "<strong>0 of 5</strong> looked at" in page
    assert page.index("Which side of the poll was tender?") < page.index('id="record-heading"')
    assert "[poll]" in page
    bout = said(app, visit_id).entries[0]
    assert f'data-entries="{bout.thread}" draggable="false">Long strokes down the left neck five passes</a>' in page


def test_a_visit_with_nothing_said_offers_both_ways(app: App, client: httpx.Client) -> None:
    page = client.get(f"/visits/{a_visit(app)}/said").text
    assert "Give this visit its narration" in page
    assert "Add by hand" in page


def test_a_plan_leaves_out_what_nobody_looked_at(app: App, client: httpx.Client) -> None:
    page = client.get(f"/visits/{a_heard_visit(app)}/plan").text
    assert "5 entries have not been looked at and are left out" in page


def test_a_visit_to_come_is_planned_from_the_one_before(app: App, client: httpx.Client) -> None:
    before = a_heard_visit(app, day=NOW.date() - timedelta(days=30))
    accept_all(app, before)
    to_come = open_visit(app, horse_of(app, before), NOW.date(), 30).id

    page = client.get(f"/visits/{to_come}/plan").text

    assert "Plan for this visit" in page
    assert "Made from what was found at the visit of" in page and f'href="/visits/{before}"' in page
    assert "Before this plan: vet first" in page
    assert 'name="minutes" type="number" inputmode="numeric" min="5" max="240" value="30"' in page


@pytest.mark.parametrize(
    ("made", "says"),
    [
        (a_visit, "nothing is recorded of this visit"),
        (a_heard_visit, "5 entries that were heard are still to be reviewed"),
    ],
)
def test_nothing_reviewed_is_no_report(app: App, client: httpx.Client, made: Callable[[App], str], says: str) -> None:
    visit_id = made(app)
    page, pdf = client.get(f"/visits/{visit_id}/report"), client.get(f"/visits/{visit_id}/report.pdf")
    assert page.status_code == 200
    assert "There is nothing to tell the owner yet" in page.text and says in page.text
    assert "report.pdf" not in page.text and "out of the ordinary" not in page.text
    assert pdf.status_code == 422
    assert says in pdf.text


def test_the_minutes_of_a_plan_can_be_changed(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    add(app, visit_id, "finding", {"structure": "splenius", "side": "left", "aspect": "tone", "value": "tight"})

    page = client.get(f"/visits/{visit_id}/plan", params={"minutes": "30"}).text

    assert "of the 30 booked" in page
    assert "left splenius" in page


@pytest.mark.parametrize(
    ("minutes", "words"), [("many", "should be a whole number"), ("9000", "9000 minutes"), ("-3", "whole number")]
)
def test_minutes_that_are_none_get_a_sentence(app: App, client: httpx.Client, minutes: str, words: str) -> None:
    answer = client.get(f"/visits/{a_visit(app)}/plan", params={"minutes": minutes})
    assert answer.status_code == 422
    assert words in answer.text


def test_the_report_begins_with_the_vet_and_ends_with_what_it_is_not(app: App, client: httpx.Client) -> None:
    visit_id = a_heard_visit(app)
    accept_all(app, visit_id)

    page = client.get(f"/visits/{visit_id}/report").text

    report = owner_report(app, visit_id)
    assert [line.text for line in report.urgent] == [app.tables().actions["refer-vet"].wording]
    letter = page[page.index('<article class="letter">') :]
    vet, done, note = (
        letter.index(text) for text in ("First: please call your vet", "What was done", "not a diagnosis")
    )
    assert vet < letter.index(report.urgent[0].text) < done < note


def test_a_report_without_a_reason_for_the_vet_has_no_box(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    add(app, visit_id, "finding", {"structure": "splenius", "side": "left", "aspect": "tone", "value": "tight"})
    page = client.get(f"/visits/{visit_id}/report").text
    assert "please call your vet" not in page
    assert "not a diagnosis" in page


@pytest.mark.parametrize("where", ["", "/plan"])
def test_a_caution_shows_the_practitioners_reason_before_the_owners_words(
    app: App, client: httpx.Client, where: str
) -> None:
    visit_id = a_visit(app)
    add(app, visit_id, "finding", {"structure": "chest", "side": None, "aspect": "skin", "value": "rub"})

    page = client.get(f"/visits/{visit_id}{where}").text

    reason = page[page.index("<h3>Rub</h3>") :]
    assert "Because: Chest: a rub on the skin." in reason
    assert reason.index("Because:") < reason.index("To the owner:")
    assert "Chest and what lies there: not worked, because of a rub on the skin (chest)." in page
    assert "Everywhere: moderate pressure at most, because of a first session." in page
    assert "Because: First session" not in page


def test_the_report_is_a_page_and_a_pdf(app: App, client: httpx.Client) -> None:
    visit_id = a_heard_visit(app)
    accept_all(app, visit_id)

    page = client.get(f"/visits/{visit_id}/report")
    pdf = client.get(f"/visits/{visit_id}/report.pdf")

    assert "What was done" in page.text and "not been looked at" in page.text
    assert pdf.headers["content-type"] == "application/pdf"
    assert pdf.content.startswith(b"%PDF-")
    assert "Bramble-2031-03-14.pdf" in pdf.headers["content-disposition"]
    # The page that a browser puts round a PDF has its styles in itself.
    assert "style-src 'unsafe-inline'" in pdf.headers["content-security-policy"]
    assert "unsafe-inline" not in page.headers["content-security-policy"]


@pytest.mark.parametrize(
    "path",
    [
        "/horses/nobody",
        "/horses/nobody/edit",
        "/visits/none",
        "/visits/none/said",
        "/visits/none/said/none",
        "/visits/none/plan",
        "/visits/none/report",
        "/visits/none/report.pdf",
        "/nowhere",
        "/static/nothing.css",
    ],
)
def test_what_is_not_there_is_a_page_with_a_way_on(client: httpx.Client, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert "<h1>Not here</h1>" in answer.text
    assert 'href="/horses"' in answer.text


def test_an_entry_of_another_visit_is_not_shown(app: App, client: httpx.Client) -> None:
    one, other = a_heard_visit(app), a_heard_visit(app, "Thistle")
    thread = said(app, other).entries[0].thread
    assert client.get(f"/visits/{one}/said/{thread}").status_code == 404


def test_names_are_text_and_never_markup(app: App, client: httpx.Client) -> None:
    horse_id = a_horse(app, HOSTILE, owner=HOSTILE, yard=HOSTILE)
    visit_id = open_visit(app, horse_id, NOW.date()).id
    hear(app, visit_id, f"{HOSTILE}.vtt", b"WEBVTT")
    add(app, visit_id, "note", {"text": HOSTILE})

    for path in paths(app, visit_id):
        assert HOSTILE not in client.get(path).text, path
    assert "&lt;script&gt;" in client.get(f"/visits/{visit_id}/said").text
    assert HOSTILE not in client.get("/horses", params={"q": HOSTILE}).text


class Lookout(HTMLParser):
    """Collects what the page's own policy would block, and controls that nothing names."""

    def __init__(self) -> None:
        super().__init__()
        self.faults: list[str] = []
        self.ids: list[str] = []
        self.labelled: set[str] = set()
        self.fields: list[str] = []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        given = dict(attributes)
        self.faults += [f"{tag} {name}" for name in given if name == "style" or name.startswith(("on", "hx-on"))]
        if tag == "style" or (tag == "script" and not given.get("src")):
            self.faults.append(tag)
        if (address := given.get("src") or given.get("action") or "").startswith(("http:", "https:", "//")):
            self.faults.append(address)
        if given.get("id"):
            self.ids.append(str(given["id"]))
        if tag == "label" and given.get("for"):
            self.labelled.add(str(given["for"]))
        if tag in {"select", "textarea"} or (
            tag == "input" and given.get("type", "text") not in {"hidden", "radio", "checkbox"}
        ):
            self.fields.append(str(given.get("id")))


def test_pages_keep_to_their_own_policy_and_every_field_has_a_label(app: App, client: httpx.Client) -> None:
    for path in paths(app, a_heard_visit(app)):
        lookout = Lookout()
        lookout.feed(client.get(path).text)
        assert lookout.faults == [], path
        assert len(lookout.ids) == len(set(lookout.ids)), path
        assert set(lookout.fields) <= lookout.labelled, path
