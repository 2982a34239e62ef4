"""``tepidarium-api``: serve over HTTP."""

from __future__ import annotations

import argparse
import os
import socket
import sys
from collections.abc import Callable

__all__ = ["main", "serve"]


def main() -> None:
    """Serve until told to stop. Settings come from the environment, see ``tepidarium_api.settings``."""
    from .settings import Settings, SettingsError  # noqa: PLC0415

    arguments = _arguments()
    try:
        Settings.from_environment()
        _try_to_listen(arguments.host, arguments.port)
    except SettingsError as error:
        sys.exit(str(error))
    except OSError as error:
        sys.exit(f"cannot listen on {arguments.host}, port {arguments.port}: {error.strerror}")
    serve("tepidarium_api.app:create_app", arguments.host, arguments.port, arguments.workers)


def serve(factory: str, host: str, port: int, workers: int) -> None:
    """Serve the application that ``factory`` ("module:function") makes, with the limits of the service."""
    # before numpy is loaded anywhere: linear algebra in one thread for each process
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # worker processes load this module again and need no server
    from granian import Granian  # noqa: PLC0415
    from granian.constants import HTTPModes, Interfaces  # noqa: PLC0415
    from granian.http import HTTP1Settings  # noqa: PLC0415

    Granian(
        factory,
        factory=True,
        interface=Interfaces.ASGI,
        address=host,
        port=port,
        workers=workers,
        http=HTTPModes.http1,
        websockets=False,
        http1_settings=HTTP1Settings(header_read_timeout=5000, max_buffer_size=16384),
        backlog=1024,
        backpressure=1024,
        respawn_failed_workers=True,
        respawn_interval=3.0,
        workers_kill_timeout=10,
        log_access=False,
    ).serve()


def _try_to_listen(host: str, port: int) -> None:
    """Raises ``OSError`` where nobody can listen; the server itself would end with a trace of its insides."""
    with socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET) as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        trial.bind((host, port))


def _address(host: str) -> str:
    """The address of a host, which may be given by name; IPv4 where a name has both."""
    try:
        found = socket.getaddrinfo(host, None, type=socket.SOCK_STREAM)
    except OSError:
        raise argparse.ArgumentTypeError(f"{host!r} is neither an address nor a known name") from None
    by_family = {family: str(address[0]) for family, _, _, _, address in reversed(found)}
    return by_family.get(socket.AF_INET) or by_family[socket.AF_INET6]


def _whole_number(most: int) -> Callable[[str], int]:
    def read(text: str) -> int:
        if not (text.isascii() and text.isdigit() and 1 <= int(text) <= most):
            raise argparse.ArgumentTypeError(f"must be a whole number from 1 to {most}")
        return int(text)

    return read


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="tepidarium-api", description="Serve the calculations over HTTP.")
    parser.add_argument(
        "--host",
        type=_address,
        default="127.0.0.1",
        help="address or name to listen on (default: this machine only)",
    )
    parser.add_argument(
        "--port", type=_whole_number(65535), default=8000, help="port to listen on (default: 8000)"
    )
    parser.add_argument(
        "--workers", type=_whole_number(1024), default=1, help="server processes (default: 1)"
    )
    return parser.parse_args()


if __name__ == "__main__":
    main()
