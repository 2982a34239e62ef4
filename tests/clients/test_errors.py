"""Every failure is one error of the tree, with status, problem, fields and request id."""

from __future__ import annotations

import json
import pickle
from collections.abc import Iterator
from typing import Any
from uuid import UUID

import httpx
import pytest
import tepidarium_client
from tepidarium_client import (
    ApiError,
    FieldError,
    InvalidInput,
    Operation,
    ServerError,
    TepidariumError,
    Throttled,
    TimedOut,
    TransportError,
    Unavailable,
)

from tests.clients.asking import URL, answers, ask, problem

BOTH = pytest.mark.parametrize("kind", ["waits", "awaits"])


def kinds_of(base: type[httpx.RequestError]) -> Iterator[type[httpx.RequestError]]:
    yield base
    for derived in base.__subclasses__():
        yield from kinds_of(derived)


@BOTH
@pytest.mark.parametrize("fault", sorted(set(kinds_of(httpx.RequestError)), key=str))
def test_every_fault_of_the_connection_is_mapped(kind: str, fault: type[httpx.RequestError]) -> None:
    service, seen = answers(fault("broken"))
    error, _ = ask(kind, service, retries=0)
    expected: type[TepidariumError] = TransportError
    if issubclass(fault, httpx.TimeoutException):
        expected = TimedOut
    elif issubclass(fault, httpx.DecodingError):
        expected = ServerError
    assert type(error) is expected
    assert isinstance(error.__cause__, fault)
    assert error.status is None
    assert error.request_id == seen[0].headers["X-Request-Id"]
    assert str(UUID(error.request_id)) == error.request_id
    assert error.request_id in str(error)
    assert URL.removeprefix("http://") in str(error)


def test_a_time_out_is_a_time_out_for_the_standard_library_too() -> None:
    error, _ = ask("waits", answers(httpx.ReadTimeout("late"))[0])
    assert isinstance(error, TimeoutError)


@BOTH
@pytest.mark.parametrize(
    ("status", "expected"),
    [
        (302, ApiError),
        (400, InvalidInput),
        (404, ApiError),
        (405, ApiError),
        (406, ApiError),
        (408, ApiError),
        (413, InvalidInput),
        (415, InvalidInput),
        (422, InvalidInput),
        (429, Throttled),
        (500, ServerError),
        (501, ServerError),
        (502, Unavailable),
        (503, Unavailable),
        (504, Unavailable),
    ],
)
def test_every_status_is_mapped(kind: str, status: int, expected: type[ApiError]) -> None:
    service, _ = answers(problem(status, {"X-Request-Id": "from-the-service"}))
    error, _ = ask(kind, service, retries=0)
    assert type(error) is expected
    assert error.status == status
    assert error.problem["title"] == "Made up"
    assert error.request_id == "from-the-service"
    assert "as told" in str(error)
    assert "from-the-service" in str(error)


def test_the_tree() -> None:
    assert issubclass(TransportError, TepidariumError)
    assert issubclass(ApiError, TepidariumError)
    for derived in (InvalidInput, Throttled, Unavailable, ServerError):
        assert issubclass(derived, ApiError)
    kinds = [getattr(tepidarium_client, name) for name in tepidarium_client.__all__]
    errors = [kind for kind in kinds if isinstance(kind, type) and issubclass(kind, Exception)]
    assert {kind for kind in errors if not issubclass(kind, TepidariumError)} == {
        tepidarium_client.LocalServiceError
    }


@BOTH
def test_invalid_input_names_every_field(kind: str) -> None:
    errors = [
        {"pointer": "/pipe_spacing", "code": "too_large", "detail": "must be at most 0.6 m", "limit": 0.6},
        {"pointer": "/area", "code": "missing", "detail": "is needed", "added_later": 1},
        {
            "pointer": "/voids/0",
            "code": "x",
            "detail": "y",
            "changes": [{"op": "remove", "path": "/voids/0"}],
        },
    ]
    error, _ = ask(kind, answers(problem(422, errors=errors))[0])
    assert error.errors == (
        FieldError("/pipe_spacing", "must be at most 0.6 m", "too_large", 0.6),
        FieldError("/area", "is needed", "missing", None),
        FieldError("/voids/0", "y", "x", changes=(Operation("remove", "/voids/0"),)),
    )
    assert "/pipe_spacing: must be at most 0.6 m" in str(error)
    assert "/area: is needed" in str(error)


@pytest.mark.parametrize(
    "response",
    [
        httpx.Response(422, content=b""),
        httpx.Response(422, content=b"<html>no</html>"),
        httpx.Response(422, content=b"\xff\xfe"),
        httpx.Response(422, json=["a list"]),
        httpx.Response(422, json={"errors": "no list"}),
        httpx.Response(422, json={"errors": [17, {"pointer": 3}]}),
    ],
)
def test_a_refusal_that_is_no_problem_document_is_still_an_error(response: httpx.Response) -> None:
    error, _ = ask("waits", answers(response)[0])
    assert type(error) is InvalidInput
    assert error.status == 422


@BOTH
@pytest.mark.parametrize(
    "response",
    [
        httpx.Response(200, json={"not": "the answer"}),
        httpx.Response(200, content=b"{", headers={"Content-Type": "application/json"}),
        httpx.Response(200, content=b"\xff", headers={"Content-Type": "application/json"}),
        httpx.Response(200, content=b"{}"),
        httpx.Response(200, html="<html>log in here</html>"),
    ],
)
def test_a_success_that_is_no_answer_is_an_error(kind: str, response: httpx.Response) -> None:
    error, _ = ask(kind, answers(response)[0], lambda client: client.loop_length({}))
    assert type(error) is ServerError
    assert "cannot be read" in str(error)


def test_a_broken_compression_is_an_error_of_the_tree() -> None:
    class Broken(httpx.SyncByteStream):
        def __iter__(self) -> Iterator[bytes]:
            yield b"not compressed at all"

    headers = {"Content-Type": "application/json", "Content-Encoding": "gzip"}
    error, _ = ask("waits", lambda request: httpx.Response(200, headers=headers, stream=Broken()))
    assert type(error) is ServerError


@pytest.mark.parametrize("number", [float("nan"), float("inf"), -float("inf")])
@BOTH
def test_a_number_without_json_form_is_never_sent(kind: str, number: float) -> None:
    service, seen = answers(problem(500))
    request: dict[str, Any] = {"area": number, "rooms": [{"a/b": {"x~y": [1.0, number]}}]}
    error, _ = ask(kind, service, lambda client: client.answer("loop-length", request))
    assert type(error) is InvalidInput
    assert [item.pointer for item in error.errors] == ["/area", "/rooms/0/a~1b/x~0y/1"]
    assert seen == []


@pytest.mark.parametrize(
    "error",
    [
        TimedOut("late", request_id="r"),
        InvalidInput(
            "422: no", request_id="r", status=422, problem={"status": 422}, errors=(FieldError("/a", "no"),)
        ),
        Throttled("429: slow", request_id="r", status=429, retry_after=3.0),
    ],
)
def test_errors_cross_processes(error: TepidariumError) -> None:
    copied = pickle.loads(pickle.dumps(error))
    assert type(copied) is type(error)
    assert (str(copied), vars(copied)) == (str(error), vars(error))


def test_no_error_repeats_what_was_sent() -> None:
    request = {"name": "a private name", "area": 1.0}
    error, _ = ask("waits", answers(problem(422))[0], lambda client: client.answer("loop-length", request))
    assert "private" not in str(error) + repr(error) + json.dumps(dict(error.problem))
