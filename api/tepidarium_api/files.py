"""Files that are read: the body is the file, its media type the format, the query string the options."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any
from urllib.parse import parse_qsl

import msgspec
from litestar import asgi
from litestar.exceptions import MethodNotAllowedException
from litestar.handlers import ASGIRouteHandler
from litestar.types import Receive, Scope, Send

from .calculations import FileReading
from .intake import read_file, while_present
from .middleware import client_of
from .negotiation import JSON, choose
from .problems import FieldError, Refusal, problem
from .reading import SentFile, not_acceptable
from .routes import send_answer
from .schemas import options_type
from .settings import Settings
from .structure import StructureCheck, pointer_of
from .workers import Workers

__all__ = ["READING_KEY", "file_routes"]

READING_KEY = "reading"
"""Key under which a route carries its file reading."""
_ALLOW = "OPTIONS, POST"
_MOST_OPTIONS = 100


def file_routes(
    readings: tuple[FileReading, ...], settings: Settings, workers: Workers
) -> Iterator[ASGIRouteHandler]:
    for reading in readings:
        yield _route(reading, settings, workers)


def _route(reading: FileReading, settings: Settings, workers: Workers) -> ASGIRouteHandler:
    options = _Options(reading)
    accepted = ", ".join(reading.formats)

    @asgi(reading.path, opt={READING_KEY: reading}, copy_scope=False)
    async def read(scope: Scope, receive: Receive, send: Send) -> None:
        match scope.get("method"):
            case "POST":
                given = options.read(scope.get("query_string", b""))
                content, media_type, accept = await read_file(
                    scope, receive, settings, tuple(reading.formats)
                )
                if choose(accept, (JSON,)) is None:
                    raise Refusal(not_acceptable())
                file = SentFile(reading.formats[media_type], given, content)
                reading_it = workers.read(reading, file, client_of(scope))
                outcome = await while_present(receive, reading_it)
                headers = [(b"cache-control", b"no-store"), (b"content-type", outcome.media_type.encode())]
                await send_answer(send, 200, outcome.content, headers)
            case "OPTIONS":
                headers = [(b"allow", _ALLOW.encode()), (b"accept-post", accepted.encode())]
                await send_answer(send, 204, b"", headers)
            case _:
                raise MethodNotAllowedException(headers={"Allow": _ALLOW})

    return read


@dataclass(frozen=True, slots=True, init=False)
class _Options:
    """The options of a reading from a query string: each once, a list by its name several times."""

    kind: type
    made: type
    lists: frozenset[str]
    check: StructureCheck

    def __init__(self, reading: FileReading) -> None:
        object.__setattr__(self, "kind", options_type(reading.options))
        object.__setattr__(self, "made", reading.options)
        schema = msgspec.json.schema(self.kind)["$defs"][self.kind.__name__]["properties"]
        lists = frozenset(name for name, member in schema.items() if member.get("type") == "array")
        object.__setattr__(self, "lists", lists)
        object.__setattr__(self, "check", StructureCheck(self.kind))

    def read(self, query: bytes) -> Any:
        """The engine's options; ``Refusal`` names each that cannot be used."""
        try:
            pairs = parse_qsl(
                query.decode("ascii"), keep_blank_values=True, errors="strict", max_num_fields=_MOST_OPTIONS
            )
        except ValueError:
            raise Refusal(problem("bad-request", "the query string cannot be read")) from None
        given: dict[str, Any] = {}
        twice: list[str] = []
        for name, value in pairs:
            if name in self.lists:
                given.setdefault(name, []).append(value)
            elif name in given:
                twice.append(name)
            else:
                given[name] = value
        errors = [
            FieldError(
                pointer=pointer_of([name[:64]]),
                code="given_twice",
                detail="is given twice in the query string",
            )
            for name in twice
        ]
        for name, value in given.items():
            try:
                msgspec.convert({name: value}, self.kind, strict=False)
            except msgspec.ValidationError as fault:
                errors += self.check.faults({name: _plain(value)}, fault)
        if errors:
            raise Refusal(problem("invalid-input", "options in the query string are at fault", tuple(errors)))
        options: Any = msgspec.convert(given, self.kind, strict=False)
        return msgspec.convert(options, self.made, from_attributes=True)


def _plain(value: Any) -> Any:
    """What a text of the query string stands for: a number, true or false where it reads so."""
    if not isinstance(value, str):
        return value
    try:
        return msgspec.json.decode(value.encode())
    except msgspec.DecodeError:
        return value
