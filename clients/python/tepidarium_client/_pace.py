"""How many requests are under way at a time: as many as the service takes, found out as it goes.

A refusal (429, 503) or a lost connection halves the level, once for all that were under way then. Every answer
raises it: quickly until the first refusal, later by one for each round of answers, slowly near the level that was
refused last. A refused request goes before all that have not been sent yet, and while it waits nothing rises.
"""

from __future__ import annotations

import asyncio
import threading
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager

__all__ = ["Gate", "Level", "Place"]

FIRST_LEVEL = 4.0
NEAR = 0.8
"""From this part of the refused level on the level rises slowly."""
SLOWLY = 0.05


class Level:
    """The rule: how many requests may be under way, ``most`` at most."""

    def __init__(self, most: int) -> None:
        if most < 1:
            raise ValueError("concurrency must be 1 or more")
        self._most = float(most)
        self._refused: float | None = None
        self.value = min(FIRST_LEVEL, self._most)

    def rise(self) -> None:
        """The service took a request."""
        step = 1.0
        if self._refused is not None:
            step = (1.0 if self.value + 1.0 < NEAR * self._refused else SLOWLY) / self.value
        self.value = min(self._most, self.value + step)

    def fall(self, under_way: int) -> None:
        """The service refused a request when so many were under way."""
        self._refused = min(self.value, float(under_way))
        self.value = max(1.0, self._refused / 2.0)


class Place:
    """One request at the gate: outside, waiting (``wake`` is called when its turn comes), or ``under_way``."""

    def __init__(self) -> None:
        self.under_way = False
        self.number = 0
        self.refused = False
        self.wake: Callable[[], object] | None = None


class Gate:
    """Lets requests through as the level allows, those that were refused before others, else in order."""

    def __init__(self, most: int) -> None:
        self._level = Level(most)
        self._lock = threading.Lock()
        self._waiting: deque[Place] = deque()
        self._under_way = 0
        self._refused = 0
        self._sent = 0
        self._sent_before_fall = 0

    @property
    def level(self) -> float:
        """How many requests may be under way now."""
        return self._level.value

    @contextmanager
    def place(self) -> Iterator[Place]:
        """The place of one request; it is given up with the block, whatever happens there."""
        place = Place()
        try:
            yield place
        finally:
            with self._lock:
                if place in self._waiting:
                    self._waiting.remove(place)
                self._mark(place, refused=False)
                self._leave(place)

    def wait(self, place: Place) -> None:
        """Block this thread until the request may be sent."""
        turn = threading.Event()
        if self._must_wait(place, turn.set):
            turn.wait()

    async def turn(self, place: Place) -> None:
        """Await that the request may be sent."""
        turn = asyncio.get_running_loop().create_future()

        def wake() -> None:
            if not turn.done():
                turn.set_result(None)

        if self._must_wait(place, wake):
            await turn

    def settle(self, place: Place, *, taken: bool) -> None:
        """Say whether the service took the request.

        One that was refused while no other was under way keeps its place: the service is busy with others, or
        away, and all wait until the pause of that one is over.
        """
        with self._lock:
            if taken:
                if not self._refused:
                    self._level.rise()
                self._leave(place)
                return
            if place.number > self._sent_before_fall:
                self._level.fall(self._under_way)
                self._sent_before_fall = self._sent
            self._mark(place, refused=True)
            if self._under_way > 1:
                self._leave(place)

    def _must_wait(self, place: Place, wake: Callable[[], object]) -> bool:
        with self._lock:
            if not place.under_way:
                place.wake = wake
                (self._waiting.appendleft if place.refused else self._waiting.append)(place)
                self._let_in()
            else:
                self._send(place)
            return not place.under_way

    def _let_in(self) -> None:
        while self._waiting and self._under_way < int(self._level.value):
            place = self._waiting.popleft()
            self._under_way += 1
            place.under_way = True
            self._send(place)
            if place.wake is not None:
                place.wake()

    def _send(self, place: Place) -> None:
        self._sent += 1
        place.number = self._sent
        self._mark(place, refused=False)

    def _mark(self, place: Place, *, refused: bool) -> None:
        self._refused += refused - place.refused
        place.refused = refused

    def _leave(self, place: Place) -> None:
        if place.under_way:
            place.under_way = False
            self._under_way -= 1
        self._let_in()
