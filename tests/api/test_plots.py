"""Plots of sensitivity and heating season: every value stands where its figure says, and in the table beside it."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

import msgspec
import pytest
from tepidarium_api.calculations.design_sensitivity import DESIGN_SENSITIVITY
from tepidarium_api.calculations.heating_season import HEATING_SEASON
from tepidarium_api.renderings.round_ticks import round_ticks
from tepidarium_api.renderings.season_drawing import season_drawing
from tepidarium_api.renderings.sensitivity_drawing import sensitivity_drawing
from tepidarium_engine import design_sensitivity, heating_season
from tepidarium_engine.design_sensitivity import DesignSensitivityInputs
from tepidarium_engine.heating_season import HeatingSeasonInputs

SVG = "{http://www.w3.org/2000/svg}"
CHANGES: DesignSensitivityInputs = msgspec.convert(
    DESIGN_SENSITIVITY.example, DesignSensitivityInputs, strict=True
)
SEASON: HeatingSeasonInputs = msgspec.convert(HEATING_SEASON.example, HeatingSeasonInputs, strict=True)


def _group(drawing: ElementTree.Element, name: str) -> ElementTree.Element:
    return next(item for item in drawing.iter(f"{SVG}g") if item.get("id") == name)


def _words(part: ElementTree.Element) -> list[str]:
    return [item.text or "" for item in part.iter(f"{SVG}text")]


def test_bars_are_as_long_as_their_values() -> None:
    result = design_sensitivity.calculate(CHANGES)
    drawing = ElementTree.fromstring(sensitivity_drawing(CHANGES, result))
    for name, values in (
        ("missing-heat", [round(line.missing_difference) for line in result.lines]),
        ("supply", [round(line.supply_difference, 1) for line in result.lines]),
    ):
        bars = list(_group(drawing, name).iter(f"{SVG}rect"))
        exact = {
            "missing-heat": [line.missing_difference for line in result.lines],
            "supply": [line.supply_difference for line in result.lines],
        }[name]
        shown = [value for value, words in zip(exact, values, strict=True) if words]
        assert len(bars) == len(shown) > 2
        widths = [float(bar.get("width", "0")) for bar in bars]
        scale = max(widths) / max(map(abs, shown))
        assert widths == pytest.approx([abs(value) * scale for value in shown], abs=0.01)
        assert [bar.get("class") for bar in bars] == ["more" if value > 0.0 else "less" for value in shown]
    assert len(_words(_group(drawing, "changes"))) == 2 + 2 * len(result.lines)


def test_many_changes_are_cut_and_counted() -> None:
    result = design_sensitivity.calculate(CHANGES)
    many = replace(result, lines=result.lines * 5)
    drawing = ElementTree.fromstring(sensitivity_drawing(CHANGES, many))
    assert any(
        f"{len(many.lines) - 36} more changes" in words for words in _words(_group(drawing, "heading"))
    )


def test_the_heating_curve_lies_on_straight_scales() -> None:
    """With exponent 1 the supply is a straight line over the outside temperature (EN 1264-2: heat is linear)."""
    result = heating_season.calculate(SEASON)
    drawing = ElementTree.fromstring(season_drawing(SEASON, result))
    heated = [own for own in result.bins if own.supply_temperature is not None]
    places = [
        (float(dot.get("cx", "0")), float(dot.get("cy", "0")))
        for dot in _group(drawing, "curves").iter(f"{SVG}circle")
    ]
    supply, back = places[: len(heated)], places[len(heated) :]
    assert len(back) == len(heated) > 2
    (x0, y0), (x1, y1) = supply[0], supply[-1]
    assert all((y - y0) * (x1 - x0) == pytest.approx((y1 - y0) * (x - x0), abs=0.5) for x, y in supply)
    assert all(own[1] > other[1] for own, other in zip(back, supply, strict=True))
    words = _words(_group(drawing, "column"))
    assert all(f"{own.supply_temperature:.1f}" in words for own in heated)
    assert any(f"slope {result.curve.slope:.2f}" in text for text in _words(_group(drawing, "controls")))


@pytest.mark.parametrize(
    "ends", [(0.0, 1.0), (-13.0, 13.0), (19.0, 38.2), (-113.0, 44.0), (0.0, 1e5), (36.9, 37.2)]
)
def test_ticks_are_round_numbers_within_the_axis(ends: tuple[float, float]) -> None:
    ticks = round_ticks(ends)
    assert 4 <= len(ticks) <= 12
    assert ends[0] <= ticks[0] and ticks[-1] <= ends[1]
    step = ticks[1] - ticks[0]
    assert float(f"{step:.0e}") == pytest.approx(step)
    assert all(tick / step == pytest.approx(round(tick / step), abs=1e-6) for tick in ticks)


def test_the_same_answer_has_the_same_plots() -> None:
    season, changes = heating_season.calculate(SEASON), design_sensitivity.calculate(CHANGES)
    assert season_drawing(SEASON, season) == season_drawing(SEASON, season)
    assert sensitivity_drawing(CHANGES, changes) == sensitivity_drawing(CHANGES, changes)
