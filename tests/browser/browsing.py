"""Folders served for a browser, and tests of Node.js that drive Chromium (Debian's package) with Playwright."""

from __future__ import annotations

import os
import shutil
import subprocess
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

__all__ = ["in_browser", "served"]


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *values: object) -> None:
        pass


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address at which the folder is served, from an origin of its own."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder)))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


def in_browser(tests: str, settings: Mapping[str, str]) -> None:
    """Run a file of tests that lies beside this one; ``settings`` are added to its environment."""
    chromium = shutil.which("chromium")
    if chromium is None:
        pytest.fail("chromium is not installed: sh deploy/set-up.sh long installs it")
    done = subprocess.run(
        ["node", "--test", tests],
        cwd=Path(__file__).parent,
        env={**os.environ, "CHROMIUM": chromium, **settings},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
