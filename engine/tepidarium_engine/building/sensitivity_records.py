"""What is changed to see how a design reacts, and what each change comes to."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named
from ..places import PlacedText
from ..results import Caution, Finding, Severity
from .records import HouseToDesign

__all__ = [
    "ChangeKind",
    "DesignSensitivityInputs",
    "DesignSensitivityResult",
    "FindingTolerance",
    "RoomEffect",
    "RoomSensitivity",
    "RoomTolerance",
    "SensitivityLine",
    "ToleranceChange",
]

ChangeKind = Literal["covering", "demand", "room_temperature", "screed", "supply_limit"]


@dataclass(frozen=True, slots=True)
class DesignSensitivityInputs:
    """``design`` is a request of designs; what of it concerns drawings, dates and orders does not matter here.

    Room by room: carpet with ``covering_resistance`` [m2.K/W] in place of what insulates less, ``demand_rise`` [1] more
    heat, ``warmer_by`` [K] a warmer room, whose demand then grows with its distance from ``outside_temperature``
    [degC]. For the house: all demands so much higher, ``added_screed`` [m] over the pipes, no supply above
    ``supply_limit`` [degC]; None leaves it out.
    """

    design: HouseToDesign = field(metadata=named("design_request"))
    covering_resistance: float = 0.15
    demand_rise: float = 0.10
    warmer_by: float = 2.0
    outside_temperature: float = field(default=-12.0, metadata=named("outside_of_design"))
    added_screed: float = 0.02
    supply_limit: float | None = field(default=35.0, metadata=named("limit_of_supply"))


@dataclass(frozen=True, slots=True)
class SensitivityLine:
    """The house designed again with one change; ``room`` is empty where it concerns all. Differences are this design
    less the design as asked for."""

    kind: ChangeKind = field(metadata=named("change_kind"))
    room: str
    supply_temperature: float
    supply_difference: float = field(metadata=named("supply_changed"))
    missing_difference: float = field(metadata=named("missing_changed"))
    pipe_difference: float = field(metadata=named("pipe_changed"))
    circuit_difference: int = field(metadata=named("circuits_changed"))
    power_difference: float = field(metadata=named("power_changed"))
    message: str


@dataclass(frozen=True, slots=True)
class RoomTolerance:
    """How much more heat a room may need at its spacing, as a share of its demand; negative where it lacks heat.

    ``tolerance_on_supply``: on the supply of the design; ``tolerance_at_most``: on the warmest that the source gives.
    ``limited_by``: what ends the latter.
    """

    id: str
    name: str
    pipe_spacing: float
    heat_demand: float
    tolerance_on_supply: float
    tolerance_at_most: float
    limited_by: Literal["supply", "surface"]


@dataclass(frozen=True, slots=True)
class RoomEffect:
    """What a change does to a room, and to the supply of the house. ``of_house``: it concerns all rooms."""

    kind: ChangeKind = field(metadata=named("change_kind"))
    of_house: bool
    pipe_spacing: float
    supply_difference: float = field(metadata=named("supply_changed"))
    missing_difference: float = field(metadata=named("missing_changed"))
    pipe_difference: float = field(metadata=named("pipe_changed"))
    circuit_difference: int = field(metadata=named("circuits_changed"))
    message: str


@dataclass(frozen=True, slots=True)
class RoomSensitivity:
    """The changes of a room and of the whole house, by what they do to the room, the greatest effect first."""

    id: str
    name: str
    effects: tuple[RoomEffect, ...] = field(metadata=named("room_effects"))


@dataclass(frozen=True, slots=True)
class ToleranceChange:
    """A finding that a rise of demands makes ``new`` or ``gone`` for its ``subject``, a room or a circuit; empty where
    it concerns the house."""

    code: str
    change: Literal["new", "gone"] = field(metadata=named("tolerance_change"))
    severity: Severity
    subject: str
    message: PlacedText


@dataclass(frozen=True, slots=True)
class FindingTolerance:
    """How much the demand of a ``room`` may rise before a finding of the house changes, designed again with that rise;
    of all rooms by the same share where ``room`` is empty.

    ``tolerable_rise`` is known to 0.001; None where no finding changes up to twice the demand. ``changes`` are those
    just above it; none where the house cannot be computed there.
    """

    room: str
    name: str
    tolerable_rise: float | None
    changes: tuple[ToleranceChange, ...] = field(metadata=named("tolerance_changes"))


@dataclass(frozen=True, slots=True)
class DesignSensitivityResult:
    """The house as designs does it, by area, and ``lines`` with the greatest effect first: missing heat, then supply,
    then pipe; ``rooms`` have a table each. ``demand_tolerance`` is the least ``tolerance_at_most`` of all rooms.
    ``finding_tolerances``: of all rooms together, then of each alone."""

    supply_temperature: float
    heat_missing: float
    pipe_length: float
    circuit_count: int
    pump_power: float
    lines: tuple[SensitivityLine, ...] = field(metadata=named("sensitivity_lines"))
    rooms: tuple[RoomSensitivity, ...] = field(metadata=named("room_sensitivities"))
    tolerances: tuple[RoomTolerance, ...]
    demand_tolerance: float
    finding_tolerances: tuple[FindingTolerance, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
