"""In a real browser: words offered after a correction, chosen in the transcript by mouse, finger and key, and kept."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from test_web_own_words import FELLA, SAID, effleurage
from web_browser import LAPTOP, PHONE, expect, in_browser
from web_practice import a_visit, practice

from haywisp.usecases import App
from haywisp.usecases.listening import listen
from haywisp.usecases.own_words import own_words
from haywisp.usecases.visits import hear

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = in_browser


@pytest.fixture
def app(tmp_path: Path) -> Iterator[App]:
    with practice(tmp_path) as made:
        yield replace(made, listen=listen)


@pytest.fixture
def visit(app: App) -> str:
    visit_id = a_visit(app)
    hear(app, visit_id, "told.txt", SAID)
    return visit_id


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_one_tap_keeps_the_words_of_a_correction(
    app: App, address: str, page: "Page", visit: str, size: dict[str, int], complaints: list[str]
) -> None:
    page.set_viewport_size(size)
    bout = effleurage(app, visit)
    page.goto(f"{address}/visits/{visit}/said")
    card = page.locator(f"#entry-{bout.thread}")
    card.get_by_role("link", name="Correct").click()
    card.get_by_label("Muscle or region").select_option("brachiocephalicus")
    card.get_by_role("button", name="Save the correction").click()
    expect(card.get_by_label("When I say")).to_have_value("big fella at the bottom")
    assert own_words(app) == ()
    card.get_by_role("button", name="Keep for next time").click()
    expect(card.get_by_role("status")).to_contain_text("means brachiocephalicus")
    expect(card.get_by_role("status")).to_be_focused()
    assert [row.phrase for row in own_words(app)] == [FELLA["phrase"]]
    assert complaints == []


def test_an_offer_can_be_passed_over_and_a_refused_one_keeps_what_was_typed(
    app: App, address: str, page: "Page", visit: str
) -> None:
    bout = effleurage(app, visit)
    page.goto(f"{address}/visits/{visit}/said")
    card = page.locator(f"#entry-{bout.thread}")
    card.get_by_role("link", name="Correct").click()
    card.get_by_label("Muscle or region").select_option("brachiocephalicus")
    card.get_by_role("button", name="Save the correction").click()
    card.get_by_label("When I say").fill("the poll")
    card.get_by_role("button", name="Keep for next time").click()
    expect(card.get_by_role("alert")).to_contain_text("heard as poll now")
    expect(card.get_by_label("When I say")).to_have_value("the poll")
    expect(card.get_by_label("all the same")).to_be_visible()
    card.get_by_role("button", name="Not now").click()
    expect(card.locator(".own-offer")).to_have_count(0)
    expect(card).to_be_focused()
    assert own_words(app) == ()


def test_words_are_marked_with_the_mouse(app: App, address: str, page: "Page", visit: str) -> None:
    page.goto(f"{address}/visits/{visit}/said")
    page.evaluate(
        """() => {
          const walker = document.createTreeWalker(document.querySelector(".transcript"), NodeFilter.SHOW_TEXT);
          while (walker.nextNode()) {
            const at = walker.currentNode.textContent.indexOf("bear hug");
            if (at < 0) continue;
            const range = document.createRange();
            range.setStart(walker.currentNode, at);
            range.setEnd(walker.currentNode, at + "bear hug".length);
            window.getSelection().addRange(range);
            return;
          }
        }"""
    )
    link = page.get_by_role("link", name="These words mean …")
    expect(page.locator("[data-own-picked]")).to_have_text("“bear hug”")
    link.click()
    expect(page.get_by_label("When I say")).to_have_value("bear hug")
    page.get_by_label("I mean").select_option("technique:compression")
    page.get_by_role("button", name="Keep for next time").click()
    page.wait_for_url(f"**/visits/{visit}/said")
    assert [(row.phrase, row.meaning) for row in own_words(app)] == [("bear hug", "compression")]


def test_words_are_chosen_by_finger(address: str, page: "Page", visit: str) -> None:
    page.set_viewport_size(PHONE)
    page.goto(f"{address}/visits/{visit}/said")
    page.get_by_role("link", name="Transcript").click()
    page.get_by_role("button", name="Choose words to teach").click()
    page.locator("[data-word]", has_text="big").click()
    page.locator("[data-word]", has_text="bottom").click()
    expect(page.locator("[data-own-picked]")).to_have_text("“big fella at the bottom”")
    page.locator("[data-word]", has_text="Left").click()
    page.locator("[data-word]", has_text="splenius").click()
    expect(page.locator("[data-own-picked]")).to_contain_text("At most 8 words")
    expect(page.get_by_role("link", name="These words mean …")).to_be_hidden()


def test_words_are_chosen_by_keys_alone(address: str, page: "Page", visit: str) -> None:
    page.goto(f"{address}/visits/{visit}/said")
    page.keyboard.press("t")
    expect(page.locator("[data-word]").first).to_be_focused()
    page.locator("[data-word]", has_text="bear").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    expect(page.get_by_role("link", name="These words mean …")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.get_by_label("When I say")).to_have_value("bear hug")


def test_words_still_lead_to_their_entry_when_choosing_ends(app: App, address: str, page: "Page", visit: str) -> None:
    page.goto(f"{address}/visits/{visit}/said")
    page.get_by_role("button", name="Choose words to teach").click()
    page.get_by_role("button", name="Stop choosing").click()
    page.locator("a.heard", has_text="Effleurage").click()
    expect(page.locator(f"#entry-{effleurage(app, visit).thread}")).to_be_focused()


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_no_page_is_wider_than_the_screen(
    app: App, address: str, page: "Page", visit: str, size: dict[str, int], complaints: list[str]
) -> None:
    page.set_viewport_size(size)
    for path in (
        "/words",
        f"/words/new?visit={visit}&phrase={'x' * 60}",
        f"/visits/{visit}/read-again",
        f"/visits/{visit}/said",
    ):
        page.goto(address + path)
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    assert complaints == []
