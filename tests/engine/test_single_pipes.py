"""Pipes by themselves or a few beside each other, against finite elements; and the floor that tails have in a plan."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from shapely import LineString, Polygon, box
from tepidarium_engine.building.tail_neighbours import FreeFloor
from tepidarium_engine.floor_section import FloorSectionInputs
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.section.records import ColdEdge, SectionLayer
from tepidarium_engine.thermal.floor import Floor, floor_characteristic
from tepidarium_engine.thermal.single_pipes import FAR, single_pipe

from tests.sections.few_pipes import heat_of_group, heat_of_pipes
from tests.sections.finite_elements import elements

PIPE = Pipe(0.016, 0.002)
FILM = 1900.0
BARE = 2.0


def _section(floor: Floor, spacing: float, edge: ColdEdge | None = None) -> FloorSectionInputs:
    """A layer too thin to spread heat and a surface stand for the resistance below."""
    return FloorSectionInputs(
        pipe_spacing=spacing,
        pipe=floor.pipe,
        screed_cover=floor.screed_cover,
        screed_thickness=floor.screed_cover + floor.pipe.outside_diameter + 2e-5,
        layers_below=(SectionLayer(0.001, 0.01),),
        surface_resistance_below=floor.resistance_below - 0.1,
        covering_resistance=floor.covering_resistance,
        water_temperature=40.0,
        cold_edge=edge,
    )


FLOORS = {
    "bare floor": Floor(0.06, PIPE, 0.045, 2.5, covering_resistance=0.0),
    "parquet": Floor(0.06, PIPE, 0.045, 2.5, covering_resistance=0.1),
    "thin cover, close": Floor(0.05, PIPE, 0.03, 1.0, covering_resistance=0.05),
    "thick cover, wide": Floor(0.10, PIPE, 0.065, 1.0, covering_resistance=0.1),
    "poor insulation": Floor(0.06, PIPE, 0.045, 0.3, covering_resistance=0.05),
}


@pytest.mark.parametrize("count", [2, 4, 8])
@pytest.mark.parametrize("name", FLOORS)
def test_heat_of_a_few_pipes_is_that_of_finite_elements(name: str, count: int) -> None:
    """Pipes within the group have half a spacing on either side, the outermost all the floor beyond."""
    floor = FLOORS[name]
    pipe, half = single_pipe(floor, 40.0), floor.pipe_spacing / 2.0
    inner, outer = pipe.output(half, half), pipe.output(half, BARE)
    expected, above = heat_of_group(_section(floor, floor.pipe_spacing), FILM, count)
    assert ((count - 2) * inner + 2 * outer) / count == pytest.approx(expected, rel=0.03)
    # Right above the pipes a fin knows less: a tenth.
    warmest = pipe.output_above(half, BARE if count == 2 else half)
    assert warmest == pytest.approx(above, rel=0.1)


def test_a_lone_pair_in_bare_floor_gives_far_more_than_pipes_of_a_row() -> None:
    """By finite elements 1.8 times as much per pipe as in the endless row at 60 mm, 1.66 times what EN 1264-2 says."""
    floor = FLOORS["bare floor"]
    pipe, half = single_pipe(floor, 40.0), floor.pipe_spacing / 2.0
    pair, _ = heat_of_group(_section(floor, floor.pipe_spacing), FILM, 2)
    in_row = elements(_section(floor, floor.pipe_spacing), FILM, 2).up * floor.pipe_spacing / 20.0
    assert pipe.output(half, half) == pytest.approx(in_row, rel=0.005)
    assert pipe.output(half, BARE) == pytest.approx(pair, rel=0.02)
    assert pair / in_row == pytest.approx(1.81, abs=0.02)
    by_standard = floor_characteristic(floor).heat_transmittance * floor.pipe_spacing
    assert pair / by_standard == pytest.approx(1.66, abs=0.02)


@pytest.mark.parametrize(("left", "right"), [(0.03, 0.075), (0.075, 0.1), (0.075, BARE), (0.2, 0.5)])
@pytest.mark.parametrize("name", ["bare floor", "parquet", "thick cover, wide"])
def test_walls_on_either_side_against_finite_elements(name: str, left: float, right: float) -> None:
    """A wall lets no heat through: an edge of the section with all resistance in the world."""
    floor = FLOORS[name]
    wall = ColdEdge(right, 20.0, 1e9)
    expected = elements(_section(floor, 2.0 * left, wall), FILM, 2).up * (left + right) / 20.0
    assert single_pipe(floor, 40.0).output(left, right) == pytest.approx(expected, rel=0.025)


def test_more_free_floor_takes_more_heat_and_none_beyond_reach() -> None:
    pipe = single_pipe(FLOORS["parquet"], 40.0)
    widths = np.linspace(0.02, 2.0 * FAR, 60)
    heat = [pipe.output(width, 0.03) for width in widths]
    assert all(after > before for before, after in pairwise(heat) if after < 0.9999 * heat[-1])
    assert pipe.output(FAR, FAR) == pytest.approx(pipe.output(2.0 * FAR, 2.0 * FAR), rel=1e-4)
    assert pipe.output(0.1, 0.4) == pipe.output(0.4, 0.1)
    above = [pipe.output_above(width, 0.03) for width in widths]
    assert all(after <= before + 1e-9 for before, after in pairwise(above))


# -- on the drawing ----------------------------------------------------------------------------------------------

HALL = box(0.0, 0.0, 6.0, 1.5)
FLOW, BACK = LineString([(0.0, 0.5), (6.0, 0.5)]), LineString([(6.0, 0.56), (0.0, 0.56)])


def test_a_pair_has_half_its_pitch_between_and_all_to_the_walls() -> None:
    """Left of the flow lies the return; the walls are 0.5 m and 0.94 m away."""
    flow, back = FreeFloor(HALL, [FLOW, BACK]).beside([FLOW]), FreeFloor(HALL, [FLOW, BACK]).beside([BACK])
    assert flow == pytest.approx(np.broadcast_to([0.03, 0.5], flow.shape), abs=1e-9)
    assert back == pytest.approx(np.broadcast_to([0.03, 0.94], back.shape), abs=1e-9)
    assert len(flow) >= 30


def test_the_floor_of_the_rooms_own_circuits_is_not_free() -> None:
    """It begins half a pitch beside the flow: what lies there is counted as heated by the room's own circuits."""
    own = box(0.0, 0.0, 6.0, 0.47)
    free = FreeFloor(HALL, [FLOW, BACK], [own]).beside([FLOW])
    assert free == pytest.approx(np.broadcast_to([0.03, 0.03], free.shape), abs=1e-9)


@pytest.mark.parametrize("gap", [0.06, 0.105, 0.15])
@pytest.mark.parametrize("name", ["bare floor", "parquet"])
def test_tails_beside_a_field_give_about_what_they_give_in_a_row(name: str, gap: float) -> None:
    """A pair between two fields of six pipes each at 150 mm: all heat of the floor, less that of the fields by their
    own row, is that of the pair within a sixth."""
    floor = FLOORS[name]
    pipe, half = single_pipe(floor, 40.0), floor.pipe_spacing / 2.0
    field = elements(_section(floor, 0.15), FILM, 2).up / 20.0
    centres = [half, *(half + gap + 0.15 * number for number in range(6))]
    whole, _ = heat_of_pipes(_section(floor, floor.pipe_spacing), FILM, centres, 0.075)
    pair = whole - field * (centres[-1] + 0.075 - 2.0 * half)
    assert pipe.output(half, half) == pytest.approx(pair, rel=1.0 / 6.0)


def test_pipe_beside_takes_half_the_floor_between_from_where_it_lies() -> None:
    """A pipe of the room's own, 0.2 m south of the flow, along one half of the way."""
    own = LineString([(0.0, 0.3), (3.0, 0.3), (3.0, 0.0)])
    free = FreeFloor(HALL, [FLOW, BACK, own]).beside([FLOW])
    places = (np.arange(len(free)) + 0.5) * 6.0 / len(free)
    assert free[places < 2.9, 1] == pytest.approx(0.1, abs=1e-9)
    assert free[places > 3.1, 1] == pytest.approx(0.5, abs=1e-9)


def test_voids_count_as_walls_and_what_lies_far_does_not() -> None:
    hall = Polygon(HALL.exterior.coords, [[(1.0, 0.8), (2.0, 0.8), (2.0, 1.0), (1.0, 1.0)]])
    free = FreeFloor(hall, [FLOW, BACK]).beside([BACK])
    places = 6.0 - (np.arange(len(free)) + 0.5) * 6.0 / len(free)
    over = (places > 1.1) & (places < 1.9)
    assert free[over, 1] == pytest.approx(0.24, abs=1e-9)
    assert free[places > 2.1, 1] == pytest.approx(0.94, abs=1e-9)
    alone = LineString([(0.0, 50.0), (6.0, 50.0)])
    wide = FreeFloor(box(0.0, 0.0, 6.0, 99.0), [alone]).beside([alone])
    assert wide == pytest.approx(np.broadcast_to(FAR, wide.shape))


@pytest.mark.parametrize("turn", [0.0, 0.3, 2.1])
def test_free_floor_does_not_depend_on_the_direction_of_the_drawing(turn: float) -> None:
    c, s = math.cos(turn), math.sin(turn)

    def turned(line: LineString) -> LineString:
        return LineString([(c * x - s * y, s * x + c * y) for x, y in line.coords])

    bent = LineString([(0.2, 0.5), (3.0, 0.5), (3.0, 1.2)])
    hall = Polygon(turned(LineString(HALL.exterior.coords)).coords)
    found = FreeFloor(hall, [turned(line) for line in (FLOW, bent)]).beside([turned(bent)])
    assert found == pytest.approx(FreeFloor(HALL, [FLOW, bent]).beside([bent]), abs=1e-9)
