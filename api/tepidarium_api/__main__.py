"""``tepidarium-api``: serve over HTTP."""

from __future__ import annotations

import argparse
import os
import sys

__all__ = ["main", "serve"]


def main() -> None:
    """Serve until told to stop. Settings come from the environment, see ``tepidarium_api.settings``."""
    from .settings import Settings, SettingsError  # noqa: PLC0415

    arguments = _arguments()
    try:
        Settings.from_environment()
    except SettingsError as error:
        sys.exit(str(error))
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


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="tepidarium-api", description="Serve the calculations over HTTP.")
    parser.add_argument(
        "--host", default="127.0.0.1", help="address to listen on (default: this machine only)"
    )
    parser.add_argument("--port", type=int, default=8000, help="port to listen on (default: 8000)")
    parser.add_argument("--workers", type=int, default=1, help="server processes (default: 1)")
    return parser.parse_args()


if __name__ == "__main__":
    main()
