"""Length of pipe and number of circuits from an area or an outline.

A field takes one over the spacing in metres of pipe per square metre. With an outline a route is laid in it and
measured, round bends and all. Flow and return between manifold and
field belong to the circuit and count against its permitted length. A field that is too long for one circuit
is divided into the least number of equal ones.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

import shapely
from shapely import Polygon

from .cautions import LENGTHS
from .checking import Point, check
from .errors import FaultList
from .gathering import gathered
from .glossary import named
from .own_place import at_own_place, lower_left
from .pipe import USUAL_PIPE, Pipe, check_pipe
from .plan.laying.measured_field import MeasuredField, measured_field
from .plan.laying.ways import Pattern
from .plan.lengths.lengths import circuit_length_rule, fixing_count, laid_diameter
from .plan.lengths.loop_findings import loop_finding
from .plan.outlines.intake import room_on_grid
from .plan.outlines.polygons import RoomOutline, interior_width, room_polygon, served_area
from .results import Caution, Finding, Working

__all__ = [
    "MAXIMUM_CIRCUITS",
    "MAXIMUM_PIPE_LENGTH",
    "LoopCircuit",
    "LoopLengthInputs",
    "LoopLengthResult",
    "calculate",
    "workings",
]

MAXIMUM_CIRCUITS = 256
MAXIMUM_PIPE_LENGTH = 20_000.0
"""Of one request [m]; a larger job is several requests."""

_COUNT_TOLERANCE = 1e-6
"""By how much a circuit may pass its limit before the field is divided once more [m], so that the last bit of
an area does not decide the number of circuits."""

_PRACTICE = "Common practice, no source"
_ARITHMETIC = "Arithmetic"


@dataclass(frozen=True, slots=True)
class LoopLengthInputs:
    """Either ``area`` [m2] or ``outline`` (with ``voids``) [m] says what is heated.

    ``tail_length`` [m] is one way from the manifold to the field. Without ``maximum_circuit_length`` [m] the
    usual length for the pipe's diameter holds. ``wall_clearance`` [m], ``entry`` [m] (nearest place of the
    outline; None: the middle of the longest wall), ``pattern``, ``measured`` (lay a route and measure it) and
    ``quick`` (no search for the spacings that fit best) are for an outline only. ``right_angle_bends`` refines
    the count of fixings; None: those of the route, if one is laid.
    """

    pipe_spacing: float
    tail_length: float
    area: float | None = None
    outline: tuple[Point, ...] | None = None
    voids: tuple[tuple[Point, ...], ...] = ()
    pipe: Pipe = USUAL_PIPE
    maximum_circuit_length: float | None = None
    wall_clearance: float = 0.075
    entry: Point | None = None
    pattern: Pattern = "counterflow"
    measured: bool = True
    quick: bool = True
    fixing_distance: float = 0.4
    right_angle_bends: int | None = None


@dataclass(frozen=True, slots=True)
class LoopCircuit:
    """One circuit. Here ``tail_length`` is both ways, so that field and tail add up to the total [m]."""

    id: str
    area: float
    field_length: float
    total_length: float
    tail_length: float = field(metadata=named("both_tails_length"))


@dataclass(frozen=True, slots=True)
class LoopLengthResult:
    """Lengths [m], areas [m2]; ``area`` is net of voids, ``maximum_circuit_length`` the one applied.

    ``ideal_length`` is the served area over the spacing, ``field_length`` the pipe in the field: measured on
    the route where the ``length_method`` is route, else the same.
    """

    area: float
    ideal_length: float
    field_length: float
    pipe_length: float
    length_method: Literal["area", "outline", "route"]
    maximum_circuit_length: float
    maximum_circuit_area: float
    pipe_length_per_area: float
    spacer_length: float
    counterflow_infeed_spacing: float
    fixings: int
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    circuits: tuple[LoopCircuit, ...] = field(metadata=named("loop_circuits"))


class _Field(NamedTuple):
    """What is heated: net area and served area [m2], clear width [m] when an outline tells it, and the route
    that was measured in it."""

    area: float
    served_area: float
    clear_width: float
    route: MeasuredField | None = None

    def length(self, pipe_spacing: float) -> float:
        """Pipe in the field [m]."""
        measured = None if self.route is None else self.route.length
        return self.served_area / pipe_spacing if measured is None else measured

    @property
    def drawn(self) -> bool:
        """Whether a route could be laid."""
        return self.route is not None and self.route.length is not None


def calculate(inputs: LoopLengthInputs) -> LoopLengthResult:
    """Lengths [m] and number of circuits.

    Raises ``InputError`` for neither or both of area and outline, an invalid outline, pipe wider than its
    spacing, a clearance or spacing that leaves no pipe in the room, tails that use up the permitted length,
    and more than ``MAXIMUM_CIRCUITS`` circuits or ``MAXIMUM_PIPE_LENGTH`` of pipe.
    """
    check(inputs)
    if inputs.outline is None:
        return _calculated(inputs)
    return at_own_place(inputs, lower_left([inputs.outline]), _calculated)


def _calculated(inputs: LoopLengthInputs) -> LoopLengthResult:
    limit = _length_limit(inputs)
    _check_relations(inputs, limit)
    field = _field(inputs)
    field_length = field.length(inputs.pipe_spacing)
    tails = 2.0 * inputs.tail_length
    count = _circuit_count(inputs, field_length, tails, limit)
    share = field_length / count
    total = share + tails
    pipe_length = count * total
    return LoopLengthResult(
        circuits=tuple(
            LoopCircuit(str(number), field.area / count, share, total, tails)
            for number in range(1, count + 1)
        ),
        area=field.area,
        ideal_length=field.served_area / inputs.pipe_spacing,
        field_length=field_length,
        pipe_length=pipe_length,
        length_method="route" if field.drawn else "outline" if inputs.outline else "area",
        maximum_circuit_length=limit,
        maximum_circuit_area=(limit - tails) * inputs.pipe_spacing,
        pipe_length_per_area=1.0 / inputs.pipe_spacing,
        spacer_length=inputs.pipe_spacing - laid_diameter(inputs.pipe),
        counterflow_infeed_spacing=2.0 * inputs.pipe_spacing,
        fixings=fixing_count(pipe_length, inputs.fixing_distance, _bends(inputs, field)),
        findings=_findings(inputs, field, field_length + tails, total),
        cautions=LENGTHS,
    )


def _bends(inputs: LoopLengthInputs, field: _Field) -> int | None:
    if inputs.right_angle_bends is not None or field.route is None:
        return inputs.right_angle_bends
    return field.route.right_angle_bends


def _length_limit(inputs: LoopLengthInputs) -> float:
    if inputs.maximum_circuit_length is None:
        return circuit_length_rule(inputs.pipe).usual
    return inputs.maximum_circuit_length


def _check_relations(inputs: LoopLengthInputs, limit: float) -> None:
    faults = FaultList()
    check_pipe(inputs.pipe, "/pipe", faults)
    if (inputs.area is None) == (inputs.outline is None):
        pointer = "/area" if inputs.area is None else "/outline"
        faults.add(pointer, "one_of", "give either area or outline, exactly one of the two")
    faults.require(
        inputs.outline is not None or not inputs.voids,
        "/voids",
        "needs_outline",
        "voids go with an outline; an area is given net of voids",
    )
    faults.require(
        inputs.pipe_spacing > laid_diameter(inputs.pipe),
        "/pipe_spacing",
        "pipes_overlap",
        "must be more than the outside diameter of the pipe, or of its sheath if it has one",
        laid_diameter(inputs.pipe),
    )
    faults.require(
        2.0 * inputs.tail_length < limit,
        "/tail_length",
        "tails_too_long",
        f"flow and return tail together use up the permitted circuit length of {limit:g} m",
        limit / 2.0,
    )
    faults.raise_if_any()


def _field(inputs: LoopLengthInputs) -> _Field:
    """The heated field; refused when no pipe fits into it."""
    faults = FaultList()
    spacing, clearance = inputs.pipe_spacing, inputs.wall_clearance
    if inputs.outline is None:
        area = inputs.area or 0.0
        field = _Field(area, area, math.inf)
    else:
        room = room_polygon(inputs.outline, inputs.voids)
        width = _narrow_width(room, spacing, clearance)
        faults.require(
            width > 2.0 * clearance,
            "/wall_clearance",
            "clearance_fills_room",
            f"leaves no room for pipe: the room's greatest clear width is {width:.3f} m",
            width / 2.0,
        )
        faults.raise_if_any()
        field = _Field(float(room.area), served_area(room, spacing, clearance), width)
    # The smallest loop is one U-turn: two pipes, each as long as they lie apart.
    faults.require(
        field.served_area >= 2.0 * spacing**2,
        "/pipe_spacing",
        "no_pipe_fits",
        f"is too wide for the {field.served_area:.3g} m2 that can be heated: not even one U-turn fits",
        math.sqrt(field.served_area / 2.0),
    )
    faults.raise_if_any()
    if inputs.outline is None or not inputs.measured:
        return field
    return field._replace(route=_route(inputs, room_on_grid(inputs.outline, inputs.voids)))


def _route(inputs: LoopLengthInputs, outline: RoomOutline) -> MeasuredField:
    return measured_field(
        outline,
        inputs.pipe,
        pipe_spacing=inputs.pipe_spacing,
        wall_clearance=inputs.wall_clearance,
        entry=inputs.entry,
        pattern=inputs.pattern,
        quick=inputs.quick,
    )


def _narrow_width(room: Polygon, spacing: float, clearance: float) -> float:
    """The greatest clear width [m] where it is less than two pipes and their clearances need, else infinite:
    whether they fit is cheap to tell, how wide the room is costs more."""
    wide = not shapely.buffer(room, -(clearance + spacing / 2.0)).is_empty
    return math.inf if wide else interior_width(room)


def _circuit_count(inputs: LoopLengthInputs, field_length: float, tails: float, limit: float) -> int:
    """The least number of equal circuits that keep the limit."""
    faults = FaultList()
    pointer = "/area" if inputs.outline is None else "/outline"
    count = max(1, math.ceil((field_length - _COUNT_TOLERANCE) / (limit - tails)))
    faults.require(
        count <= MAXIMUM_CIRCUITS,
        pointer,
        "too_many_circuits",
        f"would take {count} circuits of at most {limit:g} m; at most {MAXIMUM_CIRCUITS} in one request",
        MAXIMUM_CIRCUITS,
    )
    pipe_length = field_length + count * tails
    faults.require(
        pipe_length <= MAXIMUM_PIPE_LENGTH,
        pointer,
        "too_much_pipe",
        f"would take {pipe_length:.0f} m of pipe; at most {MAXIMUM_PIPE_LENGTH:.0f} m in one request",
        MAXIMUM_PIPE_LENGTH,
    )
    faults.raise_if_any()
    return count


def _findings(inputs: LoopLengthInputs, field: _Field, undivided: float, total: float) -> tuple[Finding, ...]:
    rule = circuit_length_rule(inputs.pipe)
    limit = _length_limit(inputs)
    spacing = inputs.pipe_spacing
    turn = 2.0 * inputs.pipe.bend_radius
    edge = inputs.wall_clearance - laid_diameter(inputs.pipe) / 2.0
    between = field.clear_width - 2.0 * inputs.wall_clearance
    usual_spacing = min(max(spacing, 0.05), 0.3)
    rows = (
        ("divided", undivided > limit + _COUNT_TOLERANCE, undivided, limit),
        ("long_circuit", rule.usual + _COUNT_TOLERANCE < total <= rule.upper, total, rule.usual),
        ("too_long_circuit", total > rule.upper + _COUNT_TOLERANCE, total, rule.upper),
        ("unusual_spacing", spacing != usual_spacing, spacing, usual_spacing),
        ("u_turn_too_tight", spacing < turn, spacing, turn),
        ("close_to_wall", edge < 0.05, edge, 0.05),
        ("narrow_room", between < spacing, between, spacing),
        ("not_drawn", field.route is not None and not field.drawn, field.length(spacing), None),
        ("fixings_far_apart", inputs.fixing_distance > 0.5, inputs.fixing_distance, 0.5),
    )
    told = (loop_finding(code, value, bound, rule.source) for code, holds, value, bound in rows if holds)
    return gathered(told, inputs)


def workings(inputs: LoopLengthInputs, result: LoopLengthResult) -> tuple[Working, ...]:
    """The chain from the floor area to the pipe of all circuits."""
    spacing, clearance, tail = inputs.pipe_spacing, inputs.wall_clearance, inputs.tail_length
    first, count = result.circuits[0], len(result.circuits)
    limit = result.maximum_circuit_length
    served = "A" if inputs.outline is None else "area of the outline moved outwards by T/2 - c, voids alike"
    rows = (
        ("A", "floor area net of voids", result.area, "m2", "given or from the outline", _ARITHMETIC),
        ("T", "pipe spacing", spacing, "m", "given", "Input"),
        ("c", "wall clearance of the outermost pipe", clearance, "m", "given", _PRACTICE),
        ("A_s", "area served by the pipe", result.ideal_length * spacing, "m2", served, "Geometry"),
        ("L_0", "pipe for the served area", result.ideal_length, "m", "A_s / T", _ARITHMETIC),
        ("L_f", "pipe in the field", result.field_length, "m", _field_formula(result), "Geometry"),
        ("l_t", "one way from manifold to field", tail, "m", "given", "Input"),
        ("L_t", "flow and return tail of a circuit", first.tail_length, "m", "2 l_t", _PRACTICE),
        ("L_max", "longest permitted circuit", limit, "m", "given or by diameter", _limit_source(inputs)),
        (
            "A_max",
            "area of one longest circuit",
            result.maximum_circuit_area,
            "m2",
            "(L_max - L_t) T",
            _ARITHMETIC,
        ),
        ("n", "number of circuits", float(count), "1", "L_f / (L_max - L_t), rounded up", _ARITHMETIC),
        ("L_i", "length of each circuit", first.total_length, "m", "L_f / n + L_t", _ARITHMETIC),
        ("L", "pipe of all circuits", result.pipe_length, "m", "n L_i", _ARITHMETIC),
        ("d", "outside diameter as laid", laid_diameter(inputs.pipe), "m", "given", "Input"),
        ("s", "spacer", result.spacer_length, "m", "T - d", _PRACTICE),
        ("N", "fixings", float(result.fixings), "1", _fixing_formula(inputs), _PRACTICE),
    )
    return tuple(Working(*row) for row in rows)


def _field_formula(result: LoopLengthResult) -> str:
    return "measured on the route laid in the room" if result.length_method == "route" else "L_0"


def _limit_source(inputs: LoopLengthInputs) -> str:
    return "Input" if inputs.maximum_circuit_length is not None else circuit_length_rule(inputs.pipe).source


def _fixing_formula(inputs: LoopLengthInputs) -> str:
    straight = f"L / {inputs.fixing_distance:g}"
    if inputs.right_angle_bends is None:
        return f"1.2 {straight}, rounded up"
    return f"{straight}, rounded up, + 2 x {inputs.right_angle_bends}"
