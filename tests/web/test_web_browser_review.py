"""In a real browser: a review that is left and come back to, counts that follow, two windows at once."""

from typing import TYPE_CHECKING

import pytest
from web_browser import LAPTOP, PHONE, expect, in_browser
from web_practice import a_heard_visit

from haywisp.usecases import App
from haywisp.usecases.said import correct, entry_of, said

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = in_browser


def test_going_back_shows_what_was_decided_meanwhile(app: App, address: str, page: "Page") -> None:
    visit_id = a_heard_visit(app)
    page.goto(f"{address}/visits/{visit_id}/said")
    page.locator(".entry").first.get_by_role("button", name="Accept").click()
    expect(page.get_by_text("1 of 5 looked at")).to_be_visible()
    page.get_by_role("link", name="Plan", exact=True).click()
    expect(page.get_by_role("heading", name="Plan for the next visit", exact=True)).to_be_visible()

    page.go_back()

    expect(page.get_by_text("1 of 5 looked at")).to_be_visible()
    expect(page.locator(".entry").first).to_contain_text("accepted")

    page.locator(".entry").nth(1).get_by_role("button", name="Accept").click()
    expect(page.get_by_text("2 of 5 looked at")).to_be_visible()
    page.go_forward()
    expect(page.get_by_text("3 entries have not been looked at")).to_be_visible()


def test_a_page_that_was_kept_whole_is_asked_for_again(app: App, address: str, page: "Page") -> None:
    visit_id = a_heard_visit(app)
    page.goto(f"{address}/visits/{visit_id}/said")
    entry = said(app, visit_id).entries[0]
    correct(app, entry.thread, 1, {"side": "right"})
    page.evaluate("window.dispatchEvent(new PageTransitionEvent('pageshow', {persisted: true}))")
    expect(page.locator(".entry").first).to_contain_text("right neck")


def test_the_counts_at_the_head_follow_each_decision(app: App, address: str, page: "Page") -> None:
    page.goto(f"{address}/visits/{a_heard_visit(app)}/said")
    steps = page.get_by_role("navigation", name="Steps of this visit")
    expect(steps.locator(".count")).to_contain_text("1")
    page.get_by_role("button", name="Left", exact=True).click()
    expect(steps.locator(".count")).to_have_count(0)

    expect(page.locator("#session-counts")).to_contain_text("1 bout")
    expect(page.locator("#session-figure .bar")).not_to_have_count(0)
    page.locator(".entry").first.get_by_role("button", name="Reject").click()
    expect(page.locator("#session-counts")).to_contain_text("0 bouts")
    expect(page.locator("#session-figure svg:not(.swatch) .bar")).to_have_count(0)


def test_a_muscle_is_changed_by_one_choice(app: App, address: str, page: "Page") -> None:
    visit_id = a_heard_visit(app)
    thread = said(app, visit_id).entries[0].thread
    page.goto(f"{address}/visits/{visit_id}/said")
    card = page.locator(".entry").first
    card.get_by_role("link", name="Correct").click()
    card.get_by_label("Muscle or region").select_option("splenius")
    card.get_by_role("button", name="Save the correction").click()
    expect(card).to_contain_text("left splenius")
    assert entry_of(app, thread).body["structures"] == ["splenius"]

    card.get_by_role("link", name="Correct").click()
    card.get_by_label("And also").select_option("neck")
    card.get_by_role("button", name="Save the correction").click()
    expect(card.get_by_role("button", name="Save the correction")).to_have_count(0)
    card.get_by_role("link", name="Correct").click()
    card.get_by_label("And", exact=True).select_option("Not this one")
    card.get_by_role("button", name="Save the correction").click()
    expect(card.get_by_role("button", name="Save the correction")).to_have_count(0)
    assert entry_of(app, thread).body["structures"] == ["splenius"]


def test_on_a_phone_a_conflict_comes_into_view_with_both_choices(app: App, address: str, page: "Page") -> None:
    page.set_viewport_size(PHONE)
    visit_id = a_heard_visit(app)
    entry = next(one for one in said(app, visit_id).entries if one.sentence == "Left splenius: tight")
    page.goto(f"{address}/visits/{visit_id}/said")
    card = page.locator(f"#entry-{entry.thread}")
    card.get_by_role("link", name="Correct").click()
    card.get_by_label("Both sides").check()
    correct(app, entry.thread, 1, {"side": "right"})
    card.get_by_role("button", name="Save the correction").click()

    message = card.get_by_role("alert")
    expect(message).to_contain_text("changed in another window")
    expect(message).to_be_focused()
    expect(message).to_be_in_viewport()
    row = card.get_by_role("row", name="Side")
    expect(row.get_by_role("cell")).to_have_text(["Both sides", "Right"])
    expect(card.get_by_label("Both sides")).to_be_checked()
    assert entry_of(app, entry.thread).body["side"] == "right"


def test_keys_are_offered_only_where_there_are_any(app: App, address: str, browser: "Browser") -> None:
    path = f"{address}/visits/{a_heard_visit(app)}/said"
    for options, shown in (({"has_touch": True, "is_mobile": True, "viewport": PHONE}, 0), ({"viewport": LAPTOP}, 1)):
        with browser.new_context(**options) as context:
            page = context.new_page()
            page.goto(path)
            expect(page.locator("[data-show-keys]:visible")).to_have_count(shown)


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_the_menu_has_the_same_words_everywhere(address: str, page: "Page", size: dict[str, int]) -> None:
    page.set_viewport_size(size)
    page.goto(address)
    assert page.get_by_role("navigation", name="Main").inner_text().split() == ["Today", "Horses", "Owners", "Words"]


def test_the_drawing_of_the_session_says_that_there_is_more_beside(app: App, address: str, page: "Page") -> None:
    page.goto(f"{address}/visits/{a_heard_visit(app)}/said")
    expect(page.get_by_text("Swipe sideways")).to_be_hidden()
    assert "moderate" in page.locator(".timeline figcaption").inner_text()
    page.set_viewport_size(PHONE)
    expect(page.get_by_text("Swipe sideways")).to_be_visible()


def test_links_in_a_question_can_be_hit_with_a_thumb(app: App, address: str, page: "Page") -> None:
    page.set_viewport_size(PHONE)
    page.goto(f"{address}/visits/{a_heard_visit(app)}/said")
    heights = page.locator(".question a, .question button").evaluate_all("all => all.map(one => one.offsetHeight)")
    assert heights and min(heights) >= 44


def test_a_field_that_was_made_larger_breaks_no_policy(
    app: App, address: str, page: "Page", complaints: list[str]
) -> None:
    """Dragging the corner of a field gives it a style, which must not be written into what htmx puts in its place."""
    from haywisp.usecases.said import add

    visit_id = a_heard_visit(app)
    note = add(app, visit_id, "note", {"text": "bites"})
    page.goto(f"{address}/visits/{visit_id}/said")
    card = page.locator(f"#entry-{note.thread}")
    for _ in range(2):
        card.get_by_role("link", name="Correct").click()
        card.get_by_label("Note").evaluate("field => { field.style.height = '200px'; }")
    correct(app, note.thread, 1, {"text": "bites hard"})
    card.get_by_role("button", name="Save the correction").click()
    expect(card.get_by_role("alert")).to_be_visible()
    assert complaints == []
