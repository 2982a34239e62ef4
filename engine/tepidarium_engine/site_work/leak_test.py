"""The leak test before the pour: what the texts ask for side by side, and the test that is planned."""

from __future__ import annotations

from ..pipe import Pipe
from .commissioning_outcome import LeakTestEdition, LeakTestPlan, LeakTestStep
from .commissioning_records import LeakTest, PipeMaterial
from .leak_drift import pressure_drift, stored_energy

__all__ = ["CURRENT_RANGE", "leak_test_plan", "operating_pressure"]

_HOUR = 3600.0
CURRENT_RANGE = {"water": (400_000.0, 600_000.0), "air": (200_000.0, 300_000.0)}
"""Test pressures of EN 1264-4:2021 [Pa above atmospheric]."""
_HOLDING = 400_000.0
"""Kept at least while pouring [Pa] (recommendation; EN 1264-4 asks for pressure without a figure)."""
_OPERATING = 250_000.0
"""Below a safety valve of 3 bar, where nothing else is known [Pa]."""
_ISOLATED = (
    "safety valve",
    "expansion vessel",
    "pump, mixing set and heat source, unless they are rated for the test pressure",
    "automatic air vents",
    "parts of the system that are already in operation",
)


def operating_pressure(test: LeakTest) -> float:
    """Highest pressure in operation [Pa above atmospheric]."""
    return _OPERATING if test.operating_pressure is None else test.operating_pressure


def leak_test_plan(test: LeakTest, pipe: Pipe, material: PipeMaterial, volume: float) -> LeakTestPlan:
    """The plan for a system of ``volume`` [m3]."""
    low, high = CURRENT_RANGE[test.medium]
    usual = min(high if test.medium == "water" else low, test.component_rating)
    pressure = usual if test.test_pressure is None else test.test_pressure
    air, water = stored_energy(pressure, volume)
    return LeakTestPlan(
        medium=test.medium,
        test_pressure=pressure,
        duration=test.duration,
        holding_pressure=min(_HOLDING, pressure),
        isolate=_ISOLATED,
        steps=_steps(test, pressure),
        editions=_editions(operating_pressure(test)),
        drift=pressure_drift(test, pressure, pipe, material, volume),
        test_energy=air if test.medium == "air" else water,
        energy_of_water=water,
    )


def _steps(test: LeakTest, pressure: float) -> tuple[LeakTestStep, ...]:
    fill = (
        "Fill and vent every circuit by itself, close what is to be isolated, raise the pressure slowly."
        if test.medium == "water"
        else "Clear the area, close what is to be isolated, raise the pressure slowly through a relief valve."
    )
    return (
        LeakTestStep(0.0, fill, pressure),
        LeakTestStep(0.5 * _HOUR, "Restore the pressure: plastic pipe gives way at first.", pressure),
        LeakTestStep(
            _HOUR, "Restore the pressure again, note reading and temperature; the test begins.", pressure
        ),
        LeakTestStep(
            _HOUR + test.duration,
            "Note reading and temperature, look at every connection. A drop that the temperature does not explain is a "
            "leak until shown otherwise.",
            pressure,
        ),
    )


def _editions(operating: float) -> tuple[LeakTestEdition, ...]:
    """For the highest pressure in operation [Pa]."""
    practice = "The text gives none; 24 h with a log is common practice."
    return (
        LeakTestEdition(
            "EN 1264-4:2021",
            "water",
            400_000.0,
            600_000.0,
            None,
            f"Before the screed. Duration: {practice}",
            "EN 1264-4:2021, leak test (published extract)",
        ),
        LeakTestEdition(
            "EN 1264-4:2021",
            "air",
            200_000.0,
            300_000.0,
            None,
            "Before the screed; national rules may forbid air.",
            "EN 1264-4:2021, leak test (published extract)",
        ),
        LeakTestEdition(
            "EN 1264-4:2009",
            "water",
            400_000.0,
            600_000.0,
            None,
            f"Water or compressed air. Duration: {practice}",
            "EN 1264-4:2009 as relayed by an installer's guide",
        ),
        LeakTestEdition(
            "EN 1264-4:2001",
            "water",
            max(2.0 * operating, 600_000.0),
            max(2.0 * operating, 600_000.0),
            None,
            "Twice the operating pressure, at least 6 bar, kept up while the screed is poured.",
            "EN 1264-4:2001 as relayed by trade texts in Germany and the United Kingdom",
        ),
        LeakTestEdition(
            "NF DTU 65.14",
            "water",
            600_000.0,
            600_000.0,
            2.0 * _HOUR,
            "6 bar for 2 h.",
            "NF DTU 65.14 as relayed by a secondary summary",
        ),
        LeakTestEdition(
            "JGJ 142",
            "water",
            max(1.5 * operating, 600_000.0),
            max(1.5 * operating, 600_000.0),
            _HOUR,
            "1.5 times the operating pressure, at least 6 bar; no more than 0.5 bar less after an hour.",
            "JGJ 142 as relayed by a trade text",
        ),
        LeakTestEdition(
            "EN 14336",
            "water",
            1.3 * operating,
            1.3 * operating,
            None,
            "1.3 times the operating pressure, for the rest of the heating system.",
            "EN 14336 and DIN 18380 as relayed by a trade encyclopaedia",
        ),
    )
