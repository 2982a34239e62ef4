"""From the bytes of a request to the bytes of its answer, without a web framework.

Light calculations call ``answer`` in the event loop, heavy ones in a worker process: the same function.
"""

from __future__ import annotations

import re
import sys
from contextlib import suppress
from dataclasses import fields, is_dataclass
from typing import Any

import msgspec
from tepidarium_engine import __version__ as engine_version
from tepidarium_engine.errors import InputError

from .calculations import Calculation
from .cores import spread_over
from .file_answer import zipped
from .negotiation import JSON, choose
from .problems import MAXIMUM_ERRORS, FieldError, Problem, problem
from .schemas import request_type
from .structure import StructureCheck
from .unreadable import unreadable

__all__ = [
    "Answer",
    "NotFiniteError",
    "answer",
    "answer_within",
    "encoded",
    "faulty",
    "not_acceptable",
    "prepare",
]

# A negative zero, or a number so small that it may become one.
_MAY_BE_NEGATIVE_ZERO = re.compile(rb"-[0.]+(?![0-9.])|-[0-9.]+[eE]-")
# float64 with all bits of the exponent set; a match inside another number is possible, hence a second look
_NOT_FINITE = re.compile(rb"\xcb[\x7f\xff][\xf0-\xff]")
_VERSION_MEMBER = b',"engine_version":' + msgspec.json.encode(engine_version)


class Answer(msgspec.Struct, frozen=True):
    """A finished answer: 200 with ``content`` of ``media_type``."""

    media_type: str
    content: bytes


class NotFiniteError(ArithmeticError):
    """A result holds a number that is not finite: a fault of the engine, never an answer."""


def answer(calculation: Calculation, body: bytes, accept: str, *, cores: int = 1) -> Answer | Problem:
    """Decode, calculate and encode one request. What the sender can mend comes back as a ``Problem``.

    On ``cores`` of which more than one is asked for, processes are forked: not in the event loop.
    """
    outcome = prepare(calculation).answer(body, accept, cores)
    assert outcome is not None  # noqa: S101 - without a limit there is always an answer
    return outcome


def answer_within(
    calculation: Calculation, body: bytes, accept: str, seconds: float
) -> Answer | Problem | None:
    """The same where by estimate it takes no longer than so many seconds, else ``None``."""
    return prepare(calculation).answer(body, accept, 1, seconds)


def prepare(calculation: Calculation) -> _Responder:
    """Build what the answers of a calculation need, once; done at start, so that no request waits for it."""
    responder = _responders.get(calculation.name)
    if responder is None or responder.calculation is not calculation:
        responder = _responders[calculation.name] = _Responder(calculation)
    return responder


class _Responder:
    def __init__(self, calculation: Calculation) -> None:
        self.calculation = calculation
        self.media_types = (JSON, *calculation.media_types)
        self.request = request_type(calculation.inputs)
        self.decoder = msgspec.json.Decoder(self.request, strict=True)
        self.structure = StructureCheck(self.request)

    def answer(
        self, body: bytes, accept: str, cores: int, most_effort: float | None = None
    ) -> Answer | Problem | None:
        media_type = choose(accept, self.media_types)
        if media_type is None:
            return not_acceptable(self.media_types)
        request: Any = self._decoded(body)
        if isinstance(request, Problem):
            return request
        if most_effort is not None and self.calculation.effort(request) > most_effort:
            return None
        inputs: Any = msgspec.convert(request, self.calculation.inputs, from_attributes=True)
        try:
            if media_type != JSON:
                inputs = self.calculation.rendered_inputs(inputs)
            result = self._calculated(inputs, cores)
            return Answer(media_type, self._content(media_type, inputs, result, request.workings))
        except InputError as refusal:
            return faulty(refusal)

    def _content(self, media_type: str, inputs: Any, result: Any, workings_wanted: bool) -> bytes:
        if media_type in self.calculation.renderings:
            return self.calculation.renderings[media_type](inputs, result)
        workings = self.calculation.workings(inputs, result) if workings_wanted else None
        document = encoded(self.calculation.answered_inputs(inputs), result, workings)
        if media_type == JSON:
            return document
        return zipped({"result.json": document, **self._files(inputs, result)})

    def _files(self, inputs: Any, result: Any) -> dict[str, bytes]:
        """What can be made of this result: without doorways there is no drawing, without a screed no calendar."""
        made = {}
        for name, render in self.calculation.files.items():
            with suppress(InputError):
                made[name] = render(inputs, result)
        return made

    def _decoded(self, body: bytes) -> Any:
        """The request, or a ``Problem`` where it cannot be read."""
        try:
            request = self.decoder.decode(body)
            if _MAY_BE_NEGATIVE_ZERO.search(body):
                request = msgspec.convert(_without_negative_zero(msgspec.json.decode(body)), self.request)
        except msgspec.ValidationError as failure:
            return self._invalid(body, failure)
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
            return unreadable(body)
        return request

    def _calculated(self, inputs: Any, cores: int) -> Any:
        if not self.calculation.spreads:
            return self.calculation.calculate(inputs)
        with spread_over(cores) as spread:
            return self.calculation.calculate(inputs, spread=spread)

    def _invalid(self, body: bytes, failure: msgspec.ValidationError) -> Problem:
        try:
            document = msgspec.json.decode(body)
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
            return unreadable(body)
        return _faulty(self.structure.faults(document, failure))


_responders: dict[str, _Responder] = {}
_encode = msgspec.json.Encoder().encode


def encoded(inputs: Any, result: Any, workings: tuple[Any, ...] | None = None) -> bytes:
    """A result as JSON, with its inputs, the version and, if there are any, its workings."""
    computed = _encode(result)
    if b"null" in computed:
        _require_finite(result)
    parts = [b'{"inputs":', _encode(inputs), b",", computed[1:-1], _VERSION_MEMBER]
    if workings is not None:
        _require_finite(workings)
        parts += [b',"workings":', _encode(workings)]
    return b"".join((*parts, b"}"))


def faulty(refusal: InputError) -> Problem:
    """The problem of inputs that the engine refuses."""
    return _faulty(tuple(_field_error(fault) for fault in refusal.faults))


def _require_finite(value: Any) -> None:
    """Raise unless every number in a tree of records is finite; JSON would turn it into null.

    In MessagePack such a number has a bit pattern of its own, so that one search finds it.
    """
    if _NOT_FINITE.search(msgspec.msgpack.encode(value)) and not _all_finite(value):
        raise NotFiniteError("a result is not finite")


def _all_finite(value: Any) -> bool:
    if isinstance(value, float):
        return abs(value) <= sys.float_info.max
    if isinstance(value, tuple | list):
        return all(map(_all_finite, value))
    return not is_dataclass(value) or all(_all_finite(getattr(value, item.name)) for item in fields(value))


def _without_negative_zero(value: Any) -> Any:
    if isinstance(value, float):
        return value + 0.0
    if isinstance(value, list):
        return [_without_negative_zero(item) for item in value]
    if isinstance(value, dict):
        return {key: _without_negative_zero(item) for key, item in value.items()}
    return value


def _field_error(fault: Any) -> FieldError:
    return msgspec.convert(fault, FieldError, from_attributes=True)


def _faulty(errors: tuple[FieldError, ...]) -> Problem:
    count = len(errors)
    if count > MAXIMUM_ERRORS:
        text = f"more than {MAXIMUM_ERRORS} fields are at fault; the first are listed"
    else:
        text = "one field is at fault" if count == 1 else f"{count} fields are at fault"
    return problem("invalid-input", text, errors)


def not_acceptable(media_types: tuple[str, ...]) -> Problem:
    return problem("not-acceptable", "can be produced: " + ", ".join(media_types))
