"""A calculation for a file of requests, a line each, into a file of results: nothing lost, nothing doubled, resumed at
any time.

A line of the input is a request as JSON, which may have a member ``key`` besides. A line of the
results is ``{"line": 7, "request": "<digest>", "key": ..., "result": {...}}``, or with ``problem`` instead of
``result`` for a house that cannot be computed. ``line`` counts the lines of the input from 1, ``request`` is made of
the calculation and the bytes of the line, ``key`` is the line's own, or its number.
"""

from __future__ import annotations

from ._houses import House, houses
from ._results import BatchError, Results
from ._run import Batch

__all__ = ["Batch", "BatchError", "House", "Results", "houses"]
