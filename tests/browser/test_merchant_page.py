"""The page for merchants in Chromium (Debian's package), driven by Playwright from Node.js."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path

import pytest
from tepidarium_api.settings import Settings
from tepidarium_client import local_service

from tests.browser.browsing import in_browser, served

TOP = Path(__file__).parents[2]
EXAMPLE = TOP / "examples" / "merchant-page"
LARGEST_SCRIPT = 15_000
"""[bytes]."""


def _pages(folder: Path, service: str) -> None:
    """The page in every language, with prices and without, that asks ``service``."""
    text = (EXAMPLE / "index.html").read_text().replace("http://127.0.0.1:8000", service)
    for lang in ("en-GB", "de-DE", "fr-FR"):
        own = text.replace("<floor-heating-estimate", f'<floor-heating-estimate lang="{lang}"')
        (folder / f"{lang}.html").write_text(own)
        (folder / f"{lang}-without-prices.html").write_text(own.replace(' prices="prices.json"', ""))


@pytest.fixture
def page(tmp_path: Path) -> Iterator[str]:
    """A copy of the example's folder, from an origin of its own."""
    shutil.copytree(EXAMPLE, tmp_path, dirs_exist_ok=True)
    with served(tmp_path) as address:
        yield address


def test_the_script_is_small() -> None:
    assert (EXAMPLE / "floor-heating-estimate.js").stat().st_size < LARGEST_SCRIPT


@pytest.mark.long
def test_the_page_in_a_browser(page: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    origins = "cors_origins" in {item.name for item in fields(Settings)}
    if origins:
        monkeypatch.setenv("TEPIDARIUM_CORS_ORIGINS", page)
    with local_service() as service:
        _pages(tmp_path, service)
        in_browser(
            "merchant-page.test.mjs",
            {"SERVICE": service, "PAGE": page, "CROSS_ORIGIN": "setting" if origins else "added"},
        )
