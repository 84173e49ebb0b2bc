"""In a real browser: what is recorded survives a browser that is killed, sound is played from any word."""

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from browsing import ARGUMENTS, CHROMIUM
from web_browser import PHONE, expect, in_browser, playwright
from web_practice import a_visit, hear_waiting, tone

from haywisp.usecases import App, recordings
from haywisp.usecases.listening import listen
from haywisp.usecases.said import said

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = in_browser
ID = "0123456789abcdef"
PATIENCE_S = 30.0


@pytest.fixture
def app(app: App) -> App:
    """The practice with the real understanding."""
    return replace(app, listen=listen)


@contextmanager
def recording_browser(folder: Path) -> Iterator["Page"]:
    """A browser of its own, with a microphone that plays a tone, and a store that outlives it."""
    (folder / "tone.wav").write_bytes(tone(60))
    microphone = [
        "--use-fake-ui-for-media-stream",
        "--use-fake-device-for-media-stream",
        f"--use-file-for-fake-audio-capture={folder / 'tone.wav'}",
        "--host-resolver-rules=MAP yard 127.0.0.1",
    ]
    with playwright.sync_playwright() as engine:
        context = engine.chromium.launch_persistent_context(
            folder / "profile", executable_path=CHROMIUM, args=[*ARGUMENTS, *microphone], viewport=PHONE
        )
        try:
            yield context.new_page()
        finally:
            with suppress(playwright.Error):
                context.close()


def wait_for(act: Callable[[], bool]) -> None:
    until = time.monotonic() + PATIENCE_S
    while not act():
        assert time.monotonic() < until
        time.sleep(0.05)


def seconds_shown(page: "Page") -> float:
    minutes, seconds = page.locator("[data-clock]").inner_text().split(":")
    return 60.0 * int(minutes) + int(seconds)


def test_a_browser_that_is_killed_loses_five_seconds_at_most(app: App, address: str, tmp_path: Path) -> None:
    av = pytest.importorskip("av")
    visit_id = a_visit(app)
    with recording_browser(tmp_path) as page:
        page.goto(f"{address.replace('127.0.0.1', 'yard')}/visits/{visit_id}/record")
        expect(page.locator("[data-told]")).to_contain_text("plain http from another device")

        page.goto(f"{address}/visits/{visit_id}/record")
        page.get_by_role("button", name="Record").click()
        expect(page.locator("[data-sent]")).to_have_text("Kept on this device and sent.", timeout=PATIENCE_S * 1000)
        # From here on there is no connection, and then the battery is flat.
        page.route("**/recordings/*/pieces/*", lambda route: route.abort())
        expect(page.locator("[data-sent]")).to_contain_text("No connection", timeout=PATIENCE_S * 1000)
        assert page.locator("[data-level]").evaluate("meter => meter.value") > 0.3
        wait_for(lambda: seconds_shown(page) >= 7)
        recorded_s = seconds_shown(page)
        with suppress(playwright.Error):
            page.context.new_cdp_session(page).send("Browser.crash")
    (known,) = recordings.rows(app, visit_id)
    assert known.state == "recording"
    arrived = known.arrived

    with recording_browser(tmp_path) as page:
        page.goto(f"{address}/visits/{visit_id}/record")
        expect(page.locator("[data-unsent]")).to_contain_text("was cut off")
        expect(page.locator("[data-unsent]")).to_contain_text("only here")
        page.get_by_role("button", name="Send it and hear it").click()
        expect(page.locator("#recordings")).to_contain_text("waits to be heard", timeout=PATIENCE_S * 1000)
        expect(page.locator("[data-unsent]")).to_be_hidden()
    sound = recordings.shelf_of(app).sound(known.id)
    assert sound is not None
    with av.open(str(sound)) as read:
        heard_s = sum(frame.samples / frame.sample_rate for frame in read.decode(audio=0))
    assert arrived >= 1
    assert heard_s >= recorded_s - 5


def test_a_recording_is_paused_gone_on_with_and_stopped(app: App, address: str, tmp_path: Path) -> None:
    visit_id = a_visit(app)
    with recording_browser(tmp_path) as page:
        page.goto(f"{address}/visits/{visit_id}/record")
        page.get_by_role("button", name="Record").click()
        page.get_by_role("button", name="Pause").click()
        expect(page.locator("[data-state]")).to_have_text("paused")
        page.get_by_role("button", name="Go on").click()
        wait_for(lambda: seconds_shown(page) >= 1)
        page.get_by_role("button", name="Stop and hear it").click()
        expect(page.locator("#recordings")).to_contain_text("waits to be heard", timeout=PATIENCE_S * 1000)
        expect(page.locator("[data-sent]")).to_contain_text("All of it has arrived")
        hear_waiting(app)
        # The list asks by itself.
        expect(page.locator("#recordings")).to_contain_text("Look through it", timeout=PATIENCE_S * 1000)


def test_where_the_microphone_is_not_allowed_it_says_what_to_do(app: App, address: str, page: "Page") -> None:
    page.goto(f"{address}/visits/{a_visit(app)}/record")
    page.get_by_role("button", name="Record").click()
    expect(page.locator("[data-told]")).to_contain_text("icrophone")
    expect(page.get_by_role("button", name="Record")).to_be_enabled()


def test_a_large_sound_file_goes_in_pieces(
    app: App, address: str, page: "Page", tmp_path: Path, complaints: list[str]
) -> None:
    visit_id = a_visit(app)
    file = tmp_path / "walk round the yard.m4a"
    file.write_bytes(bytes(range(256)) * 20_000)
    page.goto(f"{address}/visits/{visit_id}")
    page.get_by_label("What you spoke while you worked").set_input_files(file)
    page.get_by_role("button", name="Read it").click()
    expect(page.get_by_role("heading", name="walk round the yard.m4a")).to_be_visible()
    (known,) = recordings.rows(app, visit_id)
    sound = recordings.shelf_of(app).sound(known.id)
    assert sound is not None and sound.read_bytes() == file.read_bytes()
    assert complaints == []


def test_sound_is_played_from_any_word_and_passages_are_looked_after(
    app: App, address: str, page: "Page", complaints: list[str]
) -> None:
    visit_id = a_visit(app)
    recordings.begin(app, ID, visit_id, "wav")
    recordings.put(app, ID, 0, "m", tone(15))
    recordings.finish(app, ID, 1)
    hear_waiting(app)
    page.goto(f"{address}/visits/{visit_id}/said")
    word = page.locator("[data-at]", has_text="kneading")
    at = float(word.get_attribute("data-at") or 0)
    word.click()
    page.get_by_role("button", name="Listen from “kneading”").click()
    player = page.locator("[data-player]")
    wait_for(lambda: 0 <= float(player.evaluate("player => player.currentTime")) - (at - 0.5) < 3)
    expect(page.locator(".now")).to_have_count(1)
    page.keyboard.press("l")
    wait_for(lambda: bool(player.evaluate("player => player.paused")))

    # A passage stops by itself where it ends.
    passage = page.locator(".passage").first
    passage.get_by_role("button", name="Listen from").click()
    mark = page.locator(".again-mark").first
    start, end = (float(mark.get_attribute(name) or 0) for name in ("data-from", "data-until"))
    wait_for(lambda: start <= float(player.evaluate("player => player.paused ? player.currentTime : 0")) <= end + 2)

    passage.get_by_role("button", name="Listened, it is right").click()
    expect(page.locator(".passage-listened")).to_have_count(1)
    page.get_by_text("Write what was said").nth(1).click()
    page.get_by_label("What was said there").nth(1).fill("right poll tender")
    page.get_by_role("button", name="Keep the words").click()
    page.get_by_role("button", name="Understand it anew").click()
    expect(page.locator("p.entry-sentence", has_text="Right poll: tender")).to_be_visible()
    assert any(entry.sentence == "Right poll: tender" for entry in said(app, visit_id).entries)
    assert complaints == []
