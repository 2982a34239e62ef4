"""Both clients against the real service: in the same process, and over a socket."""

from __future__ import annotations

import asyncio
import io
import json
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import httpx
import msgspec
import pytest
from tepidarium_api.app import create_app
from tepidarium_api.settings import Settings
from tepidarium_client import ApiError, AsyncClient, Client, InvalidInput, models

EXAMPLES = Path(__file__).parents[2] / "examples"
METHODS = [
    "floor_section",
    "heat_loss",
    "insulation_check",
    "heat_output",
    "supply_temperature",
    "loop_length",
    "routes",
    "manifold_position",
    "hydraulics",
    "curing_plan",
    "moisture_reading",
    "coil_plan",
    "materials",
    "laying_sheets",
    "commissioning",
    "designs",
    "design_options",
    "design_sensitivity",
    "heating_season",
    "estimates",
]


def example(method: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((EXAMPLES / f"{method.replace('_', '-')}.json").read_text())
    return found


def in_process(question: Callable[[AsyncClient], Awaitable[Any]]) -> Any:
    """Ask the application without a socket."""

    async def run() -> Any:
        app: Any = create_app(Settings(processes=1), log_stream=io.BytesIO())
        async with app.lifespan(), AsyncClient(transport=httpx.ASGITransport(app)) as client:
            return await question(client)

    return asyncio.run(run())


@pytest.mark.parametrize("method", METHODS)
def test_every_example_gives_a_typed_answer(url: str, method: str) -> None:
    with Client(url) as client:
        answer = getattr(client, method)(example(method))
        raw = client.answer(method.replace("_", "-"), example(method))
    assert type(answer) is getattr(models, method.title().replace("_", "") + "Response")
    assert answer.engine_version
    assert answer.cautions
    assert msgspec.json.decode(msgspec.json.encode(answer)) == msgspec.json.decode(raw.content)


@pytest.mark.parametrize("method", METHODS)
def test_a_request_struct_gives_the_same_bytes_as_its_mapping(url: str, method: str) -> None:
    kind = getattr(Client, method).request
    struct = msgspec.convert(example(method), kind)
    name = method.replace("_", "-")
    with Client(url) as client:
        assert client.answer(name, struct).content == client.answer(name, example(method)).content


@pytest.mark.parametrize("method", METHODS)
def test_both_clients_agree(url: str, method: str) -> None:
    async def ask() -> Any:
        async with AsyncClient(url) as client:
            return await getattr(client, method)(example(method))

    with Client(url) as client:
        assert asyncio.run(ask()) == getattr(client, method)(example(method))


def test_workings_come_when_asked_for(url: str) -> None:
    with Client(url) as client:
        assert client.loop_length(example("loop_length")).workings is msgspec.UNSET
        answer = client.loop_length({**example("loop_length"), "workings": True})
    assert answer.workings
    assert all(step.formula and step.source for step in answer.workings)


def test_without_a_socket() -> None:
    async def ask(client: AsyncClient) -> Any:
        return await client.loop_length(example("loop_length")), await client.ready()

    answer, _ = in_process(ask)
    assert answer.circuits


def test_invalid_input_names_the_field_and_the_request() -> None:
    async def ask(client: AsyncClient) -> Any:
        with pytest.raises(InvalidInput) as caught:
            await client.loop_length({**example("loop_length"), "pipe_spacing": 150.0, "colour": "red"})
        return caught.value

    error = in_process(ask)
    assert error.status == 422
    fields = {item.pointer: item for item in error.errors}
    assert set(fields) == {"/pipe_spacing", "/colour"}
    assert fields["/pipe_spacing"].limit is not None
    assert error.request_id in error.problem["instance"]


def test_what_the_service_offers(url: str) -> None:
    with Client(url) as client:
        offered = {entry.name: entry.media_types for entry in client.calculations().calculations}
        assert set(offered) == {method.replace("_", "-") for method in (*METHODS, "plan_imports")}
        assert "text/calendar" in offered["curing-plan"]
        limits = {limit.name: limit for limit in client.limits().numbers}
        assert limits["pipe_spacing"].unit == "m"
        assert client.ready() is True


def test_the_calendar_is_one(url: str) -> None:
    with Client(url) as client:
        text = client.curing_plan_calendar(example("curing_plan"))
    # RFC 5545, 3.4: a stream begins and ends with its component; 3.1: lines end in CRLF
    assert text.startswith("BEGIN:VCALENDAR\r\n")
    assert text.endswith("END:VCALENDAR\r\n")


def test_drawings_are_ones(url: str) -> None:
    with Client(url) as client:
        texts = (client.routes_drawing(example("routes")), client.designs_drawing(example("designs")))
    for text in texts:
        # SVG 1.1, 1.2: the namespace of the root element
        assert ElementTree.fromstring(text.encode()).tag == "{http://www.w3.org/2000/svg}svg"


def test_what_is_not_there_is_an_error(url: str) -> None:
    with Client(url) as client, pytest.raises(ApiError) as caught:
        client.answer("underwater-basket", {})
    assert caught.value.status == 404
