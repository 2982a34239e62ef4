"""Work off the event loop: worker processes under a deadline, with a short queue and refusal beyond it."""

from __future__ import annotations

import os
import random
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any

import anyio
from anyio import CapacityLimiter, to_process
from anyio.abc import TaskGroup

from .answer import Answer
from .calculations import Calculation, FileReading
from .event_log import EventLog
from .failures import Failure, describe
from .problems import Problem, Refusal, problem
from .reading import SentFile
from .settings import Settings
from .work import probe, warm_up, work, work_on_file

__all__ = ["WorkerFailure", "Workers"]

WARM_UP_LIMIT = 120.0
"""Some forty times what it takes [s]: a process stopped before it is ready is lost work, again and again."""
WARM_UP_PAUSE = 1.0
PROBE_LIMIT = 2.0
START_LIMIT = 10.0
Outcome = Answer | Problem | Failure
IDLE_LIMIT = 60.0
"""After so long without work a process may have been let go [s]; anyio keeps idle ones for 300 s."""


class WorkerFailure(Exception):  # noqa: N818 - it carries the failure of another process
    """A calculation raised in a worker process; ``failure`` says where, without the values."""

    def __init__(self, failure: Failure) -> None:
        self.failure = failure
        super().__init__(failure.kind)


class Workers:
    """As many worker processes as there are cores, each killed when its job outlives the deadline.

    A job that can be spread also uses the cores of those that have nothing to do when it begins.
    """

    def __init__(self, settings: Settings, calculations: tuple[Calculation, ...], log: EventLog) -> None:
        self._settings = settings
        self._calculations = calculations
        self._log = log
        self._slots = CapacityLimiter(settings.processes)
        self._processes = CapacityLimiter(settings.processes)
        self._warm = False
        self._may_be_missing = False
        self._last_answer = 0.0
        self._standing_by: anyio.Event | None = None
        self._tasks: TaskGroup | None = None

    @asynccontextmanager
    async def running(self) -> AsyncIterator[None]:
        """Start the processes in the background; the service is ready once the first has loaded."""
        # one thread for each process: linear algebra must not compete for the cores, nor change its last bits
        os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
        async with anyio.create_task_group() as tasks:
            self._tasks = tasks
            tasks.start_soon(self._start)
            try:
                yield
            finally:
                tasks.cancel_scope.cancel()

    async def answer(self, calculation: Calculation, body: bytes, accept: str) -> Answer | Problem:
        """Answer one request in a worker process; ``Refusal`` when there is no place or no time left."""
        return await self._in_turn(work, calculation, body, accept)

    async def read(self, reading: FileReading, file: SentFile) -> Answer:
        """Read one file in a worker process; ``Refusal`` also when it cannot be read."""
        outcome = await self._in_turn(work_on_file, reading, file)
        if isinstance(outcome, Problem):
            raise Refusal(outcome)
        return outcome

    async def _in_turn(self, job: Callable[..., Outcome], *arguments: Any) -> Answer | Problem:
        if (
            self._slots.statistics().tasks_waiting >= self._settings.queue_length
            and not self._slots.available_tokens
        ):
            raise _overloaded()
        try:
            with anyio.fail_after(self._settings.queue_timeout):
                await self._slots.acquire()
        except TimeoutError:
            raise _overloaded() from None
        try:
            return await self._run(job, *arguments)
        finally:
            self._slots.release()

    async def ready(self) -> bool:
        """Whether a worker process can take a job: one is at work, or an idle one does a trivial job."""
        if not self._warm or not self._slots.available_tokens:
            return self._warm
        return await self._process_stands_by(PROBE_LIMIT)

    async def _process_stands_by(self, seconds: float) -> bool:
        """Whether an idle process has loaded everything within so many seconds; one is started when there is none.

        All who ask wait for the same one. It goes on loading when their time is up, so that a machine on which
        that takes longer gets there too; without ``running`` there is nothing for it to go on in.
        """
        stands_by = self._standing_by
        if stands_by is None:
            stands_by = self._standing_by = anyio.Event()
            if self._tasks is not None:
                self._tasks.start_soon(self._stand_by, stands_by)
        with anyio.move_on_after(seconds):
            await (self._stand_by(stands_by) if self._tasks is None else stands_by.wait())
        return stands_by.is_set()

    async def _stand_by(self, stands_by: anyio.Event) -> None:
        while not stands_by.is_set():
            try:
                with anyio.fail_after(WARM_UP_LIMIT):
                    await to_process.run_sync(probe, cancellable=True, limiter=self._processes)
                stands_by.set()
            except (TimeoutError, anyio.BrokenWorkerProcess) as error:
                self._log.failure(describe(error))
                await anyio.sleep(WARM_UP_PAUSE)
        self._standing_by = None

    async def _run(self, job: Any, *arguments: Any) -> Answer | Problem:
        # the clock of the deadline starts when computing starts: starting a process does not count
        if self._may_be_missing or anyio.current_time() - self._last_answer > IDLE_LIMIT:
            if not await self._process_stands_by(START_LIMIT):
                raise _overloaded()
            self._may_be_missing = False
        cores = 1 + int(self._slots.available_tokens)
        try:
            with anyio.fail_after(self._settings.deadline):
                outcome: Outcome = await to_process.run_sync(
                    job, *arguments, cores, cancellable=True, limiter=self._processes
                )
        except TimeoutError:
            self._may_be_missing = True
            document = problem("deadline-exceeded", f"stopped after {self._settings.deadline:g} s")
            raise Refusal(document, {"Retry-After": _retry_after()}) from None
        except anyio.BrokenWorkerProcess:
            self._may_be_missing = True
            raise Refusal(problem("calculation-lost", "the process of this calculation died")) from None
        self._last_answer = anyio.current_time()
        if isinstance(outcome, Failure):
            raise WorkerFailure(outcome)
        return outcome

    async def _start(self) -> None:
        while not self._warm:
            try:
                with anyio.fail_after(WARM_UP_LIMIT):
                    await self._start_one()
                    self._warm = True  # one process suffices to answer; the others follow
                    async with anyio.create_task_group() as tasks:
                        for _ in range(self._settings.processes):
                            tasks.start_soon(self._start_one)
            except Exception as error:
                self._log.failure(describe(error))
                await anyio.sleep(WARM_UP_PAUSE)

    async def _start_one(self) -> None:
        await to_process.run_sync(warm_up, self._calculations, cancellable=True, limiter=self._processes)


def _overloaded() -> Refusal:
    return Refusal(
        problem("overloaded", "no process is free and the queue is full"), {"Retry-After": _retry_after()}
    )


def _retry_after() -> str:
    """Whole seconds, spread so that those refused together do not come back together."""
    return str(random.randint(1, 5))
