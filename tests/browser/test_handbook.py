"""The pages of the handbook in Chromium: desktop and phone, light and dark, and on paper."""

from __future__ import annotations

import pytest
from tepidarium_api.handbook.pages import PAGES

from tests.browser.browsing import in_browser, served


@pytest.mark.long
def test_the_handbook_in_a_browser() -> None:
    with served(PAGES) as address:
        in_browser("handbook.test.mjs", {"HANDBOOK": address, "PAGES": str(PAGES)})
