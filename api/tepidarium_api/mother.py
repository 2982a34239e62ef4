"""The process that has loaded everything and forks one process for each heavy calculation.

Such a process starts in milliseconds, is killed without a loss, takes nothing over from the request before, and gives
all its memory back. The server sends one end of a pair of sockets for each job. It gives a job up by closing the other
end: the process of the job is then killed. When the server ends, however it ends, all of them do.
"""

from __future__ import annotations

import gc
import os
import select
import signal
import socket
import sys
from contextlib import suppress

from tepidarium_engine.late_loading import load_late

from .calculations import Calculation
from .frames import framed, received
from .parentage import end_with
from .work import FileJob, Job, confine, warm_up, work

__all__ = ["LOADED", "READY", "serve"]

READY, LOADED = b"r", b"l"
"""Processes can be forked; and no longer need to load anything themselves."""
_NICENESS = 5
"""The server answers probes and refusals before calculations go on."""


def serve(control: socket.socket, calculations: tuple[Calculation, ...], memory_limit: int) -> None:
    """Fork for every job until the server has gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_IGN)
    by_name = {calculation.name: calculation for calculation in calculations}
    warm_up(calculations)
    control.sendall(READY)
    load_late()  # heavy requests wait for it, the start does not
    # what is there now is never looked at again, so that processes go on sharing it
    gc.collect()
    gc.freeze()
    control.sendall(LOADED)
    with _Jobs(control, by_name, memory_limit) as jobs:
        jobs.run()


class _Jobs:
    def __init__(self, control: socket.socket, by_name: dict[str, Calculation], memory_limit: int) -> None:
        self._control = control
        self._by_name = by_name
        self._memory_limit = memory_limit
        self._processes: dict[int, int] = {}
        self._poll = select.poll()
        self._woken, self._wake = os.pipe()

    def __enter__(self) -> _Jobs:
        for end in (self._woken, self._wake):
            os.set_blocking(end, False)
        signal.set_wakeup_fd(self._wake)
        signal.signal(signal.SIGCHLD, lambda *_: None)
        self._poll.register(self._control, select.POLLIN)
        self._poll.register(self._woken, select.POLLIN)
        return self

    def __exit__(self, *_: object) -> None:
        for process in self._processes.values():
            os.kill(process, signal.SIGKILL)

    def run(self) -> None:
        while True:
            for end, _ in self._poll.poll():
                if end == self._control.fileno():
                    if not self._take():
                        return
                elif end == self._woken:
                    os.read(self._woken, 4096)
                    self._bury()
                elif end in self._processes:  # the server has closed the other end
                    os.kill(self._processes[end], signal.SIGKILL)
                    self._poll.unregister(end)

    def _take(self) -> bool:
        """Start a process for the next job; false when there will be none."""
        _, ends, *_ = socket.recv_fds(self._control, 1, 1)
        if not ends:
            return False
        (end,) = ends
        parent = os.getpid()
        try:
            process = os.fork()
        except OSError:  # the system refuses processes: the server sees the end of this job
            os.close(end)
            return True
        if not process:
            self._compute(end, parent)
        self._processes[end] = process
        self._poll.register(end, 0)
        return True

    def _bury(self) -> None:
        """Close the ends of processes that have ended, by which the server sees it too."""
        ends = {process: end for end, process in self._processes.items()}
        while ends:
            process, _ = os.waitpid(-1, os.WNOHANG)
            if not process:
                return
            end = ends.pop(process)
            del self._processes[end]
            with suppress(KeyError):
                self._poll.unregister(end)
            os.close(end)

    def _compute(self, end: int, parent: int) -> None:
        """In the process of a job: read it, answer, end. The parent may have ended before the first line runs."""
        status = 1
        try:
            signal.set_wakeup_fd(-1)
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)
            signal.signal(signal.SIGTERM, signal.SIG_DFL)
            end_with(parent)
            for other in (self._control.fileno(), self._woken, self._wake, *self._processes):
                os.close(other)
            os.nice(_NICENESS)
            confine(self._memory_limit)
            with socket.socket(fileno=end) as connection:
                job: Job | FileJob = received(connection)
                connection.sendall(framed(work(job, self._by_name)))
            status = 0
        finally:
            os._exit(status)


def _main() -> None:
    control = socket.socket(fileno=int(sys.argv[1]))
    with suppress(EOFError, BrokenPipeError):  # the server has gone again
        sys.path[:] = received(control)
        calculations, memory_limit, server = received(control)
        end_with(server)
        serve(control, calculations, memory_limit)


if __name__ == "__main__":
    _main()
