"""The spacings that a room may have: those of the limits that its pipe, its pattern and its floor allow."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from ..errors import FaultList
from ..pipe import Pipe
from ..plan.laying.spacing_limits import bends_fit, largest_bend, least_spacing, millimetres_up, pair_fits
from ..plan.outlines.polygons import RoomOutline
from .records import DesignRoom, DesignsInputs

__all__ = ["BATHROOM_SPACING", "LeftOut", "RoomSpacings", "room_spacings", "spacing_pointer"]

BATHROOM_SPACING = 0.10
"""Widest spacing in a bathroom, where bare feet feel the stripes [m] (common practice, no source)."""
_ROUNDING = 1e-9


class LeftOut(NamedTuple):
    """A spacing [m] of the limits that cannot be laid: the pipe does not bend that tightly, or the room is too narrow
    for flow and return."""

    pipe_spacing: float
    reason: Literal["bend", "width"]


class RoomSpacings(NamedTuple):
    """Spacings [m] of a room, widest first, and those of the limits that were left out."""

    permitted: tuple[float, ...]
    left_out: tuple[LeftOut, ...] = ()


def room_spacings(
    inputs: DesignsInputs, room: DesignRoom, outline: RoomOutline | None, faults: FaultList
) -> RoomSpacings:
    """The room's own spacing, or those of the limits that can be laid; a bathroom takes close ones if there are any.

    Adds a fault where the pipe can be laid at none of them.
    """
    if room.pipe_spacing is not None:
        return RoomSpacings((room.pipe_spacing,))
    offered = sorted(set(inputs.limits.pipe_spacings), reverse=True)
    tight = [LeftOut(spacing, "bend") for spacing in offered if not _bends(inputs.pipe, room, spacing)]
    laid = [spacing for spacing in offered if _bends(inputs.pipe, room, spacing)]
    if not laid:
        _refuse(inputs, room, max(offered), faults)
        return RoomSpacings(tuple(offered))
    wide = [] if outline is None else _too_wide(outline, laid, inputs.limits.wall_clearance)
    left_out = (*tight, *(LeftOut(spacing, "width") for spacing in wide))
    fitting = [spacing for spacing in laid if spacing not in wide]
    if room.use == "bathroom":
        close = [spacing for spacing in fitting if spacing <= BATHROOM_SPACING + _ROUNDING]
        fitting = close or fitting[-1:]
    return RoomSpacings(tuple(fitting), left_out)


def _bends(pipe: Pipe, room: DesignRoom, spacing: float) -> bool:
    return bends_fit(pipe.bend_radius, spacing, room.pattern)


def _too_wide(outline: RoomOutline, widest_first: Sequence[float], clearance: float) -> list[float]:
    """Spacings at which flow and return do not fit beside each other in the room; none where none fits, which is
    refused or reported with the closest."""
    fitting = [spacing for spacing in widest_first if pair_fits(outline.polygon, spacing, clearance)]
    return [spacing for spacing in widest_first if fitting and spacing not in fitting]


def _refuse(inputs: DesignsInputs, room: DesignRoom, widest: float, faults: FaultList) -> None:
    least = least_spacing(inputs.pipe.bend_radius, room.pattern)
    known = {(fault.pointer, fault.code) for fault in faults.faults}
    if ("/limits/pipe_spacings", "bend_too_wide") not in known:
        faults.add(
            "/limits/pipe_spacings",
            "bend_too_wide",
            f"are all too close for a bend radius of {inputs.pipe.bend_radius * 1000.0:.0f} mm: give one of at least "
            f"{millimetres_up(least)} mm, or a pipe that may be bent to "
            f"{largest_bend(widest, room.pattern) * 1000.0:.0f} mm",
            least,
        )


def spacing_pointer(inputs: DesignsInputs, index: int, spacing: float) -> str:
    """Where a spacing of room number ``index`` stands in the request."""
    if inputs.rooms[index].pipe_spacing is not None:
        return f"/rooms/{index}/pipe_spacing"
    return f"/limits/pipe_spacings/{inputs.limits.pipe_spacings.index(spacing)}"
