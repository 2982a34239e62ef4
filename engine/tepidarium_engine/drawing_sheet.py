"""What a caller says about the sheets of a drawing: size, scale, and what the title block holds."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from .glossary import named

__all__ = ["DrawingSheet", "Orientation", "Paper"]

Paper = Literal["A4", "A3", "A2", "A1", "A0"]
"""ISO 216."""
Orientation = Literal["landscape", "portrait"]


@dataclass(frozen=True, slots=True)
class DrawingSheet:
    """How a drawing is laid out. It changes no number of the answer.

    ``paper``, ``orientation`` and ``scale`` (50 for 1:50) None: the best fit, A3 first. A plan that is larger than the
    sheet asked for is tiled over several. ``north`` [deg] is where north lies, clockwise from the y axis of the plan;
    None: no arrow. ``storey`` and ``room`` of a design are ids of what is drawn alone; the title block of a single room
    prints them.
    """

    paper: Paper | None = field(default=None, metadata=named("paper_size"))
    orientation: Orientation | None = field(default=None, metadata=named("paper_orientation"))
    scale: int | None = field(default=None, metadata=named("drawing_scale"))
    project: str = field(default="", metadata=named("project_name"))
    revision: str = field(default="", metadata=named("drawing_revision"))
    author: str = field(default="", metadata=named("drawing_author"))
    drawn_on: date | None = field(default=None, metadata=named("date"))
    north: float | None = field(default=None, metadata=named("north_direction"))
    storey: str | None = field(default=None, metadata=named("storey_id"))
    room: str | None = field(default=None, metadata=named("room"))
