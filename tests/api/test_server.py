"""The installed command with real sockets on loopback."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import httpx
import pytest

HEADERS = {"content-type": "application/json"}


@dataclass
class Server:
    port: int
    process: subprocess.Popen[bytes]

    def url(self, path: str) -> str:
        return f"http://127.0.0.1:{self.port}{path}"

    def ready(self, seconds: float) -> bool:
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            try:
                if httpx.get(self.url("/health/ready")).status_code == 200:
                    return True
            except httpx.TransportError:
                pass
            time.sleep(0.02)
        return False

    def children(self) -> list[int]:
        listed = Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children").read_text().split()
        return [int(child) for child in listed]

    def exchange(self, sent: bytes, seconds: float) -> bytes:
        """Everything that the server says to ``sent`` until it closes or ``seconds`` have passed."""
        with socket.create_connection(("127.0.0.1", self.port)) as connection:
            connection.settimeout(seconds)
            connection.sendall(sent)
            heard = b""
            try:
                while piece := connection.recv(65536):
                    heard += piece
            except TimeoutError:
                pass
            return heard


@pytest.fixture(scope="module")
def server() -> Iterator[Server]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(sys.path), "TEPIDARIUM_BODY_TIMEOUT": "0.5"}
    command = [sys.executable, "-m", "tepidarium_api", "--port", str(port)]
    process = subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    started = Server(port, process)
    try:
        assert started.ready(30)
        yield started
    finally:
        process.kill()
        process.wait(10)


def test_only_this_machine_is_served(server: Server) -> None:
    assert httpx.get(server.url("/v1/calculations")).status_code == 200
    with socket.socket() as other:  # another address of the same machine is not listened on
        assert other.connect_ex(("127.0.0.2", server.port)) != 0


def test_slow_and_broken_bodies_get_their_problem(server: Server) -> None:
    head = b"POST /v1/curing-plan HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"
    assert b" 408 " in server.exchange(head + b"Content-Length: 50\r\n\r\n{", 3).partition(b"\r\n")[0]
    too_long = head + b"Content-Length: 9999999\r\n\r\n{"
    assert b" 413 " in server.exchange(too_long, 3).partition(b"\r\n")[0]
    broken = server.exchange(head + b"Transfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n0\r\n\r\n", 3)
    assert b" 400 " in broken.partition(b"\r\n")[0]


def test_other_protocols_are_not_spoken(server: Server) -> None:
    assert b"\x00\x00" not in server.exchange(
        b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n\x00\x00\x00\x04\x00\x00\x00\x00\x00", 1
    )
    upgrade = b"GET /v1/limits HTTP/1.1\r\nHost: x\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n"
    upgrade += b"Sec-WebSocket-Version: 13\r\n"
    assert b" 101 " not in server.exchange(
        upgrade + b"Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n", 1
    )


def test_large_headers_are_refused(server: Server) -> None:
    heard = server.exchange(
        b"GET /health/live HTTP/1.1\r\nHost: x\r\nX-Long: " + b"a" * 17_000 + b"\r\n\r\n", 2
    )
    assert b" 431 " in heard.partition(b"\r\n")[0]


def test_a_killed_server_process_is_replaced(server: Server) -> None:
    (worker,) = server.children()
    os.kill(worker, signal.SIGKILL)
    time.sleep(0.2)
    assert server.ready(30)
    assert server.children() != [worker]


def test_the_server_ends_when_told_to(server: Server) -> None:
    server.process.send_signal(signal.SIGTERM)
    assert server.process.wait(12) == 0


def test_a_useless_setting_is_said_at_the_start() -> None:
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(sys.path), "TEPIDARIUM_DEADLINE": "soon"}
    command = [sys.executable, "-m", "tepidarium_api", "--port", "1"]
    done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert "TEPIDARIUM_DEADLINE" in done.stderr
    assert "Traceback" not in done.stderr
