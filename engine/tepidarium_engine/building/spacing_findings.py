"""Spacings of the request that were left out, and rooms whose own spacing their pipe cannot be laid at."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..plan.laying.spacing_limits import bends_fit, least_spacing, pair_width
from ..plan.outlines.polygons import interior_width
from ..results import Finding
from .circuits import DividedRoom
from .floors import RoomToHeat
from .records import DesignsInputs
from .spacings import spacing_pointer

__all__ = ["spacing_findings"]

_BENDS = "Geometry; a bend radius of five outside diameters is common practice, the maker's sheet decides"


def spacing_findings(inputs: DesignsInputs, divided: Sequence[DividedRoom]) -> Iterator[Finding]:
    """Spacings that were left out and why, then room by room those that were given."""
    rooms = [room.heated for room in divided if room.heated.own_circuits]
    for left_out in sorted({each for room in rooms for each in room.left_out}):
        concerned = [room for room in rooms if left_out in room.left_out]
        if left_out.reason == "bend":
            yield _too_tight(inputs, left_out.pipe_spacing, concerned)
        else:
            yield from (_too_wide(inputs, left_out.pipe_spacing, room) for room in concerned)
    for room in rooms:
        if room.room.pipe_spacing is not None:
            yield from _cannot_be_laid(inputs, room, room.room.pipe_spacing)


def _too_tight(inputs: DesignsInputs, spacing: float, rooms: Sequence[RoomToHeat]) -> Finding:
    radius, first = inputs.pipe.bend_radius, rooms[0]
    labels = "all rooms" if len(rooms) == len(inputs.rooms) else ", ".join(room.label for room in rooms)
    return Finding.at(
        "spacing_left_out",
        spacing_pointer(inputs, first.index, spacing),
        value=spacing,
        limit=least_spacing(radius, first.room.pattern),
        source=_BENDS,
        quantity="pipe_spacing",
        detail=f"Bend radius {radius * 1000.0:.0f} mm",
        subject=labels,
    )


def _too_wide(inputs: DesignsInputs, spacing: float, room: RoomToHeat) -> Finding:
    return Finding.at(
        "spacing_too_wide_for_room",
        spacing_pointer(inputs, room.index, spacing),
        value=None if room.outline is None else interior_width(room.outline.polygon),
        limit=pair_width(spacing, inputs.limits.wall_clearance),
        source="Geometry",
        quantity="pair_width",
        subject=room.label,
    )


def _cannot_be_laid(inputs: DesignsInputs, room: RoomToHeat, spacing: float) -> Iterator[Finding]:
    radius, pattern = inputs.pipe.bend_radius, room.room.pattern
    if not bends_fit(radius, spacing, pattern):
        yield Finding.at(
            "spacing_too_close_for_pipe",
            f"{room.pointer}/pipe_spacing",
            value=spacing,
            limit=least_spacing(radius, pattern),
            source=_BENDS,
            quantity="pipe_spacing",
            detail=f"Bend radius {radius * 1000.0:.0f} mm",
            subject=room.label,
        )
