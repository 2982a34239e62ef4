"""What takes minutes: finite elements of every build-up, and every room of the corpus. Kept in ``measured.json``."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any, get_args

from tepidarium_engine import __version__
from tepidarium_engine.floor_section import calculate
from tepidarium_engine.plan.laying.laying import Pattern

from tests.rooms.corpus import CORPUS
from tests.rooms.outcome import laid_and_judged
from tests.sections.cases import BUILD_UPS, FILM
from tests.sections.finite_elements import converged

__all__ = [
    "MEASURES",
    "PATTERNS",
    "measure",
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
