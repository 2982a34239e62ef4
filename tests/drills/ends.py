"""What ends: processes that are killed, clients that leave, deadlines, and the service itself."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

from tests.drills.clients import load, posts, seconds_of
from tests.drills.served import EXAMPLES, Figure, answered, posted, served, until
from tests.processes import children, runs

__all__ = ["crashed", "deadline", "killed", "left_alone", "renewed", "replaced", "started", "stopped"]

HOUSE = json.loads((EXAMPLES / "house.json").read_text())
LIGHT = json.loads((EXAMPLES / "heat-output.json").read_text())
SMALL = json.loads((EXAMPLES / "loop-length.json").read_text())


def left_alone() -> Iterator[Figure]:
    """Clients leave 16 heavy requests; the next one must not wait for them."""
    with served() as server:
        alone = seconds_of(lambda: server.post("loop-length", SMALL))
        left = [server.connection(posted("designs", HOUSE), f"127.0.0.{2 + n % 4}") for n in range(16)]
        time.sleep(0.3)
        for connection in left:
            connection.close()
        after = seconds_of(lambda: answered(server.post("loop-length", SMALL)))
        stopped = until(lambda: len(server.family()) <= 2, 30)
    yield Figure(
        "answer after 16 abandoned requests, beyond the time it takes alone", after - alone, 0.5, "s"
    )
    yield Figure("their processes run on", stopped, 0.5, "s")


def killed(times: int = 2) -> Iterator[Figure]:
    """The first process is killed while it computes."""
    left, longest = 0, 0.0
    for _ in range(times):
        with served() as server:
            # one client has half of the places
            busy = [server.connection(posted("designs", HOUSE), f"127.0.0.{2 + n}") for n in range(2)]
            until(lambda server=server: len(server.family()) > 3, 60)  # type: ignore[misc]
            family = server.family()
            os.kill(server.process.pid, signal.SIGKILL)
            server.process.wait()
            began = time.monotonic()
            while any(map(runs, family)) and time.monotonic() - began < 5:
                time.sleep(0.005)
            longest = max(longest, time.monotonic() - began)
            left += sum(map(runs, family))
            for connection in busy:
                connection.close()
    yield Figure(f"processes left after {times} kills of the first", left, 0)
    yield Figure("the longest time until they had ended", longest, 0.5, "s")


def replaced() -> Iterator[Figure]:
    """The server process is killed under load; connections wait for the next one. A second start is refused."""
    with served() as server, ThreadPoolExecutor(1) as threads:
        loading = threads.submit(load, server, posts("heat-output", LIGHT), 4, 4.0)
        time.sleep(1.5)
        os.kill(server.family()[0], signal.SIGKILL)
        back = seconds_of(lambda: until(server.ready, 30))
        heavy = seconds_of(lambda: answered(server.post("loop-length", SMALL)))
        counted = loading.result()
        command = (sys.executable, "-m", "tepidarium_api", "--port", str(server.port))
        second = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
        said = second.returncode == 1 and "--share-port" in second.stderr
    yield Figure("ready again after a kill of the server process", back, 2, "s")
    yield Figure("the first heavy answer after it", heavy, 2, "s")
    yield Figure(
        f"of {counted.good} answers those lost when asked once more", counted.closed + counted.lost, 0
    )
    yield Figure("second starts on a taken port that are not refused", not said, 0)


def crashed() -> Iterator[Figure]:
    """One of two calculations crashes: it alone is lost, and its place is free at once."""
    with served() as server, ThreadPoolExecutor(2) as threads:
        answered(server.post("loop-length", SMALL))  # everything is loaded
        alone = seconds_of(lambda: answered(server.post("loop-length", SMALL)))
        mother = server.family()[1]
        until(lambda: not children(mother), 30)
        other = threads.submit(server.post, "designs", HOUSE, "127.0.0.2")
        until(lambda: children(mother), 30)
        first = children(mother)
        broken = threads.submit(server.post, "designs", HOUSE, "127.0.0.3")
        until(lambda: len(children(mother)) > len(first), 30)
        (process,) = set(children(mother)) - set(first)
        os.kill(process, signal.SIGSEGV)
        lost = broken.result()
        after = seconds_of(lambda: answered(server.post("loop-length", SMALL)))
        kept = other.result().status_code == 200
    said = lost.status_code == 500 and lost.json()["type"] == "/problems/calculation-lost"
    yield Figure("crashes that are not told by a problem document", not said, 0)
    yield Figure("other calculations lost to a crash", not kept, 0)
    yield Figure("answer after a crash, beyond the time it takes alone", after - alone, 0.5, "s")


def stopped() -> Iterator[Figure]:
    """The service gets the signal to end while it computes and one body is half sent: what it accepted it answers."""
    with served() as server, ThreadPoolExecutor(1) as threads:
        server.post("loop-length", SMALL)
        mother = server.family()[1]
        until(lambda: not children(mother), 30)
        family = server.family()
        computing = threads.submit(server.post, "designs", HOUSE)
        with server.connection(posted("designs", HOUSE)[:-100], "127.0.0.2"):
            until(lambda: children(mother), 30)  # a request that is not accepted yet may be lost
            server.process.send_signal(signal.SIGTERM)
            took = seconds_of(lambda: server.process.wait(30))
            lost = computing.result().status_code != 200
        code, left = server.process.returncode, sum(map(runs, family))
    yield Figure("time from the signal to the end", took, 10, "s")
    yield Figure("its exit code", abs(code), 0)
    yield Figure("answers lost to the end, and processes left", lost + left, 0)


def renewed(seconds: float = 8.0) -> Iterator[Figure]:
    """The server process is renewed three times under load of new connections.

    None is refused. One that the old process has just accepted is closed when its request comes too late: clients ask
    once more, which calculations allow.
    """
    with served() as server, ThreadPoolExecutor(1) as threads:
        loading = threads.submit(load, server, posts("heat-output", LIGHT), 4, seconds)
        for _ in range(3):
            time.sleep(seconds / 4)
            server.process.send_signal(signal.SIGHUP)
        counted = loading.result()
    yield Figure(
        f"connections refused of {counted.good} while the server is renewed 3 times", counted.closed, 0
    )
    yield Figure("requests cut off, of those", counted.cut, max(3, counted.good // 1000))
    yield Figure("requests lost when asked once more", counted.lost, 0)


def started() -> Iterator[Figure]:
    """From nothing to ready, and the first heavy answer; what the processor spends does not count neighbours."""
    with served() as server:  # modules are compiled, as when a service is installed
        answered(server.post("loop-length", SMALL))
    began = time.monotonic()
    with served() as server:
        yield Figure("ready after a start", time.monotonic() - began, 2, "s")
        yield Figure("time of the processor for it", server.processor_time(), 2, "s")
        first = seconds_of(lambda: answered(server.post("loop-length", SMALL)))
        again = seconds_of(lambda: answered(server.post("loop-length", SMALL)))
    yield Figure("first heavy answer, beyond the second", first - again, 1, "s")


def deadline() -> Iterator[Figure]:
    """From the end of the deadline to the refusal, on a connection that is open, so that the client's own time is no
    part of it; also for the first request after a start, while what computes is still being loaded."""
    limit = 0.4
    with served(TEPIDARIUM_DEADLINE=f"{limit}") as server:

        def refused() -> None:
            with server.connection(posted("designs", HOUSE)) as connection:
                assert b" 503 " in connection.recv(4096).partition(b"\r\n")[0]

        first = seconds_of(refused) - limit
        over = max(seconds_of(refused) - limit for _ in range(10))
        until(lambda: len(server.family()) <= 2, 30)
        spent = server.processor_time()
        time.sleep(1.0)
        burned = server.processor_time() - spent
    yield Figure("answer after the deadline, right after a start", 1000 * first, 50, "ms")
    yield Figure("answer after the deadline", 1000 * over, 50, "ms")
    yield Figure("time of the processor that is spent in the second after it", 1000 * burned, 100, "ms")
