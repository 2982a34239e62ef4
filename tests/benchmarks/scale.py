"""What one core answers and what a second one adds, as a table in Markdown: ``python -m tests.benchmarks scale``.

What is light is served by one and by two server processes, what is heavy by one server with one and with two places to
compute. The processor's time of a request holds all processes of the service. It does not count what else the machine
does, such as the clients of this benchmark; the rates do.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator
from contextlib import ExitStack
from typing import NamedTuple

import msgspec
from tepidarium_api.calculations import CALCULATIONS, Calculation

from tests.drills.served import Served, served

from .load import answers_per_second
from .ratio import Ratio

__all__ = ["ratios"]

SECONDS = 1.5
ROUNDS = 2
CONNECTIONS = 32
"""The system divides connections between server processes at random: few of them would be divided unevenly."""
TOGETHER = 6
"""Heavy requests at a time: more than there are places, less than may wait."""
GAIN = 1.8


class _Rate(NamedTuple):
    """Answers a second, and the processor's time of each [ms]."""

    answers: float
    milliseconds: float


def ratios() -> Iterator[Ratio]:
    """One ratio for each calculation, after its line of the table: what two cores would answer by the processor's time,
    over what one core does. Cores that hinder each other need more time for each request."""
    print(
        "| calculation | processor's time on one core, on two [ms] | a second and core | measured: one, two | gain |"
    )
    print("|---|---|---|---|---|")
    with ExitStack() as stack:
        own_place = {"TEPIDARIUM_CLIENT_SHARE": "1"}
        pairs = {
            False: (stack.enter_context(served()), stack.enter_context(served("--workers", "2"))),
            True: tuple(
                stack.enter_context(served(TEPIDARIUM_PROCESSES=count, **own_place)) for count in "12"
            ),
        }
        time.sleep(3.0)  # the solvers are loaded in the background
        for item in CALCULATIONS:
            rounds = [[_measured(server, item) for server in pairs[item.heavy]] for _ in range(ROUNDS)]
            one, two = (_best(rates) for rates in zip(*rounds, strict=True))
            gain = 2.0 * one.milliseconds / two.milliseconds
            print(
                f"| `{item.name}` | {one.milliseconds:.3g}, {two.milliseconds:.3g} "
                f"| {1000.0 / one.milliseconds:.3g} | {one.answers:.3g}, {two.answers:.3g} | {gain:.2f} |",
                flush=True,
            )
            yield Ratio(f"{item.name} on two cores / on one", gain, GAIN, at_least=True)


def _best(rates: Iterable[_Rate]) -> _Rate:
    """Of several rounds: the most answers and the least time, which neighbours disturb least."""
    answers, milliseconds = zip(*rates, strict=True)
    return _Rate(max(answers), min(milliseconds))


def _measured(server: Served, item: Calculation) -> _Rate:
    before, began = server.processor_time(), time.perf_counter()
    connections = TOGETHER if item.heavy else CONNECTIONS
    body = msgspec.json.encode(item.example)
    answers = answers_per_second(server.port, item.path, body, SECONDS, connections)
    count = answers * (time.perf_counter() - began)
    return _Rate(answers, 1000.0 * (server.processor_time() - before) / count)
