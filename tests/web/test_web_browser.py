"""In a real browser: a dropped file, words and entries lighting each other, the review by keys, no violations."""

from pathlib import Path

import pytest
from browsing import served
from web_browser import LAPTOP, PHONE, expect, in_browser, playwright
from web_practice import a_heard_visit, a_visit, long_narration, practice

from haywisp.usecases import App
from haywisp.usecases.said import accept, said
from haywisp.usecases.visits import visit_page

pytestmark = in_browser
DROP = """([name, text]) => {
  const carried = new DataTransfer();
  carried.items.add(new File([text], name, {type: "text/vtt"}));
  const box = document.querySelector("[data-drop]");
  for (const kind of ["dragenter", "dragover", "drop"]) {
    box.dispatchEvent(new DragEvent(kind, {dataTransfer: carried, bubbles: true, cancelable: true}));
  }
}"""


def test_a_dropped_file_is_read(app: App, address: str, page: "playwright.Page", complaints: list[str]) -> None:
    visit_id = a_visit(app)
    page.goto(f"{address}/visits/{visit_id}")
    page.evaluate(DROP, ["dropped.vtt", "WEBVTT"])
    expect(page.get_by_role("heading", name="Read: 33 words")).to_be_visible()
    page.get_by_role("link", name="Look through it").click()
    expect(page.get_by_text("0 of 5 looked at")).to_be_visible()
    assert visit_page(app, visit_id).file_name == "dropped.vtt"
    assert complaints == []


def test_a_refused_file_stays_chosen_and_says_why(app: App, address: str, page: "playwright.Page") -> None:
    page.goto(f"{address}/visits/{a_visit(app)}")
    page.evaluate(DROP, ["broken.vtt", "nonsense"])
    expect(page.locator("#upload-message")).to_contain_text("broken.vtt, line 4: “nonsense” is no time.")
    assert page.get_by_label("What you spoke while you worked").evaluate("field => field.files[0].name") == "broken.vtt"
    expect(page.locator("[data-sending]")).to_be_hidden()


def test_a_file_that_is_too_large_is_not_even_sent(app: App, address: str, page: "playwright.Page") -> None:
    page.goto(f"{address}/visits/{a_visit(app)}")
    sent: list[str] = []
    page.on("request", lambda request: sent.append(request.method))
    page.get_by_label("What you spoke while you worked").set_input_files(
        {"name": "big.vtt", "mimeType": "text/vtt", "buffer": b"a" * (10 * 1024 * 1024 + 1)}
    )
    page.get_by_role("button", name="Read it").click()
    expect(page.locator("#upload-message")).to_contain_text("larger than 10 MB")
    assert "POST" not in sent


def test_no_connection_is_said_and_loses_nothing(app: App, address: str, page: "playwright.Page") -> None:
    page.goto(f"{address}/visits/{a_visit(app)}")
    page.get_by_text("Or paste the text").click()
    page.get_by_label("Transcript as text").fill("[0:05] Right, neck first")
    page.context.set_offline(True)
    page.get_by_role("button", name="Read it").click()
    expect(page.locator("#upload-message")).to_contain_text("did not arrive")
    expect(page.get_by_label("Transcript as text")).to_have_value("[0:05] Right, neck first")


def test_text_pasted_on_the_page_goes_to_the_form(app: App, address: str, page: "playwright.Page") -> None:
    page.goto(f"{address}/visits/{a_visit(app)}")
    page.evaluate("""() => {
      const carried = new DataTransfer();
      carried.setData("text/plain", "[0:05] Right, neck first");
      document.body.dispatchEvent(new ClipboardEvent("paste", {clipboardData: carried, bubbles: true}));
    }""")
    expect(page.get_by_label("Transcript as text")).to_be_focused()
    expect(page.get_by_label("Transcript as text")).to_have_value("[0:05] Right, neck first")


def test_words_and_entries_light_each_other(
    app: App, address: str, page: "playwright.Page", complaints: list[str]
) -> None:
    visit_id = a_heard_visit(app)
    finding = next(entry for entry in said(app, visit_id).entries if entry.sentence == "Left splenius: tight")
    page.goto(f"{address}/visits/{visit_id}/said")
    card = page.locator(f"#entry-{finding.thread}")

    card.get_by_text("Left splenius: tight").click()
    expect(page.locator(".transcript .lit")).to_have_text(["the splenius is tight", "there"])

    page.get_by_role("link", name="she licks and chews now", exact=False).first.click()
    expect(page.locator(".entry.lit")).to_contain_text("Licked and chewed")
    expect(page.locator(".entry.lit")).to_be_focused()
    expect(card).not_to_have_class("lit")
    assert complaints == []


def test_the_words_are_scrolled_to_in_a_long_session(
    app: App, tmp_path: Path, browser: "playwright.Browser", page: "playwright.Page"
) -> None:
    (tmp_path / "long").mkdir()
    with practice(tmp_path / "long", long_narration(40)) as long_app, served(long_app) as address:
        visit_id = a_heard_visit(long_app)
        last = said(long_app, visit_id).entries[-1]
        page.goto(f"{address}/visits/{visit_id}/said")
        words = page.locator(f'.transcript [data-entries~="{last.thread}"]').first
        expect(words).not_to_be_in_viewport()
        page.locator(f"#entry-{last.thread} [data-to-words]").click()
        expect(words).to_be_in_viewport()
        expect(words).to_be_focused()


def test_on_a_phone_the_switch_shows_one_and_then_the_other(app: App, address: str, page: "playwright.Page") -> None:
    page.set_viewport_size(PHONE)
    visit_id = a_heard_visit(app)
    page.goto(f"{address}/visits/{visit_id}/said")
    expect(page.locator("#transcript")).to_be_hidden()

    page.locator("[data-to-words]").nth(1).click()
    expect(page.locator("#transcript")).to_be_visible()
    expect(page.locator("#review")).to_be_hidden()

    page.locator(".transcript .heard").first.click()
    expect(page.locator("#review")).to_be_visible()
    expect(page.locator(".entry.lit")).to_contain_text("Effleurage along the left neck")
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


def test_the_whole_review_by_keys(app: App, address: str, page: "playwright.Page", complaints: list[str]) -> None:
    visit_id = a_heard_visit(app)
    page.goto(f"{address}/visits/{visit_id}/said")
    keys = page.keyboard

    keys.press("q")
    expect(page.get_by_role("button", name="Left", exact=True)).to_be_focused()
    keys.press("Enter")
    expect(page.get_by_text("1 of 5 looked at")).to_be_visible()

    keys.press("j")
    expect(page.locator(".entry:focus")).to_contain_text("Effleurage along the left neck")
    keys.press("a")
    expect(page.get_by_text("2 of 5 looked at")).to_be_visible()
    expect(page.locator(".entry:focus")).to_contain_text("Left splenius: tight")

    keys.press("c")
    expect(page.get_by_label("Muscle or region")).to_be_focused()
    page.get_by_role("radio", name="Right").focus()
    keys.press("Space")
    keys.press("Enter")
    expect(page.locator(".entry:focus")).to_contain_text("Right splenius: tight")
    expect(page.get_by_text("3 of 5 looked at")).to_be_visible()

    keys.press("ArrowDown")
    expect(page.locator(".entry:focus")).to_contain_text("Licked and chewed")
    keys.press("r")
    expect(page.get_by_text("4 of 5 looked at")).to_be_visible()
    keys.press("a")
    expect(page.get_by_text("5 of 5 looked at")).to_be_visible()

    page.locator("#finish-button").focus()
    keys.press("Enter")
    expect(page.get_by_text("all looked at")).to_be_visible()
    statuses = [entry.status for entry in said(app, visit_id).entries]
    assert statuses == ["accepted", "corrected", "corrected", "accepted"]
    assert said(app, visit_id).visit.status == "reviewed"
    assert complaints == []


def test_question_mark_shows_the_keys_and_escape_leaves_a_form(app: App, address: str, page: "playwright.Page") -> None:
    page.goto(f"{address}/visits/{a_heard_visit(app)}/said")
    page.keyboard.press("?")
    expect(page.get_by_role("dialog", name="Keys")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog", name="Keys")).to_be_hidden()

    page.keyboard.press("j")
    page.keyboard.press("c")
    expect(page.get_by_role("button", name="Save the correction")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("button", name="Save the correction")).to_have_count(0)
    expect(page.locator(".entry").first).to_be_focused()


def test_only_what_is_left_goes_down_as_it_is_decided(app: App, address: str, page: "playwright.Page") -> None:
    page.goto(f"{address}/visits/{a_heard_visit(app)}/said")
    page.get_by_label("Only what is left to look at").check()
    page.keyboard.press("j")
    for left in (4, 3):
        page.keyboard.press("a")
        expect(page.locator(".entry:visible")).to_have_count(left)
        expect(page.locator(".entry:focus")).to_have_attribute("data-status", "proposed")


def test_letters_typed_in_a_field_decide_nothing(app: App, address: str, page: "playwright.Page") -> None:
    visit_id = a_heard_visit(app)
    page.goto(f"{address}/visits/{visit_id}/said")
    page.keyboard.press("j")
    page.keyboard.press("c")
    page.get_by_label("Why").press_sequentially("arj?")
    expect(page.get_by_label("Why")).to_have_value("arj?")
    assert said(app, visit_id).counts.proposed == 5


def test_undo_by_the_button(app: App, address: str, page: "playwright.Page") -> None:
    visit_id = a_heard_visit(app)
    page.goto(f"{address}/visits/{visit_id}/said")
    card = page.locator(".entry").first
    card.get_by_role("button", name="Accept").click()
    card.get_by_role("link", name="Undo").click()
    card.get_by_role("button", name="Go back to version 1").click()
    expect(page.get_by_text("0 of 5 looked at")).to_be_visible()
    expect(card.get_by_role("button", name="Accept")).to_be_visible()


def test_a_second_window_shows_the_newer_version(app: App, address: str, page: "playwright.Page") -> None:
    visit_id = a_heard_visit(app)
    page.goto(f"{address}/visits/{visit_id}/said")
    accept(app, said(app, visit_id).entries[0].thread, 1)
    card = page.locator(".entry").first
    card.get_by_role("button", name="Reject").click()
    expect(card.get_by_role("alert")).to_contain_text("changed in another window")
    expect(card).to_contain_text("accepted")


def test_what_changed_is_said_aloud(app: App, address: str, page: "playwright.Page") -> None:
    page.goto(f"{address}/visits/{a_heard_visit(app)}/said")
    page.locator(".entry").first.get_by_role("button", name="Accept").click()
    expect(page.locator("#live[aria-live=polite]")).to_have_text(
        "Effleurage along the left neck, 5 passes, light: accepted."
    )


def test_the_first_tab_stop_skips_to_the_page(address: str, page: "playwright.Page") -> None:
    page.goto(address)
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Skip to the page")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()


def test_without_scripts_the_review_works_too(app: App, address: str, browser: "playwright.Browser") -> None:
    visit_id = a_heard_visit(app)
    with browser.new_context(java_script_enabled=False, viewport=PHONE) as context:
        page = context.new_page()
        page.goto(f"{address}/visits/{visit_id}/said")
        page.get_by_role("button", name="Left", exact=True).click()
        page.locator(".entry").first.get_by_role("button", name="Accept").click()
        expect(page.get_by_text("2 of 5 looked at")).to_be_visible()
        expect(page.locator("#transcript")).to_be_visible()
        page.locator(".entry").nth(1).get_by_role("link", name="Correct").click()
        page.get_by_role("radio", name="Right").check()
        page.get_by_role("button", name="Save the correction").click()
        expect(page.locator(".entry").nth(1)).to_contain_text("Right splenius: tight")


def test_on_paper_there_is_all_of_the_text_and_nothing_to_press(
    app: App, address: str, page: "playwright.Page"
) -> None:
    page.set_viewport_size(PHONE)
    page.goto(f"{address}/visits/{a_heard_visit(app)}/said")
    page.emulate_media(media="print")
    expect(page.locator("#transcript")).to_be_visible()
    expect(page.locator("#review")).to_be_visible()
    expect(page.locator(".button:visible, nav:visible")).to_have_count(0)


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_no_page_complains_overflows_or_has_small_targets(
    app: App, address: str, page: "playwright.Page", complaints: list[str], size: dict[str, int]
) -> None:
    page.set_viewport_size(size)
    name = "Wellington’s Marvellous Midnight Serenade of the Upper Glen " + "x" * 60
    visit_id = a_heard_visit(app, name)
    horse_id, thread = visit_page(app, visit_id).horse.id, said(app, visit_id).entries[0].thread
    visit = f"/visits/{visit_id}"
    for path in (
        "/",
        "/horses",
        "/horses/new",
        f"/horses/{horse_id}",
        "/people",
        visit,
        f"{visit}/said",
        f"{visit}/said/add",
        f"{visit}/said/{thread}",
        f"{visit}/feel?structure=splenius",
        f"{visit}/plan",
        f"{visit}/report",
    ):
        page.goto(address + path)
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"), path
        small = page.locator("button, select, summary, .button, nav a").evaluate_all(
            "all => all.filter(one => one.offsetHeight && one.offsetHeight < 44).map(one => one.outerHTML)"
        )
        assert small == [], path
    assert complaints == []
