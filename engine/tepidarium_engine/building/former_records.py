"""What is read of a former answer of designs: its request, its decisions, its figures and its findings.

Whoever has a former answer sends it as it is: what is not read here may stand in it or be left out. Of all that may be
missing only the request is needed.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import ClassVar

from ..glossary import named
from ..places import Point
from ..plan.laying.ways import Pattern
from ..results import Severity
from .house_records import BuildUp, HouseToDesign, PeripheralStrip

__all__ = [
    "FormerCircuit",
    "FormerDates",
    "FormerDesign",
    "FormerFinding",
    "FormerFloor",
    "FormerInputs",
    "FormerLayout",
    "FormerManifold",
    "FormerMaterials",
    "FormerPlace",
    "FormerPlan",
    "FormerPump",
    "FormerQuantity",
    "FormerRoom",
    "FormerStrip",
]


@dataclass(frozen=True, slots=True)
class FormerInputs(HouseToDesign):
    """The request of the former answer."""

    OPEN: ClassVar[bool] = True


@dataclass(frozen=True, slots=True)
class FormerStrip:
    """The closer strip of a room in the former answer."""

    OPEN: ClassVar[bool] = True
    strip: PeripheralStrip = field(metadata=named("peripheral"))


@dataclass(frozen=True, slots=True)
class FormerRoom:
    """A room of the former answer. ``heat_demand`` [W] as it was designed for."""

    OPEN: ClassVar[bool] = True
    id: str
    manifold: str | None = field(default=None, metadata=named("manifold_id"))
    pipe_spacing: float | None = None
    circuit_ids: tuple[str, ...] = ()
    heat_demand: float | None = None
    heat_given: float | None = None
    heat_missing: float | None = None
    mean_surface_temperature: float | None = None
    pipe_length: float | None = None
    pattern: Pattern | None = None
    peripheral: FormerStrip | None = field(default=None, metadata=named("peripheral_designed"))


@dataclass(frozen=True, slots=True)
class FormerCircuit:
    """A circuit of the former answer. The same pipe is drawn where ``field_length`` and ``total_length`` [m] are the
    same."""

    OPEN: ClassVar[bool] = True
    id: str
    room: str
    manifold: str = field(default="1", metadata=named("manifold_id"))
    port: int | None = None
    field_length: float | None = None
    total_length: float | None = None
    volume_flow: float | None = None
    total_pressure_drop: float | None = None
    valve_kv: float | None = None
    valve_setting: float | None = None


@dataclass(frozen=True, slots=True)
class FormerFloor:
    """A floor whose covering was chosen in the former answer."""

    OPEN: ClassVar[bool] = True
    build_up: BuildUp = field(metadata=named("chosen_build_up"))
    like: str = field(metadata=named("build_up"))
    rooms: tuple[str, ...] = field(default=(), metadata=named("rooms_of_floor"))


@dataclass(frozen=True, slots=True)
class FormerManifold:
    """A manifold where it was drawn [m]."""

    OPEN: ClassVar[bool] = True
    id: str
    position: Point


@dataclass(frozen=True, slots=True)
class FormerLayout:
    """Of the former drawing: where the manifolds stand."""

    OPEN: ClassVar[bool] = True
    placed_manifolds: tuple[FormerManifold, ...] = ()


@dataclass(frozen=True, slots=True)
class FormerDates:
    """The days that others wait for."""

    OPEN: ClassVar[bool] = True
    earliest_heating: date | None = None
    earliest_covering: date | None = None


@dataclass(frozen=True, slots=True)
class FormerPlan:
    """The curing plan of a build-up."""

    OPEN: ClassVar[bool] = True
    build_up: str
    plan: FormerDates = field(default=FormerDates(), metadata=named("former_dates"))


@dataclass(frozen=True, slots=True)
class FormerQuantity:
    """A line of the former order."""

    OPEN: ClassVar[bool] = True
    item: str
    name: str
    unit: str = field(default="", metadata=named("quantity_unit"))
    order_quantity: float = 0.0


@dataclass(frozen=True, slots=True)
class FormerMaterials:
    """The former order."""

    OPEN: ClassVar[bool] = True
    quantities: tuple[FormerQuantity, ...] = field(default=(), metadata=named("material_quantities"))


@dataclass(frozen=True, slots=True)
class FormerPump:
    """What the former pump gave [m3/s, Pa]."""

    OPEN: ClassVar[bool] = True
    volume_flow: float | None = None
    pressure: float | None = field(default=None, metadata=named("pump_pressure"))


@dataclass(frozen=True, slots=True)
class FormerPlace:
    """A place that a former finding held for."""

    OPEN: ClassVar[bool] = True
    where: str = ""
    subject: str = ""


@dataclass(frozen=True, slots=True)
class FormerFinding:
    """A finding of the former answer."""

    OPEN: ClassVar[bool] = True
    code: str
    severity: Severity
    where: str = ""
    message: str = ""
    places: tuple[FormerPlace, ...] = field(default=(), metadata=named("former_places"))


@dataclass(frozen=True, slots=True)
class FormerDesign:
    """A former answer. Where its ``rooms`` or its ``supply_temperature`` are missing, its request is designed
    again."""

    OPEN: ClassVar[bool] = True
    inputs: FormerInputs = field(metadata=named("former_inputs"))
    engine_version: str = ""
    supply_temperature: float | None = None
    return_temperature: float | None = None
    heat_given: float | None = None
    heat_missing: float | None = None
    volume_flow: float | None = None
    pipe_length: float | None = None
    system_volume: float | None = None
    pump: FormerPump | None = field(default=None, metadata=named("former_pump"))
    rooms: tuple[FormerRoom, ...] = field(default=(), metadata=named("former_rooms"))
    circuits: tuple[FormerCircuit, ...] = field(default=(), metadata=named("former_circuits"))
    layout: FormerLayout | None = field(default=None, metadata=named("former_layout"))
    curing_plans: tuple[FormerPlan, ...] = field(default=(), metadata=named("former_plans"))
    materials: FormerMaterials | None = field(default=None, metadata=named("former_materials"))
    findings: tuple[FormerFinding, ...] = field(default=(), metadata=named("former_findings"))
    chosen_floors: tuple[FormerFloor, ...] = field(default=(), metadata=named("chosen_floors"))
