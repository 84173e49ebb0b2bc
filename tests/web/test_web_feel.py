"""Look and feel: the drawn horse of a visit, a muscle chosen on it, and what is kept of it."""

import re
import xml.etree.ElementTree as ET

import httpx
from web_practice import a_visit

from haywisp.usecases import App
from haywisp.usecases.said import add, said


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


def touch(client: httpx.Client, visit_id: str, found: str, structure: str = "splenius") -> None:
    sent = client.post(f"/visits/{visit_id}/feel", data={"structure": structure, "found": found})
    assert sent.status_code == 303


def felt(app: App, visit_id: str) -> list[tuple[object, object, int]]:
    return [
        (one.body["side"], one.body["value"], one.version)
        for one in said(app, visit_id).entries
        if one.part == "finding"
    ]


def test_another_touch_corrects_what_was_recorded(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    for value in ("tight", "tight", "normal"):
        touch(client, visit_id, f"left|tone|{value}")
    assert felt(app, visit_id) == [("left", "normal", 2)]
    assert "Out of the usual" not in client.get(f"/visits/{visit_id}/feel").text


def test_one_of_both_sides_is_corrected_and_the_other_stays(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    add(app, visit_id, "finding", {"structure": "splenius", "side": "both", "aspect": "tone", "value": "tight"})
    touch(client, visit_id, "right|tone|tight")
    assert felt(app, visit_id) == [("both", "tight", 1)]
    touch(client, visit_id, "right|tone|normal")
    assert sorted(felt(app, visit_id)) == [("left", "tight", 2), ("right", "normal", 1)]


def test_a_side_that_there_is_not_changes_nothing(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    add(app, visit_id, "finding", {"structure": "splenius", "side": "both", "aspect": "tone", "value": "tight"})
    for found in ("up|tone|normal", "left|tone|odd", "left|mood|odd"):
        sent = client.post(f"/visits/{visit_id}/feel", data={"structure": "splenius", "found": found})
        assert sent.status_code == 422
    assert felt(app, visit_id) == [("both", "tight", 1)]


def test_the_midline_has_one_side(app: App, client: httpx.Client) -> None:
    visit_id = a_visit(app)
    touch(client, visit_id, "|warmth|warm", "poll")
    touch(client, visit_id, "|warmth|normal", "poll")
    assert felt(app, visit_id) == [(None, "normal", 2)]


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
