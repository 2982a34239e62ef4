"""Words on people's safety round pump, water and antifreeze."""

from __future__ import annotations

from ..results import Caution
from .inputs import HydraulicsInputs

__all__ = ["hydraulic_cautions"]

_LOCAL_CODES = Caution(
    "local_codes_decide",
    "A sizing aid. Local building, water, energy and electrical rules, the approvals of the products and "
    "licensed practice decide; where they ask for more, they hold.",
)
_EXPANSION = Caution(
    "safety_valve_and_vessel",
    "A closed system needs a safety valve that cannot be shut off from the source, an expansion vessel and "
    "a pressure gauge (EN 12828). A vessel that is too small or has lost its gas makes the valve blow hot "
    "water. Let a licensed person size, set and check them.",
)
_ELECTRICAL = Caution(
    "electrical_work",
    "Pump, actuators and controls are connected by a competent electrician, with the supply switched off "
    "and secured.",
)
_LIMITER = Caution(
    "temperature_limiter",
    "Where the source, or a mixing valve that fails, can send water hotter than the floor may be, fit a "
    "limiter that works without the control and stops the pump before floor, covering or people come to "
    "harm.",
)
_FROST = Caution(
    "frost_and_antifreeze",
    "Loops with plain water burst when they freeze. Keep the building warm, use antifreeze, or blow the "
    "loops out one by one.",
)
_GLYCOL = Caution(
    "glycol",
    "Ethylene glycol is poisonous, propylene glycol products carry additives. Never join the system to "
    "drinking water without the protection that EN 1717 asks for; label it, keep the safety data sheet at "
    "hand, dispose of the fluid by local rules. The figures are for pure glycol: the maker's sheet and a "
    "refractometer decide on the frost point.",
)


def hydraulic_cautions(inputs: HydraulicsInputs) -> tuple[Caution, ...]:
    """Cautions that go with pump, source and fluid."""
    return (
        _LOCAL_CODES,
        _EXPANSION,
        _LIMITER,
        _ELECTRICAL,
        _FROST if inputs.fluid.kind == "water" else _GLYCOL,
    )
