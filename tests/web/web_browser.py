"""What tests in a real browser share."""

import pytest
from browsing import CHROMIUM, SIZES

playwright = pytest.importorskip("playwright.sync_api")
in_browser = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="no chromium on the path"),
]
PHONE, LAPTOP = ({"width": width, "height": height} for width, height in (SIZES["phone"], SIZES["laptop"]))


def expect(locator: "playwright.Locator") -> "playwright.LocatorAssertions":
    """What the browser is waited for to show."""
    return playwright.expect(locator)
