"""What commissioning is planned from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..curing_plan import CuringPlanInputs
from ..glossary import named
from ..pipe import USUAL_PIPE, Pipe
from ..practice.screed import Binder
from ..water.inputs import Fluid

__all__ = [
    "CircuitToCommission",
    "CommissioningInputs",
    "Flushing",
    "JointSpan",
    "LeakTest",
    "PipeMaterial",
    "ScreedToHeat",
    "TestMedium",
    "WaterSide",
]

PipeMaterial = Literal["PE-X", "PE-RT", "PB", "PP-R", "multilayer"]
TestMedium = Literal["water", "air"]


@dataclass(frozen=True, slots=True)
class CircuitToCommission:
    """A circuit of ``length`` [m] from port to port with its design flow [m3/s] and valve setting, if known."""

    id: str
    length: float = field(metadata=named("circuit_length"))
    volume_flow: float | None = None
    valve_setting: float | None = None
    room: str = ""
    manifold: str = field(default="1", metadata=named("manifold_id"))
    port: int | None = None


@dataclass(frozen=True, slots=True)
class LeakTest:
    """The test before the pour; pressures [Pa] above atmospheric, durations [s], temperatures [degC].

    ``operating_pressure`` is the highest in operation, None: 2.5 bar; ``component_rating`` the least rating of pipe,
    fittings and manifold. ``test_pressure`` None: 6 bar with water, 2 bar with air, no more than the rating. The
    reading is looked at for a ``temperature_change`` [K] from ``test_temperature`` on, with ``trapped_air`` [1] of the
    volume.
    """

    medium: TestMedium = field(default="water", metadata=named("test_medium"))
    operating_pressure: float | None = None
    component_rating: float = 600_000.0
    test_pressure: float | None = None
    duration: float = field(default=86_400.0, metadata=named("test_duration"))
    test_temperature: float = 15.0
    temperature_change: float = 5.0
    trapped_air: float = 0.005


@dataclass(frozen=True, slots=True)
class Flushing:
    """Each circuit by itself at ``velocity`` [m/s] until its water was replaced ``exchanges`` times."""

    velocity: float = field(default=0.6, metadata=named("flushing_velocity"))
    exchanges: int = field(default=3, metadata=named("water_exchanges"))
    water_temperature: float = field(default=10.0, metadata=named("flushing_temperature"))


@dataclass(frozen=True, slots=True)
class WaterSide:
    """The heat source for the limits of its water: least ``source_output`` [W] of a single one, and ``kind``:
    small_content below 0.3 l/kW, such as a wall-hung boiler, or an electric heater. ``hardness`` [mol/m3] is that of
    the water to fill with. Pressures [Pa] above atmospheric."""

    source_output: float | None = None
    kind: Literal["usual", "small_content"] = field(default="usual", metadata=named("source_kind"))
    hardness: float | None = field(default=None, metadata=named("water_hardness"))
    aluminium: bool = False
    precharge_pressure: float | None = None
    fill_pressure: float | None = None


@dataclass(frozen=True, slots=True)
class JointSpan:
    """A movement joint with the lengths of the fields to both of its sides, square to it [m]; 0 for a side without
    heated screed."""

    id: str
    lengths: tuple[float, ...] = field(metadata=named("field_lengths"))
    room: str = ""


@dataclass(frozen=True, slots=True)
class ScreedToHeat:
    """A request of curing-plan, and the names of the rooms in the order of its ``room_areas``."""

    curing: CuringPlanInputs = field(metadata=named("curing_request"))
    rooms: tuple[str, ...] = field(default=(), metadata=named("room_names"))
    name: str = ""


@dataclass(frozen=True, slots=True)
class CommissioningInputs:
    """The system as laid.

    ``system_volume`` [m3] None: the circuits' content and ``additional_volume``. ``screeds`` serve the
    heat-up log and the moisture record; without them ``binder`` and ``maximum_supply_temperature`` [degC] serve the
    movement of joints. ``pour_temperature`` [degC] is that of the
    fresh screed.
    """

    circuits: tuple[CircuitToCommission, ...] = field(metadata=named("circuits_to_commission"))
    pipe: Pipe = USUAL_PIPE
    pipe_material: PipeMaterial = "PE-X"
    system_volume: float | None = None
    additional_volume: float = 0.0
    fluid: Fluid = Fluid()
    frost_temperature: float | None = None
    leak_test: LeakTest = LeakTest()
    flushing: Flushing = Flushing()
    water_side: WaterSide = WaterSide()
    screeds: tuple[ScreedToHeat, ...] = field(default=(), metadata=named("screeds_to_heat"))
    binder: Binder = "cement"
    maximum_supply_temperature: float = 45.0
    pour_temperature: float = 15.0
    joints: tuple[JointSpan, ...] = field(default=(), metadata=named("joint_spans"))
    project: str = field(default="", metadata=named("project_name"))
