"""Which requests are sent again, how often, and after which pauses."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from email.utils import format_datetime

import httpx
import pytest
from tepidarium_client import Answer, Throttled, TransportError, Unavailable

from tests.clients.asking import answers, ask, problem

pytestmark = pytest.mark.parametrize("kind", ["waits", "awaits"])

GOOD = httpx.Response(200, json={})


@pytest.mark.parametrize(
    "trouble",
    [
        httpx.ConnectError("refused"),
        httpx.ConnectTimeout("no route"),
        httpx.ReadError("reset"),
        httpx.WriteError("reset"),
        httpx.PoolTimeout("busy"),
        httpx.RemoteProtocolError("closed without an answer"),
        problem(429),
        problem(503),
    ],
)
def test_trouble_that_passes_is_not_noticed(kind: str, trouble: httpx.Response | Exception) -> None:
    service, seen = answers(trouble, trouble, GOOD)
    outcome, pauses = ask(kind, service)
    assert isinstance(outcome, Answer)
    assert outcome.content == b"{}"
    assert len(seen) == 3
    assert len(pauses) == 2
    assert len({request.headers["X-Request-Id"] for request in seen}) == 1
    assert len({request.content for request in seen}) == 1


@pytest.mark.parametrize(
    "trouble",
    [
        httpx.ReadTimeout("still computing"),
        httpx.UnsupportedProtocol("gopher"),
        problem(400),
        problem(404),
        problem(422),
        problem(500),
        problem(502),
        problem(503, type="/problems/deadline-exceeded"),
    ],
)
def test_trouble_that_stays_is_told_at_once(kind: str, trouble: httpx.Response | Exception) -> None:
    service, seen = answers(trouble, GOOD)
    outcome, pauses = ask(kind, service)
    assert isinstance(outcome, Exception)
    assert len(seen) == 1
    assert pauses == []


@pytest.mark.parametrize("retries", [0, 1, 5])
def test_the_number_of_attempts_is_the_callers(kind: str, retries: int) -> None:
    service, seen = answers(httpx.ConnectError("refused"))
    outcome, pauses = ask(kind, service, retries=retries)
    assert isinstance(outcome, TransportError)
    assert (len(seen), len(pauses)) == (retries + 1, retries)


def test_pauses_double_with_jitter_up_to_a_cap(kind: str) -> None:
    _, pauses = ask(kind, answers(problem(503))[0], retries=9)
    for attempt, pause in enumerate(pauses):
        longest = min(8.0, 0.25 * 2**attempt)
        assert longest / 2 <= pause <= longest
    _, others = ask(kind, answers(problem(503))[0], retries=9)
    assert pauses != others


@pytest.mark.parametrize("status", [429, 503])
def test_retry_after_in_seconds_is_the_least_pause(kind: str, status: int) -> None:
    _, pauses = ask(kind, answers(problem(status, {"Retry-After": "7"}), GOOD)[0])
    assert 7.0 <= pauses[0] <= 7.25


def test_retry_after_as_a_date_is_understood(kind: str) -> None:
    moment = format_datetime(datetime.now(UTC) + timedelta(seconds=20), usegmt=True)
    _, pauses = ask(kind, answers(problem(503, {"Retry-After": moment}), GOOD)[0])
    assert 18.0 <= pauses[0] <= 20.25


@pytest.mark.parametrize("text", ["soon", "-3", "1e3", "", "Wed, 99 Foo 2026"])
def test_retry_after_that_says_nothing_is_ignored(kind: str, text: str) -> None:
    outcome, pauses = ask(kind, answers(problem(503, {"Retry-After": text}), GOOD)[0])
    assert isinstance(outcome, Answer)
    assert pauses[0] <= 0.25


def test_a_date_in_the_past_means_now(kind: str) -> None:
    moment = format_datetime(datetime.now(UTC) - timedelta(hours=1), usegmt=True)
    _, pauses = ask(kind, answers(problem(503, {"Retry-After": moment}), GOOD)[0])
    assert pauses[0] <= 0.25


@pytest.mark.parametrize(("status", "expected"), [(429, Throttled), (503, Unavailable)])
def test_a_long_wait_is_left_to_the_caller(kind: str, status: int, expected: type[Unavailable]) -> None:
    service, seen = answers(problem(status, {"Retry-After": "3600"}), GOOD)
    outcome, pauses = ask(kind, service)
    assert type(outcome) is expected
    assert outcome.retry_after == 3600.0
    assert (len(seen), pauses) == (1, [])


def test_ready_takes_503_for_an_answer(kind: str) -> None:
    service, seen = answers(problem(503))
    assert ask(kind, service, lambda client: client.ready()) == (False, [])
    assert len(seen) == 1
    assert ask(kind, answers(GOOD)[0], lambda client: client.ready()) == (True, [])
    outcome, _ = ask(kind, answers(httpx.ConnectError("refused"))[0], lambda client: client.ready())
    assert isinstance(outcome, TransportError)
