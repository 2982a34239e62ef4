"""What commissioning answers: what to do with figures, and the records as forms to fill in."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from ..glossary import named
from ..practice.curing_stages import Stage
from ..quick_records import quickly_made
from ..results import Caution, Finding
from .commissioning_records import TestMedium

__all__ = [
    "AntifreezeOption",
    "BackflowProtection",
    "BalancingRow",
    "CommissioningResult",
    "Filling",
    "FillingStep",
    "FlushingRow",
    "FormField",
    "HeatUpRow",
    "JointMovement",
    "LeakTestEdition",
    "LeakTestPlan",
    "LeakTestStep",
    "MoistureRow",
    "PressureDrift",
    "RecordForm",
    "WaterLimits",
]


@dataclass(frozen=True, slots=True)
class LeakTestEdition:
    """What one text asks for, for this system; pressures [Pa] above atmospheric, ``duration`` [s] None: not said."""

    edition: str
    medium: TestMedium = field(metadata=named("test_medium"))
    lowest_pressure: float
    highest_pressure: float
    duration: float | None = field(metadata=named("test_duration"))
    note: str = field(metadata=named("edition_note"))
    source: str


@dataclass(frozen=True, slots=True)
class LeakTestStep:
    """A step of the test ``after`` [s] from its start, with the ``pressure`` [Pa] that the gauge should show."""

    after: float = field(metadata=named("time_after_start"))
    action: str = field(metadata=named("test_action"))
    pressure: float = field(metadata=named("gauge_pressure"))


@dataclass(frozen=True, slots=True)
class PressureDrift:
    """How the reading of a tight system moves with temperature.

    ``pressure_per_kelvin`` [Pa/K] and ``pressure_change`` [Pa] for the temperature change asked are those of an elastic
    pipe, negative where the reading falls as it gets warmer; plastic creeps, so real readings move less.
    ``practice_pressure_change`` [Pa] is what the trade expects of plastic pipe, None for air. ``volume_for_loss`` [m3]
    is what has to leak from this system for ``pressure_loss`` [Pa]; ``drip_pressure_loss`` [Pa] is what a drip of 3
    ml/min takes off the reading in an hour.
    """

    pressure_per_kelvin: float
    temperature_change: float
    pressure_change: float
    practice_pressure_change: float | None
    pressure_loss: float
    volume_for_loss: float
    drip_pressure_loss: float


@dataclass(frozen=True, slots=True)
class LeakTestPlan:
    """The test; pressures [Pa] above atmospheric. ``holding_pressure`` is kept while the screed is poured.
    ``test_energy`` [J] is what the test medium would set free, ``energy_of_water`` [J] what water would at the same
    pressure."""

    medium: TestMedium = field(metadata=named("test_medium"))
    test_pressure: float
    duration: float = field(metadata=named("test_duration"))
    holding_pressure: float
    isolate: tuple[str, ...]
    steps: tuple[LeakTestStep, ...] = field(metadata=named("leak_test_steps"))
    editions: tuple[LeakTestEdition, ...] = field(metadata=named("leak_test_editions"))
    drift: PressureDrift = field(metadata=named("pressure_drift"))
    test_energy: float
    energy_of_water: float


@dataclass(frozen=True, slots=True)
class FlushingRow:
    """A circuit flushed by itself: flow [m3/s], time [s] and water [m3] for all exchanges, and the pressure drop [Pa]
    that the hose must overcome."""

    circuit: str
    manifold: str = field(metadata=named("manifold_id"))
    port: int | None
    volume_flow: float
    velocity: float
    flushing_time: float
    water_volume: float
    pressure_drop: float


@dataclass(frozen=True, slots=True)
class FillingStep:
    """What is done in this place of the order."""

    number: int = field(metadata=named("step_number"))
    action: str = field(metadata=named("filling_action"))


@dataclass(frozen=True, slots=True)
class Filling:
    """``system_volume`` [m3] to fill with; pressures [Pa] above atmospheric, None where they were not given."""

    system_volume: float
    precharge_pressure: float | None
    fill_pressure: float | None
    steps: tuple[FillingStep, ...] = field(metadata=named("filling_steps"))


@dataclass(frozen=True, slots=True)
class AntifreezeOption:
    """A glycol for the frost temperature: concentrations [1], None where no published one will do; ``glycol_volume``
    [m3] of the pure glycol. Later it is drained and the system flushed ``flushes`` times, with ``flush_volume`` [m3] of
    water in all."""

    fluid: str = field(metadata=named("glycol_kind"))
    concentration_by_volume: float | None
    concentration_by_mass: float | None
    glycol_volume: float | None
    flushes: int
    flush_volume: float


@dataclass(frozen=True, slots=True)
class WaterLimits:
    """Limits of the heating water; ``specific_volume`` [m3/W] and ``hardness_limit`` [mol/m3] None where the output of
    the source is not known, or where there is no limit (``limited`` says which)."""

    specific_volume: float | None
    limited: bool = field(metadata=named("hardness_limited"))
    hardness_limit: float | None
    hardness: float | None = field(metadata=named("water_hardness"))
    lowest_ph: float
    highest_ph: float
    low_salt_conductivity: float
    highest_conductivity: float
    source: str


@dataclass(frozen=True, slots=True)
class BackflowProtection:
    """What stands between drinking water and the system while it is filled (EN 1717)."""

    fluid_category: int
    protection: Literal["CA", "BA"] = field(metadata=named("backflow_protection"))
    reason: str
    source: str


@dataclass(frozen=True, slots=True)
class BalancingRow:
    """A line of the balancing record: what to set; the found values are written on site."""

    circuit: str
    room: str
    manifold: str = field(metadata=named("manifold_id"))
    port: int | None
    volume_flow: float | None
    valve_setting: float | None


@dataclass(frozen=True, slots=True)
class HeatUpRow:
    """A day of the first heating; the supply temperature [degC] to set."""

    date: date
    day: int
    stage: Stage
    supply_temperature: float


@dataclass(frozen=True, slots=True)
class MoistureRow:
    """A test point of a floor with the limits of its screed and covering; its reading is written on site and judged by
    moisture-reading."""

    screed: str = field(metadata=named("screed_name"))
    room: str
    area_number: int
    point_number: int
    carbide_moisture: float
    relative_humidity: float


@dataclass(frozen=True, slots=True)
class JointMovement:
    """Thermal ``movement`` [m] of the two edges at a joint against each other, from the pour to the warmest floor."""

    id: str
    room: str
    movement: float
    allowed_movement: float


@quickly_made
@dataclass(frozen=True, slots=True)
class FormField:
    """A field of a form: printed with its design value if it has one, else left empty. ``design_value`` is in SI
    ``unit``."""

    label: str = field(metadata=named("form_label"))
    unit: str = field(default="", metadata=named("form_unit"))
    design_value: float | None = None
    design_text: str = ""


@dataclass(frozen=True, slots=True)
class RecordForm:
    """A record to fill in on site: ``fields`` at its head, and where it has a table the name of the list of this answer
    with its rows (``table``) and the empty ``columns`` beside the design values."""

    code: str
    title: str = field(metadata=named("form_title"))
    fields: tuple[FormField, ...] = field(metadata=named("form_fields"))
    table: str = field(metadata=named("form_table"))
    columns: tuple[FormField, ...] = field(metadata=named("form_columns"))
    basis: str = field(metadata=named("form_basis"))


@dataclass(frozen=True, slots=True)
class CommissioningResult:
    """All steps in the order in which they are done."""

    system_volume: float
    leak_test: LeakTestPlan = field(metadata=named("leak_test_plan"))
    flushing: tuple[FlushingRow, ...] = field(metadata=named("flushing_rows"))
    filling: Filling
    antifreeze: tuple[AntifreezeOption, ...] = field(metadata=named("antifreeze_options"))
    water_limits: WaterLimits
    backflow: BackflowProtection
    balancing: tuple[BalancingRow, ...] = field(metadata=named("balancing_rows"))
    heat_up_log: tuple[HeatUpRow, ...]
    moisture_points: tuple[MoistureRow, ...]
    joint_movements: tuple[JointMovement, ...]
    edge_movement_limit: float
    forms: tuple[RecordForm, ...] = field(metadata=named("record_forms"))
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
