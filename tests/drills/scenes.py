"""What happens to a service in production. Each scene yields figures with their bounds."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx

from tests.drills.large_requests import LARGE, body
from tests.drills.served import EXAMPLES, Figure, Served, posted, served, until
from tests.processes import runs

__all__ = ["LONG", "QUICK"]

HOUSE = json.loads((EXAMPLES / "house.json").read_text())
SMALL = json.loads((EXAMPLES / "loop-length.json").read_text())


def light_load() -> Iterator[Figure]:
    """16 clients send the largest light requests that stay in the event loop, or just not; the probe goes on."""
    sizes = {"heat-loss": 15, "supply-temperature": 200, "hydraulics": 60, "commissioning": 60}
    bodies = [(name, body(name, sizes.get(name, 256))) for name in LARGE]
    bodies += [("commissioning", {"circuits": [1] * 8000}), ("hydraulics", {"circuits": [{}] * 5000})]
    with served() as server:
        delays = _probed(server, lambda end: _load(server, bodies, 16, end), 4.0)
    yield Figure(
        "probe beside the largest light requests, 99 of 100",
        1000 * delays[-max(1, len(delays) // 100)],
        50,
        "ms",
    )


def left_alone() -> Iterator[Figure]:
    """Clients leave 16 heavy requests; the next one must not wait for them."""
    with served() as server:
        alone = _seconds(lambda: server.post("loop-length", SMALL))
        left = [server.connection(posted("designs", HOUSE), f"127.0.0.{2 + n % 4}") for n in range(16)]
        time.sleep(0.3)
        for connection in left:
            connection.close()
        after = _seconds(lambda: _answered(server.post("loop-length", SMALL)))
        stopped = until(lambda: len(server.family()) <= 2, 30)
    yield Figure(
        "answer after 16 abandoned requests, beyond the time it takes alone", after - alone, 0.5, "s"
    )
    yield Figure("their processes run on", stopped, 0.5, "s")


def unread() -> Iterator[Figure]:
    """600 connections ask for the document and never read."""
    ask = b"GET /openapi.json HTTP/1.1\r\nHost: x\r\n\r\n"
    with served(TEPIDARIUM_WRITE_TIMEOUT="3") as server, httpx.Client() as client:
        client.get(server.url("/openapi.json"))
        server.post("loop-length", SMALL)  # everything is loaded
        before = server.memory()
        kept = [server.connection(ask, f"127.0.0.{2 + n % 6}", 4096) for n in range(600)]
        time.sleep(1.5)
        most = server.memory() - before
        delay = _seconds(lambda: client.get(server.url("/health/live")))
        worker = server.family()[0]
        closed = until(lambda: len(os.listdir(f"/proc/{worker}/fd")) < 60, 20)
        time.sleep(1.0)
        rest = server.memory() - before
        for connection in kept:
            connection.close()
    yield Figure("memory that 600 clients take who do not read", most, 250, "MB")
    yield Figure("memory when they are gone, over the memory before", rest / before, 0.1)
    yield Figure("time until their connections are closed", closed, 8, "s")
    yield Figure("probe meanwhile", 1000 * delay, 100, "ms")


def killed(times: int = 2) -> Iterator[Figure]:
    """The first process is killed while it computes; then a server process."""
    left = 0
    for _ in range(times):
        with served() as server:
            # one client has half of the places
            busy = [server.connection(posted("designs", HOUSE), f"127.0.0.{2 + n}") for n in range(2)]
            until(lambda server=server: len(server.family()) > 3, 60)  # type: ignore[misc]
            family = server.family()
            os.kill(server.process.pid, signal.SIGKILL)
            server.process.wait()
            time.sleep(0.5)
            left += sum(map(runs, family))
            for connection in busy:
                connection.close()
    yield Figure(f"processes left after {times} kills of the first", left, 0)
    with served() as server:
        os.kill(server.family()[0], signal.SIGKILL)
        began = time.monotonic()
        until(server.ready, 30)
        yield Figure("ready again after a kill of the server process", time.monotonic() - began, 2, "s")
        yield Figure(
            "the first heavy answer after it", _seconds(lambda: server.post("loop-length", SMALL)), 2, "s"
        )
        command = (sys.executable, "-m", "tepidarium_api", "--port", str(server.port))
        second = subprocess.run(command, capture_output=True, text=True, timeout=30, check=False)
        said = second.returncode == 1 and "--share-port" in second.stderr
        yield Figure("second starts on a taken port that are not refused", not said, 0)


def renewed() -> Iterator[Figure]:
    """The server process is renewed three times under load of new connections.

    None is refused. One that the old process has just accepted is closed when its request comes too late: clients ask
    once more, which calculations allow.
    """
    with served() as server:
        kinds = Counter[str]()
        end = threading.Event()

        def ask() -> None:
            while not end.is_set():
                kinds["asked"] += 1
                try:
                    server.post("heat-output", LIGHT, timeout=10).raise_for_status()
                except httpx.ConnectError:
                    kinds["refused"] += 1
                except httpx.HTTPError:
                    kinds["cut"] += 1
                    kinds["lost"] += server.post("heat-output", LIGHT, timeout=10).status_code != 200

        with ThreadPoolExecutor(4) as threads:
            asking = [threads.submit(ask) for _ in range(4)]
            for _ in range(3):
                server.process.send_signal(signal.SIGHUP)
                time.sleep(2.5)
            end.set()
            for each in asking:
                each.result()
        assert kinds["asked"] > 20
    yield Figure(
        f"connections refused of {kinds['asked']} while the server is renewed 3 times", kinds["refused"], 0
    )
    yield Figure("requests cut off, of those", kinds["cut"], 3)
    yield Figure("requests lost when asked once more", kinds["lost"], 0)


def started() -> Iterator[Figure]:
    """From nothing to ready, and the first heavy answer; what the processor spends does not count neighbours."""
    with served():  # modules are compiled, as when a service is installed
        pass
    began = time.monotonic()
    with served() as server:
        yield Figure("ready after a start", time.monotonic() - began, 2, "s")
        yield Figure("time of the processor for it", server.processor_time(), 2, "s")
        first = _seconds(lambda: _answered(server.post("loop-length", SMALL)))
        again = _seconds(lambda: _answered(server.post("loop-length", SMALL)))
    yield Figure("first heavy answer, beyond the second", first - again, 1, "s")


def deadline() -> Iterator[Figure]:
    """From the end of the deadline to the refusal, on a connection that is open, so that the client's own time is no
    part of it."""
    limit = 0.4
    with served(TEPIDARIUM_DEADLINE=f"{limit}") as server:
        server.post("loop-length", SMALL)  # everything is loaded: waiting for that is no computing

        def stopped() -> None:
            with server.connection(posted("designs", HOUSE)) as connection:
                assert b" 503 " in connection.recv(4096).partition(b"\r\n")[0]

        over = max(_seconds(stopped) - limit for _ in range(10))
    yield Figure("answer after the deadline", 1000 * over, 50, "ms")


def crowd(clients: int = 170, seconds: float = 20.0) -> Iterator[Figure]:
    """Many clients with addresses of their own want heavy answers, with and without regard for Retry-After."""
    request = SMALL
    with served() as server:
        peak = _goodput(server, request, 4, seconds / 2, obey=True)
        for obey, least in ((True, 0.95), (False, 0.8)):
            answered = list[float]()

            def load(end: float, obey: bool = obey, answered: list[float] = answered) -> None:
                answered.append(_goodput(server, request, clients, end, obey=obey))

            delays = _probed(server, load, seconds)
            kind = "obeying" if obey else "ignoring"
            lost, delay = 1 - answered[0] / peak, 1000 * delays[-max(1, len(delays) // 100)]
            yield Figure(f"work lost to {clients} clients {kind} Retry-After", lost, 1 - least)
            yield Figure(f"probe beside them, 99 of 100 ({kind})", delay, 100, "ms")


def endurance(requests: int = 400) -> Iterator[Figure]:
    """Memory before and after many heavy requests."""
    with served() as server:
        for _ in range(20):
            server.post("loop-length", SMALL)
        before = server.memory()
        for _ in range(requests):
            server.post("loop-length", SMALL)
        yield Figure(f"memory grown over {requests} heavy requests", server.memory() / before - 1, 0.1)


LIGHT = json.loads((EXAMPLES / "heat-output.json").read_text())


def _seconds(work: Callable[[], Any]) -> float:
    began = time.monotonic()
    work()
    return time.monotonic() - began


def _answered(response: httpx.Response) -> None:
    assert response.status_code == 200, response.text


def _probed(server: Served, load: Callable[[float], Any], seconds: float) -> list[float]:
    """Times of probes while the load goes on [s], the longest last."""
    delays = list[float]()
    with ThreadPoolExecutor(1) as threads, httpx.Client() as client:
        loading = threads.submit(load, seconds)
        while not loading.done():
            delays.append(_seconds(lambda: client.get(server.url("/health/live"))))
            time.sleep(0.01)
        loading.result()
    return sorted(delays)


_LOADING = """
import json, sys, time, threading, urllib.error, urllib.request, http.client
port, seconds, obey, clients, bodies = json.loads(sys.stdin.read())
end, good = time.monotonic() + seconds, [0] * clients
def ask(n):
    address, at = ("127.0.%d.%d" % (1 + n // 200, 2 + n % 200), 0), n
    while time.monotonic() < end:
        name, body = bodies[at % len(bodies)]; at += 1
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60, source_address=address)
        try:
            connection.request("POST", "/v1/" + name, body, {"Content-Type": "application/json"})
            answer = connection.getresponse(); answer.read()
            good[n] += answer.status == 200
            if obey and answer.status in (429, 503):
                time.sleep(min(float(answer.getheader("Retry-After", 1)), max(0, end - time.monotonic())))
        except OSError:
            pass
        finally:
            connection.close()
threads = [threading.Thread(target=ask, args=(n,)) for n in range(clients)]
[t.start() for t in threads]; [t.join() for t in threads]
print(sum(good))
"""


def _load(
    server: Served, bodies: list[tuple[str, Any]], clients: int, seconds: float, *, obey: bool = True
) -> int:
    """Answers to so many clients, which run in a process of their own."""
    sent = [(name, json.dumps(request)) for name, request in bodies]
    told = json.dumps([server.port, seconds, obey, clients, sent])
    done = subprocess.run(
        [sys.executable, "-c", _LOADING], input=told, capture_output=True, text=True, check=True
    )
    return int(done.stdout)


def _goodput(server: Served, request: Any, clients: int, seconds: float, *, obey: bool) -> float:
    return _load(server, [("loop-length", request)], clients, seconds, obey=obey) / seconds


Scene = Callable[[], Iterator[Figure]]
QUICK: Mapping[str, Scene] = {
    "light_load": light_load,
    "left_alone": left_alone,
    "killed": killed,
    "deadline": deadline,
    "started": started,
}
LONG: Mapping[str, Scene] = {
    "unread": unread,
    "renewed": renewed,
    "crowd": crowd,
    "endurance": endurance,
}
