"""For every endpoint the requests that cost most of what is answered in the event loop."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import msgspec
from tepidarium_api.app import create_app
from tepidarium_api.calculations import CALCULATIONS, FILE_READINGS, Calculation
from tepidarium_api.schemas import request_type
from tepidarium_api.settings import Settings

from tests.drills.clients import Asked, asked
from tests.drills.large_requests import LARGE, body

__all__ = ["worst_requests"]

COUNTS = (*range(256, 64, -8), *range(64, 0, -1))
SETTINGS = Settings()


def worst_requests() -> Iterator[tuple[str, list[Asked]]]:
    """By path: what to ask of it. Of calculations the largest request that stays in the event loop, in every form that
    is made there, and the faultiest; of all else the GET."""
    for calculation in CALCULATIONS:
        requests = [asked("POST", calculation.path, faulty) for faulty in _faulty(calculation)]
        if calculation.name in LARGE:
            largest = _largest(calculation)
            forms = (path for path, form in calculation.forms.items() if not calculation.heavy_for(form))
            requests += [asked("POST", path, largest) for path in (calculation.path, *forms)]
        yield calculation.path, requests
    yield "files", [asked("POST", reading.path, {"none": 1}) for reading in FILE_READINGS]
    told = sorted(route.path for route in create_app(SETTINGS).routes if "{" not in route.path)
    calculated = tuple(item.path for item in (*CALCULATIONS, *FILE_READINGS))
    yield "pages", [asked("GET", path) for path in told if not path.startswith(calculated)]


def _largest(calculation: Calculation) -> Any:
    """The largest of the growing requests that the event loop answers by its estimate."""
    for count in COUNTS:
        request = body(calculation.name, count)
        small = len(json.dumps(request)) <= SETTINGS.inline_body_limit
        inputs = msgspec.convert(request, request_type(calculation.inputs))
        if small and calculation.effort(inputs) <= SETTINGS.inline_time:
            return request
    raise AssertionError(f"nothing of {calculation.name} stays in the event loop")


def _faulty(calculation: Calculation) -> list[Any]:
    """As much as a body may hold, and nothing of it right: lists of what they must not hold, and unknown fields."""
    lists = [name for name, value in calculation.example.items() if isinstance(value, list)]
    most = SETTINGS.inline_body_limit // 4 - 100
    return [
        *(dict(calculation.example) | {name: [{}] * (most - 600)} for name in lists),
        {f"unknown {number}": number for number in range(most // 6)},
    ]
