"""What a design answers."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..commissioning import CommissioningResult
from ..curing_plan import CuringPlanInputs, CuringPlanResult
from ..glossary import named
from ..laying_sheets import LayingSheet
from ..materials import MaterialsResult
from ..plan.laying.ways import Pattern
from ..results import Caution, Finding
from ..water.result import ExpansionVessel, FrostProtection, Mixing, Pump
from .build_up_checks import BuildUpCheck
from .chosen_floors import ChosenFloor
from .comparison_records import DesignComparison
from .house_records import PeripheralStrip
from .layout_outcome import DesignJoint, DesignLayout
from .objective_records import ObjectiveOutcome
from .option_records import DesignOptionsResult
from .season_records import HeatingSeasonResult
from .sensitivity_records import DesignSensitivityResult

__all__ = [
    "BuildUpPlan",
    "CircuitDesign",
    "DesignConvergence",
    "DesignsResult",
    "ManifoldDesign",
    "Remedy",
    "RoomDesign",
    "StripDesign",
]


@dataclass(frozen=True, slots=True)
class Remedy:
    """One change by which the room would get more, computed with the whole design: ``heat_given`` [W] is what it then
    gets, ``heat_missing`` [W] what it still lacks."""

    code: str
    message: str
    heat_given: float
    heat_missing: float


@dataclass(frozen=True, slots=True)
class StripDesign:
    """The closer ``strip`` of a room, as asked for or chosen: its floor [m2], its spacing [m], what it gives [W/m2],
    and how warm its surface is and may be [degC]. ``rest_heat_output`` [W/m2] and ``rest_surface_temperature`` [degC]
    are those beside it.
    """

    strip: PeripheralStrip = field(metadata=named("peripheral"))
    area: float = field(metadata=named("strip_area"))
    pipe_spacing: float
    heat_output: float
    mean_surface_temperature: float
    surface_temperature_limit: float
    rest_heat_output: float
    rest_surface_temperature: float


@dataclass(frozen=True, slots=True)
class RoomDesign:
    """A room at the design's supply temperature and flows.

    Tails of other rooms take ``tails_area`` [m2] of its floor and give it ``tails_heat`` [W], which is part of
    ``heat_given`` [W]. ``required_heat_output`` and ``heat_output`` [W/m2] are asked of and given by the rest, its own
    field, which the water enters at ``field_supply_temperature`` [degC] and leaves at ``return_temperature`` [degC],
    ``temperature_drop`` [K] colder. ``heat_missing`` [W] is what another emitter must give. A room that tails alone
    heat has no ``circuit_ids``, and None for all that goes with circuits. ``pattern`` is None there, too;
    ``peripheral`` None where no strip lies closer than the room; both parts of the floor are in ``heat_output`` and the
    surface. ``manifold`` serves the room; others that stand in a hall may serve parts of it, as its circuits say.
    """

    id: str
    name: str
    area: float
    pipe_spacing: float | None
    spacer_length: float | None
    heat_demand: float
    heat_given: float
    heat_missing: float
    required_heat_output: float
    heat_output: float
    limit_heat_output: float | None
    downward_heat_flow: float
    mean_surface_temperature: float
    surface_temperature_limit: float
    temperature_drop: float | None
    return_temperature: float | None
    pipe_length: float
    circuit_ids: tuple[str, ...]
    remedies: tuple[Remedy, ...]
    manifold: str = field(metadata=named("manifold_id"))
    field_supply_temperature: float | None
    tails_heat: float
    tails_area: float
    pattern: Pattern | None
    peripheral: StripDesign | None = field(metadata=named("peripheral_designed"))


@dataclass(frozen=True, slots=True)
class CircuitDesign:
    """A circuit from its port and back. Here ``tail_length`` is both ways: field and tail add up to the total.
    ``heat_flow`` [W] and ``temperature_drop`` [K] are from port to port, with ``lost_on_the_way`` [W] that its tails
    leave in rooms of others."""

    id: str
    port: int
    room: str
    area: float
    field_length: float
    tail_length: float = field(metadata=named("both_tails_length"))
    total_length: float
    heat_flow: float
    mass_flow: float
    volume_flow: float
    temperature_drop: float
    return_temperature: float
    velocity: float
    pressure_drop: float
    pressure_drop_upper: float
    valve_pressure_drop: float
    total_pressure_drop: float
    valve_kv: float
    valve_setting: float | None
    open_flow_ratio: float
    manifold: str = field(metadata=named("manifold_id"))
    lost_on_the_way: float


@dataclass(frozen=True, slots=True)
class ManifoldDesign:
    """A manifold balanced by itself.

    ``manifold_pressure`` [Pa] is across its circuits at their design flows. The pump serves the manifold that needs
    most with its mains; before each other one a balancing valve takes ``balancing_pressure_drop`` [Pa], set to
    ``balancing_kv`` [m3/h], None where that is too little to be set, below 1 kPa.
    """

    id: str
    room_ids: tuple[str, ...]
    circuit_count: int
    heat_flow: float
    mass_flow: float
    volume_flow: float
    return_temperature: float
    index_circuit: str
    manifold_pressure: float
    balancing_pressure_drop: float
    balancing_kv: float | None


@dataclass(frozen=True, slots=True)
class DesignConvergence:
    """How spacings, supply, flows, lengths and heat of tails came to agree: the last of ``rounds`` changed no heat by
    more than ``residual`` [W]; ``settled`` when that is within ``tolerance`` [W]."""

    rounds: int
    residual: float
    tolerance: float
    settled: bool


@dataclass(frozen=True, slots=True)
class BuildUpPlan:
    """The curing plan of one build-up, and the inputs it was made from. The design itself has its findings."""

    build_up: str
    plan_inputs: CuringPlanInputs
    plan: CuringPlanResult


@dataclass(frozen=True, slots=True)
class DesignsResult:
    """The house. ``return_temperature`` [degC] is the mix of all circuits, ``heat_flow`` [W] all that the water
    gives, upwards and downwards. ``manifolds`` are those that serve rooms; ``sleeve_count`` and
    ``movement_joint_length`` [m] go with ``pipe_length`` [m] on the list of what to order, and what goes with joints
    that are due and not laid out stands beside them. ``chosen_floors`` are those whose covering was chosen;
    plans, checks and orders name them, too. ``options`` are those that the objective was chosen from, by
    area; with ``sensitivity`` and ``season`` they are as their own calculations answer them, without findings and
    cautions, which the design says itself."""

    supply_temperature: float
    return_temperature: float
    governing_room: str
    heat_demand: float
    heat_given: float
    heat_missing: float
    heat_flow: float
    mass_flow: float
    volume_flow: float
    pipe_length: float
    rooms: tuple[RoomDesign, ...] = field(metadata=named("room_designs"))
    circuits: tuple[CircuitDesign, ...] = field(metadata=named("circuit_designs"))
    index_circuit: str
    pump: Pump
    mixing: Mixing | None
    system_volume: float
    expansion_vessel: ExpansionVessel
    frost_protection: FrostProtection | None
    curing_plans: tuple[BuildUpPlan, ...]
    layout: DesignLayout | None
    build_up_checks: tuple[BuildUpCheck, ...]
    manifolds: tuple[ManifoldDesign, ...] = field(metadata=named("manifold_designs"))
    sleeve_count: int
    movement_joint_length: float
    due_sleeve_count: int
    due_joint_length: float
    joints: tuple[DesignJoint, ...] = field(metadata=named("design_joints"))
    insulated_tail_length: float
    materials: MaterialsResult | None = field(metadata=named("house_materials"))
    commissioning: CommissioningResult | None = field(metadata=named("house_commissioning"))
    laying_sheets: tuple[LayingSheet, ...]
    convergence: DesignConvergence
    chosen_floors: tuple[ChosenFloor, ...]
    objective: ObjectiveOutcome | None = field(metadata=named("objective_outcome"))
    comparison: DesignComparison | None = field(metadata=named("design_comparison"))
    options: DesignOptionsResult | None = field(metadata=named("options_of_design"))
    sensitivity: DesignSensitivityResult | None = field(metadata=named("sensitivity_of_design"))
    season: HeatingSeasonResult | None = field(metadata=named("season_of_design"))
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
