"""Where a refusal reports its limit, its words name the same figure in the units of the trade."""

from __future__ import annotations

import re

import msgspec
import pytest
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_engine.errors import InputError

from tests.problems.refusals import REFUSALS, Refusal

BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}
SCALES = (1.0, 100.0, 1e3, 3600.0, 60_000.0, 1e-3, 1.0 / 60.0, 1.0 / 3600.0)
"""From SI to mm, kPa, l/h, per cent and the like."""

OTHERWISE = {
    "section_edge_distance",
    "fluid_frozen",
    "much_closer_than_room",
    "bend_too_wide",
    "below_room",
    "supply_below_room",
}
"""Codes whose words name another figure than the limit: a share of the spacing, the temperature that was asked for."""


def _faults(refusal: Refusal) -> list[tuple[str, str, float | None]]:
    calculation = BY_NAME[refusal.calculation]
    try:
        calculation.calculate(msgspec.convert(refusal.request, calculation.inputs, strict=True))
    except InputError as caught:
        return [(fault.code, fault.detail, fault.limit) for fault in caught.faults]
    return []


@pytest.mark.parametrize("refusal", REFUSALS, ids=lambda one: f"{one.calculation} {one.pointer} {one.code}")
def test_a_detail_names_its_limit(refusal: Refusal) -> None:
    for code, detail, limit in _faults(refusal):
        figures = [float(found) for found in re.findall(r"[-−]?\d+(?:\.\d+)?", detail)]
        if limit is None or not figures or code in OTHERWISE:
            continue
        named = [limit * scale for scale in SCALES]
        near = [abs(figure - each) <= 2e-3 * abs(each) for figure in figures for each in named]
        assert any(near), (code, detail, limit)
