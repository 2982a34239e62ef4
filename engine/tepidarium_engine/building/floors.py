"""Rooms with their floors, and what each spacing would give (EN 1264-2, EN 1264-3)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from ..checking import Point
from ..pipe import Pipe
from ..plan.outlines.polygons import RoomOutline
from ..practice.coverings import SURFACE_TEMPERATURE_LIMITS
from ..storey.joints.proposed_joints import ProposedJoint
from ..thermal.characteristic import mean_excess_temperature
from ..thermal.dimensioning import drop_on_supply, supply_excess
from ..thermal.floor import (
    Floor,
    floor_downward_loss,
)
from ..thermal.limit_curves import SURFACE_EXCESS
from .floor_choices import FloorChoice, floor_choices
from .records import BuildUp, DesignRoom, DesignsInputs
from .room_strips import HeatedStrip, StripSpacing, strip_limit
from .spacings import LeftOut
from .warm_tails import NO_ROOM_TAILS, RoomTails

__all__ = [
    "FloorChoice",
    "KeptRoom",
    "OperatingPoint",
    "RoomToHeat",
    "build_up_pointer",
    "surface_limit",
    "surface_pointer",
]

_GREATEST_COOLING = 0.95
"""Largest share of its excess over the room that the water may lose; at 1 the circuit's end would be cold."""
_LEAST_FIELD = 0.05
"""Share of a room's floor that is its own field at least: where tails leave less, nothing can be laid."""
_ENOUGH = 0.95
"""Share of its demand that does for a room without circuits of its own (common practice, no source)."""
_SAME = 1e-9
_LEAST_OUTPUT = 1e-3
"""What a field is taken to give at least where tails of others heat its room [W/m2]."""


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """A floor on a supply: output [W/m2] up and down, drop [K] in the field, which the water enters at
    ``field_supply`` [degC]."""

    choice: FloorChoice
    heat_output: float
    downward_heat_loss: float
    temperature_drop: float
    field_supply: float


class AdoptedJoint(NamedTuple):
    """A movement joint of a room as it was proposed, or of the doorway of this number."""

    proposal: ProposedJoint
    doorway: int | None


class KeptRoom(NamedTuple):
    """What a former answer decided for a room, kept as long as it holds: the common ``supply`` [degC] where the source
    is the same, its spacing [m], the least number of circuits at this spacing, and the id of its manifold."""

    supply: float | None
    pipe_spacing: float | None
    circuits: int
    manifold: str | None


@dataclass(frozen=True)
class RoomToHeat:
    """A room with its build-up, area [m2], surface limit [degC] and the spacings that it may have.

    ``tails`` are those of others in it; ``lost_share`` is the heat that its own flows lose on their way to it over
    that of its field, and so their cooling over the drop in the field. ``greatest_drop`` [K] is the most by which the
    field may cool the water, as tails cool it, too. Without ``own_circuits`` those that pass it lay loops on its
    floor. Numbers of its circuits are put after ``numbered`` where there are
    several. Pipe lies closer in the ``strip``. Manifolds have ``ports`` for so many circuits of it at least.
    """

    index: int
    room: DesignRoom
    heat_demand: float
    build_up: BuildUp
    pipe: Pipe
    area: float
    outline: RoomOutline | None
    surface_limit: float
    pipe_spacings: tuple[float, ...]
    numbered: str
    left_out: tuple[LeftOut, ...] = ()
    tails: RoomTails = NO_ROOM_TAILS
    lost_share: float = 0.0
    greatest_drop: float = math.inf
    own_circuits: bool = True
    adopted_joints: tuple[AdoptedJoint, ...] = ()
    kept: KeptRoom | None = None
    strip: HeatedStrip | None = None
    ports: int = 0

    @cached_property
    def divisions(self) -> dict[tuple[float, ...], tuple[DesignsInputs, object]]:
        """What the room was divided into by area, remembered: by manifold, supply and operating point the request, and
        the room in its circuits."""
        return {}

    @property
    def strip_limit(self) -> float:
        """Warmest that the surface of its strip may get [degC]."""
        return strip_limit(self.room, self.build_up, self.surface_limit)

    @property
    def joints(self) -> tuple[tuple[Point, ...], ...]:
        """Movement joints that the room has: those given, then those adopted."""
        return (*self.room.movement_joints, *(joint.proposal.line for joint in self.adopted_joints))

    @property
    def pointer(self) -> str:
        return f"/rooms/{self.index}"

    @property
    def label(self) -> str:
        return self.room.name or self.room.id

    def circuit_label(self, circuit: str) -> str:
        """What people call one of its circuits: by the room's name, where it is the only one."""
        return self.label if circuit == self.room.id else f"{self.label} ({circuit})"

    @property
    def counts_for_supply(self) -> bool:
        """Whether the room counts when the common supply is chosen (EN 1264-3: not where it is a bathroom)."""
        asked = self.room.counts_for_supply
        return self.room.use != "bathroom" if asked is None else asked

    @property
    def may_be_served(self) -> bool:
        """Whether some spacing gives the room its heat within the surface limit, on a supply that is warm enough."""
        return any(self.required_heat_output <= choice.limit_heat_output for choice in self.choices)

    @property
    def field_area(self) -> float:
        """Floor of the room's own circuits [m2]."""
        return max(self.area - self.tails.area, _LEAST_FIELD * self.area)

    @property
    def enough_by_tails(self) -> bool:
        """Whether tails of others alone do for the room."""
        return self.tails.heat >= _ENOUGH * self.heat_demand

    @property
    def required_heat_output(self) -> float:
        """What the room's own field has to give [W/m2]."""
        return max(self.heat_demand - self.tails.heat, 0.0) / self.field_area

    def given(self, heat_output: float) -> float:
        """Heat of the room [W] when its own field gives ``heat_output`` [W/m2]."""
        return heat_output * self.field_area + self.tails.heat

    @cached_property
    def choices(self) -> tuple[FloorChoice, ...]:
        """From the widest to the narrowest spacing."""
        return self._choices_at(self.pipe_spacings)

    @property
    def choices_in_turn(self) -> tuple[FloorChoice, ...]:
        """The one that is kept, if it still may be; then from the widest to the narrowest."""
        if self.kept is None:
            return self.choices
        spacing = self.kept.pipe_spacing
        return tuple(sorted(self.choices, key=lambda choice: choice.pipe_spacing != spacing))

    def kept_circuits(self, pipe_spacing: float) -> int:
        """Circuits that are kept at a spacing."""
        return self.kept.circuits if self.kept is not None and self.kept.pipe_spacing == pipe_spacing else 0

    def floor(self, pipe_spacing: float) -> Floor:
        build_up = self.build_up
        return Floor(
            pipe_spacing,
            self.pipe,
            build_up.screed_cover,
            build_up.resistance_below,
            build_up.screed_conductivity,
            build_up.covering_resistance,
        )

    def choice(self, pipe_spacing: float) -> FloorChoice:
        (choice,) = self._choices_at((pipe_spacing,))
        return choice

    def _choices_at(self, spacings: tuple[float, ...]) -> tuple[FloorChoice, ...]:
        excess = self.surface_limit - self.room.room_temperature
        strip = None
        if self.strip is not None:
            strip = StripSpacing(*self.strip, self.strip_limit - self.room.room_temperature)
        return floor_choices(self.floor(0.0), spacings, excess, strip)

    def required_supply(self, choice: FloorChoice, heat_output: float, temperature_drop: float) -> float:
        """Supply temperature [degC] at the manifold at which ``choice`` gives ``heat_output`` [W/m2] with the drop
        [K] in the field, or with the greatest drop of the room."""
        drop = min(temperature_drop, self.greatest_drop)
        mean = max(heat_output, _LEAST_OUTPUT) / choice.heat_transmittance
        entering = self.room.room_temperature + float(supply_excess(mean, drop))
        return entering + self.lost_share * drop

    def most_heat_output(self, choice: FloorChoice, supply: float, temperature_drop: float) -> float:
        """What ``choice`` gives at most [W/m2]: on this supply with the drop, within the surface limit."""
        drop = min(temperature_drop, self.greatest_drop)
        return min(self._output_at_drop(choice, supply, drop), choice.limit_heat_output)

    def _output_at_drop(self, choice: FloorChoice, supply: float, temperature_drop: float) -> float:
        drop = self._possible(supply, temperature_drop)
        entering = supply - self.lost_share * drop
        room = self.room.room_temperature
        return choice.heat_transmittance * float(mean_excess_temperature(entering, entering - drop, room))

    def _possible(self, supply: float, temperature_drop: float) -> float:
        """The drop in the field [K], or the most that leaves the water warmer than the room."""
        most = _GREATEST_COOLING * (supply - self.room.room_temperature) / (1.0 + self.lost_share)
        return min(temperature_drop, most)

    def operate(
        self, choice: FloorChoice, supply: float, least_drop: float, most_drop: float
    ) -> OperatingPoint:
        """The floor on the supply with the drop that makes it give what the room needs.

        A room that needs little of a warm supply would cool the water more than ``most_drop`` [K]; it then gives
        more than is needed and its control throttles it. The surface limit always holds. At the ends of the range
        the drop is the one asked for; between them it follows from the logarithmic mean. A room without circuits of its
        own gives nothing by itself.
        """
        if not self.own_circuits:
            return OperatingPoint(choice, 0.0, 0.0, least_drop, supply)
        least_drop, most_drop = (min(drop, self.greatest_drop) for drop in (least_drop, most_drop))
        at_least_drop = self._output_at_drop(choice, supply, least_drop)
        at_most_drop = self._output_at_drop(choice, supply, most_drop)
        output = max(self.required_heat_output, at_most_drop)
        output = min(output, at_least_drop, choice.limit_heat_output)
        if output >= at_least_drop * (1.0 - _SAME):
            drop = least_drop
        elif abs(output - at_most_drop) <= at_most_drop * _SAME:
            drop = most_drop
        else:
            excess = supply - self.room.room_temperature
            drop = drop_on_supply(excess, output / choice.heat_transmittance, self.lost_share)
        drop = self._possible(supply, drop)
        room = self.room.room_temperature
        lost = floor_downward_loss(choice.floor, output, room, self.build_up.temperature_below)
        return OperatingPoint(choice, output, lost, drop, supply - self.lost_share * drop)


def surface_pointer(room: DesignRoom, pointer: str) -> str:
    """What decides how warm the floor of a room may get over the room: its own limit, else its temperature."""
    own = room.surface_temperature_limit is not None
    return f"{pointer}/{'surface_temperature_limit' if own else 'room_temperature'}"


def surface_limit(room: DesignRoom, build_up: BuildUp) -> float:
    """Warmest that the floor of a room may get [degC]: as given, or by its use and covering."""
    covering = SURFACE_TEMPERATURE_LIMITS[build_up.covering][0]
    if room.surface_temperature_limit is not None:
        return room.surface_temperature_limit
    if room.use == "bathroom":
        bathroom = room.room_temperature + SURFACE_EXCESS
        return bathroom if covering >= 29.0 else min(bathroom, covering)
    return covering


def build_up_pointer(inputs: DesignsInputs, build_up: BuildUp) -> str:
    """Where a build-up stands in the request."""
    return f"/build_ups/{[each.id for each in inputs.build_ups].index(build_up.id)}"
