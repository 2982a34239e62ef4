"""What the service offers and where its limits lie, for programs."""

from __future__ import annotations

from typing import Annotated

import msgspec
from litestar import get
from litestar.handlers import HTTPRouteHandler
from litestar.params import FromPath
from msgspec import Meta
from tepidarium_engine import __version__ as engine_version
from tepidarium_engine.glossary import Day, Entry, Items, Number, Text
from tepidarium_engine.limits import WORK_LIMITS

from .calculations import Calculation, FileReading
from .negotiation import JSON
from .problems import MAXIMUM_ERRORS, PROBLEM_TYPES, ProblemType, Refusal, problem
from .schemas import request_entries
from .settings import Settings

__all__ = ["Catalogue", "Limits", "catalogue_routes", "limits_of"]


class CatalogueEntry(msgspec.Struct, frozen=True, kw_only=True):
    """One calculation that the service offers."""

    name: Annotated[str, Meta(description="Name of the calculation")]
    summary: Annotated[str, Meta(description="What it computes")]
    path: Annotated[str, Meta(description="Path to POST the request to")]
    heavy: Annotated[bool, Meta(description="Whether it runs in a worker process under the deadline")]
    media_types: Annotated[tuple[str, ...], Meta(description="Media types of the answer, chosen by Accept")]


class Catalogue(msgspec.Struct, frozen=True, kw_only=True):
    """All calculations that the service offers."""

    engine_version: Annotated[str, Meta(description="Version of the engine")]
    calculations: Annotated[tuple[CatalogueEntry, ...], Meta(description="The calculations in a fixed order")]


class NumberLimit(msgspec.Struct, frozen=True, kw_only=True):
    """Range of a number in requests."""

    name: Annotated[str, Meta(description="Name of the field")]
    unit: Annotated[str, Meta(description="Unit of the number and of its bounds")]
    minimum: Annotated[float, Meta(description="Least value that is accepted")]
    maximum: Annotated[float, Meta(description="Greatest value that is accepted")]
    description: Annotated[str, Meta(description="Meaning of the field")]


class LengthLimit(msgspec.Struct, frozen=True, kw_only=True):
    """Length of a list or text in requests."""

    name: Annotated[str, Meta(description="Name of the field")]
    minimum: Annotated[int, Meta(description="Least number of items or characters")]
    maximum: Annotated[int, Meta(description="Greatest number of items or characters")]
    description: Annotated[str, Meta(description="Meaning of the field")]


class DateLimit(msgspec.Struct, frozen=True, kw_only=True):
    """Range of a date in requests."""

    name: Annotated[str, Meta(description="Name of the field")]
    first_year: Annotated[int, Meta(description="First year that is accepted")]
    last_year: Annotated[int, Meta(description="Last year that is accepted")]
    description: Annotated[str, Meta(description="Meaning of the field")]


class ServiceLimit(msgspec.Struct, frozen=True, kw_only=True):
    """A limit that is not the range of one field."""

    name: Annotated[str, Meta(description="Name of the limit")]
    value: Annotated[float, Meta(description="Value of the limit in its unit")]
    unit: Annotated[str, Meta(description="Unit of the value")]
    description: Annotated[str, Meta(description="What is limited")]


class Limits(msgspec.Struct, frozen=True, kw_only=True):
    """Every limit that a request is checked against."""

    engine_version: Annotated[str, Meta(description="Version of the engine")]
    service: Annotated[tuple[ServiceLimit, ...], Meta(description="Limits of the service")]
    work: Annotated[
        tuple[ServiceLimit, ...], Meta(description="Limits of what one request may ask to be computed")
    ]
    numbers: Annotated[
        tuple[NumberLimit, ...], Meta(description="Ranges of the numbers, by name of the field")
    ]
    lists: Annotated[tuple[LengthLimit, ...], Meta(description="Lengths of the lists, by name of the field")]
    texts: Annotated[tuple[LengthLimit, ...], Meta(description="Lengths of the texts, by name of the field")]
    dates: Annotated[tuple[DateLimit, ...], Meta(description="Ranges of the dates, by name of the field")]


def catalogue_of(calculations: tuple[Calculation, ...], readings: tuple[FileReading, ...]) -> Catalogue:
    offered: tuple[Calculation | FileReading, ...] = (*calculations, *readings)
    return Catalogue(
        engine_version=engine_version,
        calculations=tuple(
            CatalogueEntry(
                name=item.name,
                summary=item.summary,
                path=item.path,
                heavy=item.heavy,
                media_types=(JSON, *item.media_types),
            )
            for item in offered
        ),
    )


def limits_of(
    calculations: tuple[Calculation, ...], readings: tuple[FileReading, ...], settings: Settings
) -> Limits:
    entries: dict[str, Entry] = {}
    for calculation in calculations:
        entries.update(request_entries(calculation.inputs))
    for reading in readings:
        entries.update(request_entries(reading.options))
    ordered = sorted(entries.items())
    return Limits(
        engine_version=engine_version,
        service=_service_limits(settings),
        work=tuple(ServiceLimit(**limit._asdict()) for limit in WORK_LIMITS),
        numbers=tuple(
            NumberLimit(
                name=name,
                unit=item.unit,
                minimum=item.minimum,
                maximum=item.maximum,
                description=item.description,
            )
            for name, item in ordered
            if isinstance(item, Number)
        ),
        lists=tuple(
            LengthLimit(name=name, minimum=item.minimum, maximum=item.maximum, description=item.description)
            for name, item in ordered
            if isinstance(item, Items)
        ),
        texts=tuple(
            LengthLimit(
                name=name,
                minimum=item.minimum_length,
                maximum=item.maximum_length,
                description=item.description,
            )
            for name, item in ordered
            if isinstance(item, Text)
        ),
        dates=tuple(
            DateLimit(
                name=name, first_year=item.first_year, last_year=item.last_year, description=item.description
            )
            for name, item in ordered
            if isinstance(item, Day)
        ),
    )


def _service_limits(settings: Settings) -> tuple[ServiceLimit, ...]:
    rows: tuple[tuple[str, float, str, str], ...] = (
        ("body", settings.body_limit, "byte", "Size of a request body"),
        ("body_time", settings.body_timeout, "s", "Time for a request body to arrive"),
        ("file", settings.file_limit, "byte", "Size of a plan that is sent as a file"),
        ("file_time", settings.file_timeout, "s", "Time for such a file to arrive"),
        ("memory", settings.memory_limit, "byte", "Memory that a calculation in a process may take"),
        (
            "client_share",
            settings.client_share,
            "1",
            "Part of the places to compute and wait that one client may have",
        ),
        ("deadline", settings.deadline, "s", "Time for a calculation in a worker process"),
        ("processes", settings.processes, "1", "Calculations in worker processes at a time"),
        ("queue", settings.queue_length, "1", "Requests that may wait for a worker process"),
        ("queue_time", settings.queue_timeout, "s", "Time that a request may wait for a worker process"),
        ("listed_errors", MAXIMUM_ERRORS, "1", "Errors listed in one problem document"),
    )
    return tuple(
        ServiceLimit(name=name, value=value, unit=unit, description=text) for name, value, unit, text in rows
    )


def catalogue_routes(
    calculations: tuple[Calculation, ...], readings: tuple[FileReading, ...], settings: Settings
) -> list[HTTPRouteHandler]:
    catalogue, limits = catalogue_of(calculations, readings), limits_of(calculations, readings, settings)

    @get(
        "/v1/calculations",
        operation_id="list_calculations",
        summary="The calculations that the service offers",
        description="Name, path and media types of every calculation, with the version of the engine.",
        tags=["catalogue"],
    )
    async def list_calculations() -> Catalogue:
        return catalogue

    @get(
        "/v1/limits",
        operation_id="list_limits",
        summary="Every limit with its value",
        description="Limits of the service and bounds of the numbers, lists, texts and dates in requests.",
        tags=["catalogue"],
    )
    async def list_limits() -> Limits:
        return limits

    @get(
        "/problems/{slug:str}",
        operation_id="explain_problem",
        summary="What a type of problem means",
        description="Explains the type of a problem document and what to do about it.",
        tags=["catalogue"],
        opt={"path_values": {"slug": tuple(PROBLEM_TYPES)}, "problems": ("not-found",)},
    )
    async def explain_problem(slug: FromPath[str]) -> ProblemType:
        if slug not in PROBLEM_TYPES:
            raise Refusal(problem("not-found", "there is no such type of problem"))
        return PROBLEM_TYPES[slug]

    return [list_calculations, list_limits, explain_problem]
