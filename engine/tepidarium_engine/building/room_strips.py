"""Closer pipe along outside walls of a room (EN 1264-1, peripheral area), in the same circuits as the rest.

In a counterflow, flow and return lie side by side everywhere, so that strip and rest have water of the same mean
temperature: their outputs add by area, and the part that reaches its surface limit first limits both.
"""

from __future__ import annotations

from typing import NamedTuple

import shapely
from shapely import LineString

from ..errors import FaultList, required
from ..pipe import Pipe
from ..plan.laying.spacing_limits import bends_fit, least_spacing
from ..plan.mapping.peripheral_mapping import CloserStrip
from ..plan.outlines.overlays import intersection, union
from ..plan.outlines.polygons import RoomOutline
from ..practice.coverings import SURFACE_TEMPERATURE_LIMITS
from ..thermal.floor import check_spacing
from .records import BuildUp, DesignRoom

__all__ = [
    "WIDEST_STRIP",
    "HeatedStrip",
    "StripSpacing",
    "check_strip",
    "drawn_strip",
    "heated_strip",
    "strip_limit",
]

WIDEST_STRIP = 1.0
"""Of a strip that may be warmer than the room's floor [m] (EN 1264-1, peripheral area)."""
_LIMIT = 35.0
"""Warmest surface of a peripheral area [degC] (EN 1264-2)."""
_OCCUPIED = 29.0
_SAME = 1e-9


class HeatedStrip(NamedTuple):
    """A strip with its ``share`` of the room's floor and its ``pipe_spacing`` [m]."""

    pipe_spacing: float
    share: float


class StripSpacing(NamedTuple):
    """What a strip is to the tables of EN 1264-2: with the ``surface_excess`` [K] that it may have over the room."""

    pipe_spacing: float
    share: float
    surface_excess: float


def strip_limit(room: DesignRoom, build_up: BuildUp, limit: float) -> float:
    """Warmest that the strip may get [degC] where the room's floor may have ``limit``: 35 degC by EN 1264-2, but no
    more than the rest where a covering, a bathroom, a limit of the request or a wide strip asks for it."""
    strip = required(room.peripheral, "the strip of a room that has one")
    bound = SURFACE_TEMPERATURE_LIMITS[build_up.covering][0] < _OCCUPIED
    own = room.use == "bathroom" or room.surface_temperature_limit is not None
    return limit if bound or own or strip.width > WIDEST_STRIP + _SAME else max(limit, _LIMIT)


def heated_strip(room: DesignRoom, outline: RoomOutline | None, area: float) -> HeatedStrip | None:
    """The strip of a room of so much ``area`` [m2], if it has one."""
    strip = room.peripheral
    if strip is None:
        return None
    own = strip.width * (strip.length or 0.0) if outline is None else drawn_strip(room, outline).area.area
    return HeatedStrip(strip.pipe_spacing, own / area)


def check_strip(
    room: DesignRoom, pipe: Pipe, floor: tuple[RoomOutline | None, float], where: str, faults: FaultList
) -> None:
    """What cannot be a strip of the room; ``floor``: its outline and area [m2], ``where`` leads to the strip."""
    strip = room.peripheral
    if strip is None or not _sound(room, where, faults):
        return
    faults.require(
        bends_fit(pipe.bend_radius, strip.pipe_spacing, room.pattern),
        f"{where}/pipe_spacing",
        "bend_too_wide",
        f"is too close for a bend radius of {pipe.bend_radius * 1000.0:.0f} mm",
        least_spacing(pipe.bend_radius, room.pattern),
    )
    check_spacing(strip.pipe_spacing, pipe, f"{where}/pipe_spacing", faults)
    share = required(heated_strip(room, *floor), "the strip of a room that has one").share
    faults.require(
        share < 1.0 - _SAME,
        where,
        "strip_fills_room",
        f"takes all {floor[1]:.1f} m2 of the room: give the room itself the closer spacing",
        floor[1],
    )


def _sound(room: DesignRoom, where: str, faults: FaultList) -> bool:
    strip, walls = required(room.peripheral, "the strip of a room that has one"), len(room.outline or ())
    known = len(faults.faults)
    faults.require(
        room.pattern == "counterflow",
        where,
        "with_serpentine",
        "goes with a counterflow: of a serpentine one side of the room gets warmer water than the other",
    )
    if walls:
        faults.require(
            strip.length is None, f"{where}/length", "one_of", "follows from the edges of the outline"
        )
        faults.require(bool(strip.edges), f"{where}/edges", "missing", "must name the outside walls")
    else:
        faults.require(
            not strip.edges, f"{where}/edges", "needs_outline", "are walls of an outline: give a length"
        )
        faults.require(
            strip.length is not None, f"{where}/length", "missing", "must say how long the strip is"
        )
    for number, edge in enumerate(strip.edges):
        faults.require(
            edge < walls or not walls,
            f"{where}/edges/{number}",
            "no_such_wall",
            f"must be at most {walls - 1}: the outline has {walls} walls, counted from 0",
            walls - 1,
        )
    faults.require(
        len({*strip.edges}) == len(strip.edges), f"{where}/edges", "repeated", "must name each wall once"
    )
    return len(faults.faults) == known


def drawn_strip(room: DesignRoom, outline: RoomOutline) -> CloserStrip:
    """The strip along the walls of its outline, in the frame of the request."""
    strip, ring = required(room.peripheral, "the strip of a room that has one"), room.outline or ()
    walls = tuple(LineString((ring[edge], ring[(edge + 1) % len(ring)])) for edge in sorted(strip.edges))
    joined = shapely.line_merge(union(walls)) if len(walls) > 1 else walls[0]
    beside = shapely.buffer(joined, strip.width, cap_style="flat", join_style="mitre")
    return CloserStrip(walls, strip.width, strip.pipe_spacing, intersection(outline.placed, beside))
