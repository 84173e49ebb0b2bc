"""The practice and the client that the tests of the pages share."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import httpx
import pytest
from browsing import ARGUMENTS, CHROMIUM, served
from web_practice import client_of, practice

from haywisp.usecases import App

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture
def app(tmp_path: Path) -> Iterator[App]:
    with practice(tmp_path) as made:
        yield made


@pytest.fixture
def client(app: App) -> Iterator[httpx.Client]:
    with client_of(app) as made:
        yield made


@pytest.fixture(scope="module")
def browser() -> Iterator["Browser"]:
    from web_browser import playwright

    with playwright.sync_playwright() as engine:
        opened = engine.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        yield opened
        opened.close()


@pytest.fixture
def address(app: App) -> Iterator[str]:
    with served(app) as made:
        yield made


@pytest.fixture
def complaints() -> list[str]:
    """What the browser's console said: policy violations, script errors, failed loads."""
    return []


@pytest.fixture
def page(browser: "Browser", complaints: list[str]) -> Iterator["Page"]:
    from web_browser import LAPTOP

    with browser.new_context(viewport=LAPTOP, reduced_motion="reduce") as context:
        opened = context.new_page()
        opened.on("console", lambda message: complaints.append(message.text) if message.type == "error" else None)
        opened.on("pageerror", lambda error: complaints.append(str(error)))
        yield opened
