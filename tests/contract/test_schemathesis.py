"""Generated requests against the whole document: the service does what the document says.

What the generator does not find, such as text taken for a number, stands in tests/api/test_bodies.py.
"""

from __future__ import annotations

import io
import os
from collections.abc import Collection
from dataclasses import replace
from typing import Any

import hypothesis
import pytest
import schemathesis
from schemathesis.config import SchemathesisConfig
from tepidarium_api.app import create_app
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.document import openapi_document
from tepidarium_api.settings import Settings

from tests.findings.answered import finding_faults, wording_faults

SMALL_ROOM = [[0.0, 0.0], [3.2, 0.0], [3.2, 2.0], [0.0, 2.0]]
SMALL: dict[str, dict[str, Any]] = {
    "designs": {
        "rooms": [
            {
                "id": "study",
                "outline": SMALL_ROOM,
                "heat_demand": 250.0,
                "build_up": "floor",
                "pipe_spacing": 0.25,
            }
        ],
        "build_ups": [{"id": "floor", "resistance_below": 2.0, "temperature_below": 10.0}],
        "manifold": {"position": [0.3, 0.0]},
        "doorways": [],
    },
    "routes": {"outline": SMALL_ROOM, "entry": [1.0, 0.0], "pipe_spacing": 0.25},
}
"""In place of the document's own examples, each of which would be solved in some hundred variants: as many members,
less floor."""
EXAMPLES = int(os.environ.get("CONTRACT_EXAMPLES", "40"))

# each generated request has an event loop of its own, where worker processes would start anew: compute inline, and
# leave what always has one, the reading of files, to its own tests
app = create_app(
    Settings(processes=1, inline_body_limit=256 * 1024, inline_time=3600.0),
    tuple(replace(one, heavy=False, example=SMALL.get(one.name, one.example)) for one in CALCULATIONS),
    log_stream=io.BytesIO(),
    readings=(),
)
# what is well-formed may still be impossible, and /health/ready tells the truth: here are no worker processes
configuration = SchemathesisConfig.from_dict(
    {
        "checks": {"positive_data_acceptance": {"expected-statuses": ["2xx", 422]}},
        "operations": [
            {
                "include-path": "/health/ready",
                "checks": {
                    "positive_data_acceptance": {"enabled": False},
                    "not_a_server_error": {"enabled": False},
                },
            }
        ],
    }
)
document = openapi_document(app)
FORMS = {path for calculation in CALCULATIONS for path in calculation.forms}
"""Drawings and calendars. They take the requests of the calculation above them, so that a few will do."""


def operations(paths: Collection[str]) -> schemathesis.BaseSchema:
    """The operations of the document at these paths."""
    part = {**document, "paths": {path: document["paths"][path] for path in sorted(paths)}}
    schema = schemathesis.openapi.from_dict(part, config=configuration)
    schema.app = app
    return schema


def settings(examples: int, *phases: hypothesis.Phase) -> hypothesis.settings:
    return hypothesis.settings(
        max_examples=examples,
        phases=phases,
        derandomize=True,
        deadline=None,
        database=None,
        suppress_health_check=list(hypothesis.HealthCheck),
    )


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
@operations(document["paths"].keys() - FORMS).parametrize()
@settings(EXAMPLES, *hypothesis.Phase)
def test_the_service_keeps_to_its_document(case: schemathesis.Case) -> None:
    response = case.call_and_validate()
    if response.status_code == 200 and case.path.startswith("/v1/") and case.method == "POST":
        answer = response.json() if "json" in response.headers["content-type"][0] else {"findings": []}
        assert finding_faults(answer) + wording_faults(answer) == []


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
@operations(FORMS).parametrize()
@settings(EXAMPLES // 4, hypothesis.Phase.generate)
def test_other_forms_of_answers_keep_to_it_as_well(case: schemathesis.Case) -> None:
    case.call_and_validate()
