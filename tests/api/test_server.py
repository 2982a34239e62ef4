"""The installed command with real sockets on loopback."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import httpx
import pytest
from tepidarium_api.server import listening

from tests.processes import children

HEADERS = {"content-type": "application/json"}


COMMAND = (sys.executable, "-m", "tepidarium_api")


def environment(**settings: str) -> dict[str, str]:
    return os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)} | settings


@dataclass
class Server:
    port: int
    process: subprocess.Popen[bytes]
    host: str = "127.0.0.1"

    def url(self, path: str) -> str:
        return f"http://{self.host}:{self.port}{path}"

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


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@contextmanager
def running() -> Iterator[Server]:
    port = free_port()
    process = subprocess.Popen(
        [*COMMAND, "--port", str(port)],
        env=environment(TEPIDARIUM_BODY_TIMEOUT="0.5"),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    started = Server(port, process)
    try:
        assert started.ready(30)
        yield started
    finally:
        process.kill()
        process.wait(10)


@pytest.fixture(scope="module")
def server() -> Iterator[Server]:
    with running() as started:
        yield started


def test_only_this_machine_is_served(server: Server) -> None:
    assert httpx.get(server.url("/v1/calculations")).status_code == 200
    with socket.socket() as other:  # another address of the same machine is not listened on
        assert other.connect_ex(("127.0.0.2", server.port)) != 0


def test_no_piece_of_an_answer_waits_for_an_acknowledgement() -> None:
    """RFC 896 keeps a small piece until the one before it is acknowledged; RFC 1122, 4.2.3.2 delays that."""
    (listener,) = listening("127.0.0.1", free_port(), 1, write_timeout=1.0, share_port=False)
    with listener, socket.create_connection(listener.getsockname()):
        connection, _ = listener.accept()
        with connection:
            assert connection.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY)


def replies(heard: bytes) -> list[tuple[int, dict[str, str], bytes]]:
    """The responses one after the other: status, headers, body."""
    found = []
    while heard:
        head, _, rest = heard.partition(b"\r\n\r\n")
        status, *lines = head.decode().split("\r\n")
        headers = {name.lower(): value for name, _, value in (line.partition(": ") for line in lines)}
        size = int(headers.get("content-length", "0"))
        assert len(rest) >= size, "a body was cut off"
        found.append((int(status.split()[1]), headers, rest[:size]))
        heard = rest[size:]
    return found


def request(path: str, size: int, *headers: str, method: str = "POST", announced: int | None = None) -> bytes:
    lines = (f"{method} {path} HTTP/1.1", "Host: x", *headers, f"Content-Length: {announced or size}", "", "")
    return "\r\n".join(lines).encode() + b"x" * size


def chunked(path: str, size: int, *headers: str) -> bytes:
    lines = (f"POST {path} HTTP/1.1", "Host: x", *headers, "Transfer-Encoding: chunked", "", "")
    chunk = b"8000\r\n" + b"x" * 0x8000 + b"\r\n"
    return "\r\n".join(lines).encode() + chunk * (size // 0x8000) + b"0\r\n\r\n"


NEXT = b"GET /health/live HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n"
TYPE = "Content-Type: application/json"


@pytest.mark.parametrize("size", [300_000, 8_000_000])
@pytest.mark.parametrize(
    ("path", "headers", "status"),
    [
        ("/v1/designs", (TYPE,), 413),
        ("/v1/designs", ("Content-Type: text/plain",), 415),
        ("/v1/designs", (TYPE, "Content-Encoding: gzip", "Content-Encoding: identity"), 415),
        ("/v1/none", (TYPE,), 404),
        ("/v1/limits", (TYPE,), 405),
    ],
)
def test_who_sends_all_before_reading_gets_the_refusal_and_keeps_the_connection(
    server: Server, path: str, headers: tuple[str, ...], status: int, size: int
) -> None:
    for write in (request, chunked):
        heard = server.exchange(write(path, size, *headers) + NEXT, 10)
        (refusal, kept, document), (following, _, _) = replies(heard)
        assert (refusal, following) == (status, 200)
        assert "connection" not in kept
        assert kept["content-type"] == "application/problem+json"
        assert json.loads(document)["status"] == status


def test_a_body_beyond_all_measure_is_not_read(server: Server) -> None:
    """The client that has said so much and waits is answered at once, and the connection closed."""
    began = time.monotonic()
    heard = server.exchange(request("/v1/designs", 100_000, TYPE, announced=10**9), 10)
    ((status, headers, _),) = replies(heard)
    assert (status, headers["connection"]) == (413, "close")
    assert time.monotonic() - began < 1.0


def test_a_body_that_stops_is_waited_for_a_while_only(server: Server) -> None:
    for path, status in (("/v1/designs", 413), ("/v1/none", 404)):
        began = time.monotonic()
        heard = server.exchange(request(path, 100_000, TYPE, announced=400_000), 10)
        ((found, headers, _),) = replies(heard)
        assert (found, headers["connection"]) == (status, "close")
        assert time.monotonic() - began < 5.0


def test_a_client_that_asks_before_it_sends_is_answered_before(server: Server) -> None:
    """RFC 9110, 10.1.1: with a final status instead of 100 (Continue) the body is not sent."""
    heard = server.exchange(request("/v1/designs", 0, TYPE, "Expect: 100-continue", announced=400_000), 10)
    assert [status for status, _, _ in replies(heard)] == [413]


def test_the_server_as_a_whole_tells_its_methods(server: Server) -> None:
    asterisk = b"OPTIONS * HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n"
    ((status, headers, _),) = replies(server.exchange(asterisk, 3))
    assert (status, headers["allow"]) == (204, "GET, HEAD, OPTIONS")


def test_head_has_the_length_of_get_and_no_body(server: Server) -> None:
    for path in ("/v1/limits", "/docs", "/openapi.json", "/problems/overloaded", "/v1/none"):
        head = f"HEAD {path} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n".encode()
        heard = server.exchange(head, 3)
        assert heard.endswith(b"\r\n\r\n")
        got = httpx.get(server.url(path), headers={"accept-encoding": "identity"})
        assert f"content-length: {len(got.content)}\r\n".encode() in heard
        assert heard.count(b"content-type: ") == 1


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
    (worker,) = children(server.process.pid)
    os.kill(worker, signal.SIGKILL)
    time.sleep(0.2)
    assert server.ready(30)
    assert children(server.process.pid) != [worker]


def test_the_server_ends_when_told_to() -> None:
    with running() as own:
        own.process.send_signal(signal.SIGTERM)
        assert own.process.wait(12) == 0


def test_the_host_may_be_a_name() -> None:
    port = free_port()
    process = subprocess.Popen(
        [*COMMAND, "--host", "localhost", "--port", str(port)],
        env=environment(),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        assert Server(port, process, "localhost").ready(30)
    finally:
        process.terminate()
        process.wait(20)


def refused(*arguments: str, **settings: str) -> str:
    """The last line of what a server says that cannot start."""
    done = subprocess.run(
        [*COMMAND, *arguments],
        env=environment(**settings),
        capture_output=True,
        text=True,
        check=False,
        timeout=30,
    )
    assert done.returncode in {1, 2}
    assert "Traceback" not in done.stdout + done.stderr
    return done.stderr.splitlines()[-1]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--host", "nowhere.invalid"), "nowhere.invalid"),  # RFC 2606: a name that never is one
        (("--port", "0"), "65535"),
        (("--port", "99999"), "65535"),
        (("--port", "http"), "65535"),
        (("--workers", "0"), "whole number"),
        (("--host", "203.0.113.7"), "cannot listen on 203.0.113.7"),  # RFC 5737: an address of nobody
    ],
)
def test_where_nobody_can_listen_is_said_in_a_line(arguments: tuple[str, ...], said: str) -> None:
    assert said in refused(*arguments)


def test_a_port_in_use_is_said() -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        assert "in use" in refused("--port", str(other.getsockname()[1]))


def test_a_useless_setting_is_said_at_the_start() -> None:
    assert "TEPIDARIUM_DEADLINE" in refused(TEPIDARIUM_DEADLINE="soon")
