"""The drawing of a section: a sheet to scale with isotherms and their legend in degrees."""

from __future__ import annotations

import math
from dataclasses import replace
from xml.etree import ElementTree

import msgspec
import numpy as np
import pytest
from tepidarium_api.calculations.floor_section import FLOOR_SECTION
from tepidarium_api.renderings.section_drawing import section_drawing
from tepidarium_engine.floor_section import FloorSectionInputs, calculate, picture
from tepidarium_engine.section.isolines import isolines, round_levels

SVG = "{http://www.w3.org/2000/svg}"
INPUTS: FloorSectionInputs = replace(
    msgspec.convert(FLOOR_SECTION.example, FloorSectionInputs, strict=True), warm_up=None
)
ALONE = replace(INPUTS, cold_edge=None)


def _drawn(inputs: FloorSectionInputs) -> ElementTree.Element:
    return ElementTree.fromstring(section_drawing(inputs, calculate(inputs)))


def _group(drawing: ElementTree.Element, name: str) -> ElementTree.Element:
    return next(item for item in drawing.iter(f"{SVG}g") if item.get("id") == name)


@pytest.mark.parametrize("inputs", [INPUTS, ALONE])
def test_legend_names_every_isotherm_in_degrees(inputs: FloorSectionInputs) -> None:
    drawing, drawn = _drawn(inputs), picture(inputs)
    words = [text.text or "" for text in _group(drawing, "column").iter(f"{SVG}text")]
    assert len(drawn.isotherms) >= 5
    for isotherm in drawn.isotherms:
        assert f"{isotherm.temperature:g} °C" in words
    lines = list(_group(drawing, "isotherms").iter(f"{SVG}polyline"))
    assert len(lines) == sum(len(isotherm.lines) for isotherm in drawn.isotherms)
    colours = {line.get("stroke") for line in lines}
    assert len(colours) == len([isotherm for isotherm in drawn.isotherms if isotherm.lines])


def test_drawing_is_to_scale() -> None:
    """On paper the pipe is as much smaller than it is as the sheet says (ISO 5455)."""
    drawing = _drawn(ALONE)
    assert (drawing.get("width"), drawing.get("height")) == ("297mm", "210mm")
    words = [text.text or "" for text in drawing.iter(f"{SVG}text")]
    scale = int(next(word for word in words if word.startswith("scale 1:")).removeprefix("scale 1:"))
    pipe = next(_group(drawing, "pipe").iter(f"{SVG}circle"))
    assert float(pipe.get("r", "0")) == pytest.approx(8.0 / scale, abs=1e-3)


def test_same_drawing_twice() -> None:
    assert section_drawing(INPUTS, calculate(INPUTS)) == section_drawing(INPUTS, calculate(INPUTS))


def test_picture_of_a_bay_among_its_like_is_symmetric() -> None:
    drawn = picture(ALONE)
    for isotherm in drawn.isotherms:
        places = np.array([point for line in isotherm.lines for point in line])
        mirrored = places * [-1.0, 1.0] + [drawn.width, 0.0]
        for place in mirrored:
            assert np.hypot(*(places - place).T).min() < 1e-9


def test_isotherms_meet_the_surface_where_the_profile_says() -> None:
    """The picture's grid and the exact profile of the surface agree to the grid's accuracy."""
    wide = replace(ALONE, pipe_spacing=0.4)
    drawn, result = picture(wide), calculate(wide)
    profile = [(point.distance, point.temperature) for point in result.surface_profile]
    met = 0
    for isotherm in drawn.isotherms:
        for x, y in (end for line in isotherm.lines for end in (line[0], line[-1])):
            if abs(y - drawn.height) < 1e-9:
                distance = abs(x - drawn.pipe[0])
                exact = float(np.interp(distance, *zip(*profile, strict=True)))
                assert exact == pytest.approx(isotherm.temperature, abs=0.05)
                met += 1
    assert met >= 2


def test_isolines_of_a_plane_are_straight() -> None:
    across, upwards = np.array([0.0, 1.0, 2.5, 3.0]), np.array([0.0, 0.5, 2.0])
    values = across[None, :] + 2.0 * upwards[:, None]
    (line,) = isolines(across, upwards, values, 2.2)
    for x, y in line:
        assert x + 2.0 * y == pytest.approx(2.2)
    assert {round(x, 9) for x, _ in (line[0], line[-1])} == {0.0, 2.2}


def test_isolines_of_a_hill_are_closed() -> None:
    grid = np.linspace(-1.0, 1.0, 41)
    (line,) = isolines(grid, grid, -(grid[None, :] ** 2) - grid[:, None] ** 2, -0.25)
    assert line[0] == line[-1]
    assert all(math.hypot(x, y) == pytest.approx(0.5, abs=0.01) for x, y in line)


def test_levels_are_round_and_between() -> None:
    assert round_levels(19.3, 34.9) == (20.0, 21.0, 22.0, *map(float, range(23, 35)))
    assert round_levels(20.0, 21.0)[0] == pytest.approx(20.1)
    assert len(round_levels(-10.0, 90.0)) <= 16
