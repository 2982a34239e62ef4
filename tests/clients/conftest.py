"""The real service, once for all tests of the client."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from tepidarium_client import local_service


@pytest.fixture(scope="session")
def url() -> Iterator[str]:
    """Address of a service in a process of its own."""
    with local_service() as address:
        yield address
