"""In a real browser: a muscle chosen on the drawn horse with a finger or a key, and what is felt there written down."""

from typing import TYPE_CHECKING

import pytest
from web_browser import LAPTOP, PHONE, expect, in_browser
from web_practice import a_visit

from haywisp.usecases import App
from haywisp.usecases.said import said

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = in_browser


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
@pytest.mark.parametrize("by_key", [False, True], ids=["touched", "by key"])
def test_a_muscle_is_chosen_on_the_horse_and_felt(
    app: App, address: str, page: "Page", complaints: list[str], size: dict[str, int], by_key: bool
) -> None:
    page.set_viewport_size(size)
    visit_id = a_visit(app)
    page.goto(f"{address}/visits/{visit_id}/feel?view=right")
    shape = page.get_by_role("link", name="Splenius, right")
    if by_key:
        shape.focus()
        page.keyboard.press("Enter")
    else:
        # A triangular shape may be hollow at the middle of its box: the touch goes where its own ink is.
        spot = shape.locator("path").first.evaluate(
            """path => {
                const box = path.getBoundingClientRect()
                for (let x = 1; x < 20; x++) for (let y = 1; y < 20; y++) {
                    const [left, top] = [box.x + box.width * x / 20, box.y + box.height * y / 20]
                    if (document.elementFromPoint(left, top) === path) return [left, top]
                }
            }"""
        )
        page.mouse.click(*spot)
    expect(page.get_by_role("heading", name="Splenius")).to_be_visible()
    page.get_by_role("button", name="Right: Muscle tone, Tight").click()
    expect(page.get_by_role("button", name="Right: Muscle tone, Tight")).to_have_attribute("aria-pressed", "true")
    expect(page.get_by_role("link", name="Right splenius: tight", exact=True)).to_be_visible()
    assert [entry.body["value"] for entry in said(app, visit_id).entries] == ["tight"]
    assert complaints == []
