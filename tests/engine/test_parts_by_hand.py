"""Parts of methods that whole cases hide, each worked by hand here from the text that it names."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from scipy.optimize import brentq
from tepidarium_engine import heat_loss, heat_output, insulation_check, supply_temperature
from tepidarium_engine.conduction.steady import solve_bay
from tepidarium_engine.envelope import ground
from tepidarium_engine.envelope.loss_findings import _partitions
from tepidarium_engine.errors import InputError
from tepidarium_engine.heat_loss import Construction, EdgeInsulation, Element, Layer, Slab
from tepidarium_engine.heat_output import HeatOutputInputs, heat_output_array
from tepidarium_engine.insulation_check import InsulationCheckInputs
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.plan.judging.route_measures import mixing
from tepidarium_engine.practice.coverings import moisture_test_points
from tepidarium_engine.supply_temperature import OtherRoom, SupplyTemperatureInputs
from tepidarium_engine.thermal.floor import Floor
from tepidarium_engine.thermal.section_output import bay_of
from tepidarium_engine.thermal.single_pipes import FAR, single_pipe

from tests.engine.test_heat_loss import HOUSE, one_room

PIPE = Pipe(0.016, 0.002)
LIVING = SupplyTemperatureInputs(PIPE, 0.045, 1.85, 55.0, pipe_spacing=0.15, area=20.0)


def codes(result: Any) -> set[str]:
    return {finding.code for finding in result.findings}


# -- supply and floor --------------------------------------------------------------------------------------------


def test_supply_excess_by_both_rules() -> None:
    """EN 1264-3, from memory: half the drop above the mean excess, and with sigma^2 / 12 more in the long rule."""
    chain = {
        one.symbol: one.value
        for one in supply_temperature.workings(LIVING, supply_temperature.calculate(LIVING))
    }
    mean = chain["Delta theta_H"]
    assert chain["Delta theta_V,short"] == pytest.approx(mean + 2.5, rel=1e-9)
    assert chain["Delta theta_V,quadratic"] == pytest.approx(mean + 2.5 + 25.0 / (12.0 * mean), rel=1e-9)


@pytest.mark.parametrize(("cover", "tables"), [(0.095, "A.4 and A.6"), (0.0951, "A.5 and A.7")])
def test_limit_curves_change_their_tables_at_95_mm(cover: float, tables: str) -> None:
    """EN 1264-2: A.4 and A.6 up to 0.0792 m2.K/W, 95 mm of screed with 1.2 W/(m.K)."""
    floor = replace(LIVING, screed_cover=cover)
    chain = supply_temperature.workings(floor, supply_temperature.calculate(floor))
    words = " ".join(
        f"{one.formula} {one.source}" for one in chain if one.symbol in ("s_u/lambda_E", "B_G", "n_G")
    )
    assert all(name in words for name in tables.split(" and "))


@pytest.mark.parametrize(("count", "others"), [(5, False), (6, True)])
def test_five_rooms_that_are_too_warm_are_named(count: int, others: bool) -> None:
    """A line has room for five names; pipe for a square metre is 1 / spacing. 130 W/m2 are above EN 1264-2's limit."""
    warm = tuple(OtherRoom(f"room {number}", 130.0, 10.0, pipe_spacing=0.1) for number in range(count))
    found = supply_temperature.calculate(replace(LIVING, pipe_spacing=0.1, other_rooms=warm))
    (reason,) = (each.reason for each in found.options)
    assert "room 0, room 1, room 2, room 3, room 4" in reason and "(10.0 m of pipe per m2)" in reason
    assert ("and others" in reason) == others


@pytest.mark.parametrize(("share", "within"), [(0.995, True), (1.005, False)])
def test_many_floors_are_within_their_limit_or_not(share: float, within: bool) -> None:
    """EN 1264-2: the output is proportional to the mean excess; half a per cent on both sides of the limit."""
    one = HeatOutputInputs(0.15, PIPE, 0.045, 1.02, 40.0, 39.9)
    found = heat_output.calculate(one)
    mean = found.limit_heat_output / found.heat_transmittance * share
    supply = 20.0 + mean + 0.05
    many = heat_output_array(
        pipe_spacing=0.15,
        pipe=PIPE,
        screed_cover=0.045,
        supply_temperature=supply,
        return_temperature=supply - 0.1,
        surface_temperature_limit=29.0,
    )
    assert bool(many.within_limit) is within


def test_a_sheath_of_the_same_plastic_is_a_thicker_wall() -> None:
    """Rings of one conductivity are one ring (Fourier)."""
    sheathed = Pipe(0.016, 0.002, sheath_diameter=0.020, sheath_conductivity=0.35)
    thick = Pipe(0.020, 0.004)
    found = [
        heat_output.calculate(
            HeatOutputInputs(0.15, pipe, 0.045, 1.02, 40.0, 35.0, method="section")
        ).heat_output
        for pipe in (sheathed, thick)
    ]
    assert found[0] == pytest.approx(found[1], rel=1e-9)


def test_a_pipe_amid_its_row_heats_all_of_its_strip() -> None:
    """Every pipe of a row has half a spacing on both sides: the mean above it is what it gives over its spacing."""
    pipe = single_pipe(Floor(0.06, PIPE, 0.045, 2.5, covering_resistance=0.1), 40.0)
    assert pipe.strip == 0.03
    assert pipe.output_above(0.03, 0.03) * 0.06 == pytest.approx(pipe.output(0.03, 0.03), rel=1e-9)
    assert pipe.output(2.0 * FAR, 2.0 * FAR) == pytest.approx(pipe.output(FAR, FAR), rel=1e-2)


def test_a_pipe_with_all_the_floor_gives_what_a_section_as_wide_says() -> None:
    """Floor that is further away takes no more heat (the section solved for a row two metres apart)."""
    floor = Floor(0.06, PIPE, 0.045, 2.5, covering_resistance=0.1)
    pipe = single_pipe(floor, 40.0)
    bay = bay_of(floor, 40.0)
    alone, _ = solve_bay(replace(bay, spacing=2.0 * FAR))
    # a ring of screed, from the pipe to twice its radius (Fourier)
    assert pipe.common - bay.pipe_resistance == pytest.approx(math.log(2.0) / (2.0 * math.pi * 1.2), rel=1e-9)
    assert pipe.output(FAR, FAR) / pipe.up == pytest.approx(alone.water * 2.0 * FAR, rel=2e-3)


# -- heat loss ---------------------------------------------------------------------------------------------------


def test_workings_of_layers_and_of_ground() -> None:
    """ISO 6946: U is 2 / (upper + lower limit). Only what lies on the ground has the factor of EN 12831-1."""
    chain = heat_loss.workings(HOUSE, heat_loss.calculate(HOUSE))
    for number, one in enumerate(chain):
        if one.symbol == "U" and one.formula.startswith("2 / (R_upper"):
            upper, lower = chain[number - 2].value, chain[number - 1].value
            assert one.value == pytest.approx(2.0 / (upper + lower), rel=1e-9)
    grounded = [one for one in chain if one.symbol == "U_g"]
    assert len(grounded) == len(HOUSE.rooms) and all("/floors/" in one.name for one in grounded)
    assert {one.symbol for one in chain if one.symbol in ("d_f", "d_w")} == {"d_f"}
    for one in chain:
        if one.symbol == "Phi_k":
            assert one.formula.startswith("f_ground") == ("/floors/" in one.name), one.name


def test_a_heated_floor_over_a_room_counts_in_no_loss() -> None:
    """EN 12831-1 with floor heating: what the heated floor itself loses is left out, seen from both sides."""
    square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    walls = tuple(heat_loss.Wall(edge=edge, construction="outer") for edge in range(4))
    lower = heat_loss.HeatLossRoom(
        id="lower",
        outline=square,
        walls=walls,
        floors=(Slab(construction="slab", beyond="ground"),),
        ceilings=(Slab(construction="inner", beyond="room", neighbour="upper"),),
    )
    upper = replace(
        lower,
        id="upper",
        room_temperature=24.0,
        floors=(Slab(beyond="room", neighbour="lower"),),
        ceilings=(Slab(construction="roof"),),
    )
    for warm in (True, False):
        house = replace(HOUSE, rooms=(replace(lower, heated_floor=False), replace(upper, heated_floor=warm)))
        (seen,) = (one for one in heat_loss.calculate(house).rooms[1].elements if one.beyond == "room")
        assert seen.surface == "floor" and seen.through_heated_floor is warm


@pytest.mark.parametrize(("second", "fits"), [(12.0, True), (11.9, False), (12.1, False)])
def test_slabs_take_up_the_room(second: float, fits: bool) -> None:
    """Arithmetic: of 16 m2 4 lie on the ground and 12 over the outside."""
    floors = (Slab(construction="slab", beyond="ground", area=4.0), Slab(construction="slab", area=second))
    house = replace(HOUSE, rooms=(replace(HOUSE.rooms[0], floors=floors), *HOUSE.rooms[1:]))
    if fits:
        heat_loss.calculate(house)
    else:
        with pytest.raises(InputError):
            heat_loss.calculate(house)


@pytest.mark.parametrize(("placement", "extent"), [("horizontal", 1.0), ("vertical", 2.0)])
def test_edge_insulation_of_a_floor(placement: Any, extent: float) -> None:
    """ISO 13370, floors with edge insulation, from memory: U + 2 psi / B', psi = -lambda / pi [ln(D / d + 1) -
    ln(D / (d + d') + 1)], twice the depth for D where it stands upright."""
    thickness, dimension, added = 0.62, 8.0, 0.05 / 0.035 * 1.5 - 0.05
    psi = -1.5 / math.pi * (math.log(extent / thickness + 1.0) - math.log(extent / (thickness + added) + 1.0))
    plain = 2.0 * 1.5 / (math.pi * dimension + thickness) * math.log(math.pi * dimension / thickness + 1.0)
    insulation = EdgeInsulation(placement, 1.0, thickness=0.05, thermal_conductivity=0.035)
    assert ground.edge_psi(insulation, thickness, 1.5) == pytest.approx(psi, rel=1e-9)
    found = ground.insulated_floor_u_value(dimension, thickness, 1.5, insulation)
    assert found == pytest.approx(plain + 2.0 * psi / dimension, rel=1e-9)


@pytest.mark.parametrize(("depth", "told"), [(0.0, False), (1.0, True)])
def test_edge_insulation_is_not_counted_below_ground(depth: float, told: bool) -> None:
    """ISO 13370: edge insulation is for floors at the level of the ground."""
    insulated = replace(HOUSE.ground, edge_insulation=EdgeInsulation("vertical", 0.6, 0.08, 0.035))
    floor = Element(surface="floor", area=20.0, construction="slab", beyond="ground")
    house = one_room(floor, ground=insulated, depth_below_ground=depth)
    house = replace(house, ground=replace(insulated, floor_area=20.0, exposed_perimeter=18.0))
    assert ("edge_insulation_not_counted" in codes(heat_loss.calculate(house))) is told


@pytest.mark.parametrize(("more", "told"), [(-1e-4, False), (1e-4, True)])
def test_the_combined_method_ends_at_a_ratio_of_limits(more: float, told: bool) -> None:
    """ISO 6946:2017: the limits may differ by 1.5, with the surface resistance of a floor (0.17 m2.K/W)."""

    def ratio(share: float) -> float:
        wool, steel = 0.20 / 0.035, 0.20 / 50.0
        upper = 1.0 / ((1.0 - share) / (0.17 + wool + 0.1) + share / (0.17 + steel + 0.1))
        return upper / (0.17 + 1.0 / ((1.0 - share) / wool + share / steel) + 0.1)

    share = brentq(lambda share: ratio(share) - 1.5, 1e-5, 1e-3, xtol=1e-15) * (1.0 + more)
    layers = (
        Layer(0.20, 0.035, bridge_share=share, bridge_conductivity=50.0),
        Layer(thermal_resistance=0.1),
    )
    house = replace(HOUSE, constructions=(*HOUSE.constructions, Construction("frame", layers=layers)))
    assert ("bridges_beyond_method" in codes(heat_loss.calculate(house))) is told


@pytest.mark.parametrize(("across", "told"), [(12.01, True), (11.99, False)])
def test_partitions_may_differ_by_a_fifth(across: float, told: bool) -> None:
    """Walls between are part of one side (common practice, no source): of 10 m2 a fifth."""

    def face(room: int, neighbour: str, area: float) -> Any:
        return SimpleNamespace(
            room=room,
            neighbour=neighbour,
            area=area,
            beyond="room",
            surface="wall",
            pointer=f"/rooms/{room}/walls/0",
        )

    rooms = [SimpleNamespace(faces=[face(0, "b", 10.0)]), SimpleNamespace(faces=[face(1, "a", across)])]
    named = SimpleNamespace(rooms=[SimpleNamespace(id="a"), SimpleNamespace(id="b")])
    balance: Any = SimpleNamespace(rooms=rooms, inputs=named)
    assert bool(list(_partitions(balance))) is told


def test_plain_layers_are_not_counted_as_bridged() -> None:
    """A construction of many layers is accepted with two bridged ones, whichever the others are."""
    plain = tuple(Layer(0.01, 0.5) for _ in range(8))
    bridged = tuple(Layer(0.05, 0.035, bridge_share=0.1, bridge_conductivity=0.13) for _ in range(2))
    house = replace(HOUSE, constructions=(*HOUSE.constructions, Construction("many", layers=plain + bridged)))
    heat_loss.calculate(house)


@pytest.mark.parametrize(("flow", "told"), [(0.2996, True), (0.3004, False)])
def test_little_air_is_told(flow: float, told: bool) -> None:
    """EN 12831-1:2017: half a volume an hour; 0.2 by leaks and the rest of 50 m3 by a fan."""
    wall = Element(surface="wall", area=20.0, construction="outer")
    house = one_room(wall, storey_height=2.5, air_change=0.2, air_flow=flow * 50.0 / 3600.0)
    assert ("air_change_low" in codes(heat_loss.calculate(house))) is told


def test_towards_soil_that_is_not_counted_there_is_no_surface() -> None:
    """ISO 6946: 1 / (0.17 + 2.0 + 0) W/(m2.K) for insulation of 2 m2.K/W on soil that is left out.

    Over air there are 0.17 more."""
    layer = insulation_check.CheckLayer(0.06, 0.03)
    for below, resistance in (("ground", 2.17), ("unheated_room", 2.34)):
        found = insulation_check.calculate(InsulationCheckInputs(below=below, layers=(layer,)))  # type: ignore[arg-type]
        assert found.floor_u_value == pytest.approx(1.0 / resistance, rel=1e-9)


# -- routes ------------------------------------------------------------------------------------------------------


def test_half_of_the_pipe_is_half_with_its_tail() -> None:
    """A metre there, a metre back beside it and a metre away: the warm half ends amid the way back, so that half of the
    pairs have warm and cool pipe."""
    along = (np.arange(1000) + 0.5) / 1000.0
    at = np.concatenate((along, 1.0 + along, 2.0 + along))
    seen = np.full((3000, 2), np.inf)
    seen[:1000, 0], seen[1000:2000, 0] = 2.0 - along, 1.0 - along
    beside: Any = SimpleNamespace(at=at, weight=np.full(3000, 0.001), seen_at=seen)
    mixed, spread = mixing(beside, 3.0)
    assert mixed == pytest.approx(0.5, abs=0.002)
    assert spread == pytest.approx(0.0, abs=1e-9)


# -- practice ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("area", "points"), [(50.0, 2), (50.1, 3), (200.0, 3), (200.1, 6)])
def test_points_of_moisture_tests(area: float, points: int) -> None:
    """A page on the practice of carbide measurement: 2 in a room, above 50 m2 3 for each started 200 m2."""
    assert moisture_test_points(area) == points
