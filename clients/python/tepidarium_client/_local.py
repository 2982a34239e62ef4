"""A service of one's own for a while: starts the installed ``tepidarium-api`` on a free loopback port."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from ._client import Client
from ._errors import TransportError

__all__ = ["LocalServiceError", "local_service"]

COMMAND = "tepidarium-api"
LONGEST_START = 120.0
LONGEST_STOP = 15.0
"""[s]."""
LOG_TAIL = 2000
"""How much of the log of a failed start is told [characters]."""


class LocalServiceError(RuntimeError):
    """The service is not installed on this computer, or did not start; the message says which and why."""


@contextmanager
def local_service(*, longest_start: float = LONGEST_START) -> Iterator[str]:
    """Run the service while the block runs; gives its address, such as ``http://127.0.0.1:49321``.

    The service is a child process that listens on 127.0.0.1 only and ends with the block, or with this process where
    that is killed. Raises ``LocalServiceError``.
    """
    command, port = _installed_command(), _free_port()
    url = f"http://127.0.0.1:{port}"
    environment = {key: value for key, value in os.environ.items() if key != "TEPIDARIUM_URL"}
    with tempfile.TemporaryFile("w+b") as log:
        process = subprocess.Popen(
            [command, "--host", "127.0.0.1", "--port", str(port), "--end-with-input"],
            stdin=subprocess.PIPE,  # closed by the system when this process ends, however it ends
            stdout=log,
            stderr=subprocess.STDOUT,
            env=environment,
        )
        try:
            _wait_until_ready(process, url, log, longest_start)
            yield url
        finally:
            _stop(process)


def _installed_command() -> str:
    """The command beside this Python, as in a virtual environment that is not activated, or on the path."""
    beside = shutil.which(COMMAND, path=str(Path(sys.executable).parent))
    found = beside or shutil.which(COMMAND)
    if found is None:
        raise LocalServiceError(
            f"The command {COMMAND} is not installed here. Install the service with "
            "pip install 'tepidarium[api]', or name a running one with --url."
        )
    return found


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _wait_until_ready(
    process: subprocess.Popen[bytes], url: str, log: IO[bytes], longest_start: float
) -> None:
    deadline = time.monotonic() + longest_start
    with Client(url, timeout=2.0, retries=0) as client:
        while time.monotonic() < deadline:
            if process.poll() is not None:
                raise LocalServiceError(f"The service ended with code {process.returncode}:\n{_tail(log)}")
            try:
                if client.ready():
                    return
            except TransportError:
                pass
            time.sleep(0.05)
    raise LocalServiceError(f"The service was not ready within {longest_start:g} s:\n{_tail(log)}")


def _tail(log: IO[bytes]) -> str:
    size = log.seek(0, os.SEEK_END)
    log.seek(max(0, size - LOG_TAIL))
    return log.read().decode(errors="replace").strip()


def _stop(process: subprocess.Popen[bytes]) -> None:
    """Ask the process to end, insist after a while."""
    with process:
        process.terminate()
        try:
            process.wait(LONGEST_STOP)
        except subprocess.TimeoutExpired:
            process.kill()
