"""How much more heat may be needed before a finding changes, against designs of requests with that rise, made here."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from tepidarium_engine import designs
from tepidarium_engine.design_sensitivity import DesignSensitivityInputs, FindingTolerance, calculate
from tepidarium_engine.designs import DesignScreed, DesignsInputs

from tests.options.houses import house

EXACT = 1e-3
SAMPLES = 24

Told = set[tuple[str, str, str]]


def _told(design: DesignsInputs, room: str, rise: float) -> Told:
    """Code, severity and subject of every finding with a demand, or all, so much higher."""
    rooms = tuple(
        replace(own, heat_demand=(own.heat_demand or 0.0) * (1.0 + rise)) if room in ("", own.id) else own
        for own in design.rooms
    )
    return {
        (finding.code, finding.severity, place.subject)
        for finding in designs.calculate(replace(design, rooms=rooms)).findings
        for place in finding.places
    }


def _tolerances(design: DesignsInputs) -> tuple[FindingTolerance, ...]:
    return calculate(DesignSensitivityInputs(design)).finding_tolerances


@pytest.mark.parametrize("seed", [1, 2, 4, 7, 9])
def test_the_findings_change_just_above_and_nowhere_below(seed: int) -> None:
    design = house(seed, 4)
    found = _tolerances(design)
    assert [own.room for own in found] == ["", *(room.id for room in design.rooms)]
    for own in found:
        before = _told(design, own.room, 0.0)
        last = 1.0 if own.tolerable_rise is None else own.tolerable_rise
        for sample in range(1, SAMPLES + 1):
            assert _told(design, own.room, last * sample / SAMPLES) == before, (own.room, sample)
        if own.tolerable_rise is None:
            assert own.changes == ()
            continue
        after = _told(design, own.room, own.tolerable_rise + EXACT)
        assert after != before
        told = {(each.change, (each.code, each.severity, each.subject)) for each in own.changes}
        assert told == {("new", key) for key in after - before} | {("gone", key) for key in before - after}


def test_a_floor_that_gives_too_much_does_so_until_the_demand_comes_near() -> None:
    """By hand: its circuits stay as they are at the greatest drop, so that the finding ends where what they give is 5 %
    above the demand (the threshold of the finding)."""
    design = house(3, 1)
    room = replace(design.rooms[0], heat_demand=28.0 * (design.rooms[0].area or 0.0))
    warm = replace(design, rooms=(room,), source=replace(design.source, supply_temperature=45.0))
    given = designs.calculate(warm).rooms[0]
    whole, alone = _tolerances(warm)
    assert whole.tolerable_rise == pytest.approx(given.heat_given / 1.05 / given.heat_demand - 1.0, abs=EXACT)
    assert whole.tolerable_rise == alone.tolerable_rise
    assert ("gone", "more_heat_than_needed") in {(each.change, each.code) for each in whole.changes}


def test_dates_count_where_there_is_a_screed() -> None:
    """A warmer supply than a calcium sulphate screed bears: findings of its dates are findings of the design."""
    design = house(2, 3)
    dated = replace(design, screed=DesignScreed(date(2027, 4, 12), binder="calcium_sulphate_flowing"))
    codes = {finding.code for finding in designs.calculate(dated).findings}
    assert "no_dates" not in codes
    for own in _tolerances(dated):
        before = _told(dated, own.room, 0.0)
        if own.tolerable_rise is not None:
            assert _told(dated, own.room, own.tolerable_rise) == before
            assert _told(dated, own.room, own.tolerable_rise + EXACT) != before
