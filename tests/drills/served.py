"""A served process for a drill, what belongs to it, and clients with addresses of their own."""

from __future__ import annotations

import atexit
import json
import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from functools import cache
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, NamedTuple

import httpx

from tests.processes import children, read

__all__ = ["EXAMPLES", "Figure", "Served", "answered", "free_port", "posted", "served", "until"]

EXAMPLES = Path(__file__).parents[2] / "examples"


class Figure(NamedTuple):
    """What a drill found, and what it must not exceed."""

    name: str
    value: float
    most: float
    unit: str = ""

    @property
    def kept(self) -> bool:
        return self.value <= self.most

    def line(self) -> str:
        return f"{self.name}: {self.value:.3g} {self.unit} (at most {self.most:g}){'' if self.kept else '  MISSED'}"


def until(condition: Any, seconds: float) -> float:
    """The time until the condition holds [s]."""
    began = time.monotonic()
    while not condition():
        assert time.monotonic() - began < seconds, "it never came"
        time.sleep(0.005)
    return time.monotonic() - began


@dataclass
class Served:
    port: int
    process: subprocess.Popen[bytes]

    def url(self, path: str) -> str:
        return f"http://127.0.0.1:{self.port}{path}"

    def ready(self) -> bool:
        with closing(HTTPConnection("127.0.0.1", self.port, timeout=5)) as connection:
            try:
                connection.request("GET", "/health/ready")
                return connection.getresponse().status == 200
            except (HTTPException, OSError):
                return False

    def family(self) -> list[int]:
        """All processes below the first one."""
        found, level = list[int](), [self.process.pid]
        while level:
            level = [child for parent in level for child in children(parent)]
            found += level
        return found

    def memory(self) -> float:
        """What the processes hold by themselves or share [MB], each share once."""
        total = 0
        for process in (self.process.pid, *self.family()):
            lines = read(process, "smaps_rollup").splitlines()
            total += sum(int(line.split()[1]) for line in lines if line.startswith("Pss:"))
        return total / 1024

    def processor_time(self) -> float:
        """What the processes have spent, those that have ended and were waited for included [s]."""
        ticks = 0
        for process in (self.process.pid, *self.family()):
            spent = read(process, "stat").rpartition(")")[2].split()
            ticks += sum(map(int, spent[11:15]))
        return ticks / os.sysconf("SC_CLK_TCK")

    def post(
        self,
        calculation: str,
        body: Any,
        address: str = "127.0.0.1",
        timeout: float = 60,
        headers: dict[str, str] | None = None,
    ) -> httpx.Response:
        # without TLS: to read the certificates of the system takes longer than many answers
        transport = httpx.HTTPTransport(local_address=address, verify=False)
        with httpx.Client(transport=transport, timeout=timeout) as client:
            return client.post(self.url(f"/v1/{calculation}"), json=body, headers=headers)

    def connection(
        self, request: bytes, address: str = "127.0.0.1", buffer: int | None = None
    ) -> socket.socket:
        """A connection on which the request has been sent."""
        connection = socket.socket()
        if buffer:
            connection.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, buffer)
        connection.bind((address, 0))
        connection.connect(("127.0.0.1", self.port))
        connection.sendall(request)
        return connection


def answered(response: httpx.Response) -> None:
    assert response.status_code == 200, response.text


def posted(calculation: str, body: Any) -> bytes:
    content = json.dumps(body).encode()
    head = f"POST /v1/{calculation} HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"
    return f"{head}Content-Length: {len(content)}\r\n\r\n".encode() + content


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@cache
def _environment() -> dict[str, str]:
    """Modules are compiled once, as in an installed service, whatever the environment of the drills says."""
    compiled = TemporaryDirectory(prefix="compiled-")
    atexit.register(compiled.cleanup)
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return kept | {"TEPIDARIUM_REQUEST_LOG": "false", "PYTHONPYCACHEPREFIX": compiled.name}


@contextmanager
def served(*arguments: str, **settings: str) -> Iterator[Served]:
    port = free_port()
    process = subprocess.Popen(
        [sys.executable, "-m", "tepidarium_api", "--port", str(port), *arguments],
        env=_environment() | settings,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    server = Served(port, process)
    try:
        until(lambda: server.ready() or process.poll() is not None, 120)
        assert process.poll() is None, "the service does not start"
        yield server
    finally:
        process.kill()
        process.wait(10)
