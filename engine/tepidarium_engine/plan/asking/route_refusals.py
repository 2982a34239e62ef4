"""What makes a route impossible, said before it is laid or after, always with what would do instead."""

from __future__ import annotations

import math

import shapely

from ...errors import Fault, FaultList, InputError
from ...pipe import check_pipe
from ..judging.route_faults import LEAST_PIPE_DISTANCE
from ..laying.laying import Refusal
from ..laying.spacing_limits import (
    bends_fit,
    largest_bend,
    least_spacing,
    millimetres_up,
    pair_fits,
    pair_width,
)
from ..lengths.lengths import circuit_length_rule, laid_diameter
from ..outlines.polygons import RoomOutline, interior_width
from ..tolerances import SAME_AREA
from .route_fields import CircuitField
from .route_records import RoutesInputs, WallStretch

__all__ = ["MOST_SQUARES", "check_relations", "check_room", "length_limit", "refused"]

MOST_SQUARES = 10_000
"""Of a room: squares as wide as the pipe spacing. 1 km of pipe at 100 mm, far more than any circuit."""
_LEAST_SHARE = 0.1
"""Least spacing of a peripheral strip, in spacings of the room."""
_ON_OUTLINE = 0.05
"""How far the ends of a stretch of wall may lie from the outline [m]."""


def length_limit(inputs: RoutesInputs) -> float:
    """The longest permitted circuit [m]: given, or usual for the pipe."""
    return inputs.maximum_circuit_length or circuit_length_rule(inputs.pipe).usual


def check_relations(inputs: RoutesInputs) -> None:
    """Relations between fields that need no geometry."""
    faults = FaultList()
    check_pipe(inputs.pipe, "/pipe", faults)
    faults.raise_if_any()
    spacings = [("/pipe_spacing", inputs.pipe_spacing)]
    if inputs.peripheral is not None:
        spacings.append(("/peripheral/pipe_spacing", inputs.peripheral.pipe_spacing))
    for pointer, spacing in spacings:
        _check_spacing(inputs, pointer, spacing, faults)
    limit = length_limit(inputs)
    faults.require(
        2.0 * inputs.tail_length < limit,
        "/tail_length",
        "tails_too_long",
        f"flow and return tail together use up the permitted circuit length of {limit:g} m",
        limit / 2.0,
    )
    faults.require(
        inputs.tail_pitch is None or inputs.tail_pitch > laid_diameter(inputs.pipe),
        "/tail_pitch",
        "pipes_overlap",
        "must be more than the outside diameter of the pipe, or of its sheath if it has one",
        laid_diameter(inputs.pipe),
    )
    faults.require(
        inputs.path is None or inputs.pieces is None, "/path", "one_of", "give path or pieces, not both"
    )
    for index, wall in enumerate(inputs.wall_stretches):
        _check_wall(inputs, wall, f"/wall_stretches/{index}", faults)
    _check_circuits(inputs, faults)
    faults.raise_if_any()


def _check_spacing(inputs: RoutesInputs, pointer: str, spacing: float, faults: FaultList) -> None:
    laid, radius = laid_diameter(inputs.pipe), inputs.pipe.bend_radius
    faults.require(
        spacing > laid,
        pointer,
        "pipes_overlap",
        "must be more than the outside diameter of the pipe, or of its sheath if it has one",
        laid,
    )
    if inputs.path is None and inputs.pieces is None:
        largest, least = largest_bend(spacing, inputs.pattern), least_spacing(radius, inputs.pattern)
        faults.require(
            bends_fit(radius, spacing, inputs.pattern),
            pointer,
            "bend_too_wide",
            f"is too close for a bend radius of {radius * 1000.0:.0f} mm: neighbouring pipes would touch in the "
            f"turns. Take a spacing of at least {millimetres_up(least):.0f} mm, or a pipe that may be "
            f"bent to {largest * 1000.0:.0f} mm" + _thinner_pipe(inputs, largest),
            least,
        )


def _thinner_pipe(inputs: RoutesInputs, radius: float) -> str:
    if inputs.pipe.minimum_bend_radius is not None:
        return ""
    return f", by the rule of five outside diameters one of at most {radius * 200.0:.1f} mm"


def _check_wall(inputs: RoutesInputs, wall: WallStretch, pointer: str, faults: FaultList) -> None:
    faults.require(
        (wall.edge is None) != (wall.stretch is None),
        f"{pointer}/edge",
        "one_of",
        "give either edge or stretch, exactly one of the two",
    )
    _check_edge(inputs, wall.edge, f"{pointer}/edge", faults)
    faults.require(
        wall.wall_clearance >= inputs.wall_clearance,
        f"{pointer}/wall_clearance",
        "below_room",
        f"must be at least the room's wall_clearance of {inputs.wall_clearance:g} m: give the room the least "
        "clearance, and the other walls theirs",
        inputs.wall_clearance,
    )
    if wall.stretch is None:
        return
    ring = shapely.LinearRing(inputs.outline)
    for number, end in enumerate(wall.stretch):
        away = float(shapely.distance(ring, shapely.Point(end)))
        faults.require(
            away <= _ON_OUTLINE,
            f"{pointer}/stretch/{number}",
            "off_outline",
            f"lies {away:.3f} m from the outline",
            _ON_OUTLINE,
        )
    faults.require(
        math.dist(*wall.stretch) > 0.0, f"{pointer}/stretch", "repeated_point", "must be two different points"
    )


def _check_edge(inputs: RoutesInputs, edge: int | None, pointer: str, faults: FaultList) -> None:
    count = len(inputs.outline) - (inputs.outline[0] == inputs.outline[-1])
    faults.require(
        edge is None or edge < count,
        pointer,
        "no_such_wall",
        f"must be at most {count - 1}: the outline has {count} walls, counted from 0",
        count - 1,
    )


def _check_circuits(inputs: RoutesInputs, faults: FaultList) -> None:
    """What does not go together with several circuits."""
    strip = inputs.peripheral
    several = (inputs.circuits or 1) > 1
    faults.require(
        not several or (inputs.path is None and inputs.pieces is None),
        "/circuits",
        "with_given_path",
        "cannot go together with a path to be checked, which is one circuit",
    )
    faults.require(
        inputs.circuits is None or (inputs.second_entry is None and strip is None),
        "/circuits",
        "with_second_entry",
        "is for circuits that share an entry: leave it out with a second_entry or a peripheral strip",
    )
    if strip is not None:
        for number, edge in enumerate(strip.edges):
            _check_edge(inputs, edge, f"/peripheral/edges/{number}", faults)
        faults.require(
            not inputs.movement_joints,
            "/peripheral",
            "with_joints",
            "cannot go together with movement joints: ask for each field by itself",
        )
        faults.require(
            strip.pipe_spacing <= inputs.pipe_spacing,
            "/peripheral/pipe_spacing",
            "wider_than_room",
            "must not be wider than the pipe_spacing of the room",
            inputs.pipe_spacing,
        )
        faults.require(
            strip.pipe_spacing >= _LEAST_SHARE * inputs.pipe_spacing,
            "/peripheral/pipe_spacing",
            "much_closer_than_room",
            "must be at least a tenth of the pipe_spacing of the room",
            _LEAST_SHARE * inputs.pipe_spacing,
        )
        faults.require(
            strip.own_circuit or inputs.second_entry is None,
            "/second_entry",
            "one_circuit",
            "goes with a peripheral strip only where that is a circuit of its own",
        )
        faults.require(
            len(set(strip.edges)) == len(strip.edges),
            "/peripheral/edges",
            "repeated",
            "must name each wall once",
        )
    if inputs.path is not None or inputs.pieces is not None:
        faults.require(
            inputs.second_entry is None and (strip is None or not strip.own_circuit),
            "/second_entry",
            "with_given_path",
            "cannot go together with a path to be checked, which is one circuit",
        )


def check_room(inputs: RoutesInputs, room: RoomOutline, *, divided: bool = False) -> None:
    """Rooms that leave no place for pipe, and rooms beyond the limit of work; one that is to be ``divided`` has
    another limit."""
    faults = FaultList()
    spacing = inputs.pipe_spacing
    if inputs.peripheral is not None:
        spacing = min(spacing, inputs.peripheral.pipe_spacing)
    squares = room.area / spacing**2
    faults.require(
        divided or squares <= MOST_SQUARES * (1.0 + SAME_AREA),
        "/pipe_spacing",
        "too_much_pipe",
        f"would take about {room.area / spacing:.0f} m of pipe in one circuit; at most "
        f"{MOST_SQUARES * spacing:.0f} m at this spacing are laid in one request: divide the room, or take at "
        f"least {millimetres_up((room.area / MOST_SQUARES) ** 0.5):.0f} mm",
        (room.area / MOST_SQUARES) ** 0.5,
    )
    faults.raise_if_any()
    _check_width(inputs, room, spacing, faults)
    faults.raise_if_any()


def _check_width(inputs: RoutesInputs, room: RoomOutline, spacing: float, faults: FaultList) -> None:
    """Whether two pipes side by side, as near to each other as pipes may come anywhere, fit in."""
    clearance, needed = inputs.wall_clearance, pair_width(spacing, inputs.wall_clearance)
    if pair_fits(room.polygon, spacing, clearance):
        return
    width = interior_width(room.polygon)
    widest = (width - 2.0 * clearance) / LEAST_PIPE_DISTANCE
    if width <= 2.0 * clearance:
        faults.add(
            "/wall_clearance",
            "clearance_fills_room",
            f"leaves no room for pipe, as the room's greatest clear width is {width:.3f} m",
            width / 2.0,
        )
    elif widest >= max(least_spacing(inputs.pipe.bend_radius, inputs.pattern), laid_diameter(inputs.pipe)):
        faults.add(
            "/pipe_spacing",
            "no_pipe_fits",
            f"is too wide for this room: it is {width:.3f} m wide where it is widest, and pipe there and back "
            f"takes {needed:.3f} m: take at most {widest * 1000.0:.0f} mm and a pipe that may be bent to "
            f"{(width / 2.0 - clearance) * 1000.0:.0f} mm, or a smaller clearance",
            widest,
        )
    else:
        faults.add(
            "/outline",
            "too_narrow",
            f"is {width:.3f} m wide where it is widest, and pipe there and back takes {needed:.3f} m: take a "
            "smaller clearance and a pipe that may be bent tighter, or run only a tail through it",
            needed,
        )


_REASONS = {
    "bend_radius": (
        "/pipe/minimum_bend_radius",
        "a bend would have a radius of {value}, but the pipe needs {limit}: take a pipe that bends tighter, or a "
        "wider spacing",
    ),
    "too_long_for_one_circuit": (
        "/pipe_spacing",
        "the room takes far more pipe than one circuit can hold: divide it into circuits, or take a wider spacing",
    ),
    "no_room_for_pipe": ("/wall_clearance", "the clearances leave no space for pipe: take smaller ones"),
    "too_narrow": (
        "/outline",
        "no place is wide enough for pipe there and back: take a closer spacing, a smaller clearance or a pipe "
        "that may be bent tighter",
    ),
    "wall_clearance": (
        "/wall_clearance",
        "the pipe would come within {value} of a wall or void where {limit} is asked for: take a smaller "
        "clearance, or a pipe that may be bent tighter",
    ),
    "pipe_distance": (
        "/pipe_spacing",
        "two pipes would come within {value} of each other, at least {limit} are needed: take another spacing, "
        "or move the entry",
    ),
    "tail_distance": (
        "/tail_pitch",
        "flow and return would come within {value} of each other near the entry, at least {limit} are needed: "
        "move the entry, or change the pitch",
    ),
}
_OTHER_REASON = (
    "/outline",
    "no pipe was found that can be laid in this room: move the entry, take another spacing, or divide the room",
)


def refused(refusal: Refusal, field: CircuitField) -> InputError:
    """The refusal of the layer as an error that names the field to change."""
    pointer, text = _REASONS.get(refusal.code, _OTHER_REASON)
    numbers = {
        name: "-" if value is None else f"{value * 1000.0:.0f} mm"
        for name, value in (("value", refusal.value), ("limit", refusal.limit))
    }
    where = "" if refusal.place is None else f" near [{refusal.place[0]:.3f}, {refusal.place[1]:.3f}]"
    circuit = "" if field.id == "1" else f" of circuit {field.id}"
    what, _, remedy = text.format(**numbers).partition(": ")
    return InputError(
        Fault(pointer, f"no_route_{refusal.code}", f"{what}{where}{circuit}: {remedy}", refusal.limit)
    )
