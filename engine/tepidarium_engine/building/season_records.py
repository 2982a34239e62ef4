"""What a heating season is asked with, and what it comes to."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..glossary import named
from ..results import Caution, Finding
from .beside_records import ClimateBin
from .option_records import EfficiencyPoint
from .records import HouseToDesign

__all__ = [
    "ClimateBin",
    "HeatingCurve",
    "HeatingSeasonInputs",
    "HeatingSeasonResult",
    "SeasonBin",
    "SeasonRoom",
]


@dataclass(frozen=True, slots=True)
class HeatingSeasonInputs:
    """``design`` is a request of designs, with demands at ``outside_temperature`` [degC].

    ``climate``: the year in temperature bins. Above ``heating_limit`` [degC] nothing is heated. ``exponent`` of the
    floor's heat over its excess temperature: 1 after EN 1264-2. ``efficiency`` of the source by supply, coldest first.
    """

    design: HouseToDesign = field(metadata=named("design_request"))
    climate: tuple[ClimateBin, ...]
    outside_temperature: float = field(default=-12.0, metadata=named("outside_of_design"))
    heating_limit: float = 15.0
    exponent: float = field(default=1.0, metadata=named("curve_exponent"))
    efficiency: tuple[EfficiencyPoint, ...] = field(default=(), metadata=named("efficiency_if_known"))


@dataclass(frozen=True, slots=True)
class HeatingCurve:
    """Supply [degC] over outside temperature, as controls take it: the room that it holds for, the supply and outside
    of the design, and the ``exponent``. Supply = basis + (design supply - basis) x load share ^ (1 / exponent)."""

    basis_room: str = field(metadata=named("room"))
    basis_temperature: float
    design_outside_temperature: float
    design_supply_temperature: float
    exponent: float = field(metadata=named("curve_exponent"))
    slope: float = field(metadata=named("curve_slope"))


@dataclass(frozen=True, slots=True)
class SeasonBin:
    """The house at one outside temperature. ``load_share`` of the basis room; ``heat`` [kWh] that the rooms get;
    ``flow_share``: mean flow over design flow, as room controls open part of the time; ``volume_flow`` [m3/s] and
    ``pump_power`` [W] are such means, with a pump that keeps the pressure of the design. ``duties``: the share of the
    time that the control of each room is open, in the order of the rooms. Nothing is heated where
    ``supply_temperature`` is None."""

    outside_temperature: float = field(metadata=named("outside_of_bin"))
    hours: float = field(metadata=named("hours_of_bin"))
    load_share: float
    supply_temperature: float | None
    return_temperature: float | None
    heat: float = field(metadata=named("heat_of_bin"))
    flow_share: float
    volume_flow: float
    pump_power: float
    duties: tuple[float, ...] = field(metadata=named("room_duties"))
    coefficient_of_performance: float | None
    electricity: float | None


@dataclass(frozen=True, slots=True)
class SeasonRoom:
    """Share of the time that the control of a room is open, at the design and on average over the heating hours;
    ``heat`` that it gets and ``heat_lacking`` in the year [kWh], where the curve is too low for it."""

    id: str
    name: str
    design_duty: float
    mean_duty: float
    heat: float = field(metadata=named("heat_of_bin"))
    heat_lacking: float


@dataclass(frozen=True, slots=True)
class HeatingSeasonResult:
    """The heating curve and the year on it; ``pump_energy`` [kWh] is what the pump gives to the water in it;
    ``seasonal_performance`` is the heat over the electricity of all bins."""

    curve: HeatingCurve = field(metadata=named("heating_curve"))
    bins: tuple[SeasonBin, ...] = field(metadata=named("season_bins"))
    rooms: tuple[SeasonRoom, ...] = field(metadata=named("season_rooms"))
    heating_hours: float
    heat: float = field(metadata=named("heat_of_bin"))
    mean_supply_temperature: float | None
    mean_flow_share: float | None
    pump_energy: float
    electricity: float | None
    seasonal_performance: float | None
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
