"""Heavy work off the event loop: a process for each request, under a deadline, and given up with its client."""

from __future__ import annotations

import asyncio
import os
import socket
import subprocess
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from pathlib import Path
from time import time_ns

from . import mother
from .answer import Answer
from .calculations import Calculation, FileReading
from .event_log import EventLog
from .failures import Failure, describe
from .frames import framed, received_async
from .parentage import end_with
from .places import Places, retry_later
from .problems import Problem, Refusal, problem
from .reading import SentFile
from .settings import Settings
from .tracing import Tracing
from .work import FileJob, Job, Worked

__all__ = ["WorkerFailure", "Workers"]

START_AGAIN = 1.0


class WorkerFailure(Exception):  # noqa: N818 - it carries the failure of another process
    """A calculation raised in its process; ``failure`` says where, without the values."""

    def __init__(self, failure: Failure) -> None:
        self.failure = failure
        super().__init__(failure.kind)


class Workers:
    """Computes in processes that ``mother`` forks: as many at a time as there are cores.

    A job that can be spread also uses the cores that have nothing to do when it begins.
    """

    def __init__(
        self, settings: Settings, calculations: tuple[Calculation, ...], log: EventLog, tracing: Tracing
    ) -> None:
        self._settings = settings
        self._calculations = calculations
        self._log = log
        self._tracing = tracing
        self._control: socket.socket | None = None
        self._ready, self._loaded = asyncio.Event(), asyncio.Event()
        self.deaths = 0
        self.places = Places(settings)

    @asynccontextmanager
    async def running(self) -> AsyncIterator[None]:
        """Keep a process that forks; the service is ready once it has loaded."""
        control, process = self._start()
        keeping = asyncio.create_task(self._keep(control, process))
        try:
            yield
        finally:
            keeping.cancel()
            with suppress(asyncio.CancelledError):
                await keeping

    def ready(self) -> bool:
        """Whether requests can be taken: a heavy one may have to wait until the last has been loaded."""
        return self._ready.is_set()

    async def answer(
        self, calculation: Calculation, body: bytes, accept: str, client: str
    ) -> Answer | Problem:
        """Answer one request in a process; ``Refusal`` when there is no place or no time left.

        Cancelled, the process is killed and its place is free.
        """
        async with self._place(client):
            outcome = await self._run(Job(calculation.name, body, accept, 1 + self.places.free))
        if isinstance(outcome, Failure):
            raise WorkerFailure(outcome)
        return outcome

    async def read(self, reading: FileReading, file: SentFile, client: str) -> Answer:
        """Read one file in a process; ``Refusal`` also where it cannot be read."""
        async with self._place(client):
            outcome = await self._run(FileJob(reading, file))
        if isinstance(outcome, Failure):
            raise WorkerFailure(outcome)
        if isinstance(outcome, Problem):
            raise Refusal(outcome)
        return outcome

    @asynccontextmanager
    async def _place(self, client: str) -> AsyncIterator[None]:
        asked = time_ns()
        async with self.places.place(client):
            self._tracing.done("wait for a place", asked)
            yield

    async def _run(self, job: Job | FileJob) -> Answer | Problem | Failure:
        starting = not self._loaded.is_set()
        try:
            async with asyncio.timeout(self._settings.deadline):
                await self._loaded.wait()
                return await self._outcome(job)
        except TimeoutError:
            if starting:  # asked again, the same request may be done in time
                text = f"what computes was still being started, and {self._settings.deadline:g} s are over"
                raise retry_later("overloaded", text) from None
            detail = f"stopped after {self._settings.deadline:g} s; send less at once, such as one storey"
            raise retry_later("deadline-exceeded", detail) from None
        except (EOFError, OSError):
            raise Refusal(problem("calculation-lost", "the process of this calculation died")) from None

    async def _outcome(self, job: Job | FileJob) -> Answer | Problem | Failure:
        ours, theirs = socket.socketpair()
        try:
            with theirs:
                assert self._control is not None  # noqa: S101 - ready
                socket.send_fds(self._control, [b"j"], [theirs.fileno()])
            reader, writer = await asyncio.open_connection(sock=ours)
        except BaseException:
            ours.close()
            raise
        try:
            writer.write(framed(job))
            worked: Worked = await received_async(reader)
        finally:
            writer.transport.abort()
        self._tracing.done("compute", worked.began, worked.ended, **{"process.pid": worked.process})
        return worked.outcome

    def _start(self) -> tuple[socket.socket, int]:
        """Start the process that forks: from this one where it has one thread, else from the beginning."""
        ours, theirs = socket.socketpair()
        share = self._calculations, self._settings.memory_limit
        with theirs:
            if _single_threaded():
                return ours, _forked(theirs, *share)
            os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
            command = (sys.executable, "-m", mother.__name__, str(theirs.fileno()))
            process = subprocess.Popen(command, pass_fds=[theirs.fileno()], stdin=subprocess.DEVNULL)
            ours.sendall(framed(sys.path) + framed((*share, os.getpid())))
            process.returncode = 0  # it is waited for below
            return ours, process.pid

    async def _keep(self, control: socket.socket, process: int) -> None:
        while True:
            try:
                await self._watch(control)
            finally:
                self._ready.clear()
                self._loaded.clear()
                self._control = None
                control.close()
                await asyncio.shield(asyncio.to_thread(_waited_for, process))
            self.deaths += 1
            self._log.failure(describe(ChildProcessError("the process that forks has ended")))
            await asyncio.sleep(START_AGAIN)
            control, process = self._start()

    async def _watch(self, control: socket.socket) -> None:
        """Until the process has ended: say what it says."""
        control.setblocking(False)
        loop = asyncio.get_running_loop()
        self._control = control
        with suppress(ConnectionResetError):  # it has left jobs unread
            while said := await loop.sock_recv(control, 1):
                (self._ready if said == mother.READY else self._loaded).set()


def _single_threaded() -> bool:
    tasks = Path("/proc/self/task")
    return tasks.exists() and len(list(tasks.iterdir())) == 1


def _forked(control: socket.socket, calculations: tuple[Calculation, ...], memory_limit: int) -> int:
    parent = os.getpid()
    process = os.fork()
    if not process:
        try:
            end_with(parent)
            kept = control.fileno()
            os.closerange(3, kept)
            os.closerange(kept + 1, os.sysconf("SC_OPEN_MAX"))
            mother.serve(control, calculations, memory_limit)
        finally:
            os._exit(0)
    return process


def _waited_for(process: int) -> None:
    with suppress(ChildProcessError):
        os.waitpid(process, 0)
