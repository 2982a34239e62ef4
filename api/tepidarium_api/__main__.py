"""``tepidarium-api``: serve over HTTP."""

from __future__ import annotations

import argparse
import errno
import os
import socket
import sys
from collections.abc import Callable

__all__ = ["main"]


def main() -> None:
    """Serve until told to stop. Settings come from the environment, see ``tepidarium_api.settings``."""
    # before numpy is loaded anywhere: linear algebra in one thread for each process
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # before granian is loaded: its allocator gives back at once what is free, else it keeps the buffers of all
    # connections that ever were
    os.environ.setdefault("_RJEM_MALLOC_CONF", "dirty_decay_ms:0,muzzy_decay_ms:0")
    from .access import Keys  # noqa: PLC0415
    from .calculations import CALCULATIONS  # noqa: PLC0415
    from .parentage import end_with_input  # noqa: PLC0415
    from .server import serve  # noqa: PLC0415
    from .settings import Settings, SettingsError  # noqa: PLC0415
    from .work import warm_up  # noqa: PLC0415

    arguments = _arguments()
    if arguments.end_with_input:
        end_with_input()
    try:
        settings = Settings.from_environment()
        Keys(settings.api_keys)
        warm_up(CALCULATIONS)  # server processes are forked and have it from here
        serve(
            "tepidarium_api.app:create_app",
            arguments.host,
            arguments.port,
            arguments.workers,
            write_timeout=settings.write_timeout,
            share_port=arguments.share_port,
        )
    except SettingsError as error:
        sys.exit(str(error))
    except OSError as error:
        sys.exit(
            f"cannot listen on {arguments.host}, port {arguments.port}: {error.strerror}{_remedy(error)}"
        )


def _remedy(error: OSError) -> str:
    if error.errno != errno.EADDRINUSE:
        return ""
    return ". Stop the other process, take another port, or let both answer by --share-port"


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
    parser.add_argument(
        "--share-port",
        action="store_true",
        help="listen beside another service on the same port; the system divides the connections between both",
    )
    parser.add_argument(
        "--end-with-input",
        action="store_true",
        help="end when the standard input is closed, as by a program that started the service and has gone",
    )
    return parser.parse_args()


if __name__ == "__main__":
    main()
