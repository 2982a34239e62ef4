"""Generated requests against the whole document: the service does what the document says.

What the generator does not find, such as text taken for a number, stands in tests/api/test_bodies.py.
"""

from __future__ import annotations

import io
import os
from dataclasses import replace

import hypothesis
import pytest
import schemathesis
from schemathesis.config import SchemathesisConfig
from tepidarium_api.app import create_app
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.document import openapi_document
from tepidarium_api.settings import Settings

EXAMPLES = int(os.environ.get("CONTRACT_EXAMPLES", "40"))

# each generated request has an event loop of its own, where worker processes would start anew: compute inline
app = create_app(
    Settings(processes=1, inline_body_limit=256 * 1024),
    tuple(replace(calculation, heavy=False) for calculation in CALCULATIONS),
    log_stream=io.BytesIO(),
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
schema = schemathesis.openapi.from_dict(openapi_document(app), config=configuration)
schema.app = app


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
@schema.parametrize()
@hypothesis.settings(
    max_examples=EXAMPLES,
    derandomize=True,
    deadline=None,
    database=None,
    suppress_health_check=list(hypothesis.HealthCheck),
)
def test_the_service_keeps_to_its_document(case: schemathesis.Case) -> None:
    case.call_and_validate()
