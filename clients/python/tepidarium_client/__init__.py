"""Client of the Tepidarium service: floor heating calculations over HTTP.

>>> from tepidarium_client import Client
>>> with Client("http://127.0.0.1:8000") as client:           # doctest: +SKIP
...     answer = client.loop_length({"area": 12.0, "pipe_spacing": 0.15, "tail_length": 4.0})
...     print(answer.pipe_length, "m")

``Client`` waits, ``AsyncClient`` is awaited; both have one method per calculation, which takes a request
struct of ``tepidarium_client.models`` or a mapping and returns a struct. Every failure is a
``TepidariumError``. All numbers are in SI units, temperatures in degrees Celsius.
"""

from __future__ import annotations

from . import _models as models
from . import codes
from ._answers import Answer
from ._client import AsyncClient, Client
from ._errors import (
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
from ._former import former_design
from ._local import LocalServiceError, local_service
from ._many import Designed
from ._version import __version__

__all__ = [
    "Answer",
    "ApiError",
    "AsyncClient",
    "Client",
    "Designed",
    "FieldError",
    "InvalidInput",
    "LocalServiceError",
    "Operation",
    "ServerError",
    "TepidariumError",
    "Throttled",
    "TimedOut",
    "TransportError",
    "Unavailable",
    "__version__",
    "codes",
    "former_design",
    "local_service",
    "models",
]
