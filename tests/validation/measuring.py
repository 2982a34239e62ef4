"""What takes minutes: finite elements of every build-up, and every room of the corpus. Kept in ``measured.json``."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any, get_args

import fluids
import numpy as np
from CoolProp.CoolProp import PropsSI
from tepidarium_engine import __version__
from tepidarium_engine.floor_section import calculate
from tepidarium_engine.plan.laying.laying import Pattern
from tepidarium_engine.water.fluid import FluidModel, WaterModel, fluid_model
from tepidarium_engine.water.friction import churchill, colebrook
from tepidarium_engine.water.inputs import Fluid

from tests.rooms.corpus import CORPUS
from tests.rooms.outcome import laid_and_judged
from tests.sections.cases import AT_THE_EDGE, BUILD_UPS, FILM
from tests.sections.finite_elements import converged

__all__ = [
    "MEASURES",
    "PATTERNS",
    "measure",
    "measured_edge",
    "measured_fluids",
    "measured_friction",
    "measured_room",
    "measured_section",
    "read_record",
    "write_record",
]

RECORD = Path(__file__).parent / "measured.json"
PATTERNS: tuple[Pattern, ...] = get_args(Pattern)
MEASURES = ("coverage_three_quarters", "distance_1", "length_ratio", "mixed_share", "temperature_spread")
_DIGITS = 6
"""Decimals that are kept: far more than are shown, fewer than processors agree on."""


def read_record() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(RECORD.read_text(encoding="utf-8"))
    return found


def write_record(record: dict[str, Any]) -> None:
    RECORD.write_text(json.dumps(record, indent=1, sort_keys=True) + "\n", encoding="utf-8")


def measure(rooms: Iterable[Any] = CORPUS, build_ups: Iterable[str] = tuple(BUILD_UPS)) -> dict[str, Any]:
    chosen = list(rooms)
    return {
        "engine_version": __version__,
        "sections": {name: measured_section(name) for name in build_ups},
        "edges": {name: measured_edge(name) for name in AT_THE_EDGE},
        "fluids": measured_fluids(),
        "friction": measured_friction(),
        "routes": {
            pattern: {case.name: measured_room(case, pattern) for case in chosen} for pattern in PATTERNS
        },
    }


def measured_section(name: str) -> dict[str, float]:
    """Heat up and down and the mean surface by finite elements and by the section; the last step of the elements."""
    inputs = BUILD_UPS[name]
    elements, section = converged(inputs, FILM), calculate(inputs)
    return {
        "up": _kept(elements.up),
        "down": _kept(elements.down),
        "surface": _kept(elements.mean),
        "moved": _kept(elements.moved),
        "section_up": _kept(section.heat_output),
        "section_down": _kept(section.downward_heat_loss),
        "section_surface": _kept(section.mean_surface_temperature),
    }


def measured_edge(name: str) -> dict[str, float]:
    """Heat to the room and through the edge [W/m2, W/m] by finite elements and by the engine's finite volumes;
    ``water``: all heat of the bay [W/m2]."""
    inputs = AT_THE_EDGE[name]
    elements, bay = converged(inputs, FILM), calculate(inputs).edge_bay
    assert bay is not None
    return {
        "width": _kept(bay.bay_width),
        "water": _kept(elements.up + elements.down + elements.edge / bay.bay_width),
        "up": _kept(elements.up),
        "edge": _kept(elements.edge),
        "volumes_up": _kept(bay.heat_output),
        "volumes_edge": _kept(bay.edge_heat_loss),
    }


def measured_fluids() -> dict[str, Any]:
    """Deviation from CoolProp [%]: of water over the temperature [degC], of glycol solutions the largest."""
    found: dict[str, Any] = {"water": _fluid(WaterModel(), "Water", np.linspace(1.0, 95.0, 24))}
    for kind, name in (("propylene_glycol", "MPG"), ("ethylene_glycol", "MEG")):
        for share in (0.25, 0.5):
            model = fluid_model(Fluid(kind, share, "mass"))  # type: ignore[arg-type]
            curves = _fluid(model, f"INCOMP::{name}[{share}]", np.linspace(0.0, 60.0, 31))
            worst = max(abs(value) for curve in curves.values() for _, value in curve)
            found[f"{kind.replace('_', ' ')}, {100.0 * share:.0f} % by mass"] = worst
    return found


def _fluid(model: FluidModel, name: str, temperatures: Any) -> dict[str, list[tuple[float, float]]]:
    properties = {
        "density": ("D", model.density),
        "heat capacity": ("C", model.heat_capacity),
        "viscosity": ("V", model.dynamic_viscosity),
        "conductivity": ("L", model.thermal_conductivity),
    }
    return {
        word: [
            (
                _kept(at),
                _kept(100.0 * (own(at) / PropsSI(symbol, "T", at + 273.15, "P", 2e5, name) - 1.0)),
            )
            for at in temperatures.tolist()
        ]
        for word, (symbol, own) in properties.items()
    }


def measured_friction() -> dict[str, list[tuple[float, float]]]:
    """Friction by either law over that of Colebrook in the library fluids, less one [%], over the logarithm of the
    Reynolds number; pipe of 12 mm bore and 7 micrometres roughness."""
    roughness = 7e-6 / 0.012
    at = np.geomspace(4000.0, 1e5, 20).tolist()
    return {
        word: [
            (
                _kept(np.log10(each)),
                _kept(
                    100.0 * (float(law(each, roughness)) / fluids.friction.Colebrook(each, roughness) - 1.0)
                ),
            )
            for each in at
        ]
        for word, law in (("Churchill", churchill), ("Colebrook", colebrook))
    }


def measured_room(case: Any, pattern: Pattern) -> dict[str, Any]:
    outcome = laid_and_judged(case, pattern)
    found: dict[str, Any] = {"status": outcome.status}
    if outcome.check is not None:
        for name in MEASURES:
            value = getattr(outcome.check.measures, name)
            found[name] = None if value is None else _kept(value)
    return found


def _kept(value: float) -> float:
    return round(float(value), _DIGITS)
