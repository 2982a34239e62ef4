"""The steady section against finite elements, a series, EN 1264-2 and what physics demands of it."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import fluids
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from iapws._iapws import _Liquid
from scipy.special import zeta
from tepidarium_engine.conduction.layered import side_of
from tepidarium_engine.conduction.plane import Sides, solve_plane
from tepidarium_engine.conduction.steady import ORDERS, _even_zeta, _neighbours
from tepidarium_engine.conduction.water_film import film_coefficient
from tepidarium_engine.errors import InputError
from tepidarium_engine.floor_section import FloorSectionInputs, FloorSectionResult, calculate, workings
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.section.bay import solved
from tepidarium_engine.section.edge import edge_sides
from tepidarium_engine.section.picture import _with_borders
from tepidarium_engine.section.records import ColdEdge, ComparedSection, SectionLayer
from tepidarium_engine.thermal.characteristic import basic_heat_output
from tepidarium_engine.water.fluid import WaterModel

from tests.sections.against_standard import EN_OVER_ELEMENTS, SPACINGS, THICK, THIN, standard_over_section
from tests.sections.cases import AT_THE_EDGE, BUILD_UPS, FILM, USUAL
from tests.sections.finite_elements import Heat, converged

# --- finite elements ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", BUILD_UPS)
def test_section_agrees_with_finite_elements(name: str) -> None:
    inputs = BUILD_UPS[name]
    elements, result = converged(inputs, FILM), calculate(inputs)
    assert elements.moved <= 2e-4  # of which about half is still to come
    assert result.heat_output == pytest.approx(elements.up, rel=1.2e-4)
    assert result.downward_heat_loss == pytest.approx(elements.down, rel=1.2e-4)
    _same_surface(result, elements)


def _same_surface(result: FloorSectionResult, elements: Heat) -> None:
    assert result.mean_surface_temperature == pytest.approx(elements.mean, abs=0.002)
    assert result.highest_surface_temperature == pytest.approx(elements.highest, abs=0.002)
    assert result.lowest_surface_temperature == pytest.approx(elements.lowest, abs=0.002)


def test_build_ups_cover_the_range() -> None:
    assert len(BUILD_UPS) >= 12
    for values, low, high in (
        ([one.pipe_spacing for one in BUILD_UPS.values()], 0.05, 0.6),
        ([one.pipe.outside_diameter for one in BUILD_UPS.values()], 0.010, 0.025),
        ([one.screed_cover for one in BUILD_UPS.values()], 0.010, 0.150),
        ([one.covering_resistance for one in BUILD_UPS.values()], 0.0, 0.25),
    ):
        assert (min(values), max(values)) == (low, high)


@pytest.mark.parametrize("name", AT_THE_EDGE)
def test_bay_at_the_edge_agrees_with_finite_elements(name: str) -> None:
    inputs = AT_THE_EDGE[name]
    elements, bay = converged(inputs, FILM), calculate(inputs).edge_bay
    assert bay is not None
    water = elements.up + elements.down + elements.edge / bay.bay_width
    assert abs(bay.heat_output - elements.up) <= 0.005 * water
    assert abs(bay.downward_heat_loss - elements.down) <= 0.005 * water
    assert abs(bay.edge_heat_loss - elements.edge) <= 0.005 * water * bay.bay_width
    assert bay.lowest_surface_temperature == pytest.approx(elements.lowest, abs=0.1)


def test_pipe_may_touch_the_insulation() -> None:
    touching = calculate(replace(USUAL, screed_thickness=None))
    close = calculate(
        replace(USUAL, screed_thickness=USUAL.screed_cover + USUAL.pipe.outside_diameter + 1e-7)
    )
    assert touching.heat_output == pytest.approx(close.heat_output, rel=1e-5)


# --- series and standard -----------------------------------------------------------------------------------


def _glueck(spacing: float, diameter: float, *, conductivity: float, distance: float) -> float:
    """Heat up per kelvin of a row of line sources amid a layer: Glück's series, 400 terms."""
    up, down, rest = 10.8, 6.0, 0.0
    for n in range(1, 401):
        beta = 2.0 * math.pi * n / spacing
        one, two = (
            (conductivity * beta - h) / (conductivity * beta + h) * math.exp(-2.0 * beta * distance)
            for h in (up, down)
        )
        rest += (one + two + 2.0 * one * two) / (1.0 - one * two) / n
    across = spacing / (2.0 * math.pi * conductivity) * (math.log(spacing / (math.pi * diameter)) + rest)
    u_up, u_down = (1.0 / (distance / conductivity + 1.0 / h) for h in (up, down))
    return u_up / across / (1.0 / across + u_up + u_down)


@pytest.mark.parametrize("spacing", [0.1, 0.15, 0.2, 0.3, 0.45, 0.6])
@pytest.mark.parametrize("diameter", [0.01, 0.016, 0.02])
def test_line_sources_amid_a_slab(spacing: float, diameter: float) -> None:
    distance = 0.12
    inputs = FloorSectionInputs(
        pipe_spacing=spacing,
        pipe=Pipe(diameter, 0.001, 500.0),
        screed_cover=distance - diameter / 2.0,
        screed_thickness=2.0 * distance,
        screed_conductivity=1.8,
        layers_below=(),
        surface_resistance_below=1.0 / 6.0,
        covering_resistance=0.0,
        water_temperature=30.0,
        film_coefficient=1e6,
    )
    series = _glueck(spacing, diameter, conductivity=1.8, distance=distance)
    assert calculate(inputs).heat_transmittance == pytest.approx(series, rel=0.004)


@pytest.mark.parametrize("covering", EN_OVER_ELEMENTS)
def test_distance_from_the_standard_is_the_band_of_independent_elements(covering: float) -> None:
    """Printed to 0.1 %, the mesh good to 0.1 to 0.2 %: every value of the band by the same model of the pipe's wall."""
    for spacing, percent in zip(SPACINGS, EN_OVER_ELEMENTS[covering], strict=True):
        even = standard_over_section(THICK, spacing, covering, even_outside=True)
        assert even == pytest.approx(percent, abs=0.3)
        # With the wall solved, too, the floor gets up to 3 % less than that, and the standard promises more.
        assert even <= standard_over_section(THICK, spacing, covering) <= even + 3.0


def test_band_of_a_thin_pipe() -> None:
    """From -1 % to 12 % by the same elements, printed to whole per cent; farthest where a bare floor has few pipes."""
    found = {
        (spacing, covering): standard_over_section(THIN, spacing, covering, even_outside=True)
        for spacing in SPACINGS
        for covering in EN_OVER_ELEMENTS
    }
    assert min(found.values()) == pytest.approx(-1.0, abs=0.6)
    assert max(found.values()) == found[0.30, 0.0] == pytest.approx(12.0, abs=0.6)


def test_standard_is_closest_with_a_usual_covering() -> None:
    """Common ground of both: a few per cent at 0.1 m2.K/W, most where a bare floor has pipes far apart."""
    usual = [abs(standard_over_section(THICK, spacing, 0.10)) for spacing in (0.10, 0.15, 0.20)]
    assert max(usual) < 3.0 < standard_over_section(THICK, 0.30, 0.0)


def test_basic_curve_holds_at_the_surface() -> None:
    result = calculate(replace(USUAL, surface_exchange="basic_curve"))
    excess = result.mean_surface_temperature - USUAL.room_temperature
    assert result.heat_output == pytest.approx(float(basic_heat_output(excess)), rel=1e-9)


def test_film_by_published_formulas() -> None:
    """VDI Heat Atlas, section G1: Gnielinski 1976 for turbulent flow; Nusselt number about 4 in laminar flow."""
    fast, slow = (calculate(replace(USUAL, film_coefficient=None, water_velocity=v)) for v in (1.0, 0.05))
    # Water of 40 degC (IAPWS): 0.6286 W/(m.K), 6.582e-7 m2/s, Pr 4.34; Re 18231 in a bore of 12 mm.
    friction = (1.82 * math.log10(18231.0) - 1.64) ** -2
    nusselt = friction / 8 * 17231.0 * 4.34 / (1 + 12.7 * math.sqrt(friction / 8) * (4.34 ** (2 / 3) - 1))
    assert fast.film_coefficient == pytest.approx(nusselt * 0.6286 / 0.012, rel=0.01)
    assert slow.film_coefficient == pytest.approx(4.0 * 0.6286 / 0.012, rel=0.01)


@pytest.mark.parametrize(("bore", "temperature"), [(0.012, 40.0), (0.0162, 25.0), (0.010, 60.0)])
@pytest.mark.parametrize("reynolds", [500.0, 2299.0, 2500.0, 3150.0, 3999.0, 4001.0, 9000.0, 30_000.0])
def test_film_is_the_published_formula_to_rounding(bore: float, temperature: float, reynolds: float) -> None:
    """VDI Heat Atlas, section G1, typed again: Nusselt 4 up to Re 2300, Gnielinski from 4000 on with the friction of
    Filonenko, linear between (Gnielinski 1995). Reynolds and Prandtl numbers by the library fluids."""
    water = WaterModel()
    density, viscosity = water.density(temperature), water.dynamic_viscosity(temperature)
    conductivity, capacity = water.thermal_conductivity(temperature), water.heat_capacity(temperature)
    velocity = reynolds * viscosity / (density * bore)
    assert fluids.core.Reynolds(velocity, bore, density, viscosity) == pytest.approx(reynolds, rel=1e-12)
    prandtl = fluids.core.Prandtl(capacity, conductivity, viscosity)

    def turbulent(number: float) -> float:
        xi = (1.82 * math.log10(number) - 1.64) ** -2.0
        return (
            xi
            / 8.0
            * (number - 1000.0)
            * prandtl
            / (1.0 + 12.7 * math.sqrt(xi / 8.0) * (prandtl ** (2 / 3) - 1.0))
        )

    share = min(max((reynolds - 2300.0) / 1700.0, 0.0), 1.0)
    nusselt = (1.0 - share) * 4.0 + share * turbulent(max(reynolds, 4000.0))
    film = film_coefficient(velocity, bore, temperature)
    assert fluids.core.Nusselt(film, bore, conductivity) == pytest.approx(nusselt, rel=1e-6)


# --- what physics demands ----------------------------------------------------------------------------------

layers = st.builds(SectionLayer, st.floats(0.005, 0.2), st.floats(0.02, 3.0))


@st.composite
def sections(draw: st.DrawFn) -> FloorSectionInputs:
    diameter = draw(st.floats(0.010, 0.025))
    cover = draw(st.floats(0.010, 0.150))
    return FloorSectionInputs(
        pipe_spacing=draw(st.floats(0.05, 0.6)),
        pipe=Pipe(diameter, 0.0015, draw(st.sampled_from([0.22, 0.35, 50.0]))),
        screed_cover=cover,
        screed_thickness=cover + diameter + draw(st.sampled_from([0.0, 0.004, 0.05])),
        screed_conductivity=draw(st.floats(0.5, 2.5)),
        layers_above=tuple(draw(st.lists(layers, max_size=2))),
        layers_below=tuple(draw(st.lists(layers, min_size=1, max_size=3))),
        covering_resistance=draw(st.floats(0.0, 0.25)),
        surface_resistance_below=draw(st.sampled_from([0.0, 0.17])),
        water_temperature=draw(st.floats(15.0, 60.0)),
        temperature_below=draw(st.floats(-15.0, 25.0)),
    )


def _possible(inputs: FloorSectionInputs) -> bool:
    below = sum(layer.thickness / layer.thermal_conductivity for layer in inputs.layers_below)
    return below + inputs.surface_resistance_below >= 0.02


@settings(max_examples=40, deadline=None)
@given(sections().filter(_possible))
def test_heat_up_and_down_is_the_waters(inputs: FloorSectionInputs) -> None:
    result = calculate(inputs)
    moved = abs(result.heat_output) + abs(result.downward_heat_loss)
    assert abs(result.heat_output + result.downward_heat_loss - result.total_heat_output) <= 1e-9 * moved


@settings(max_examples=40, deadline=None)
@given(sections().filter(_possible))
def test_temperatures_lie_between_those_around(inputs: FloorSectionInputs) -> None:
    assert inputs.temperature_below is not None
    around = (inputs.water_temperature, inputs.temperature_below, inputs.room_temperature)
    result = calculate(inputs)
    for temperature in (
        result.lowest_surface_temperature,
        result.highest_surface_temperature,
        result.pipe_surface_temperature,
        result.highest_below_covering_temperature,
        result.screed_underside_temperature,
    ):
        assert min(around) - 1e-6 <= temperature <= max(around) + 1e-6


@settings(max_examples=40, deadline=None)
@given(sections().filter(_possible), st.floats(0.001, 0.2), st.floats(0.02, 0.06))
def test_more_insulation_never_raises_the_downward_loss(
    inputs: FloorSectionInputs, thickness: float, conductivity: float
) -> None:
    """A board of insulation more. (More of a slab may raise it: it spreads the heat of pipes that lie far apart.)"""
    inputs = replace(inputs, temperature_below=min(inputs.temperature_below or 0.0, inputs.room_temperature))
    inputs = replace(inputs, water_temperature=max(inputs.water_temperature, inputs.room_temperature))
    board = SectionLayer(thickness, conductivity)
    better = replace(inputs, layers_below=(board, *inputs.layers_below))
    loss = calculate(inputs).downward_heat_loss
    assert calculate(better).downward_heat_loss <= loss + 1e-7 * abs(loss) + 1e-9


@settings(max_examples=30, deadline=None)
@given(sections().filter(_possible))
def test_turned_upside_down_a_floor_is_a_ceiling(inputs: FloorSectionInputs) -> None:
    """Up and down are words: what lies above and below may change places."""
    radius = inputs.pipe.outside_diameter / 2.0
    thickness = inputs.screed_thickness or 0.0
    under = thickness - inputs.screed_cover - 2.0 * radius
    if under < 0.006:
        inputs = replace(inputs, screed_thickness=inputs.screed_cover + 2.0 * radius + 0.02)
        under = 0.02
    # A given resistance of the surface below becomes the coefficient of the surface above, and the other way.
    inputs = replace(inputs, covering_resistance=0.0, surface_resistance_below=0.17)
    inputs = replace(inputs, temperature_below=max(inputs.temperature_below or 0.0, -10.0))
    turned = replace(
        inputs,
        screed_cover=under,
        layers_above=inputs.layers_below,
        layers_below=inputs.layers_above,
        surface_exchange="given",
        surface_coefficient=1.0 / 0.17,
        surface_resistance_below=1.0 / 10.8,
        room_temperature=inputs.temperature_below or 0.0,
        temperature_below=inputs.room_temperature,
        film_coefficient=1000.0,
    )
    one, other = calculate(replace(inputs, film_coefficient=1000.0)), calculate(turned)
    assert other.heat_output == pytest.approx(one.downward_heat_loss, rel=2e-5, abs=1e-6)
    assert other.downward_heat_loss == pytest.approx(one.heat_output, rel=2e-5, abs=1e-6)


def test_symmetric_inputs_give_symmetric_fields() -> None:
    inputs = replace(
        USUAL,
        screed_cover=0.05,
        screed_thickness=0.116,
        layers_below=(),
        covering_resistance=0.0,
        surface_resistance_below=1.0 / 10.8,
    )
    result = calculate(inputs)
    assert result.heat_output == pytest.approx(result.downward_heat_loss, rel=1e-12)
    assert result.below_covering_temperature == pytest.approx(result.screed_underside_temperature, rel=1e-12)
    case = solved(inputs)
    field = solve_plane(case.bay, case.water.water, Sides(20.0, 0.0)).excess
    assert field == pytest.approx(field[::-1], abs=1e-9)
    open_edge = Sides(20.0, 0.0, edge=0.0, distance=inputs.pipe_spacing / 2.0, resistance=1e9)
    level = solve_plane(case.bay, case.water.water, open_edge)
    assert level.up == pytest.approx(
        2.0 * solve_plane(case.bay, case.water.water, Sides(20.0, 0.0)).up, rel=2e-3
    )


def test_bay_at_the_edge_keeps_its_balance() -> None:
    for inputs in AT_THE_EDGE.values():
        bay = calculate(inputs).edge_bay
        assert bay is not None
        given = bay.heat_output + bay.downward_heat_loss + bay.edge_heat_loss / bay.bay_width
        assert given == pytest.approx(bay.water_heat, rel=1e-9)


def test_colder_edge_takes_heat_from_the_room() -> None:
    inside, edge = calculate(USUAL), ColdEdge(0.075, -10.0, 1.0)
    bay = calculate(replace(USUAL, cold_edge=edge)).edge_bay
    worse = calculate(replace(USUAL, cold_edge=replace(edge, resistance=0.3))).edge_bay
    assert bay is not None and worse is not None
    assert worse.heat_output < bay.heat_output < inside.heat_output
    assert worse.edge_heat_loss > bay.edge_heat_loss > 0.0


@settings(max_examples=40, deadline=None)
@given(sections().filter(_possible), st.floats(1.1, 1.8))
def test_temperatures_superpose(inputs: FloorSectionInputs, factor: float) -> None:
    """The field is linear in the temperatures: every excess times a factor gives every flow times it."""
    assert inputs.temperature_below is not None
    inputs, room = replace(inputs, film_coefficient=1000.0), inputs.room_temperature
    scaled = replace(
        inputs,
        water_temperature=room + (inputs.water_temperature - room) * factor,
        temperature_below=room + (inputs.temperature_below - room) * factor,
    )
    one, other = calculate(inputs), calculate(scaled)
    moved = abs(one.heat_output) + abs(one.downward_heat_loss)
    assert other.heat_output == pytest.approx(factor * one.heat_output, rel=1e-9, abs=1e-9 * moved + 1e-12)


@pytest.mark.parametrize("exchange", ["constant", "basic_curve"])
@pytest.mark.parametrize("film", [None, 1500.0])
def test_comparison_is_each_section_by_itself(exchange: str, film: float | None) -> None:
    inputs = replace(USUAL, surface_exchange=exchange, film_coefficient=film)  # type: ignore[arg-type]
    spacings, waters = (0.075, 0.15, 0.30), (28.0, 40.0, 55.0)
    asked = replace(inputs, compared_spacings=spacings, compared_water_temperatures=waters)
    rows = calculate(asked).comparison
    assert [(row.pipe_spacing, row.water_temperature) for row in rows] == [
        (spacing, water) for spacing in spacings for water in waters
    ]
    for row in rows:
        alone = calculate(
            replace(inputs, pipe_spacing=row.pipe_spacing, water_temperature=row.water_temperature)
        )
        for name in ComparedSection.__slots__[2:]:
            assert getattr(row, name) == pytest.approx(getattr(alone, name), rel=1e-9), name
    assert rows[0].heat_output > rows[3].heat_output > rows[6].heat_output > 0.0


def test_comparison_of_one_kind_keeps_the_rest() -> None:
    assert calculate(USUAL).comparison == ()
    spaced = calculate(replace(USUAL, compared_spacings=(0.1, 0.2))).comparison
    assert {row.water_temperature for row in spaced} == {USUAL.water_temperature}
    warmed = calculate(replace(USUAL, compared_water_temperatures=(30.0, 60.0)))
    assert {row.pipe_spacing for row in warmed.comparison} == {USUAL.pipe_spacing}
    places = {finding.code: (finding.where_in, finding.where) for finding in warmed.findings}
    assert places["surface_above_peripheral_limit"] == ("answer", "/comparison/1")
    assert places["water_too_hot_for_screed"] == ("request", "/compared_water_temperatures/1")


# --- refusals and words ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"layers_below": (SectionLayer(0.0, 0.04),)}, "/layers_below/0/thickness"),
        ({"layers_above": (SectionLayer(0.01, 0.0),)}, "/layers_above/0/thermal_conductivity"),
        ({"screed_conductivity": 0.0}, "/screed_conductivity"),
        ({"screed_thickness": 0.05}, "/screed_thickness"),
        ({"pipe": Pipe(0.032, 0.003), "pipe_spacing": 0.031}, "/pipe_spacing"),
        ({"pipe": Pipe(0.010, 0.005)}, "/pipe/wall_thickness"),
        ({"layers_below": (), "surface_resistance_below": 0.0}, "/layers_below"),
        ({"surface_exchange": "given"}, "/surface_coefficient"),
        ({"surface_coefficient": 9.0}, "/surface_coefficient"),
        ({"surface_exchange": "basic_curve", "water_temperature": 20.0}, "/water_temperature"),
        ({"cold_edge": ColdEdge(0.31, 0.0, 1.0)}, "/cold_edge/distance"),
        ({"compared_spacings": (0.1, 0.7)}, "/compared_spacings/1"),
        ({"compared_spacings": (0.031,), "pipe": Pipe(0.032, 0.003)}, "/compared_spacings/0"),
        ({"compared_water_temperatures": (30.0,) * 13}, "/compared_water_temperatures"),
        (
            {"surface_exchange": "basic_curve", "compared_water_temperatures": (30.0, 20.0)},
            "/compared_water_temperatures/1",
        ),
        ({"water_temperature": math.nan}, "/water_temperature"),
    ],
)
def test_refused_with_the_field(change: dict[str, object], pointer: str) -> None:
    with pytest.raises(InputError) as refusal:
        calculate(replace(USUAL, **change))  # type: ignore[arg-type]
    assert pointer in [fault.pointer for fault in refusal.value.faults]


def test_a_hot_floor_is_told() -> None:
    codes = {one.code: one for one in calculate(replace(USUAL, water_temperature=60.0)).findings}
    assert {"surface_above_peripheral_limit", "water_too_hot_for_screed"} <= set(codes)
    assert codes["surface_above_peripheral_limit"].severity == "violation"


def test_build_up_that_is_not_good_building_is_told() -> None:
    floor = replace(USUAL, covering_resistance=0.2, screed_cover=0.02, temperature_below=-10.0)
    codes = {one.code for one in calculate(floor).findings}
    assert {"covering_too_insulating", "screed_cover_thin", "insulation_below_minimum"} <= codes
    assert not calculate(USUAL).findings


def test_workings_lead_to_the_result() -> None:
    inputs = replace(USUAL, temperature_below=10.0)
    result = calculate(inputs)
    found = {step.symbol: step.value for step in workings(inputs, result)}
    assert inputs.temperature_below is not None
    excess, below = inputs.water_temperature - 20.0, inputs.temperature_below - 20.0
    assert found["K_w,up"] * excess + found["K_u,up"] * below == pytest.approx(result.heat_output, rel=1e-12)
    assert found["q"] + found["q_u"] == pytest.approx(found["q_w"], rel=1e-12)
    assert 20.0 + found["q"] / found["alpha"] == pytest.approx(found["theta_F,m"], rel=1e-12)
    through = found["q_w"] * inputs.pipe_spacing * found["R_p"]
    assert inputs.water_temperature - through == pytest.approx(found["theta_p"], rel=1e-12)


@pytest.mark.parametrize("resistance", [0.0, 0.05])
@pytest.mark.parametrize("surface", [0.0, 1.0 / 10.8])
def test_a_side_of_the_screed_by_transfer_matrices(resistance: float, surface: float) -> None:
    """Each wave of the temperature passes a layer by the matrix of cosh and sinh (Carslaw and Jaeger, Conduction of
    Heat in Solids, 3.7); a flow of 1 leaves through the resistances outside."""
    spacing, screed, layers = 0.2, 1.2, ((0.02, 0.5), (0.01, 0.13))
    side = side_of(spacing, 5, screed, 0.04, layers, resistance=resistance, surface_resistance=surface)
    for number, (reflection, share) in enumerate(
        zip(side.reflection, side.surface_share, strict=True), start=1
    ):
        beta = 2.0 * math.pi * number / spacing
        temperature, flow = resistance + surface, 1.0
        for thickness, conductivity in reversed(layers):
            once, wave = beta * thickness, conductivity * beta
            temperature, flow = (
                math.cosh(once) * temperature + math.sinh(once) / wave * flow,
                wave * math.sinh(once) * temperature + math.cosh(once) * flow,
            )
        wave = screed * beta
        assert reflection == pytest.approx(
            (wave * temperature - flow) / (wave * temperature + flow), rel=1e-10
        )
        assert share == pytest.approx(surface / temperature, rel=1e-10, abs=1e-300)


def test_a_sheath_like_the_wall_makes_a_thicker_pipe() -> None:
    """Two rings of one conductivity are one ring."""
    floor = replace(USUAL, screed_thickness=None)
    bare = replace(floor, pipe=Pipe(0.020, 0.004, 0.35))
    sheathed = replace(floor, pipe=Pipe(0.016, 0.002, 0.35, sheath_diameter=0.020, sheath_conductivity=0.35))
    assert calculate(sheathed).heat_output == pytest.approx(calculate(bare).heat_output, rel=1e-9)


def test_a_floor_that_takes_heat_from_the_room_although_its_water_is_warmer() -> None:
    """Slab without insulation over frost; where the water is the colder one, cooling is what it is for."""
    slab = replace(USUAL, layers_below=(SectionLayer(0.1, 2.1),), temperature_below=-15.0)
    lukewarm, cold = (calculate(replace(slab, water_temperature=water)) for water in (20.5, 15.0))
    assert lukewarm.heat_output < 0.0 and cold.heat_output < 0.0
    assert "floor_cools_room" in {finding.code for finding in lukewarm.findings}
    assert "floor_cools_room" not in {finding.code for finding in cold.findings}


def test_points_of_the_surface_at_the_edge_lie_amid_their_cells() -> None:
    """The profile is even cells: its mean weighted by their widths is the mean of the surface."""
    bay = calculate(AT_THE_EDGE["usual edge"]).edge_bay
    assert bay is not None
    at = [point.distance for point in bay.surface_profile]
    ends = [0.0]
    for middle in at:
        ends.append(2.0 * middle - ends[-1])
    assert ends[-1] == pytest.approx(bay.bay_width, rel=1e-9)
    widths = [after - before for before, after in pairwise(ends)]
    mean = sum(width * point.temperature for width, point in zip(widths, bay.surface_profile, strict=True))
    assert mean / bay.bay_width == pytest.approx(bay.mean_surface_temperature, rel=1e-9)


def test_borders_of_the_picture_pass_the_heat_of_the_field() -> None:
    """What temperatures at surface, underside and edge drive through their resistances is what the grid gives off."""
    inputs = AT_THE_EDGE["poor edge"]
    case = solved(inputs)
    sides = edge_sides(inputs, case)
    field = solve_plane(case.bay, case.water.water, sides)
    across, upwards, values = _with_borders(case, field, sides)
    for places, edges in ((across, field.plane.across), (upwards, field.plane.upwards)):
        assert places[1:-1] - edges[:-1] == pytest.approx(edges[1:] - places[1:-1], rel=1e-9)
    widths, heights = np.diff(field.plane.across), np.diff(field.plane.upwards)
    outside = case.bay.covering_resistance + case.bay.surface_resistance
    assert values[-1, 1:-1] @ widths / outside == pytest.approx(field.up, rel=1e-9)
    below = (values[0, 1:-1] - sides.below) @ widths / case.bay.surface_resistance_below
    assert below == pytest.approx(field.down, rel=1e-9)
    edge = (values[1:-1, 0] - sides.edge) @ heights / sides.resistance
    assert edge == pytest.approx(field.edge, rel=1e-9)


def test_zeta_is_that_of_scipy() -> None:
    even = [float(zeta(2 * half)) for half in range(1, ORDERS + 1)]
    assert _even_zeta(ORDERS)[1:] == pytest.approx(even, rel=1e-14)


def test_profile_reaches_from_the_axis_to_midway_to_the_next() -> None:
    profile = calculate(USUAL).surface_profile
    assert (profile[0].distance, profile[-1].distance) == (
        0.0,
        pytest.approx(USUAL.pipe_spacing / 2.0, rel=1e-12),
    )
    even = np.diff([point.distance for point in profile])
    assert even == pytest.approx(even[0], rel=1e-9)


@pytest.mark.parametrize(("distance", "refused"), [(0.0159, True), (0.0161, False)])
def test_a_pipe_does_not_reach_over_the_edge(distance: float, refused: bool) -> None:
    """A pipe of 32 mm reaches 16 mm from its axis."""
    inputs = replace(
        USUAL, screed_thickness=None, pipe=Pipe(0.032, 0.003), cold_edge=ColdEdge(distance, -10.0, 1.0)
    )
    if refused:
        with pytest.raises(InputError) as caught:
            calculate(inputs)
        (fault,) = caught.value.faults
        assert (fault.code, fault.limit) == ("pipe_outside_floor", pytest.approx(0.016))
        assert "its radius is 16 mm" in fault.detail
    else:
        assert calculate(inputs).edge_bay is not None


def test_fields_of_the_other_pipes_by_adding_them_up() -> None:
    """Source -ln r and multipoles cos(m phi) / r^m, phi from upwards, at 2000 pipes either side a distance of 1 apart;
    their field on a circle round the pipe between them, by orders of cos(k phi) (Fourier)."""
    turns = np.arange(32) * 2.0 * np.pi / 32.0
    others = np.concatenate((np.arange(-2000.0, 0.0), np.arange(1.0, 2001.0)))
    across = 0.3 * np.sin(turns)[:, None] - others
    upwards = np.broadcast_to(0.3 * np.cos(turns)[:, None], across.shape)
    radius, angle = np.hypot(across, upwards), np.arctan2(across, upwards)
    rows = _neighbours()
    for m in range(len(rows)):
        field = (np.cos(m * angle) / radius**m if m else -np.log(radius)).sum(axis=1)
        for k in range(len(rows)):
            if k + m:
                order = (field * np.cos(k * turns)).mean() * (2.0 if k else 1.0) / 0.3**k
                assert rows[k][m] == pytest.approx(order, rel=1e-3, abs=2e-3), (k, m)


@pytest.mark.parametrize("water", [25.0, 45.0, 60.0])
def test_exchange_by_the_curve_is_that_of_its_coefficient_at_the_answer(water: float) -> None:
    """The basic characteristic curve of EN 1264-2 as a coefficient of its own: the same floor with that one given."""
    inputs = replace(USUAL, water_temperature=water, surface_exchange="basic_curve")
    by_curve = calculate(inputs)
    given = replace(inputs, surface_exchange="given", surface_coefficient=by_curve.surface_coefficient)
    assert calculate(given).heat_output == pytest.approx(by_curve.heat_output, rel=1e-8)
    assert by_curve.surface_coefficient == pytest.approx(
        8.92 * (by_curve.mean_surface_temperature - USUAL.room_temperature) ** 0.1, rel=1e-6
    )


def test_film_of_water_beyond_its_range_is_that_of_95_degrees() -> None:
    """Slow flow: a Nusselt number of 4, with the conductivity of water at 95 degC by the library iapws."""
    conductivity = _Liquid(95.0 + 273.15, 0.1)["k"]
    assert film_coefficient(0.005, 0.012, 97.0) == pytest.approx(4.0 * conductivity / 0.012, rel=1e-6)
