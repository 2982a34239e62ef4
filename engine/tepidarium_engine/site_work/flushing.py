"""Flushing circuit by circuit, and the steps of filling."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..pipe import Pipe
from ..water.fluid import WaterModel
from ..water.friction import friction_upper
from ..water.inputs import Fluid
from .commissioning_outcome import Filling, FillingStep, FlushingRow
from .commissioning_records import CircuitToCommission, Flushing, WaterSide

__all__ = ["filling", "flushing_rows"]

_BENDS = 1.05
"""Bends add a twentieth to the friction of the straight pipe (common practice, no source)."""


def flushing_rows(
    circuits: Sequence[CircuitToCommission], pipe: Pipe, flushing: Flushing
) -> tuple[FlushingRow, ...]:
    """Water at the flushing velocity through each circuit; friction by Churchill, or Colebrook where that is more."""
    water, temperature, velocity = WaterModel(), flushing.water_temperature, flushing.velocity
    density, viscosity = float(water.density(temperature)), float(water.dynamic_viscosity(temperature))
    factor = float(friction_upper(density * velocity * pipe.bore / viscosity, pipe.roughness / pipe.bore))
    volume_flow = math.pi / 4.0 * pipe.bore**2 * velocity
    return tuple(
        FlushingRow(
            circuit=circuit.id,
            manifold=circuit.manifold,
            port=circuit.port,
            volume_flow=volume_flow,
            velocity=velocity,
            flushing_time=flushing.exchanges * circuit.length / velocity,
            water_volume=flushing.exchanges * circuit.length * pipe.water_content,
            pressure_drop=factor * circuit.length / pipe.bore * density * velocity**2 / 2.0 * _BENDS,
        )
        for circuit in circuits
    )


def filling(system_volume: float, water_side: WaterSide, fluid: Fluid) -> Filling:
    """The system [m3] filled circuit by circuit. Antifreeze is mixed before, as it does not mix well in the circuits
    (common practice, no source)."""
    actions = _STEPS if fluid.kind == "water" else (_MIXING, *_STEPS)
    return Filling(
        system_volume,
        water_side.precharge_pressure,
        water_side.fill_pressure,
        tuple(FillingStep(number, action) for number, action in enumerate(actions, start=1)),
    )


_MIXING = (
    "Mix water and antifreeze in a tank first; fill and top up with this mixture, never with water alone."
)
_STEPS = (
    "Close all circuits, open the first one and fill it at the flushing flow until no air comes.",
    "Close it, go on to the next; the highest manifold last.",
    "Set the gas of the empty expansion vessel to its precharge, then connect it.",
    "Raise the cold system to the fill pressure, open all circuits, vent manifold and source.",
    "Run the pump for a day, vent again, restore the fill pressure and note what was added.",
)
