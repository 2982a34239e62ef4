"""How a design reacts to changes and what its year comes to, answered with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace

from ..building.records import DesignsInputs
from ..building.season_records import HeatingSeasonInputs, HeatingSeasonResult
from ..building.sensitivity_records import DesignSensitivityInputs, DesignSensitivityResult
from ..building.whole_design import WholeDesign
from ..errors import faults_at
from ..results import Finding, FindingPlace
from .asked_options import house_asked, house_by_area
from .house_season import check_season, season_of
from .house_sensitivity import check_sensitivity, sensitivity_of

__all__ = ["BesideDesign", "beside_design", "check_beside"]


@dataclass(frozen=True)
class BesideDesign:
    """What was asked for of both, and what they report, which the design says itself."""

    sensitivity: DesignSensitivityResult | None
    season: HeatingSeasonResult | None
    findings: tuple[Finding, ...]


def check_beside(inputs: DesignsInputs) -> None:
    """Raises ``InputError`` as both calculations, with pointers below ``/sensitivity`` and ``/season``."""
    sensitivity, season = _sensitivity_inputs(inputs), _season_inputs(inputs)
    if sensitivity is not None:
        with faults_at({}, "/sensitivity"):
            check_sensitivity(sensitivity)
    if season is not None:
        with faults_at({}, "/season"):
            check_season(season)


def beside_design(inputs: DesignsInputs, design: WholeDesign) -> BesideDesign:
    """Of the design as it was decided: its rooms react by area, and its curve goes through its own supply."""
    asked, year = _sensitivity_inputs(inputs), _season_inputs(inputs)
    sensitivity = season = None
    found: list[Finding] = []
    if asked is not None:
        asked_house = house_by_area(replace(inputs, source=design.inputs.source))
        house = replace(asked_house, rooms=design.sited.house.rooms)
        sensitivity = sensitivity_of(asked, house)
        found += _moved(sensitivity.findings, "/sensitivity")
        sensitivity = replace(sensitivity, findings=(), cautions=())
    if year is not None:
        season = season_of(year, design.solved)
        found += _moved(season.findings, "/season")
        season = replace(season, findings=(), cautions=())
    return BesideDesign(sensitivity, season, tuple(found))


def _sensitivity_inputs(inputs: DesignsInputs) -> DesignSensitivityInputs | None:
    asked = inputs.sensitivity
    if asked is None:
        return None
    own = {item.name: getattr(asked, item.name) for item in fields(asked)}
    return DesignSensitivityInputs(house_asked(inputs), **own)


def _season_inputs(inputs: DesignsInputs) -> HeatingSeasonInputs | None:
    asked = inputs.season
    if asked is None:
        return None
    own = {item.name: getattr(asked, item.name) for item in fields(asked)}
    return HeatingSeasonInputs(house_asked(inputs), **own)


def _moved(findings: tuple[Finding, ...], own: str) -> Iterator[Finding]:
    """Of rooms, they point at the rooms of the design; all else at what was asked or answered beside it."""

    def place(one: FindingPlace) -> FindingPlace:
        inside = one.where.removeprefix("/design")
        return replace(one, where=inside if inside.startswith("/rooms") else own + inside)

    return (finding.moved(place) for finding in findings)
