"""Moisture readings against the limits of the trades."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tepidarium_engine.errors import InputError
from tepidarium_engine.moisture_reading import MoistureReadingInputs, Reading, calculate, workings
from tepidarium_engine.practice.coverings import Covering, moisture_limit
from tepidarium_engine.practice.screed import Binder

PLAIN = MoistureReadingInputs("cement", "ceramic", (Reading(carbide_moisture=0.015),))


@pytest.mark.parametrize(
    ("binder", "covering"), list(itertools.product(get_args(Binder), get_args(Covering)))
)
def test_the_curing_plan_and_the_verdict_have_the_same_limits(binder: Binder, covering: Covering) -> None:
    limit = moisture_limit(binder, covering)
    both = (Reading(carbide_moisture=0.0), Reading(relative_humidity=0.0))
    readings = calculate(MoistureReadingInputs(binder, covering, both)).readings
    assert [reading.highest for reading in readings] == [limit.carbide_moisture, limit.relative_humidity]


@given(st.floats(0.0, 0.1))
def test_a_reading_passes_up_to_its_limit(moisture: float) -> None:
    result = calculate(replace(PLAIN, readings=(Reading(carbide_moisture=moisture),)))
    assert result.passed == (moisture <= 0.018)
    assert result.readings[0].margin == pytest.approx(0.018 - moisture)
    codes = [finding.code for finding in result.findings]
    assert ("too_moist" in codes) == (not result.passed)


def test_one_wet_point_keeps_the_floor_open() -> None:
    readings = (Reading(0.015, point="P1"), Reading(0.022, point="P2"), Reading(0.019, point="P3"))
    result = calculate(replace(PLAIN, readings=readings))
    assert not result.passed
    (finding,) = [finding for finding in result.findings if finding.code == "too_moist"]
    assert [place.subject for place in finding.places] == ["P2", "P3"]
    assert "CM-%" in finding.places[0].message


@pytest.mark.parametrize(("area", "points"), [(20.0, 2), (51.0, 3), (201.0, 6)])
def test_large_floors_need_more_points(area: float, points: int) -> None:
    """Practice of carbide measurement: 2 a room, above 50 m2 3 for each started 200 m2."""
    few = calculate(replace(PLAIN, area=area, readings=PLAIN.readings * (points - 1)))
    enough = calculate(replace(PLAIN, area=area, readings=PLAIN.readings * points))
    assert few.points_needed == points
    assert (few.passed, enough.passed) == (False, True)


def test_humidity_of_a_floor_that_was_just_heated_is_no_reading() -> None:
    humid = replace(PLAIN, readings=(Reading(relative_humidity=0.7),), heating_off_days=1)
    assert "heating_not_off" in {finding.code for finding in calculate(humid).findings}
    assert "heating_not_off" not in {
        finding.code for finding in calculate(replace(humid, heated=False)).findings
    }
    assert "heating_not_off" not in {
        finding.code for finding in calculate(replace(PLAIN, heating_off_days=1)).findings
    }


@pytest.mark.parametrize("reading", [Reading(), Reading(0.01, 0.7)])
def test_a_reading_has_one_method(reading: Reading) -> None:
    with pytest.raises(InputError) as refusal:
        calculate(replace(PLAIN, readings=(PLAIN.readings[0], reading)))
    assert refusal.value.faults[0].pointer.startswith("/readings/1/")


def test_workings_show_each_reading_beside_its_limit() -> None:
    steps = {step.symbol: step.value for step in workings(PLAIN, calculate(PLAIN))}
    assert steps == {"m_1": 0.015, "l_1": 0.018}
