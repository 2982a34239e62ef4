"""What the service knows of a calculation. From it come route, schema, example, catalogue and contract tests."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

__all__ = [
    "CALENDAR",
    "CSV",
    "DXF",
    "FILES",
    "FORMS",
    "PDF",
    "SVG",
    "WORKBOOK",
    "Calculation",
    "FileReading",
    "Rendering",
    "unchanged",
]

Rendering = Callable[[Any, Any], bytes]
"""Turns the engine's inputs and result into another representation."""

SVG, DXF, PDF = "image/svg+xml", "image/vnd.dxf", "application/pdf"
CALENDAR, CSV, FILES = "text/calendar", "text/csv", "application/zip"
WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

FORMS = {
    SVG: "drawing",
    DXF: "cad-drawing",
    PDF: "document",
    CALENDAR: "calendar",
    CSV: "schedule",
    WORKBOOK: "workbook",
    FILES: "files",
}
"""Media type of a rendering -> its name, by which it has a path of its own below that of the calculation."""


def little_effort(_inputs: Any) -> float:
    return 1e-3


def unchanged(inputs: Any) -> Any:
    return inputs


_DOCUMENTS = frozenset({DXF, PDF, WORKBOOK, FILES})
"""What takes so long to make that it must not be made in the event loop."""


@dataclass(frozen=True, slots=True)
class Calculation:
    """One calculation of the engine, as it is offered over HTTP.

    ``inputs`` and ``result`` are the engine's dataclasses, ``calculate`` and ``workings`` its functions. The
    request and response schemas are derived from them and from the engine's glossary. ``example`` is a complete
    request body; every example is executed by a test. ``renderings`` maps further media types of the answer to
    functions, ``rendered_inputs`` is what they need the calculation to be asked for besides; ``answered_inputs`` is
    what of the inputs the answer repeats; ``files`` are what the answer of several files holds beside
    ``result.json``, by name. ``heavy`` work runs in a process of its own under a
    deadline, and so do documents; ``spreads`` says that ``calculate`` takes a ``spread`` and so may use several cores.
    ``effort`` [s] is about the time that a light calculation takes for its inputs with workings, decoding and encoding
    included, on one core of a server of today; more than the event loop can spare, and the request leaves it.
    ``tests/drills/effort.py`` compares it with measured times. What is ``readable`` answers a GET with a query
    string, too.
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
    rendered_inputs: Callable[[Any], Any] = unchanged
    answered_inputs: Callable[[Any], Any] = unchanged
    files: Mapping[str, Rendering] = field(default_factory=dict)
    heavy: bool = False
    effort: Callable[[Any], float] = little_effort
    spreads: bool = False
    readable: bool = False

    @property
    def path(self) -> str:
        return f"/v1/{self.name}"

    @property
    def media_types(self) -> tuple[str, ...]:
        """Of all renderings, and of the answer in several files."""
        return (*self.renderings, *((FILES,) if self.files else ()))

    def heavy_for(self, media_type: str | None) -> bool:
        """Whether an answer of this type is made in a worker process."""
        return self.heavy or media_type in _DOCUMENTS

    @property
    def forms(self) -> dict[str, str]:
        """Path of each rendering -> its media type. The path of the calculation itself gives all by Accept."""
        return {f"{self.path}/{FORMS[media_type]}": media_type for media_type in self.media_types}


@dataclass(frozen=True, slots=True)
class FileReading:
    """A file that the engine reads, as it is offered over HTTP: the body is the file, its media type says the format,
    and ``options``, a dataclass of the engine, come in the query string.

    ``read`` takes the content, the format and the options. ``formats``: media type -> format. Always in a worker
    process.
    """

    name: str
    operation_id: str
    summary: str
    description: str
    options: type
    result: type
    read: Callable[[bytes, Any, Any], Any]
    formats: Mapping[str, str]
    heavy: bool = True
    media_types: tuple[str, ...] = ()

    @property
    def path(self) -> str:
        return f"/v1/{self.name}"
