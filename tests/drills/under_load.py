"""What a served process stands: light and heavy requests of many clients, and clients that read or send slowly."""

from __future__ import annotations

import json
import os
import socket
import time
from collections.abc import Iterator
from contextlib import suppress
from statistics import median

import httpx

from tests.drills.clients import load, posts, probed, seconds_of, worst_of_100
from tests.drills.endpoints import worst_requests
from tests.drills.served import EXAMPLES, Figure, Served, answered, served, until

__all__ = ["crowd", "endpoints", "endurance", "light_load", "slow", "unread"]

LIGHT = json.loads((EXAMPLES / "heat-output.json").read_text())
SMALL = json.loads((EXAMPLES / "loop-length.json").read_text())
CLIENTS = 16
KEPT = 0.1
"""Share of the memory before that may stay when clients are gone."""


def light_load(seconds: float = 4.0) -> Iterator[Figure]:
    """16 clients ask all endpoints for the most that their answers in the event loop may cost, or for a refusal that
    costs as much; the probe goes on."""
    everything = [one for _, requests in worst_requests() for one in requests]
    with served() as server:
        before = _loaded(server)
        delays = probed(server, lambda: load(server, everything, CLIENTS, seconds))
        memory = _kept(server, before)
    yield Figure("probe beside the worst light requests, 99 of 100", worst_of_100(delays), 50, "ms")
    yield memory


def endpoints(seconds: float = 2.0) -> Iterator[Figure]:
    """The same of one endpoint after the other."""
    with served() as server:
        _loaded(server)
        for name, requests in worst_requests():
            delays = probed(server, lambda asked=requests: load(server, asked, CLIENTS, seconds))  # type: ignore[misc]
            yield Figure(f"probe beside the worst of {name}, 99 of 100", worst_of_100(delays), 50, "ms")


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
        delay = seconds_of(lambda: client.get(server.url("/health/live")))
        worker = server.family()[0]
        closed = until(lambda: len(os.listdir(f"/proc/{worker}/fd")) < 60, 20)
        for _ in range(20):  # it is given back little by little, and later where other work goes on
            time.sleep(0.5)
            rest = server.memory() - before
            if rest <= KEPT * before:
                break
        for connection in kept:
            connection.close()
    yield Figure("memory that 600 clients take who do not read", most, 250, "MB")
    yield Figure("memory when they are gone, over the memory before", rest / before, KEPT)
    yield Figure("time until their connections are closed", closed, 8, "s")
    yield Figure("probe meanwhile", 1000 * delay, 100, "ms")


def slow(count: int = 200) -> Iterator[Figure]:
    """Half of the connections send nothing, half of them a byte of their head in a second; others are answered."""
    with served() as server:
        before, alone = _loaded(server), median(_cost(server) for _ in range(5))
        kept = [server.connection(b"", f"127.0.0.{2 + n % 20}") for n in range(count)]
        beside, began, closed = list[float](), time.monotonic(), 0.0
        while kept and closed < 30:
            for connection in kept[::2]:
                _drip(connection)
            beside.append(_cost(server))
            ended = [connection for connection in kept if _is_closed(connection)]
            for connection in ended:
                connection.close()
            kept = [connection for connection in kept if connection not in ended]
            closed = time.monotonic() - began
        for connection in kept:
            connection.close()
        memory = _kept(server, before)
    yield Figure(f"time until {count} slow connections are closed", closed, 10, "s")
    more = median(beside) / alone
    yield Figure("time of the processor of a light answer beside them, over that without", more, 1.2)
    yield memory


def _drip(connection: socket.socket) -> None:
    with suppress(OSError):
        connection.sendall(b"x")


def _is_closed(connection: socket.socket) -> bool:
    connection.setblocking(False)
    try:
        return not connection.recv(4096)
    except BlockingIOError:
        return False
    except OSError:
        return True


def _cost(server: Served) -> float:
    """What the service spends on a light answer [s of the processor], over a second."""
    spent = server.processor_time()
    good = load(server, posts("heat-output", LIGHT), 2, 1.0).good
    return (server.processor_time() - spent) / good


def crowd(clients: int = 170, seconds: float = 20.0, rounds: int = 4) -> Iterator[Figure]:
    """Many clients with addresses of their own want heavy answers, with and without regard for Retry-After.

    In rounds, so that what else the machine does falls on all alike.
    """
    heavy, part = posts("loop-length", SMALL), seconds / rounds
    good = {"few": 0, "obeying": 0, "ignoring": 0}
    delays: dict[str, list[float]] = {"obeying": [], "ignoring": []}
    refusals: list[tuple[float, int]] = []

    def many(kind: str) -> None:
        counted = load(server, heavy, clients, part, obey=kind == "obeying")
        good[kind] += counted.good
        if kind == "obeying":
            refusals.extend(counted.refusals)

    with served() as server:
        before = _loaded(server)
        for _ in range(rounds):
            good["few"] += load(server, heavy, 8, part).good
            for kind, times in delays.items():
                times.extend(probed(server, lambda kind=kind: many(kind)))  # type: ignore[misc]
        memory = _kept(server, before)
    for kind, most in (("obeying", 0.05), ("ignoring", 0.2)):
        yield Figure(f"work lost to {clients} clients {kind} Retry-After", 1 - good[kind] / good["few"], most)
        probe = worst_of_100(sorted(delays[kind]))
        yield Figure(f"probe beside them, 99 of 100 ({kind})", probe, 100, "ms")
    waits = {later for _, later in refusals}
    refused = worst_of_100(sorted(took for took, _ in refusals))
    yield Figure("refusal of who comes when told, 99 of 100", refused, 50, "ms")
    yield Figure("waits in refusals that are not 1 to 5 s", len(waits - set(range(1, 6))), 0)
    yield memory


def endurance(requests: int = 400) -> Iterator[Figure]:
    """Memory before and after many heavy requests, and after fifty times as many light ones beside the first of these,
    which load what the service has not needed before."""
    with served() as server:
        before = _loaded(server)
        for _ in range(requests):
            server.post("loop-length", SMALL)
        grown = server.memory() / before - 1
        load(server, posts("heat-output", LIGHT), 4, 5.0)
        now, light = server.memory(), 0
        while light < 50 * requests:
            light += load(server, posts("heat-output", LIGHT), 4, 5.0).good
        slope = (server.memory() - now) / light * 1e5
    yield Figure(f"memory grown over {requests} heavy requests", grown, 0.1)
    yield Figure(f"memory grown over {light} light requests, for each 100,000", slope, 2, "MB")


def _loaded(server: Served) -> float:
    """Memory once everything is loaded [MB]."""
    for _ in range(20):
        answered(server.post("loop-length", SMALL))
    load(server, posts("heat-output", LIGHT), CLIENTS, 1.0)
    return server.memory()


def _kept(server: Served, before: float) -> Figure:
    """Memory a second after a drill."""
    time.sleep(1.0)
    return Figure("memory grown by the drill", server.memory() / before - 1, 0.1)
