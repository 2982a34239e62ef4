"""The service of one's own: it is there while the block runs, and gone afterwards."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from tepidarium_client import Client, LocalServiceError, TransportError, _local, local_service

from tests.processes import children, runs


@pytest.fixture
def installed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Puts a made-up command in the place of the service."""

    def install(script: str) -> None:
        command = tmp_path / "bin" / "tepidarium-api"
        command.parent.mkdir()
        command.write_text(f"#!{sys.executable}\n{script}\n")
        command.chmod(command.stat().st_mode | stat.S_IXUSR)
        monkeypatch.setattr(_local, "_installed_command", lambda: str(command))

    return install


def test_it_runs_and_ends_even_when_the_block_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TEPIDARIUM_URL", "http://elsewhere.example")
    addresses = []

    def use() -> None:
        with local_service() as url, Client(url) as client:
            addresses.append(url)
            assert client.ready() is True
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        use()
    assert addresses[0].startswith("http://127.0.0.1:")
    with Client(addresses[0], retries=0) as client, pytest.raises(TransportError):
        client.ready()


def test_a_service_that_is_not_installed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setattr(sys, "executable", str(tmp_path / "python"))
    with pytest.raises(LocalServiceError, match="not installed"), local_service():
        pass


def test_a_service_that_ends_at_once_tells_why(installed: Callable[[str], None]) -> None:
    installed("import sys; print('no room for a second service'); sys.exit(7)")
    with pytest.raises(LocalServiceError, match=r"(?s)code 7.*no room for a second service"), local_service():
        pass


def test_a_service_that_is_never_ready_is_ended(installed: Callable[[str], None], tmp_path: Path) -> None:
    installed(
        f"import os, pathlib, time; pathlib.Path({str(tmp_path / 'id')!r}).write_text(str(os.getpid())); "
        "time.sleep(60)"
    )
    start = time.monotonic()
    with pytest.raises(LocalServiceError, match="not ready within 1 s"), local_service(longest_start=1.0):
        pass
    assert time.monotonic() - start < 10.0
    with pytest.raises(ProcessLookupError):
        os.kill(int((tmp_path / "id").read_text()), 0)


def test_it_ends_with_a_script_that_is_killed() -> None:
    script = (
        "import time; from tepidarium_client import local_service\n"
        "with local_service() as url:\n    print(url, flush=True); time.sleep(600)"
    )
    with subprocess.Popen([sys.executable, "-c", script], stdout=subprocess.PIPE, text=True) as killed:
        assert killed.stdout is not None
        url = killed.stdout.readline().strip()
        (service,) = children(killed.pid)
        with Client(url, retries=0) as client:
            assert client.ready() is True
        killed.kill()
    deadline = time.monotonic() + 30.0
    while runs(service) and time.monotonic() < deadline:
        time.sleep(0.05)
    assert not runs(service)
    with Client(url, retries=0) as client, pytest.raises(TransportError):
        client.ready()
