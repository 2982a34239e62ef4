"""What is asked beside a design, against the calculations that answer it alone."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tepidarium_engine import design_options, design_sensitivity, designs, heating_season
from tepidarium_engine.building.beside_records import ClimateBin, SeasonQuestions, SensitivityQuestions
from tepidarium_engine.building.objective_records import DesignObjective
from tepidarium_engine.building.records import DesignsInputs
from tepidarium_engine.design_options import DesignOptionsInputs
from tepidarium_engine.design_sensitivity import DesignSensitivityInputs
from tepidarium_engine.errors import InputError
from tepidarium_engine.heating_season import HeatingSeasonInputs

from tests.engine.test_designs_comparison import FLAT
from tests.options.houses import house

CLIMATE = (ClimateBin(-8.0, 300.0), ClimateBin(2.0, 2000.0), ClimateBin(18.0, 3000.0))
HOUSE = house(4, 4, maximum_circuits=60)


def _asked(**others: object) -> DesignsInputs:
    return replace(HOUSE, sensitivity=SensitivityQuestions(), season=SeasonQuestions(CLIMATE), **others)  # type: ignore[arg-type]


def test_a_design_by_the_rule_answers_what_the_calculations_answer_alone() -> None:
    result, plain = designs.calculate(_asked()), designs.calculate(HOUSE)
    alone = design_sensitivity.calculate(DesignSensitivityInputs(HOUSE))
    assert result.sensitivity == replace(alone, findings=(), cautions=())
    year = heating_season.calculate(HeatingSeasonInputs(HOUSE, CLIMATE))
    assert result.season == replace(year, findings=(), cautions=())
    assert result.options is None
    unasked = replace(result, sensitivity=None, season=None, findings=plain.findings)
    assert unasked == plain


def test_findings_of_both_are_told_of_the_rooms_of_the_design() -> None:
    codes = {finding.code: finding for finding in designs.calculate(_asked()).findings}
    alone = (
        *design_sensitivity.calculate(DesignSensitivityInputs(HOUSE)).findings,
        *heating_season.calculate(HeatingSeasonInputs(HOUSE, CLIMATE)).findings,
    )
    assert alone
    for finding in alone:
        told = [place.where for place in codes[finding.code].places]
        assert told == [place.where.removeprefix("/design") for place in finding.places]


def test_a_design_with_an_objective_reacts_with_what_was_decided_for_it() -> None:
    """On its own supply with its own pipe, which are not those of the rule."""
    warm = replace(HOUSE.source, maximum_supply_temperature=55.0)
    result = designs.calculate(_asked(objective=DesignObjective("material"), source=warm))
    rule = designs.calculate(replace(HOUSE, source=warm))
    assert result.objective is not None
    assert result.objective.taken == "best"
    assert result.sensitivity is not None
    assert result.season is not None
    assert result.supply_temperature > rule.supply_temperature + 1.0
    assert result.sensitivity.supply_temperature == result.supply_temperature
    assert result.sensitivity.pipe_length == pytest.approx(result.pipe_length, rel=1e-9)
    assert result.season.curve.design_supply_temperature == result.supply_temperature


def test_the_options_of_an_objective_are_those_of_design_options() -> None:
    result = designs.calculate(_asked(objective=DesignObjective("material")))
    alone = design_options.calculate(DesignOptionsInputs(HOUSE))
    assert result.options == replace(alone, findings=(), cautions=())


def test_the_curve_of_a_drawn_house_goes_through_its_own_supply() -> None:
    result = designs.calculate(replace(FLAT, season=SeasonQuestions(CLIMATE)))
    assert result.season is not None
    assert result.season.curve.design_supply_temperature == result.supply_temperature
    assert result.season.curve.basis_room == result.governing_room


@pytest.mark.parametrize(
    ("beside", "pointer"),
    [
        (
            {"sensitivity": SensitivityQuestions(outside_temperature=20.0)},
            "/sensitivity/outside_temperature",
        ),
        ({"sensitivity": SensitivityQuestions(supply_limit=25.0)}, "/sensitivity/supply_limit"),
        ({"season": SeasonQuestions((ClimateBin(0.0, 8000.0), ClimateBin(1.0, 800.0)))}, "/season/climate"),
        (
            {"season": SeasonQuestions(CLIMATE, outside_temperature=20.0)},
            "/season/outside_temperature",
        ),
    ],
)
def test_refusals_point_at_what_was_asked_beside(beside: dict[str, object], pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        designs.calculate(replace(HOUSE, **beside))  # type: ignore[arg-type]
    assert [fault.pointer for fault in refused.value.faults] == [pointer]
