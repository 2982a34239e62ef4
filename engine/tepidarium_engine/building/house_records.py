"""The house that a design is made of."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from ..checking import Point
from ..drawing_sheet import DrawingSheet
from ..envelope.check_records import InsulationCheckInputs
from ..envelope.records import HeatLossInputs
from ..glossary import named
from ..ordering.order_options import Ordering
from ..pipe import Pipe
from ..plan.laying.ways import Pattern
from ..practice.coverings import Covering
from ..practice.heat_up import MakerRules, RuleSet
from ..practice.screed import Binder, FlexuralClass
from ..storey.manifold.position_records import PlanDoorway, WallAllowed
from ..water.inputs import Expansion, Fluid, ValveSetting
from .handover_records import Commissioning

__all__ = [
    "BuildUp",
    "DesignLimits",
    "DesignRoom",
    "DesignScreed",
    "HeatSource",
    "HouseToDesign",
    "Manifold",
    "PeripheralStrip",
    "Storey",
    "TailInsulation",
]


@dataclass(frozen=True, slots=True)
class Storey:
    """A storey of the house; rooms and manifolds name it. Each has a plan of its own: outlines of different
    storeys may lie over each other."""

    id: str
    name: str = ""


@dataclass(frozen=True, slots=True)
class BuildUp:
    """The layers of a floor, shared by the rooms that name it. See ``HeatOutputInputs`` for the resistances.

    ``insulation`` is a request of insulation-check for it.
    """

    id: str
    resistance_below: float
    temperature_below: float
    covering: Covering = "ceramic"
    covering_resistance: float = 0.10
    screed_cover: float = 0.045
    screed_conductivity: float = 1.2
    name: str = ""
    insulation: InsulationCheckInputs | None = field(default=None, metadata=named("insulation_request"))


@dataclass(frozen=True, slots=True)
class PeripheralStrip:
    """Closer pipe along outside walls, in the circuits of the room: ``width`` [m] along the walls ``edges`` of its
    outline, or along ``length`` [m] of a room without one. EN 1264-2 lets up to 1 m of it be 35 degC warm, unless the
    covering or the room asks for less. Where the room itself lies as close, the strip makes no difference."""

    pipe_spacing: float
    width: float = field(default=1.0, metadata=named("peripheral_width"))
    edges: tuple[int, ...] = field(default=(), metadata=named("strip_edges"))
    length: float | None = field(default=None, metadata=named("strip_length"))


@dataclass(frozen=True, slots=True)
class DesignRoom:
    """A room that the floor heats, with an ``outline`` (and ``voids``) or an ``area``.

    ``heat_demand`` [W] is without the loss through the room's own heated floor (EN 1264-3); None: that of the room
    of the same id in ``heat_loss`` of the request. ``tail_length`` [m] is
    one way from the manifold; None: estimated from the manifold's position and ``entry`` (or the nearest wall).
    ``pipe_spacing`` None: chosen among those of the limits. ``surface_temperature_limit`` None: 29 degC, or 9 K
    above the room in a bathroom, or less where the covering asks for less.
    ``storey`` and ``manifold`` are ids; None: the only storey, and the manifold of the storey with the shortest
    ways. ``movement_joints`` are those of the screed in the room and in its doorways: circuits keep to the fields
    between them, and only tails cross. ``peripheral`` goes with a counterflow.
    ``counts_for_supply``: whether the room counts when the common supply is chosen; None: a bathroom does not, as
    EN 1264-3 has it, any other room does.
    """

    id: str
    build_up: str
    heat_demand: float | None = None
    outline: tuple[Point, ...] | None = None
    voids: tuple[tuple[Point, ...], ...] = ()
    area: float | None = None
    name: str = ""
    use: Literal["occupied", "bathroom"] = "occupied"
    room_temperature: float = 20.0
    entry: Point | None = None
    pattern: Pattern = "counterflow"
    tail_length: float | None = None
    pipe_spacing: float | None = None
    surface_temperature_limit: float | None = None
    storey: str | None = field(default=None, metadata=named("storey_id"))
    manifold: str | None = field(default=None, metadata=named("manifold_id"))
    movement_joints: tuple[tuple[Point, ...], ...] = ()
    counts_for_supply: bool | None = None
    peripheral: PeripheralStrip | None = None


@dataclass(frozen=True, slots=True)
class HeatSource:
    """What the source can give.

    ``temperature_drop`` [K] is that of the governing room (EN 1264-3: at most 5 K). ``supply_temperature`` None:
    the lowest that serves the rooms. With ``primary_temperature`` the floor is fed through a mixing set.
    """

    maximum_supply_temperature: float = 45.0
    supply_temperature: float | None = None
    temperature_drop: float = 5.0
    primary_temperature: float | None = None


@dataclass(frozen=True, slots=True)
class Manifold:
    """``height`` [m] is the pipe between a port and the screed; the valves are as in ``HydraulicsInputs``.

    ``mains_pressure_drop`` [Pa] is from the pump to this manifold and back. ``storey`` None: the only one.

    Without ``position`` a storey that is drawn gets the place with the least pipe in all tails among
    ``allowed_places``, which are as in ``ManifoldPositionInputs``: any wall of any room without them. With both the
    position is compared to the best of them. Where one has too few ports for a storey, or its tails would be too
    long, more like it are added.
    """

    position: Point | None = None
    height: float = field(default=0.5, metadata=named("manifold_height"))
    valve_kv_open: float | None = None
    flow_meter_kv: float | None = None
    valve_table: tuple[ValveSetting, ...] = ()
    mains_pressure_drop: float = 0.0
    id: str = "1"
    storey: str | None = field(default=None, metadata=named("storey_id"))
    allowed_places: tuple[WallAllowed, ...] = ()


@dataclass(frozen=True, slots=True)
class DesignLimits:
    """``maximum_pressure_drop`` [Pa] holds for a circuit with its valve open (EN 1264-3: 25 kPa);
    ``maximum_temperature_drop`` [K] for rooms that need little of the common supply; ``maximum_tail_length`` [m] one
    way from a manifold whose place is found to a room, None: what leaves a circuit some field."""

    pipe_spacings: tuple[float, ...] = (0.10, 0.15, 0.20)
    maximum_circuit_length: float | None = None
    maximum_pressure_drop: float = 25_000.0
    maximum_temperature_drop: float = field(default=10.0, metadata=named("temperature_drop"))
    maximum_circuits: int = 12
    wall_clearance: float = 0.075
    tail_pitch: float = 0.06
    maximum_tail_length: float | None = None


@dataclass(frozen=True, slots=True)
class TailInsulation:
    """Insulation round the tails in rooms that are not their own: its ``thickness`` [m], round both pipes of a tail
    or round the flow alone."""

    thickness: float = field(default=0.009, metadata=named("tail_insulation_thickness"))
    thermal_conductivity: float = field(default=0.04, metadata=named("insulation_conductivity"))
    insulated_pipes: Literal["both", "flow"] = "both"

    @property
    def layers_between(self) -> float:
        """Of insulation between two pipes side by side."""
        return 2.0 if self.insulated_pipes == "both" else 1.0


@dataclass(frozen=True, slots=True)
class DesignScreed:
    """The screed of all build-ups, see ``CuringPlanInputs``."""

    pour_date: date
    binder: Binder = "cement"
    flexural_class: FlexuralClass = "F4"
    imposed_load: float = 2000.0
    rule_set: RuleSet = "standard"
    maker_rules: MakerRules | None = None
    lowest_air_temperature: float | None = None


@dataclass(frozen=True, slots=True)
class HouseToDesign:
    """The rooms of a house on one or more manifolds with a common supply. Without ``screed`` the design has no
    dates.

    ``manifolds`` are given in place of ``manifold`` where there are several; each of ``storeys`` needs at least
    one. Without ``storeys`` there is one storey.

    ``heat_loss`` is a request of heat-loss for those rooms whose demand is not given, under the same ids; its rooms
    take outline, voids and temperature from those of the design where they say nothing else.
    ``movement_joints``: "given" are those of the rooms; "proposed" adopts those that the rules ask for beside them, in
    rooms and doorways: circuits are laid out, drawn and sleeved with them.
    ``solve_sections`` solves the section of each build-up under the room that asks most of it.
    With ``doorways`` every pipe of their storeys is drawn, and without them where one room with an outline and no
    ``tail_length`` is all of a storey and its manifold has a position or allowed places in it: from its port
    through the doorways into its field and back, all lengths are those of the drawing, and heat of tails in the
    rooms they cross counts as part of those rooms' demand; ``quick`` leaves out the search for the spacings that
    fit each room best.
    ``ordering`` and ``commissioning`` say how to order and to put into operation what was designed; null leaves that
    part out. ``laying_sheets`` asks for the sheets of the drawn circuits. ``drawing`` says how drawings of the design
    are laid out.
    """

    rooms: tuple[DesignRoom, ...]
    build_ups: tuple[BuildUp, ...]
    pipe: Pipe = Pipe(0.016, 0.002)
    manifold: Manifold = Manifold()
    source: HeatSource = field(default=HeatSource(), metadata=named("heat_source"))
    fluid: Fluid = Fluid()
    frost_temperature: float | None = None
    expansion: Expansion = Expansion()
    limits: DesignLimits = field(default=DesignLimits(), metadata={"glossary": "limits"})
    screed: DesignScreed | None = None
    heat_loss: HeatLossInputs | None = field(default=None, metadata=named("heat_loss_request"))
    doorways: tuple[PlanDoorway, ...] = ()
    quick: bool = True
    solve_sections: bool = False
    storeys: tuple[Storey, ...] = ()
    manifolds: tuple[Manifold, ...] = field(default=(), metadata=named("manifolds_given"))
    tail_insulation: TailInsulation | None = None
    movement_joints: Literal["given", "proposed"] = field(default="given", metadata=named("joints_adopted"))
    ordering: Ordering | None = Ordering()
    commissioning: Commissioning | None = field(
        default=Commissioning(), metadata=named("commissioning_options")
    )
    laying_sheets: bool = field(default=False, metadata=named("sheets_wanted"))
    drawing: DrawingSheet = field(default=DrawingSheet(), metadata=named("drawing_sheet"))

    @property
    def all_manifolds(self) -> tuple[Manifold, ...]:
        return self.manifolds or (self.manifold,)

    def manifold_pointer(self, number: int) -> str:
        """Where the manifold stands in the request."""
        return f"/manifolds/{number}" if self.manifolds else "/manifold"
