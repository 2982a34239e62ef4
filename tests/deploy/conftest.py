"""Debian's packages that the trials of the deployment run; `deploy/set-up.sh long` installs them."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
DEPLOY = TOP / "deploy"


def run(*command: str | Path, **options: object) -> str:
    """What a command prints; its errors are shown where it fails."""
    done = subprocess.run(
        [str(part) for part in command], check=False, capture_output=True, text=True, **options
    )  # type: ignore[call-overload]
    assert done.returncode == 0, done.stdout[-2000:] + done.stderr[-4000:]
    return str(done.stdout)


@pytest.fixture(scope="session")
def tool() -> object:
    def found(name: str) -> str:
        path = shutil.which(name, path="/usr/sbin:/usr/bin:/sbin:/bin:/usr/local/bin")
        if path is None:
            pytest.fail(f"{name} is not installed: sh deploy/set-up.sh long installs it")
        return path

    return found
