"""The service with a made-up calculation, in this process."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any

import pytest
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api.app import create_app
from tepidarium_api.settings import Settings

from tests.api.sample import SAMPLES

SETTINGS = Settings(
    processes=1, deadline=5.0, queue_length=1, queue_timeout=2.0, client_share=1.0, body_timeout=0.3
)


@pytest.fixture
def log() -> io.BytesIO:
    return io.BytesIO()


@pytest.fixture
def app(log: io.BytesIO) -> Litestar:
    return create_app(SETTINGS, SAMPLES, log, readings=())


@pytest.fixture
def client(app: Litestar) -> TestClient[Litestar]:
    """Without worker processes: for everything that runs in the event loop."""
    return TestClient(app)


@pytest.fixture(scope="module")
def running() -> Iterator[TestClient[Litestar]]:
    """With a worker process."""
    with TestClient(create_app(SETTINGS, SAMPLES, io.BytesIO(), readings=())) as started:
        yield started


@pytest.fixture
def example() -> dict[str, Any]:
    return dict(SAMPLES[0].example)
