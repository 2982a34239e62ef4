"""Length of pipe and number of circuits from an area or an outline, before anything is drawn.

The field takes one over the spacing in metres of pipe per square metre. Flow and return between manifold and
field belong to the circuit and count against its permitted length. A field that is too long for one circuit is
divided into the least number of equal ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from .checking import Point
from .glossary import named
from .pipe import Pipe
from .results import Caution, Finding

__all__ = ["LoopCircuit", "LoopLengthInputs", "LoopLengthResult"]


@dataclass(frozen=True, slots=True)
class LoopLengthInputs:
    """Either ``area`` [m2] or ``outline`` (with ``voids``) [m] says what is heated.

    ``tail_length`` [m] is one way from the manifold to the field. Without ``maximum_circuit_length`` [m] the
    usual length for the pipe's diameter holds. ``wall_clearance`` [m] shortens or lengthens the field of an
    outline only. ``right_angle_bends`` refines the count of fixings.
    """

    pipe_spacing: float
    tail_length: float
    area: float | None = None
    outline: tuple[Point, ...] | None = None
    voids: tuple[tuple[Point, ...], ...] = ()
    pipe: Pipe = Pipe(outside_diameter=0.016, wall_thickness=0.002)
    maximum_circuit_length: float | None = None
    wall_clearance: float = 0.075
    fixing_distance: float = 0.4
    right_angle_bends: int | None = None


@dataclass(frozen=True, slots=True)
class LoopCircuit:
    """One circuit. Here ``tail_length`` is both ways, so that field and tail add up to the total [m]."""

    id: str
    area: float
    field_length: float
    tail_length: float = named("tails_length")
    total_length: float


@dataclass(frozen=True, slots=True)
class LoopLengthResult:
    """Lengths [m], areas [m2]; ``area`` is net of voids, ``maximum_circuit_length`` the one applied."""

    circuits: tuple[LoopCircuit, ...] = named("loop_circuits")
    area: float
    field_length: float
    pipe_length: float
    length_method: Literal["area", "outline"]
    maximum_circuit_length: float
    maximum_circuit_area: float
    pipe_length_per_area: float
    spacer_length: float
    counterflow_infeed_spacing: float
    fixings: int
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
