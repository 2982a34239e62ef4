"""What goes over the wire, and how leniently it is read."""

from __future__ import annotations

import json
from functools import partial
from types import MappingProxyType
from typing import Any

import httpx
import msgspec
import pytest
from tepidarium_client import AsyncClient, Client, __version__, models

from tests.clients.asking import REQUEST, answers, ask

BOTH = pytest.mark.parametrize("kind", ["waits", "awaits"])
LIMITS = {
    "engine_version": "1",
    "service": [],
    "work": [],
    "numbers": [],
    "lists": [],
    "texts": [],
    "dates": [],
}


@BOTH
def test_headers(kind: str) -> None:
    service, seen = answers(httpx.Response(200, json={}))
    ask(kind, service)
    headers = seen[0].headers
    assert headers["Content-Type"] == "application/json"
    assert headers["Accept"] == "application/json, application/problem+json"
    assert headers["User-Agent"] == f"tepidarium-client/{__version__}"
    assert (seen[0].method, seen[0].url.path) == ("POST", "/v1/loop-length")


def loop_length_of(client: Any, request: Any) -> Any:
    return client.answer("loop-length", request)


@BOTH
def test_struct_and_mapping_send_the_same(kind: str) -> None:
    service, seen = answers(httpx.Response(200, json={}))
    struct = models.LoopLengthRequest(area=12.0, pipe_spacing=0.15, tail_length=4.0)
    for request in (struct, REQUEST, MappingProxyType(REQUEST)):
        ask(kind, service, partial(loop_length_of, request=request))
    sent = [json.loads(request.content) for request in seen]
    assert sent[0].items() >= sent[1].items()
    assert sent[1] == sent[2] == REQUEST
    assert "outline" not in sent[0]  # what was not set is not sent, not even as null


def test_numbers_arrive_as_they_were() -> None:
    service, seen = answers(httpx.Response(200, json={}))
    numbers = [0.1, 1 / 3, 5e-324, 1.7976931348623157e308, -0.0, 2**53 + 1]
    ask("waits", service, lambda client: client.answer("loop-length", {"numbers": numbers}))
    assert repr(json.loads(seen[0].content)["numbers"]) == repr(numbers)


@BOTH
def test_fields_that_a_later_service_adds_are_ignored(kind: str) -> None:
    later: dict[str, Any] = {**LIMITS, "added_later": {"anything": [1]}}
    later["numbers"] = [
        {"name": "area", "unit": "m2", "minimum": 0.1, "maximum": 9.0, "description": "d", "added_later": 1}
    ]
    answer, _ = ask(kind, answers(httpx.Response(200, json=later))[0], lambda client: client.limits())
    assert isinstance(answer, models.Limits)
    assert answer.numbers[0].maximum == 9.0


def test_values_that_a_later_service_allows_are_read() -> None:
    """The bounds of this version's document do not stand in the way of an answer."""
    pipe = msgspec.json.decode(b'{"outside_diameter": 99.0, "wall_thickness": 9.0}', type=models.PipeInput)
    assert pipe.outside_diameter == 99.0


@BOTH
def test_the_calendar_is_asked_for_by_its_media_type(kind: str) -> None:
    calendar = httpx.Response(200, text="BEGIN:VCALENDAR", headers={"Content-Type": "text/calendar"})
    service, seen = answers(calendar)
    answer, _ = ask(kind, service, lambda client: client.curing_plan_calendar({}))
    assert answer == "BEGIN:VCALENDAR"
    assert seen[0].headers["Accept"].startswith("text/calendar")
    assert seen[0].url.path == "/v1/curing-plan/calendar"


@pytest.mark.parametrize("client", [Client, AsyncClient])
@pytest.mark.parametrize(
    ("url", "through_proxies"),
    [
        ("http://127.0.0.1:8000", False),
        ("http://localhost:8000", False),
        ("http://[::1]:8000", False),
        ("https://heating.example", True),
    ],
)
def test_a_service_on_this_computer_is_never_asked_through_a_proxy(
    client: Any, url: str, through_proxies: bool
) -> None:
    assert client(url)._http.trust_env is through_proxies


@pytest.mark.parametrize("client", [Client, AsyncClient])
@pytest.mark.parametrize(
    "options",
    [
        {"base_url": "localhost:8000"},
        {"base_url": "http://"},
        {"base_url": "http://host:port"},
        {"retries": -1},
    ],
)
def test_settings_that_cannot_work_are_refused(client: Any, options: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match=r"address|retries"):
        client(**options)


def test_a_path_in_the_address_is_kept() -> None:
    service, seen = answers(httpx.Response(200, json={}))
    with Client("http://127.0.0.1:9/heating/", transport=httpx.MockTransport(service)) as client:
        client.answer("loop-length", REQUEST)
    assert seen[0].url.path == "/heating/v1/loop-length"
