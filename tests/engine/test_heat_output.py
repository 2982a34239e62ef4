"""EN 1264-2: tables, curves and limits against the standard's own entries and formulas, and against each other."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from tepidarium_engine.errors import InputError
from tepidarium_engine.heat_output import HeatOutputInputs, calculate, heat_output_array, workings
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.thermal.characteristic import basic_heat_output, mean_surface_temperature

TABLES: dict[str, Any] = json.loads(
    (Path(__file__).parents[1] / "vectors" / "en1264_2_tables.json").read_text(encoding="utf-8")
)["tables"]
PIPE = Pipe(0.016, 0.002)
FLOOR = HeatOutputInputs(0.15, PIPE, 0.045, 1.02, 40.0, 35.0)


def codes(inputs: HeatOutputInputs) -> set[str]:
    return {finding.code for finding in calculate(inputs).findings}


def faults(inputs: HeatOutputInputs) -> set[str]:
    with pytest.raises(InputError) as caught:
        calculate(inputs)
    return {fault.pointer for fault in caught.value.faults}


@st.composite
def floors(draw: st.DrawFn) -> HeatOutputInputs:
    """Floors within the ranges of the standard, normal cover."""
    room, return_excess, drop = draw(st.floats(15, 24)), draw(st.floats(2, 20)), draw(st.floats(1, 10))
    return HeatOutputInputs(
        pipe_spacing=draw(st.floats(0.05, 0.375)),
        pipe=Pipe(draw(st.floats(0.012, 0.025)), draw(st.floats(0.0015, 0.0025))),
        screed_cover=draw(st.floats(0.03, 0.065)),
        resistance_below=draw(st.floats(0.75, 5.0)),
        supply_temperature=room + return_excess + drop,
        return_temperature=room + return_excess,
        screed_conductivity=draw(st.floats(1.0, 2.0)),
        covering_resistance=draw(st.floats(0.0, 0.15)),
        room_temperature=room,
        temperature_below=draw(st.floats(-5.0, 20.0)),
        method="standard",
    )


@pytest.mark.parametrize(("excess", "printed"), [(9.0, 100.0), (15.0, 175.0)])
def test_mean_surface_by_the_basic_curve(excess: float, printed: float) -> None:
    """EN 1264-2, basic characteristic curve: 100 W/m2 at 9 K and 175 W/m2 at 15 K, as the standard rounds them."""
    assert mean_surface_temperature(printed, 20.0) - 20.0 == pytest.approx(excess, rel=4e-3)
    assert basic_heat_output(excess) == pytest.approx(printed, rel=4e-3)


def test_limit_tables_that_differ_by_half_a_watt_are_reported() -> None:
    """Where Tables A.4 and A.5 as printed, interpolated in a straight line, differ by 0.5 W/m2 (common practice, no
    source, for what is worth a note) at the cover over conductivity at which the method changes, 0.0792 m2.K/W."""
    thin, thick = TABLES["A.4"], TABLES["A.5"]

    def apart(spacing: float) -> float:
        last = [row[-1] for row in thin["values"]]
        over_spacing = np.interp(0.0792 / spacing, thick["columns"], thick["values"])
        return float(np.interp(spacing, thin["rows"], last) - over_spacing)

    at = brentq(lambda spacing: apart(spacing) - 0.5, 0.12, 0.125, xtol=1e-12)
    floor = replace(FLOOR, screed_cover=0.0792, screed_conductivity=1.0)
    assert "limit_tables_change" in codes(replace(floor, pipe_spacing=at + 1e-5))
    assert "limit_tables_change" not in codes(replace(floor, pipe_spacing=at - 1e-5))


# the tables themselves -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "along_rows", "along_columns"),
    [("A.2", -1, -1), ("A.3", 1, -1), ("A.4", -1, 1), ("A.6", 1, -1)],
)
def test_tables_run_one_way(name: str, along_rows: int, along_columns: int) -> None:
    """The physics behind EN 1264-2: spreading worsens with spacing and betters with cover and covering."""
    values = np.array(TABLES[name]["values"])
    assert (np.diff(values, axis=0) * along_rows >= 0).all()
    assert (np.diff(values, axis=1) * along_columns >= 0).all()


@pytest.mark.parametrize("spacing", [0.15, 0.20, 0.30, 0.375])
def test_table_pairs_meet_for_the_screed_they_were_made_for(spacing: float) -> None:
    """EN 1264-2: Tables A.4/A.5 and A.6/A.7 agree at 95 mm of cover with 1.2 W/(m.K)."""
    row = TABLES["A.4"]["rows"].index(spacing)
    fine = TABLES["A.6"]["rows"].index(spacing)
    thick_B, thick_n = (
        np.interp(0.095 / spacing, TABLES[t]["columns"], TABLES[t]["values"]) for t in ("A.5", "A.7")
    )
    assert TABLES["A.4"]["values"][row][-1] == pytest.approx(thick_B, abs=0.06)
    assert TABLES["A.6"]["values"][fine][-1] == pytest.approx(thick_n, abs=0.001)


# the formulas, typed again from the standard -------------------------------------------------------------


def bilinear(name: str, row: float, column: float) -> float:
    table = TABLES[name]
    line = [np.interp(column, table["columns"], values) for values in table["values"]]
    return float(np.interp(row, table["rows"], line))


def product(i: HeatOutputInputs, cover: float) -> float:
    """a_B a_T^m_T a_U^m_U a_D^m_D of EN 1264-2, from the tables of the vector file."""
    T, R, p = min(i.pipe_spacing, 0.375), i.covering_resistance, i.pipe
    D = p.sheath_diameter or p.outside_diameter
    a_B = (1 / 10.8 + 0.045 / 1.0) / (1 / 10.8 + 0.045 / i.screed_conductivity + R)
    a_T = float(np.interp(R, TABLES["A.1"]["columns"], TABLES["A.1"]["values"]))
    return float(
        a_B
        * a_T ** (1 - T / 0.075)
        * bilinear("A.2", T, R) ** (100 * (0.045 - cover))
        * bilinear("A.3", T, R) ** (250 * (D - 0.020))
    )


@settings(max_examples=60, deadline=None)
@given(floors(), st.floats(0.2, 400.0), st.booleans())
def test_pipe_correction_as_the_standard_prints_it(
    i: HeatOutputInputs, conductivity: float, sheath: bool
) -> None:
    """EN 1264-2: 1/B = 1/6.7 + 1.1/pi Pi T [ ... ], bare and in a sheath of 0.15 W/(m.K)."""
    d, s = i.pipe.outside_diameter, i.pipe.wall_thickness
    i = replace(
        i,
        pipe=replace(
            i.pipe,
            thermal_conductivity=conductivity,
            sheath_diameter=d + 0.004 if sheath else None,
            sheath_conductivity=0.15 if sheath else None,
        ),
    )
    D = d + 0.004 if sheath else d
    bracket = math.log(d / (d - 2 * s)) / (2 * conductivity) - math.log(D / (D - 0.004)) / 0.7
    bracket += math.log(D / d) / 0.3 if sheath else 0.0
    Pi = product(i, i.screed_cover)
    B = 1 / (1 / 6.7 + 1.1 / math.pi * Pi * i.pipe_spacing * bracket)
    result = calculate(i)
    assert result.factors.system_coefficient == pytest.approx(B, rel=1e-10)
    assert result.heat_transmittance == pytest.approx(B * Pi, rel=1e-10)


@pytest.mark.parametrize(
    ("spacing", "spread"), [(0.10, 0.100), (0.20, 0.100), (0.30, 0.150), (0.375, 0.1875)]
)
def test_thick_cover_adds_in_series(spacing: float, spread: float) -> None:
    """EN 1264-2: beyond s_u* (0.100 m, or T/2) 1/K_H grows by (s_u - s_u*)/lambda_E; just below it does not."""
    i = replace(FLOOR, pipe_spacing=spacing, pipe=Pipe(0.016, 0.002))
    thick = calculate(replace(i, screed_cover=spread + 0.04)).heat_transmittance
    assert 1 / thick == pytest.approx(1 / (6.7 * product(i, spread)) + 0.04 / 1.2, rel=1e-10)
    below = calculate(replace(i, screed_cover=spread - 0.01)).heat_transmittance
    assert below == pytest.approx(6.7 * product(i, spread - 0.01), rel=1e-10)


@pytest.mark.parametrize("cover", [0.045, 0.065, 0.095, 0.15])
def test_wide_spacing(cover: float) -> None:
    """EN 1264-2: output and limit of 0.375 m times 0.375/T, the limit corrected by f_G."""
    i = replace(FLOOR, screed_cover=cover)
    edge, wide = calculate(replace(i, pipe_spacing=0.375)), calculate(replace(i, pipe_spacing=0.45))
    assert wide.heat_transmittance == pytest.approx(edge.heat_transmittance * 0.375 / 0.45, rel=1e-12)
    reduced = edge.limit_heat_output * 0.375 / 0.45
    most = 8.92 * 9**1.1
    f_G = 1.0
    if cover / 0.45 > 0.173:
        f_G = (most - (most - reduced) * math.exp(-20 * (cover / 0.45 - 0.173) ** 2)) / reduced
    assert wide.factors.wide_spacing_factor == pytest.approx(f_G, rel=1e-12)
    assert wide.limit_heat_output == pytest.approx(reduced * f_G, rel=1e-12)
    assert wide.limit_excess_temperature == pytest.approx(edge.limit_excess_temperature * f_G, rel=1e-12)
    assert "spacing_beyond_tables" in codes(replace(i, pipe_spacing=0.45))


# properties ------------------------------------------------------------------------------------------------


@settings(max_examples=100, deadline=None)
@given(floors(), st.floats(5.0, 15.0))
def test_limit_lies_on_both_curves(i: HeatOutputInputs, surface_excess: float) -> None:
    """EN 1264-2: q_G = K_H Delta theta and q_G = phi B_G (Delta theta / phi)^n_G, unless the basic curve caps it."""
    i = replace(i, surface_temperature_limit=i.room_temperature + surface_excess)
    r = calculate(i)
    phi, B_G, n_G = r.factors.surface_factor, r.factors.limit_coefficient, r.factors.limit_exponent
    assert phi == pytest.approx((surface_excess / 9) ** 1.1, rel=1e-9)
    assert r.limit_heat_output == pytest.approx(r.heat_transmittance * r.limit_excess_temperature, rel=1e-12)
    by_curve = phi * B_G * (r.limit_excess_temperature / phi) ** n_G
    assert r.limit_heat_output <= 8.92 * surface_excess**1.1 * (1 + 1e-12)
    if r.limit_heat_output < r.maximum_heat_output * (1 - 1e-9):
        assert r.limit_heat_output == pytest.approx(by_curve, rel=1e-9)
    else:
        assert by_curve >= r.limit_heat_output * (1 - 1e-9)


@settings(max_examples=100, deadline=None)
@given(floors(), st.floats(0.1, 20.0))
def test_output_rises_with_the_water(i: HeatOutputInputs, rise: float) -> None:
    warmer = replace(i, supply_temperature=i.supply_temperature + rise)
    assert calculate(warmer).heat_output > calculate(i).heat_output
    both = replace(warmer, return_temperature=i.return_temperature + rise)
    assert calculate(both).mean_surface_temperature > calculate(warmer).mean_surface_temperature


@settings(max_examples=150, deadline=None)
@given(
    floors(), st.sampled_from(("pipe_spacing", "covering_resistance", "screed_cover")), st.floats(0.01, 1.0)
)
def test_output_falls_with_spacing_covering_and_cover(i: HeatOutputInputs, name: str, part: float) -> None:
    top = {"pipe_spacing": 0.6, "covering_resistance": 0.5, "screed_cover": 0.10}[name]
    now = getattr(i, name)
    more = replace(i, **{name: now + part * (top - now)})
    assert calculate(more).heat_output < calculate(i).heat_output


@settings(max_examples=50, deadline=None)
@given(floors())
def test_downward_loss_closes_the_node_of_the_pipes(i: HeatOutputInputs) -> None:
    """EN 1264-2: the plane of the pipes has one temperature, seen from above and from below."""
    r = calculate(i)
    assert i.temperature_below is not None
    above = 1 / 10.8 + i.covering_resistance + i.screed_cover / i.screed_conductivity
    from_room = i.room_temperature + r.heat_output * above
    from_below = i.temperature_below + r.downward_heat_loss * i.resistance_below
    assert from_room == pytest.approx(from_below, abs=1e-9)
    assert r.total_heat_output == pytest.approx(r.heat_output + r.downward_heat_loss, rel=1e-12)


@settings(max_examples=60, deadline=None)
@given(floors(), st.floats(1e-12, 1e-3))
def test_small_drop_tends_to_the_plain_difference(i: HeatOutputInputs, drop: float) -> None:
    """The logarithmic mean lies between the ends and is computed stably (analysis)."""
    supply = i.return_temperature + drop
    assume(supply > i.return_temperature)
    r = calculate(replace(i, supply_temperature=supply))
    low, high = i.return_temperature - i.room_temperature, supply - i.room_temperature
    assert low * (1 - 1e-12) <= r.mean_excess_temperature <= high * (1 + 1e-12)


@settings(max_examples=25, deadline=None)
@given(st.lists(floors(), min_size=1, max_size=30), st.floats(5.0, 15.0))
def test_array_form_equals_the_scalar_form(some: list[HeatOutputInputs], excess: float) -> None:
    pipe = some[0].pipe
    some = [replace(i, pipe=pipe, surface_temperature_limit=i.room_temperature + excess) for i in some]
    some += [replace(i, pipe_spacing=0.5, screed_cover=0.25, covering_resistance=0.3) for i in some]
    names = ("pipe_spacing", "screed_cover", "screed_conductivity", "covering_resistance", "room_temperature")
    names += ("supply_temperature", "return_temperature", "surface_temperature_limit")
    arrays = heat_output_array(pipe=pipe, **{n: np.array([getattr(i, n) for i in some]) for n in names})
    results = [calculate(i) for i in some]
    for name in ("heat_output", "heat_transmittance", "mean_excess_temperature", "mean_surface_temperature"):
        np.testing.assert_allclose(getattr(arrays, name), [getattr(r, name) for r in results], rtol=1e-12)
    assert arrays.limit_heat_output is not None
    assert arrays.within_limit is not None
    np.testing.assert_allclose(arrays.limit_heat_output, [r.limit_heat_output for r in results], rtol=1e-12)
    exceeded = ["surface_limit_exceeded" in {f.code for f in r.findings} for r in results]
    assert (arrays.within_limit == ~np.array(exceeded)).all()
    half = len(some) // 2
    assert arrays.within_standard[:half].all()
    assert not arrays.within_standard[half:].any()


def test_array_form_broadcasts_and_covers_more_than_a_block() -> None:
    spacing = np.linspace(0.05, 0.375, 301)[:, None]
    covering = np.linspace(0.0, 0.15, 201)[None, :]
    arrays = heat_output_array(
        pipe=PIPE,
        pipe_spacing=spacing,
        covering_resistance=covering,
        screed_cover=0.045,
        supply_temperature=40.0,
        return_temperature=35.0,
    )
    assert arrays.heat_output.shape == (301, 201)
    assert arrays.limit_heat_output is None
    assert (np.diff(arrays.heat_output, axis=0) < 0).all()
    assert (np.diff(arrays.heat_output, axis=1) < 0).all()
    one = replace(FLOOR, pipe_spacing=float(spacing[300, 0]), covering_resistance=float(covering[0, 7]))
    assert arrays.heat_output[300, 7] == pytest.approx(calculate(one).heat_output, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "values", "pointer", "code"),
    [
        ("pipe_spacing", [0.1, 0.04], "/pipe_spacing", "impossible"),
        ("pipe_spacing", [0.1, math.nan], "/pipe_spacing", "range"),
        ("screed_cover", [0.045, 0.009], "/screed_cover", "impossible"),
        ("return_temperature", [35.0, 41.0], "/return_temperature", "impossible"),
        ("return_temperature", [35.0, 20.0], "/return_temperature", "impossible"),
        ("surface_temperature_limit", [29.0, 20.0], "/surface_temperature_limit", "impossible"),
        ("covering_resistance", [0.1, math.inf], "/covering_resistance", "range"),
        ("screed_cover", [0.04, 0.05, 0.06], "", "shape"),
    ],
)
def test_array_form_refuses_what_cannot_be(name: str, values: list[float], pointer: str, code: str) -> None:
    given_arrays: dict[str, Any] = {
        "pipe_spacing": [0.1, 0.2],
        "screed_cover": 0.045,
        "supply_temperature": 40.0,
        "return_temperature": 35.0,
    }
    with pytest.raises(InputError) as caught:
        heat_output_array(pipe=PIPE, **{**given_arrays, name: values})
    assert (pointer, code) in {(fault.pointer, fault.code) for fault in caught.value.faults}


# findings, defaults, refusals -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"covering_resistance": 0.16}, "covering_too_insulating"),
        ({"pipe": Pipe(0.032, 0.003)}, "diameter_beyond_method"),
        ({"screed_cover": 0.025}, "screed_cover_thin"),
        ({"screed_cover": 0.0115}, "limit_table_edge"),
        ({"pipe_spacing": 0.3, "screed_cover": 0.05, "screed_conductivity": 0.5}, "limit_table_edge"),
        ({"pipe_spacing": 0.3, "screed_cover": 0.079, "screed_conductivity": 1.0}, "limit_tables_change"),
        ({"resistance_below": 0.7}, "insulation_below_minimum"),
        ({"resistance_below": 1.2, "temperature_below": 5.0}, "insulation_below_minimum"),
        ({"resistance_below": 1.9, "temperature_below": -10.0}, "insulation_below_minimum"),
        ({"surface_temperature_limit": 35.0}, "surface_limit_above_occupied"),
        ({"surface_temperature_limit": 36.0}, "surface_limit_above_standard"),
        ({"room_temperature": 22.0}, "surface_limit_above_29"),
        ({"supply_temperature": 56.0}, "water_too_hot_for_screed"),
        ({"supply_temperature": 60.0, "return_temperature": 50.0}, "surface_limit_exceeded"),
        ({"temperature_below": 40.0}, "heat_from_below"),
    ],
)
def test_findings(change: dict[str, Any], code: str) -> None:
    """Limits of EN 1264-2, EN 1264-3, EN 1264-4 (Table 1, 55 degC) and DIN 18560-2 (30 mm)."""
    assert code not in codes(FLOOR)
    assert code in codes(
        replace(FLOOR, **{"surface_temperature_limit": None, "temperature_below": None, **change})
    )


@pytest.mark.parametrize(("back", "told"), [(20.3, True), (20.5, True), (20.51, False)])
def test_a_return_hardly_warmer_than_the_room_is_told(back: float, told: bool) -> None:
    """Half a kelvin: common practice, no source."""
    result = calculate(replace(FLOOR, return_temperature=back))
    found = [finding for finding in result.findings if finding.code == "return_close_to_room"]
    assert bool(found) == told
    assert all((one.where, one.value, one.limit) == ("/return_temperature", back, 20.5) for one in found)


def test_pipes_beyond_the_method_count_as_its_thickest() -> None:
    """EN 1264-2 covers outside diameters up to 0.030 m: m_D = 250 (D - 0.020) goes no further than 2.5."""
    for diameter, exponent in ((0.0290, 2.25), (0.0300, 2.5), (0.0301, 2.5), (0.0320, 2.5)):
        factors = calculate(replace(FLOOR, pipe=Pipe(diameter, 0.002))).factors
        assert factors is not None
        assert factors.diameter_exponent == pytest.approx(exponent, rel=1e-12)


def test_sound_floor_carries_no_finding_and_defaults_are_filled_in() -> None:
    assert calculate(FLOOR).findings == ()
    assert FLOOR.temperature_below == FLOOR.room_temperature
    bathroom = HeatOutputInputs(0.1, PIPE, 0.045, 1.02, 38.0, 33.0, room_temperature=24.0)
    assert bathroom.surface_temperature_limit == 33.0
    assert calculate(bathroom).maximum_heat_output == pytest.approx(100.0, abs=0.05)


def test_output_beyond_the_limit_is_not_cut_off() -> None:
    r = calculate(replace(FLOOR, supply_temperature=55.0, return_temperature=50.0))
    assert r.heat_output > r.limit_heat_output
    assert r.heat_output_margin == pytest.approx(r.limit_heat_output - r.heat_output)
    assert r.heat_output == pytest.approx(r.heat_transmittance * r.mean_excess_temperature, rel=1e-12)


def test_every_fault_is_told_at_once() -> None:
    bad = replace(
        FLOOR,
        pipe_spacing=0.04,
        screed_cover=0.009,
        supply_temperature=19.0,
        return_temperature=19.5,
        surface_temperature_limit=18.0,
        pipe=Pipe(0.012, 0.005),
        method="standard",
    )
    assert faults(bad) == {
        "/pipe_spacing",
        "/screed_cover",
        "/return_temperature",
        "/surface_temperature_limit",
        "/pipe/wall_thickness",
    }
    assert faults(replace(FLOOR, pipe_spacing=1e308, supply_temperature=math.nan)) == {
        "/pipe_spacing",
        "/supply_temperature",
    }
    assert faults(replace(FLOOR, room_temperature="20")) == {"/room_temperature"}  # type: ignore[arg-type]


def test_results_are_plain_floats_at_every_edge() -> None:
    for spacing in (0.05, 0.6):
        for cover in (0.01, 0.3):
            for conductivity in (0.2, 5.0):
                for pipe in (Pipe(0.008, 0.0025, 500.0), Pipe(0.032, 0.006, 0.05, 0.05, 0.02)):
                    if (pipe.sheath_diameter or 0.0) >= spacing:
                        continue
                    i = replace(FLOOR, pipe_spacing=spacing, pipe=pipe, screed_cover=cover)
                    r = calculate(replace(i, screed_conductivity=conductivity, covering_resistance=1.0))
                    numbers = [r.heat_output, r.limit_heat_output, r.downward_heat_loss, *vars_of(r.factors)]
                    assert all(type(x) is float and math.isfinite(x) for x in numbers)
                    assert r.heat_output > 0.0
                    assert r.factors.system_coefficient > 0.0


def vars_of(record: Any) -> list[float]:
    return [getattr(record, name) for name in record.__slots__]


@settings(max_examples=30, deadline=None)
@given(floors())
def test_workings_end_at_the_result(i: HeatOutputInputs) -> None:
    r = calculate(i)
    chain = {working.symbol: working.value for working in workings(i, r)}
    assert chain["B"] * chain["Pi"] == pytest.approx(r.heat_transmittance, rel=1e-12)
    assert chain["K_H"] * chain["Delta theta_H"] == pytest.approx(r.heat_output, rel=1e-12)
    assert chain["q_G"] == r.limit_heat_output
    assert chain["q_u"] == r.downward_heat_loss
