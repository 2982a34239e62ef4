"""Findings at both sides of their thresholds, and the limits that they report.

Those of a solved section lie where finite elements say.
"""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import msgspec
import pytest
from scipy.optimize import brentq
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_engine import floor_section
from tepidarium_engine.findings import STAGES
from tepidarium_engine.floor_section import FloorSectionInputs
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.results import Finding
from tepidarium_engine.section.records import ColdEdge, SectionLayer, WarmUp

from tests.findings.answered import finding_faults
from tests.findings.thresholds import ELSEWHERE, THRESHOLDS, Threshold, changed
from tests.sections.finite_elements import Heat, elements

BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}


def _findings(row: Threshold, value: Any) -> dict[str, Finding]:
    calculation = BY_NAME[row.calculation]
    request = changed(row.base, row.pointer, value)
    result = calculation.calculate(msgspec.convert(request, calculation.inputs, strict=True))
    return {finding.code: finding for finding in result.findings}


@pytest.mark.parametrize("row", THRESHOLDS, ids=[row.name for row in THRESHOLDS])
def test_a_finding_begins_at_its_threshold(row: Threshold) -> None:
    quiet, loud = _findings(row, row.quiet), _findings(row, row.loud)
    assert (quiet[row.code].severity if row.code in quiet else None) == row.before
    assert loud[row.code].severity == row.severity
    limit = row.limit if isinstance(row.limit, tuple) else (row.limit, 1e-9)
    if limit[0] is not None:
        assert loud[row.code].limit == pytest.approx(limit[0], abs=limit[1])


@pytest.mark.parametrize("row", THRESHOLDS, ids=[row.name for row in THRESHOLDS])
def test_the_answer_keeps_the_rules_of_findings(row: Threshold) -> None:
    """Pointers that lead somewhere, one finding a matter, in order."""
    body = json.dumps(changed(row.base, row.pointer, row.loud)).encode()
    found = answer(BY_NAME[row.calculation], body, "application/json")
    assert isinstance(found, Answer)
    assert finding_faults(json.loads(found.content)) == []


PHYSICS = ("what is known", "heat", "layers of the floor", "water", "frost and expansion", "dates")


def test_every_finding_of_physics_and_practice_has_a_row_or_a_reason() -> None:
    rows = {row.code for row in THRESHOLDS}
    known = {code for stage in PHYSICS for code in STAGES[stage]}
    assert known - rows == set(ELSEWHERE)


# -- a solved section --------------------------------------------------------------------------------------------

SECTION = FloorSectionInputs(
    pipe_spacing=0.30,
    pipe=Pipe(0.016, 0.002),
    screed_cover=0.045,
    screed_thickness=0.06102,
    layers_below=(SectionLayer(0.03, 0.04),),
    covering_resistance=0.02,
    water_temperature=30.0,
    film_coefficient=1500.0,
)


@pytest.fixture(scope="module")
def heat() -> Heat:
    """By finite elements, with water 10 K above the room and what lies below as warm as the room."""
    return elements(SECTION, 1500.0, 3)


def _told(
    code: str, severity: str, limit: float, quiet: FloorSectionInputs, loud: FloorSectionInputs
) -> None:
    assert code not in {finding.code for finding in floor_section.calculate(quiet).findings}
    (found,) = [one for one in floor_section.calculate(loud).findings if one.code == code]
    assert (found.severity, found.limit) == (severity, pytest.approx(limit, abs=1e-9))


@pytest.mark.parametrize(
    ("code", "severity", "excess"),
    [("surface_above_occupied_limit", "warning", 9.0), ("surface_above_peripheral_limit", "violation", 15.0)],
)
def test_surfaces_of_a_section_by_finite_elements(
    heat: Heat, code: str, severity: str, excess: float
) -> None:
    """EN 1264-2: 9 K where people stay, 15 K in peripheral areas; excesses are proportional to that of the water."""
    water = 10.0 * excess / (heat.highest - 20.0)
    quiet, loud = (replace(SECTION, water_temperature=20.0 + share * water) for share in (0.995, 1.005))
    _told(code, severity, 20.0 + excess, quiet, loud)


def test_an_uneven_surface_by_finite_elements(heat: Heat) -> None:
    """2 K: common practice, no source."""
    water = 10.0 * 2.0 / (heat.highest - heat.lowest)
    quiet, loud = (replace(SECTION, water_temperature=20.0 + share * water) for share in (0.99, 1.01))
    _told("surface_uneven", "note", 2.0, quiet, loud)


def test_a_source_that_is_too_small_by_finite_elements(heat: Heat) -> None:
    whole = heat.up + heat.down
    quiet, loud = (replace(SECTION, warm_up=WarmUp(source_power=share * whole)) for share in (1.005, 0.995))
    assert "source_too_small" not in {one.code for one in floor_section.calculate(quiet).findings}
    (found,) = [one for one in floor_section.calculate(loud).findings if one.code == "source_too_small"]
    assert found.limit == pytest.approx(whole, rel=0.002)


def test_heat_downwards_by_finite_elements() -> None:
    """A quarter of the water's heat: common practice, no source."""

    def share(thickness: float) -> float:
        found = elements(replace(SECTION, layers_below=(SectionLayer(thickness, 0.04),)), 1500.0, 1)
        return found.down / (found.up + found.down)

    thickness = brentq(lambda thickness: share(thickness) - 0.25, 0.002, 0.06, xtol=1e-5)
    quiet, loud = (
        replace(SECTION, layers_below=(SectionLayer(factor * thickness, 0.04),)) for factor in (1.02, 0.98)
    )
    _told("much_heat_downwards", "warning", 0.25, quiet, loud)


def test_a_cold_edge_by_finite_elements() -> None:
    """The floor at the edge is as warm as the room when so much comes from the water as goes out through the edge."""

    def lowest(temperature: float) -> float:
        edge = ColdEdge(0.10, temperature, 1.0)
        return elements(replace(SECTION, cold_edge=edge), 1500.0, 1).lowest

    at = brentq(lambda temperature: lowest(temperature) - 20.0, -60.0, 15.0, xtol=0.01)
    quiet, loud = (replace(SECTION, cold_edge=ColdEdge(0.10, at + change, 1.0)) for change in (1.5, -1.5))
    _told("edge_below_room", "warning", 20.0, quiet, loud)
