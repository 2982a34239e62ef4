"""Clients of a drill: a process of its own that asks for a while and counts, and a probe beside it."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import Any, NamedTuple

import httpx

from tests.drills.served import Served

__all__ = ["Asked", "Counted", "asked", "load", "posts", "probed", "seconds_of", "worst_of_100"]

Asked = tuple[str, str, str]
"""Method, path and body."""


class Counted(NamedTuple):
    """Good answers; refusals, with the time that each took [s] and when to come back [s]; connections refused, cut, and
    still without an answer when asked once more."""

    good: int
    refusals: list[tuple[float, int]]
    closed: int
    cut: int
    lost: int


_CLIENTS = """
import json, sys, time, threading, http.client
port, seconds, obey, clients, asked = json.loads(sys.stdin.read())
end, lock = time.monotonic() + seconds, threading.Lock()
good, refusals, closed, cut, lost = 0, [], 0, 0, 0
def once(address, method, path, body):
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60, source_address=address)
    began = time.monotonic()
    try:
        connection.request(method, path, body, {"Content-Type": "application/json"})
        answer = connection.getresponse(); answer.read()
        return answer.status, int(answer.getheader("Retry-After", 0)), time.monotonic() - began
    finally:
        connection.close()
def ask(n):
    global good, closed, cut, lost
    address, at = ("127.0.%d.%d" % (1 + n // 200, 2 + n % 200), 0), n
    while time.monotonic() < end:
        one = asked[at % len(asked)]; at += 1
        try:
            status, later, took = once(address, *one)
        except OSError as error:
            with lock:
                closed += isinstance(error, ConnectionRefusedError); cut += 1
            try:
                once(address, *one)
            except OSError:
                with lock:
                    lost += 1
            continue
        with lock:
            good += status == 200
            if status in (429, 503):
                refusals.append((took, later))
        if obey and later:
            time.sleep(min(later, max(0, end - time.monotonic())))
threads = [threading.Thread(target=ask, args=(n,)) for n in range(clients)]
[t.start() for t in threads]; [t.join() for t in threads]
print(json.dumps([good, refusals, closed, cut, lost]))
"""


def asked(method: str, path: str, body: Any = None) -> Asked:
    return method, path, "" if body is None else json.dumps(body)


def posts(name: str, body: Any) -> list[Asked]:
    return [asked("POST", f"/v1/{name}", body)]


def load(
    server: Served, requests: Sequence[Asked], clients: int, seconds: float, *, obey: bool = True
) -> Counted:
    """So many clients, each with an address of its own, in a process of their own."""
    told = json.dumps([server.port, seconds, obey, clients, requests])
    done = subprocess.run(
        [sys.executable, "-c", _CLIENTS], input=told, capture_output=True, text=True, check=True
    )
    return Counted(*json.loads(done.stdout))


def probed(server: Served, work: Callable[[], Any]) -> list[float]:
    """Times of probes while the work goes on [s], the longest last; one that fails counts as a minute."""
    delays = list[float]()
    with ThreadPoolExecutor(1) as threads, httpx.Client() as client:
        client.get(server.url("/health/live"))  # the client itself has loaded everything
        working = threads.submit(work)
        while not working.done():
            began = time.monotonic()
            alive = client.get(server.url("/health/live")).status_code == 200
            delays.append(time.monotonic() - began if alive else 60.0)
            time.sleep(0.01)
        working.result()
    return sorted(delays)


def worst_of_100(sorted_times: Sequence[float]) -> float:
    """What 99 of 100 do not exceed [ms]."""
    return 1000.0 * sorted_times[-max(1, len(sorted_times) // 100)]


def seconds_of(work: Callable[[], Any]) -> float:
    began = time.monotonic()
    work()
    return time.monotonic() - began
