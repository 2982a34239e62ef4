"""Flows, pressure drops, balancing, pump, mixing and expansion of the circuits of one manifold."""

from __future__ import annotations

from .water.inputs import (
    Circuit,
    CountedBends,
    Expansion,
    Fluid,
    HydraulicsInputs,
    HydraulicsLimits,
    ValveSetting,
)
from .water.result import (
    CircuitHydraulics,
    ExpansionVessel,
    FrostProtection,
    HydraulicsResult,
    Mixing,
    OpenFlow,
    OpenValves,
    Pump,
)

__all__ = [
    "Circuit",
    "CircuitHydraulics",
    "CountedBends",
    "Expansion",
    "ExpansionVessel",
    "Fluid",
    "FrostProtection",
    "HydraulicsInputs",
    "HydraulicsLimits",
    "HydraulicsResult",
    "Mixing",
    "OpenFlow",
    "OpenValves",
    "Pump",
    "ValveSetting",
]
