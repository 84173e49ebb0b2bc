"""Pictures of every page, phone and laptop, from the invented practice: ``python3 dev.py tour [--out DIR] [--whole]``.

Needs a Chromium on the path. The day, the ids and the sizes are fixed, so a picture changes only when its page does.
"""

import argparse
import sys
import tempfile
from base64 import b64decode
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from browsing import ARGUMENTS, CHROMIUM, SIZES, served
from palette_png import smaller

from haywisp import bootstrap
from haywisp.usecases import App
from haywisp.usecases.demo import seed_demo
from haywisp.usecases.horses import horse_page, list_horses
from haywisp.usecases.rereading import reread_page, words_changed
from haywisp.usecases.said import said
from haywisp.usecases.today import today
from haywisp.usecases.views import HorsePage
from haywisp.usecases.visits import visit_page

if TYPE_CHECKING:
    from playwright.sync_api import Page

PICTURES = Path(__file__).resolve().parents[1] / "docs" / "pictures"
NOW = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)
LEFT_OUT = {("said-keys", "phone"), ("said-session", "laptop")}  # no keys; open as it is
Act = Callable[["Page"], None]


def nothing(page: "Page") -> None:
    """The page as it opens."""


def choose_entry(page: "Page") -> None:
    """An entry chosen, with its words lit."""
    page.keyboard.press("j")
    page.keyboard.press("j")
    page.wait_for_timeout(100)


def show_session(page: "Page") -> None:
    """The drawing of the session, which a phone shows when it is asked for."""
    page.locator(".timeline-card summary").click()
    page.locator(".timeline-card").evaluate("card => card.scrollIntoView()")


def correct_entry(page: "Page") -> None:
    """An entry's form open in its place."""
    page.keyboard.press("j")
    page.keyboard.press("c")
    page.get_by_role("button", name="Save the correction").wait_for()
    page.locator(".entry.current").evaluate("entry => entry.scrollIntoView({block: 'center'})")


def show_words(page: "Page") -> None:
    """The words of an entry; on a phone the transcript takes the record's place."""
    page.locator("[data-entry] [data-to-words]").nth(2).click()
    page.wait_for_timeout(100)


def show_questions(page: "Page") -> None:
    """Today's questions."""
    page.locator("#before").evaluate("box => box.scrollIntoView()")


def show_tape(page: "Page") -> None:
    """A weight by the tape."""
    page.locator("#tape").evaluate("box => box.scrollIntoView({block: 'center'})")


def show_vital_signs(page: "Page") -> None:
    """Vital signs and scales written down."""
    page.locator("#readings").evaluate("box => { box.open = true; box.scrollIntoView() }")


def show_keys(page: "Page") -> None:
    """The list of keys."""
    page.keyboard.press("?")


def offer_words(page: "Page") -> None:
    """An entry corrected, and the words that were meant offered to be kept."""
    page.locator(".part-bout [data-key=c]").nth(2).click()
    form = page.locator("form.correct")
    form.wait_for()
    where = form.locator("select[name=structures]").first
    where.select_option("longissimus-dorsi" if where.input_value() == "iliocostalis" else "iliocostalis")
    page.get_by_role("button", name="Save the correction").click()
    page.locator(".own-offer").wait_for()
    page.locator(".entry.current").evaluate("entry => entry.scrollIntoView({block: 'center'})")


def pick_words(page: "Page") -> None:
    """Words of the transcript chosen to be taught."""
    if page.locator("[data-switch=words]").is_visible():
        page.locator("[data-switch=words]").click()
    page.locator("[data-own-pick]").click()
    page.locator("[data-word]").nth(14).click()
    page.locator("[data-word]").nth(16).click()


def much_to_tell(page: HorsePage) -> tuple[bool, bool, int]:
    """Ranks horses for the picture of a horse's page: all looked at, patterns and limits to show, many visits."""
    return page.visits[0].status == "reviewed", bool(page.patterns and page.verdict.reasons), len(page.visits)


def stops(app: App, show: str) -> Mapping[str, tuple[str, Act]]:
    """Every page by the name of its picture; ``show`` is a visit that waits for review."""
    seen = visit_page(app, show)
    told = max((horse_page(app, row.id) for row in list_horses(app)), key=much_to_tell)
    reviewed = told.visits[0]
    planned = next((row for row in today(app).visits if row.status == "planned"), seen.row)
    visits = [row.id for horse in list_horses(app) for row in horse_page(app, horse.id).visits]
    retold = max(visits, key=lambda one: (len(reread_page(app, one).changes) if words_changed(app, one) else -1, one))
    visit, done, thread = f"/visits/{show}", f"/visits/{reviewed.id}", said(app, show).entries[0].thread
    return {
        "today": ("/", nothing),
        "horses": ("/horses", nothing),
        "horse-new": ("/horses/new", nothing),
        "horse": (f"/horses/{reviewed.horse.id}", nothing),
        "owners": ("/people", nothing),
        "visit": (done, nothing),
        "visit-planned": (f"/visits/{planned.id}", nothing),
        "visit-asked": (f"/visits/{planned.id}", show_questions),
        "visit-vital-signs": (f"/visits/{planned.id}", show_vital_signs),
        "visit-tape": (f"/visits/{planned.id}/tape?girth=184&length=162", show_tape),
        "feel": (f"{visit}/feel?view=right&structure=splenius", nothing),
        "record": (f"{visit}/record", nothing),
        "said": (f"{visit}/said", nothing),
        "said-session": (f"{visit}/said", show_session),
        "said-chosen": (f"{visit}/said", choose_entry),
        "said-words": (f"{visit}/said", show_words),
        "said-correct": (f"{visit}/said", correct_entry),
        "said-keys": (f"{visit}/said", show_keys),
        "said-picked": (f"{visit}/said", pick_words),
        "said-offer": (f"{visit}/said", offer_words),
        "words": ("/words", nothing),
        "words-new": (f"/words/new?visit={show}&phrase=the%20big%20fella", nothing),
        "said-again": (f"/visits/{retold}/read-again", nothing),
        "entry": (f"{visit}/said/{thread}", nothing),
        "add": (f"{visit}/said/add?part=finding", nothing),
        "plan": (f"{done}/plan", nothing),
        "report": (f"{done}/report", nothing),
        "failure": ("/visits/none", nothing),
    }


def picture_of(page: "Page", *, whole: bool) -> bytes:
    """What the screen shows, encoded for speed since it is encoded again anyway."""
    if whole:
        height = page.evaluate("document.documentElement.scrollHeight")
        page.set_viewport_size({"width": page.viewport_size["width"], "height": height})
    session = page.context.new_cdp_session(page)
    shot = session.send("Page.captureScreenshot", {"format": "png", "optimizeForSpeed": True})
    return b64decode(shot["data"])


def tour(out: Path, chromium: str, *, whole: bool, dark: bool) -> int:
    """Take every picture; gives how many."""
    from playwright.sync_api import sync_playwright

    out.mkdir(parents=True, exist_ok=True)
    numbers = count(1)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as engine:
        url = bootstrap.sqlite_url(Path(folder) / "tour.db")
        app = bootstrap.build(url, clock=lambda: NOW, new_id=lambda: f"t{next(numbers):06d}")
        seed = seed_demo(app, NOW.date())
        browser = engine.chromium.launch(executable_path=chromium, args=ARGUMENTS)
        taken = 0
        with served(app) as address:
            for size, (width, height) in SIZES.items():
                for name, (path, act) in stops(app, seed.show).items():
                    if (name, size) in LEFT_OUT:
                        continue
                    page = browser.new_page(
                        viewport={"width": width, "height": height},
                        is_mobile=size == "phone",
                        has_touch=size == "phone",
                        color_scheme="dark" if dark else "light",
                        reduced_motion="reduce",
                        locale="en-GB",
                    )
                    page.goto(address + path)
                    act(page)
                    (out / f"{name}-{size}.png").write_bytes(smaller(picture_of(page, whole=whole)))
                    page.close()
                    taken += 1
        browser.close()
        app.close()
    return taken


def main() -> None:
    """Read the options and go."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, default=PICTURES, help="folder for the pictures")
    parser.add_argument("--whole", action="store_true", help="whole pages and not only what fits the screen")
    parser.add_argument("--dark", action="store_true", help="the dark colours")
    options = parser.parse_args()
    if CHROMIUM is None:
        sys.exit("The tour needs Chromium to take its pictures. Install it, and see that “chromium” is on the path.")
    taken = tour(options.out, CHROMIUM, whole=options.whole, dark=options.dark)
    print(f"{taken} pictures in {options.out}")


if __name__ == "__main__":
    main()
