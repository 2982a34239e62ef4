"""The server: granian with listening sockets of our own.

The sockets are made once by the first process and stay open while server processes come and go, so that no waiting
connection is lost. The system closes a connection whose client does not read. Nobody else can listen on the port
unless the operator says so.
"""

from __future__ import annotations

import gc
import os
import socket
from collections.abc import Callable
from importlib import import_module
from typing import Any

from granian._granian import SocketHolder
from granian.constants import HTTPModes, Interfaces
from granian.http import HTTP1Settings
from granian.server.mp import MPServer, WorkerProcess

from .parentage import end_with
from .settings import PREFIX

__all__ = ["serve"]

METRICS_PORT = f"{PREFIX}METRICS_PORT"
BACKLOG = 1024
CONNECTIONS = 4096
"""Open connections of one server process; silent ones are closed after 5 s."""
SEND_BUFFER = 128 * 1024
"""What the system keeps of an answer for a client that reads slowly [bytes]."""


def serve(
    factory: str, host: str, port: int, workers: int, *, write_timeout: float = 10.0, share_port: bool = False
) -> None:
    """Serve the application that ``factory`` ("module:function") makes, with the limits of the service.

    ``OSError`` where nobody can listen.
    """
    sockets = listening(host, port, workers, write_timeout, share_port)
    create = _loaded(factory)
    server = _Server(
        factory,
        factory=True,
        interface=Interfaces.ASGI,
        address=host,
        port=port,
        workers=workers,
        http=HTTPModes.http1,
        websockets=False,
        http1_settings=HTTP1Settings(header_read_timeout=5000, max_buffer_size=16384),
        backlog=BACKLOG,
        backpressure=CONNECTIONS,
        respawn_failed_workers=True,
        respawn_interval=1.0,
        workers_kill_timeout=10,
        log_access=False,
    )
    server.sockets = sockets
    parent = os.getpid()

    def made(_target: str) -> Any:
        end_with(parent)
        if first := int(os.environ.get(METRICS_PORT) or 0):
            os.environ[METRICS_PORT] = str(first + server.index)  # each server process has its own figures
        return create()

    # server processes are forked: what is loaded and prepared here is ready in them
    create()
    gc.collect()
    gc.freeze()
    server.serve(target_loader=made)


def listening(
    host: str, port: int, count: int, write_timeout: float, share_port: bool
) -> list[socket.socket]:
    """A socket for each server process. Several of one service share the port among themselves."""
    if not share_port:
        _listener(host, port, shared=False).close()
    sockets = [_listener(host, port, shared=share_port or count > 1) for _ in range(count)]
    for listener in sockets:
        # a connection takes these over
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_SNDBUF, SEND_BUFFER)
        # without it every second piece of an answer waits for the client's delayed acknowledgement, 40 ms
        listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        if hasattr(socket, "TCP_USER_TIMEOUT"):
            listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_USER_TIMEOUT, int(write_timeout * 1000))
        listener.setblocking(False)
        listener.set_inheritable(True)
        listener.listen(BACKLOG)
    return sockets


def _listener(host: str, port: int, *, shared: bool) -> socket.socket:
    listener = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
    try:
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        if shared:
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEPORT, 1)
        listener.bind((host, port))
    except OSError:
        listener.close()
        raise
    return listener


def _loaded(factory: str) -> Callable[[], Any]:
    module, _, name = factory.partition(":")
    create: Callable[[], Any] = getattr(import_module(module), name)
    return create


class _Server(MPServer):
    """Takes the sockets that it is given."""

    sockets: list[socket.socket]
    index = 0
    """Number of the server process that is forked next."""

    def _init_shared_socket(self) -> None:
        self._ssp = self._shd = self._sfd = self._sso = None

    def _drop_shared_socket(self) -> None:
        for listener in self.sockets:
            listener.close()

    def _spawn_worker(self, idx: int, target: Any, callback_loader: Any) -> WorkerProcess:  # type: ignore[override]
        self.index = idx
        self._sso = self.sockets[idx]
        self._shd = SocketHolder(self._sso.fileno(), False, BACKLOG)  # type: ignore[call-arg, assignment]
        worker: WorkerProcess = super()._spawn_worker(idx, target, callback_loader)
        return worker
