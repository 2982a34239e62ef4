"""How the reading of a tight system moves with temperature, and what a leak takes off it.

Elastic pipe (Lame, thick-walled cylinder) full of water with a little trapped air: the change of volume by warming is
taken up by the pressure. Plastic creeps, so that real readings move less and slower.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple

from ..pipe import Pipe
from ..water.fluid import WaterModel
from .commissioning_outcome import PressureDrift
from .commissioning_records import LeakTest, PipeMaterial

__all__ = ["ATMOSPHERE", "PIPE_MATERIALS", "WATER_COMPRESSIBILITY", "pressure_drift", "stored_energy"]

ATMOSPHERE = 101_325.0
_ZERO_CELSIUS = 273.15
WATER_COMPRESSIBILITY = 4.6e-10
"""Of water at 10 to 20 degC [1/Pa] (steam tables)."""
_ISENTROPIC = 1.4
"""Of air [1]."""
_PRACTICE_DRIFT = 10_000.0
"""10 K move the reading of plastic pipe by 0.5 to 1 bar, as makers of plastic pipe say; the higher one [Pa/K]."""
_LOOKED_AT = 10_000.0
"""Loss of pressure whose volume is given [Pa]: 0.1 bar, what a site gauge shows."""
_DRIP = 3e-6 * 60.0
"""Of a drip of 3 ml/min in an hour [m3]."""


class PipeElasticity(NamedTuple):
    """Thermal ``expansion`` [1/K], ``modulus`` [Pa] of short loads at 20 degC and Poisson's ratio [1]."""

    expansion: float
    modulus: float
    poisson: float


PIPE_MATERIALS: MappingProxyType[PipeMaterial, PipeElasticity] = MappingProxyType(
    {
        "PE-X": PipeElasticity(1.8e-4, 6.0e8, 0.45),
        "PE-RT": PipeElasticity(1.8e-4, 5.5e8, 0.45),
        "PB": PipeElasticity(1.3e-4, 4.5e8, 0.45),
        "PP-R": PipeElasticity(1.5e-4, 8.5e8, 0.42),
        "multilayer": PipeElasticity(0.3e-4, 7.0e9, 0.4),
    }
)
"""Values from memory of makers' sheets; multilayer with 0.2 mm of aluminium in a wall of 2 mm."""


def pressure_drift(
    test: LeakTest, pressure: float, pipe: Pipe, material: PipeMaterial, volume: float
) -> PressureDrift:
    """For ``pressure`` [Pa] above atmospheric in a system of ``volume`` [m3]."""
    kelvin = test.test_temperature + _ZERO_CELSIUS
    absolute = pressure + ATMOSPHERE
    if test.medium == "air":
        growth, give = 1.0 / kelvin, 1.0 / absolute
    else:
        air, stuff = test.trapped_air, PIPE_MATERIALS[material]
        growth = _water_expansion(test.test_temperature) * (1.0 - air) + air / kelvin - 3.0 * stuff.expansion
        give = WATER_COMPRESSIBILITY * (1.0 - air) + _bore_give(pipe, stuff) + air / absolute
    slope, change = growth / give, test.temperature_change
    return PressureDrift(
        pressure_per_kelvin=slope,
        temperature_change=change,
        pressure_change=slope * change,
        practice_pressure_change=None if test.medium == "air" else _PRACTICE_DRIFT * abs(change),
        pressure_loss=_LOOKED_AT,
        volume_for_loss=_LOOKED_AT * give * volume,
        drip_pressure_loss=_DRIP / (give * volume),
    )


def _water_expansion(temperature: float) -> float:
    """Thermal expansion of water [1/K]."""
    model = WaterModel()
    colder, warmer = float(model.density(temperature - 0.5)), float(model.density(temperature + 0.5))
    return colder / warmer - 1.0


def _bore_give(pipe: Pipe, stuff: PipeElasticity) -> float:
    """Growth of the bore's volume over itself by pressure [1/Pa]: a thick-walled cylinder held lengthwise."""
    outer, inner = pipe.outside_diameter**2, pipe.bore**2
    return 2.0 / stuff.modulus * ((outer + inner) / (outer - inner) + stuff.poisson)


def stored_energy(pressure: float, volume: float) -> tuple[float, float]:
    """What air, and what water, sets free from ``pressure`` [Pa] above atmospheric [J]: isentropic expansion of a
    perfect gas; water by its compressibility alone, the stretched pipe adds to it."""
    absolute, exponent = pressure + ATMOSPHERE, (_ISENTROPIC - 1.0) / _ISENTROPIC
    air = absolute * volume / (_ISENTROPIC - 1.0) * (1.0 - (ATMOSPHERE / absolute) ** exponent)
    return air, 0.5 * WATER_COMPRESSIBILITY * pressure**2 * volume
