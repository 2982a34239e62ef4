"""The page for merchants in Chromium (Debian's package), driven by Playwright from Node.js."""

from __future__ import annotations

import os
import shutil
import subprocess
import threading
from collections.abc import Iterator
from dataclasses import fields
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from tepidarium_api.settings import Settings
from tepidarium_client import local_service

TOP = Path(__file__).parents[2]
HERE = Path(__file__).parent
EXAMPLE = TOP / "examples" / "merchant-page"
LARGEST_SCRIPT = 15_000
"""[bytes]."""


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *values: object) -> None:
        pass


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
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(tmp_path)))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://127.0.0.1:{server.server_address[1]}"
    server.shutdown()
    thread.join()
    server.server_close()


def test_the_script_is_small() -> None:
    assert (EXAMPLE / "floor-heating-estimate.js").stat().st_size < LARGEST_SCRIPT


@pytest.mark.long
def test_the_page_in_a_browser(page: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    chromium = shutil.which("chromium")
    if chromium is None:
        pytest.fail("chromium is not installed: sh deploy/set-up.sh long installs it")
    origins = "cors_origins" in {item.name for item in fields(Settings)}
    if origins:
        monkeypatch.setenv("TEPIDARIUM_CORS_ORIGINS", page)
    with local_service() as service:
        _pages(tmp_path, service)
        environment = {
            **os.environ,
            "SERVICE": service,
            "PAGE": page,
            "CHROMIUM": chromium,
            "CROSS_ORIGIN": "setting" if origins else "added",
        }
        done = subprocess.run(
            ["node", "--test", "merchant-page.test.mjs"],
            cwd=HERE,
            env=environment,
            capture_output=True,
            text=True,
            check=False,
        )
    assert done.returncode == 0, done.stdout + done.stderr
