"""What the service knows of a calculation. From it come route, schema, example, catalogue and contract tests."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

__all__ = ["FORMS", "Calculation", "Rendering"]

Rendering = Callable[[Any, Any], bytes]
"""Turns the engine's inputs and result into another representation."""

FORMS = {"image/svg+xml": "drawing", "text/calendar": "calendar", "text/csv": "schedule"}
"""Media type of a rendering -> its name, by which it has a path of its own below that of the calculation."""


@dataclass(frozen=True, slots=True)
class Calculation:
    """One calculation of the engine, as it is offered over HTTP.

    ``inputs`` and ``result`` are the engine's dataclasses, ``calculate`` and ``workings`` its functions. The
    request and response schemas are derived from them and from the engine's glossary. ``example`` is a complete
    request body; every example is executed by a test. ``renderings`` maps further media types of the answer to
    functions. ``heavy`` work runs in a worker process under a deadline; ``spreads`` says that ``calculate`` takes a
    ``spread`` and so may use several cores.
    """

    name: str
    operation_id: str
    summary: str
    description: str
    inputs: type
    result: type
    calculate: Callable[..., Any]
    workings: Callable[[Any, Any], tuple[Any, ...]]
    example: Mapping[str, Any]
    renderings: Mapping[str, Rendering] = field(default_factory=dict)
    heavy: bool = False
    spreads: bool = False

    @property
    def path(self) -> str:
        return f"/v1/{self.name}"

    @property
    def forms(self) -> dict[str, str]:
        """Path of each rendering -> its media type. The path of the calculation itself gives all by Accept."""
        return {f"{self.path}/{FORMS[media_type]}": media_type for media_type in self.renderings}
