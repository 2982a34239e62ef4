"""The options of the command line."""

from __future__ import annotations

import argparse
import os
from collections.abc import Mapping
from pathlib import Path

from .._client import DEFAULT_URL, service_url
from .._operations import Calculations, Operation
from .._version import __version__
from .._wire import JSON
from ._plan_import import add_import

__all__ = ["CALCULATIONS", "URL_VARIABLE", "parse"]

URL_VARIABLE = "TEPIDARIUM_URL"

CALCULATIONS = {
    operation.name: operation
    for operation in vars(Calculations).values()
    if isinstance(operation, Operation) and operation.accept == JSON
}
"""Command, which is the name of the calculation -> the operation that reads its answer."""

OTHER_FORMS = {
    command: {
        operation.name.partition("/")[2]: operation
        for operation in vars(Calculations).values()
        if isinstance(operation, Operation) and operation.name.startswith(f"{command}/")
    }
    for command in CALCULATIONS
}
"""Command -> options that print the answer in another form -> the operation."""

SERVICE_COMMANDS = {
    "calculations": "The calculations that the service offers.",
    "findings": "What the codes of findings, refusals and cautions mean.",
    "limits": "Every limit of the service with its unit.",
    "ready": "Whether the service can calculate now.",
}

BATCH = """Compute a file of requests, one a line, into a file of results, one a line. The same command again goes on
where an earlier one ended, however that came."""

FORMER = (
    """a former answer (or request) for this house, as JSON: keep what it decided, show what has changed"""
)

DESCRIPTION = """Floor heating calculations by the Tepidarium service. Every calculation reads a request as
JSON in SI units, from a file or, with -, from standard input. Reports show trade units (mm, l/min, kPa)."""

EPILOG = f"""\
exit codes:
  0    a result
  1    a result with a finding of severity "violation", if --strict was given;
       not ready, for the command "ready"
  2    wrong usage: unknown option, unreadable file, full disk, no service installed for --local
  3    invalid input: not JSON, or fields that cannot be computed; batch: lines with a problem
  4    the service cannot be reached, or did not answer in time
  5    the service is busy or failed
  130  interrupted

The address of the service is that of --url, else of {URL_VARIABLE}, else {DEFAULT_URL}."""


def parse(arguments: list[str] | None, environment: Mapping[str, str] = os.environ) -> argparse.Namespace:
    """The parsed options; leaves the program with code 2 on wrong use."""
    parser = argparse.ArgumentParser(
        prog="tepidarium",
        description=DESCRIPTION,
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=__version__)
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    service = _service_options(environment.get(URL_VARIABLE, DEFAULT_URL))
    for command, operation in CALCULATIONS.items():
        text = operation.__doc__
        one = commands.add_parser(command, parents=[service], help=text, description=text, allow_abbrev=False)
        _calculation_options(one)
        for other, form in OTHER_FORMS[command].items():
            text = f"print this instead: {form.__doc__}"
            one.add_argument(f"--{other}", dest="form", action="store_const", const=form.accept, help=text)
        if command == "designs":
            one.add_argument("--output", metavar="FOLDER", type=Path, help="also write every document there")
            one.add_argument("--former", metavar="FILE", help=FORMER)
    add_import(commands, service)
    _batch_command(
        commands.add_parser("batch", parents=[service], help=BATCH, description=BATCH, allow_abbrev=False)
    )
    for command, text in SERVICE_COMMANDS.items():
        commands.add_parser(command, parents=[service], help=text, description=text, allow_abbrev=False)
    options = parser.parse_args(arguments)
    beside = getattr(options, "output", None) or any(
        getattr(options, name, False) for name in ("json", "workings", "strict")
    )
    if getattr(options, "form", None) is not None and beside:
        other = next(
            name for name, form in OTHER_FORMS[options.command].items() if form.accept == options.form
        )
        parser.error(f"--{other} cannot be combined with --json, --workings, --strict or --output")
    return options


def _service_options(url: str) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(add_help=False)
    place = parser.add_mutually_exclusive_group()
    place.add_argument("--url", type=_address, default=url, help="address of the service (now %(default)s)")
    place.add_argument(
        "--local", action="store_true", help="start a service on this computer for this command"
    )
    parser.add_argument(
        "--json", action="store_true", help="print the answer of the service as it is, for scripts"
    )
    parser.add_argument(
        "--timeout", type=_seconds, default=60.0, metavar="S", help="wait for an answer (60 s)"
    )
    parser.add_argument("--retries", type=_count, default=3, metavar="N", help="attempts after the first (3)")
    return parser


def _calculation_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("request", metavar="FILE", help="the request as JSON; - for standard input")
    parser.add_argument(
        "--workings", action="store_true", help="show the intermediate values with their sources"
    )
    parser.add_argument(
        "--strict", action="store_true", help="exit with 1 if anything should not be built like this"
    )


def _batch_command(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("calculation", metavar="CALCULATION", choices=CALCULATIONS, help="such as designs")
    parser.add_argument("source", metavar="FILE", type=Path, help="the requests: JSON, one a line (NDJSON)")
    parser.add_argument(
        "--output",
        metavar="FILE",
        type=Path,
        required=True,
        help="the results, one a line; added to, never replaced",
    )
    parser.add_argument(
        "--as-they-come",
        action="store_true",
        help="write results as they come, not in the order of the requests",
    )
    parser.add_argument(
        "--concurrency", type=_places, default=64, metavar="N", help="requests under way at most (64)"
    )
    parser.add_argument(
        "--patience",
        type=_seconds,
        default=600.0,
        metavar="S",
        help="wait for a busy or missing service (600 s)",
    )


def _address(text: str) -> str:
    try:
        return str(service_url(text))
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from error


def _seconds(text: str) -> float:
    value = float(text)
    if not 0.0 < value < 1e6:
        raise argparse.ArgumentTypeError("must be more than 0 s")
    return value


def _places(text: str) -> int:
    value = int(text)
    if not 1 <= value <= 1000:
        raise argparse.ArgumentTypeError("must be 1 to 1000")
    return value


def _count(text: str) -> int:
    value = int(text)
    if not 0 <= value <= 100:
        raise argparse.ArgumentTypeError("must be 0 to 100")
    return value
