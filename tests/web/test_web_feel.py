"""Look and feel: the drawn horse of a visit, a muscle chosen on it, and what is kept of it."""

import re
import xml.etree.ElementTree as ET

import httpx
from web_practice import a_visit

from haywisp.usecases import App
from haywisp.usecases.said import said


def test_every_shape_of_the_drawn_horse_can_be_chosen(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    seen: set[str] = set()
    for view in ("left", "above"):
        for layer in ("superficial", "deep", "regions"):
            text = client.get(f"/visits/{visit_id}/feel?view={view}&layer={layer}").text
            seen |= set(re.findall(r'data-structure="([\w-]+)"', text))
            assert "structure=" in text
    assert seen == set(app.tables().structures)


def test_a_muscle_is_felt_on_both_sides(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    page = client.get(f"/visits/{visit_id}/feel?structure=splenius").text
    assert ">Left</legend>" in page and ">Right</legend>" in page
    for found in ("left|tone|tight", "right|tone|normal"):
        sent = client.post(
            f"/visits/{visit_id}/feel",
            data={"view": "left", "layer": "superficial", "structure": "splenius", "found": found},
        )
        assert sent.status_code == 303
        assert sent.headers["location"].endswith("structure=splenius#panel")
    findings = [entry.body for entry in said(app, visit_id).entries if entry.part == "finding"]
    assert [(body["structure"], body["side"], body["aspect"], body["value"]) for body in findings] == [
        ("splenius", "left", "tone", "tight"),
        ("splenius", "right", "tone", "normal"),
    ]
    again = client.get(f"/visits/{visit_id}/feel?structure=splenius").text
    assert again.count('aria-pressed="true"') == 2


def test_what_is_out_of_the_usual_is_shaded(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    plain = client.get(f"/visits/{visit_id}/horse.svg").text
    client.post(f"/visits/{visit_id}/feel", data={"structure": "splenius", "found": "left|tone|tight"})
    shaded = client.get(f"/visits/{visit_id}/horse.svg")
    assert shaded.headers["content-type"].startswith("image/svg+xml")
    assert ET.fromstring(shaded.text).tag.endswith("svg")
    assert "pattern" in shaded.text and "pattern" not in plain


def test_what_is_out_of_the_usual_is_listed_with_the_view_that_shows_it(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    assert "Out of the usual" not in client.get(f"/visits/{visit_id}/feel").text
    for found in ("right|tone|tight", "left|tone|normal"):
        client.post(f"/visits/{visit_id}/feel", data={"structure": "rhomboideus", "found": found})
    page = client.get(f"/visits/{visit_id}/feel").text
    listed = re.findall(r'feel\?view=(\w+)&amp;layer=(\w+)&amp;structure=rhomboideus">([^<]+)<', page)
    assert len(listed) == 1
    view, layer, words = listed[0]
    assert view == "right" and "tight" in words
    shown = client.get(f"/visits/{visit_id}/horse.svg?view={view}&layer={layer}").text
    assert "tight" in shown


def test_an_unknown_structure_or_nothing_chosen_is_refused(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    assert client.get(f"/visits/{visit_id}/feel?structure=wing").status_code == 422
    assert client.post(f"/visits/{visit_id}/feel", data={"structure": "splenius", "found": ""}).status_code == 422
    assert said(app, visit_id).entries == ()
