"""The plot of options: every option stands where its figures say, and in the table."""

from __future__ import annotations

from xml.etree import ElementTree

import msgspec
import pytest
from tepidarium_api.calculations.design_options import DESIGN_OPTIONS
from tepidarium_api.renderings.options_drawing import options_drawing
from tepidarium_engine.design_options import DesignOptionsInputs, calculate

SVG = "{http://www.w3.org/2000/svg}"
INPUTS: DesignOptionsInputs = msgspec.convert(DESIGN_OPTIONS.example, DesignOptionsInputs, strict=True)


def _group(drawing: ElementTree.Element, name: str) -> ElementTree.Element:
    return next(item for item in drawing.iter(f"{SVG}g") if item.get("id") == name)


def test_options_lie_on_straight_scales() -> None:
    """Two options fix each scale; all others lie on it."""
    result = calculate(INPUTS)
    drawing = ElementTree.fromstring(options_drawing(INPUTS, result))
    circles = [
        (float(circle.get("cx", "0")), float(circle.get("cy", "0")))
        for circle in _group(drawing, "options").iter(f"{SVG}circle")
    ]
    assert len(circles) == len(result.options) > 2
    first, last = result.options[0], result.options[-1]
    for option, (x, y) in zip(result.options, circles, strict=True):
        share = (option.supply_temperature - first.supply_temperature) / (
            last.supply_temperature - first.supply_temperature
        )
        assert x == pytest.approx(circles[0][0] + share * (circles[-1][0] - circles[0][0]), abs=0.01)
        assert option.material_cost is not None and first.material_cost is not None
        assert last.material_cost is not None
        rise = (option.material_cost - first.material_cost) / (last.material_cost - first.material_cost)
        assert y == pytest.approx(circles[0][1] + rise * (circles[-1][1] - circles[0][1]), abs=0.01)


def test_table_has_every_option() -> None:
    result = calculate(INPUTS)
    drawing = ElementTree.fromstring(options_drawing(INPUTS, result))
    words = [item.text or "" for item in _group(drawing, "column").iter(f"{SVG}text")]
    for option in result.options:
        assert f"{option.supply_temperature:.1f}" in words
        assert f"{option.pipe_length:.0f}" in words
    assert "rule" in words


def test_same_drawing_twice() -> None:
    result = calculate(INPUTS)
    assert options_drawing(INPUTS, result) == options_drawing(INPUTS, result)
