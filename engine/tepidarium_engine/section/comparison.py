"""The same floor at other spacings and with other water."""

from __future__ import annotations

from .bay import Case, compared
from .contract import FloorSectionInputs
from .profile import surface_profiles
from .records import ComparedSection

__all__ = ["comparison", "pipe_surface"]


def comparison(inputs: FloorSectionInputs) -> tuple[ComparedSection, ...]:
    """Every compared spacing with every compared water; nothing when none is given."""
    if not inputs.compared_spacings and not inputs.compared_water_temperatures:
        return ()
    return tuple(_row(case, temperature, inputs.room_temperature) for temperature, case in compared(inputs))


def pipe_surface(case: Case, water_temperature: float) -> float:
    """Mean temperature of the screed at the pipe [degC]."""
    return water_temperature - case.mix("water") * case.bay.spacing * case.bay.pipe_resistance


def _row(case: Case, temperature: float, room: float) -> ComparedSection:
    up, surface = case.mix("up"), [point.temperature for point in surface_profiles(case, room)[0]]
    return ComparedSection(
        pipe_spacing=case.bay.spacing,
        water_temperature=temperature,
        heat_output=up,
        downward_heat_loss=case.mix("down"),
        total_heat_output=case.mix("water"),
        heat_transmittance=case.water.up,
        mean_surface_temperature=room + up * case.bay.surface_resistance,
        highest_surface_temperature=max(surface),
        lowest_surface_temperature=min(surface),
        pipe_surface_temperature=pipe_surface(case, temperature),
        below_covering_temperature=room + case.mix("top"),
    )
