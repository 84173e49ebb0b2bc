"""In a real browser: nothing typed is lost, the focus goes where the work goes on, and the drawing stays."""

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from web_browser import LAPTOP, PHONE, expect, in_browser
from web_practice import SMALL, a_heard_visit, a_visit

from haywisp.usecases import App
from haywisp.usecases.asking import ask_page
from haywisp.usecases.said import accept, reject, said
from haywisp.usecases.views import EntryView

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

pytestmark = in_browser
FIRST = "Save or leave the opened form first."


def entry_called(app: App, visit_id: str, sentence: str) -> EntryView:
    return next(entry for entry in said(app, visit_id).entries if entry.sentence == sentence)


def opened(page: "Page", card: "Locator") -> "Locator":
    """The field of the opened form with something typed in it."""
    card.get_by_role("link", name="Correct").click()
    typed = card.get_by_label("Why")
    typed.fill("hardly any weight")
    return typed


@pytest.mark.parametrize("name", ["Accept all the rest (4)", "Accept", "Reject", "Correct"])
def test_what_would_take_the_place_of_an_opened_form_waits_for_it(
    app: App, address: str, page: "Page", name: str
) -> None:
    visit_id = a_heard_visit(app)
    page.goto(f"{address}/visits/{visit_id}/said")
    card = page.locator(".entry").first
    typed = opened(page, card)
    where = page.locator("#finish") if name.startswith("Accept all") else card.locator(".entry-actions")

    where.get_by_role("link" if name == "Correct" else "button", name=name).click()

    expect(page.get_by_text(FIRST)).to_be_visible()
    expect(typed).to_have_value("hardly any weight")
    assert page.evaluate("document.activeElement.closest('form').matches('[data-open-form]')")
    assert said(app, visit_id).counts.proposed == 5

    card.get_by_role("button", name="Save the correction").click()
    expect(card).to_contain_text("hardly any weight")
    expect(page.get_by_text(FIRST)).to_have_count(0)


def test_the_answer_about_an_entry_waits_for_its_opened_form_and_no_other(app: App, address: str, page: "Page") -> None:
    visit_id = a_heard_visit(app)
    asked = entry_called(app, visit_id, "Poll: tender")
    page.goto(f"{address}/visits/{visit_id}/said")
    card = page.locator(f"#entry-{asked.thread}")
    typed = opened(page, card)
    page.get_by_role("button", name="Left", exact=True).click()
    expect(page.get_by_text(FIRST)).to_be_visible()
    expect(typed).to_have_value("hardly any weight")
    card.get_by_role("link", name="Leave it").click()
    expect(page.get_by_text(FIRST)).to_have_count(0)

    typed = opened(page, page.locator(".entry").first)
    page.get_by_role("button", name="Left", exact=True).click()
    expect(page.get_by_text("1 of 5 looked at")).to_be_visible()
    expect(typed).to_have_value("hardly any weight")


def test_the_focus_goes_on_after_an_answer_and_after_accepting_all(app: App, address: str, page: "Page") -> None:
    page.goto(f"{address}/visits/{a_heard_visit(app)}/said")
    page.get_by_role("button", name="Left", exact=True).focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="The record")).to_be_focused()
    page.keyboard.press("j")
    expect(page.locator(".entry").first).to_be_focused()

    page.get_by_label("Only what is left to look at").check()
    page.locator("#accept-all").focus()
    page.keyboard.press("Enter")

    expect(page.get_by_role("heading", name="When you have looked through it")).to_be_focused()
    expect(page.get_by_label("Only what is left to look at")).to_be_checked()
    expect(page.locator(".entry:visible")).to_have_count(0)


def test_the_next_question_has_the_focus_while_there_is_one(app: App, address: str, page: "Page") -> None:
    (question,) = SMALL.questions
    also = replace(question, index=0, text="Which side of the splenius?")
    first = replace(question, index=0, text="Was it tight there at all?")
    asking = replace(SMALL, questions=(first, also, question))
    told = replace(app, listen=lambda data, name, tables, own: asking)
    page.goto(f"{address}/visits/{a_heard_visit(told)}/said")
    page.locator(".question").nth(1).get_by_role("button", name="Left").click()
    expect(page.locator(".question")).to_have_count(2)
    expect(page.locator(".question").nth(1).get_by_role("button", name="Left")).to_be_focused()


def test_only_what_is_left_hides_no_opened_form_and_no_entry_that_was_chosen(
    app: App, address: str, page: "Page"
) -> None:
    visit_id = a_heard_visit(app)
    done = entry_called(app, visit_id, "Left splenius: tight")
    accept(app, done.thread, 1)
    page.goto(f"{address}/visits/{visit_id}/said")
    card = page.locator(f"#entry-{done.thread}")
    typed = opened(page, card)
    page.get_by_label("Only what is left to look at").check()
    page.locator(".entry").first.locator(".entry-sentence").click()
    expect(typed).to_be_visible()

    card.get_by_role("link", name="Leave it").click()
    page.locator(".entry").first.locator(".entry-sentence").click()
    expect(card).to_be_hidden()
    page.locator(f'.transcript [data-entries~="{done.thread}"]').first.click()
    expect(card).to_be_focused()


def test_the_drawing_comes_back_with_the_first_entry_to_draw(
    app: App, address: str, page: "Page", complaints: list[str]
) -> None:
    visit_id = a_heard_visit(app)
    for entry in said(app, visit_id).entries:
        if entry.part in {"bout", "response"}:
            reject(app, entry.thread, 1)
    page.goto(f"{address}/visits/{visit_id}/said")
    expect(page.locator(".timeline-card")).to_be_hidden()
    page.locator(".entry").nth(1).get_by_role("button", name="Accept").click()
    expect(page.locator(".timeline-card")).to_be_hidden()

    page.locator(".entry").first.get_by_role("button", name="Accept after all").click()

    expect(page.locator("#session-figure svg:not(.swatch) .bar")).to_have_count(1)
    expect(page.locator(".timeline-card")).to_be_visible()
    assert complaints == []


def test_a_decision_leaves_the_drawing_where_it_was_scrolled_to(app: App, address: str, page: "Page") -> None:
    page.set_viewport_size(PHONE)
    page.goto(f"{address}/visits/{a_heard_visit(app)}/said")
    page.locator(".timeline-card summary").click()
    page.locator(".timeline-scroll").evaluate("drawing => { drawing.scrollLeft = 200; }")
    page.locator(".entry").first.get_by_role("button", name="Accept").click()
    expect(page.get_by_text("1 of 5 looked at")).to_be_visible()
    assert page.locator(".timeline-scroll").evaluate("drawing => drawing.scrollLeft") == 200


def test_on_a_phone_the_questions_that_only_limit_are_folded_unless_one_is_answered_yes(
    app: App, address: str, page: "Page"
) -> None:
    visit_id = a_visit(app)
    ask = ask_page(app, visit_id)
    first, limit = page.get_by_label(ask.vet_first[0].text), page.get_by_label(ask.limits[-1].text)
    fold = page.locator(".fold summary")

    page.set_viewport_size(LAPTOP)
    page.goto(f"{address}/visits/{visit_id}")
    expect(limit).to_be_visible()

    page.set_viewport_size(PHONE)
    page.reload()
    expect(first).to_be_visible()
    expect(limit).to_be_hidden()
    expect(fold.locator(".count")).to_contain_text(f"{len(ask.limits)} questions")
    fold.click()
    limit.check()
    page.get_by_role("button", name="Keep the answers").click()
    page.get_by_text("Asked first").click()
    expect(limit).to_be_checked()
    expect(limit).to_be_visible()


def test_the_file_of_a_visit_that_is_refused_stays_chosen(app: App, address: str, page: "Page") -> None:
    visit_id = a_heard_visit(app)
    page.goto(f"{address}/visits/{visit_id}")
    with page.expect_download() as saved:
        page.get_by_role("link", name="Save this visit as a file").click()
    assert saved.value.suggested_filename == "Bramble-2031-03-14.json"

    page.goto(f"{address}/horses")
    page.get_by_text("Take in a visit from a file").click()
    field = page.get_by_label("A file that was saved from the page of a visit")
    field.set_input_files(saved.value.path())
    page.get_by_role("button", name="Take it in").click()
    expect(page.locator("#taken-in")).to_contain_text("is kept already")
    assert field.evaluate("field => field.files.length") == 1
