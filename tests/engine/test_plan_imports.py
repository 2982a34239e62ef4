"""Plans from gbXML files of our own making: what comes out is checked by hand calculation and by shapely."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace

import pytest
import shapely
from tepidarium_engine import designs, heat_loss
from tepidarium_engine.errors import InputError, UnreadableFileError
from tepidarium_engine.plan_imports import PlanImportsInputs, PlanImportsResult, read_plan

from tests.plans.gbxml_house import Box, Door, gbxml

WINTER = PlanImportsInputs(external_temperature=-10.0, annual_mean_temperature=9.0)
LIVING = Box("living", 0.0, 0.0, 5.0, 4.0, beyond={"x1": "office"}, name="Living room")
OFFICE = Box("office", 5.2, 0.0, 3.0, 4.0, beyond={"x0": "living"}, temperature=20.0)
HOUSE = gbxml([LIVING, OFFICE], [Door("living", 1.0)])


def read(content: bytes, inputs: PlanImportsInputs = WINTER) -> PlanImportsResult:
    return read_plan(content, "gbxml", inputs)


def codes(result: PlanImportsResult) -> dict[str, int]:
    return {finding.code: len(finding.places) for finding in result.findings}


def states(result: PlanImportsResult) -> dict[str, str]:
    return {room.id: room.state for room in result.rooms_found}


def area(result: PlanImportsResult, index: int) -> float:
    room = result.request.rooms[index]
    return float(shapely.Polygon(room.outline, room.voids).area)


def test_rooms_doorway_and_temperatures_are_those_of_the_file() -> None:
    found = read(HOUSE)
    living, office = found.request.rooms
    assert (living.id, living.name, living.room_temperature) == ("living", "Living room", 21.0)
    assert (office.id, office.room_temperature) == ("office", 20.0)
    assert [area(found, 0), area(found, 1)] == pytest.approx([20.0, 12.0], abs=1e-6)
    (doorway,) = found.request.doorways
    # the door stands from y = 1.0 to 1.9, in the middle of the wall between x = 5.0 and 5.2
    assert doorway.place == pytest.approx((5.1, 1.45), abs=1e-3)
    assert doorway.width == pytest.approx(0.9, abs=1e-3)
    assert found.missing == ()
    assert {part.where for part in found.taken} >= {
        "/rooms/0/outline",
        "/rooms/1/room_temperature",
        "/doorways/0",
    }
    assert codes(found) == {}


def test_transmission_is_that_of_a_hand_calculation() -> None:
    """Areas times U-values times temperature differences (EN 12831-1, 6.3); the ground is left out here."""
    request = read(gbxml([LIVING, OFFICE])).request
    assert request.heat_loss is not None
    answer = heat_loss.calculate(replace(request.heat_loss, thermal_bridge_supplement=0.0))
    living = next(room for room in answer.rooms if room.id == "living")
    outer = {"wall": (4.0 + 5.0 + 5.0) * 2.5 * 0.3, "ceiling": 20.0 * 0.2}
    for surface, conductance in outer.items():
        losses = [
            element.heat_loss
            for element in living.elements
            if element.surface == surface and element.beyond == "outside"
        ]
        assert math.fsum(losses) == pytest.approx(conductance * 31.0, rel=1e-6)
    to_office = [element.heat_loss for element in living.elements if element.beyond == "room"]
    assert math.fsum(to_office) == pytest.approx(4.0 * 2.5 * 1.0 * 1.0, rel=1e-6)


def test_a_door_is_taken_out_of_its_wall() -> None:
    with_door, without = read(HOUSE).request.heat_loss, read(gbxml([LIVING, OFFICE])).request.heat_loss
    assert with_door is not None
    assert without is not None

    def between(request: heat_loss.HeatLossInputs, surface: str) -> float:
        elements = [element for room in request.rooms for element in room.elements]
        return math.fsum(e.area for e in elements if e.beyond == "room" and e.surface == surface)

    assert between(without, "wall") == pytest.approx(10.0)
    assert between(with_door, "wall") == pytest.approx(10.0 - 0.9 * 2.0)
    assert between(with_door, "door") == pytest.approx(0.9 * 2.0)


def test_a_design_takes_what_was_imported() -> None:
    design = designs.calculate(read(HOUSE).request)
    assert {room.id for room in design.rooms} == {"living", "office"}
    assert design.layout is not None
    loss = read(HOUSE).request.heat_loss
    assert loss is not None
    by_room = [room.heat_loss for room in heat_loss.calculate(loss).rooms]
    assert design.heat_demand == pytest.approx(math.fsum(by_room))


@pytest.mark.parametrize(
    ("unit", "metres"),
    [("Feet", 0.3048), ("Inches", 0.0254), ("Millimeters", 0.001), ("Centimeters", 0.01), ("Yards", 0.9144)],
)
def test_lengths_in_the_files_unit_become_metres(unit: str, metres: float) -> None:
    found = read(gbxml([LIVING, OFFICE], [Door("living", 1.0)], unit=unit, metres=metres))
    plain = read(HOUSE)
    assert found.metres_per_unit == metres
    assert found.length_unit == unit
    for room, expected in zip(found.request.rooms, plain.request.rooms, strict=True):
        assert (
            shapely.Polygon(room.outline).symmetric_difference(shapely.Polygon(expected.outline)).area < 1e-2
        )
    assert found.request.doorways[0].place == pytest.approx(plain.request.doorways[0].place, abs=1e-3)


def test_a_unit_that_is_given_takes_the_place_of_the_files() -> None:
    wrong = gbxml([LIVING, OFFICE], unit="Feet")  # metres, said to be feet
    assert codes(read(wrong)) == {"room_size_unlikely": 1}
    found = read(wrong, replace(WINTER, length_unit="m"))
    assert area(found, 0) == pytest.approx(20.0, abs=1e-6)
    assert codes(found) == {}


def test_a_unit_that_is_not_known_is_reported() -> None:
    found = read(HOUSE.replace(b'lengthUnit="Meters"', b'lengthUnit="Cubits"'))
    assert any("unit of length" in part.message and part.file_line == 2 for part in found.guessed)


def test_no_heat_load_is_guessed() -> None:
    found = read(HOUSE, PlanImportsInputs())
    assert found.request.heat_loss is None
    assert {part.where for part in found.missing} == {
        "/heat_loss",
        "/rooms/0/heat_demand",
        "/rooms/1/heat_demand",
    }
    assert all(room.heat_demand is None for room in found.request.rooms)
    with pytest.raises(InputError) as refusal:
        designs.calculate(found.request)
    assert {fault.pointer for fault in refusal.value.faults} == {
        "/rooms/0/heat_demand",
        "/rooms/1/heat_demand",
    }


def test_u_values_that_are_missing_are_named_once_each() -> None:
    found = read(gbxml([LIVING, OFFICE], constructions=False))
    where = {part.where for part in found.missing}
    assert where == {f"/heat_loss/constructions/{index}/u_value" for index in range(4)}
    with pytest.raises(InputError) as refusal:
        designs.calculate(found.request)
    assert {f"{fault.pointer.rpartition('/')[0]}/u_value" for fault in refusal.value.faults} == where


def test_a_gap_between_parts_of_a_floor_is_closed_up_to_the_tolerance() -> None:
    room = replace(LIVING, beyond={})
    text = gbxml([room]).decode()
    left, right = Box("l", 0, 0, 2.0, 4.0), Box("r", 2.01, 0, 2.99, 4.0)
    whole = gbxml([room]).decode().split("<PolyLoop>")[5].split("</PolyLoop>")[0]
    parts = [gbxml([box]).decode().split("<PolyLoop>")[5].split("</PolyLoop>")[0] for box in (left, right)]
    torn = text.replace(
        f"<PolyLoop>{whole}</PolyLoop>", "".join(f"<PolyLoop>{p}</PolyLoop>" for p in parts), 1
    )
    found = read(torn.encode())
    assert area(found, 0) == pytest.approx(20.0, abs=1e-3)
    assert any("gaps" in part.message for part in found.guessed)
    apart = read(torn.encode(), replace(WINTER, snap_tolerance=0.005))
    assert area(apart, 0) == pytest.approx(2.99 * 4.0, abs=1e-3)
    assert any("largest part" in part.message for part in apart.guessed)


def test_spaces_that_overlap_by_less_than_the_tolerance_are_cut_apart() -> None:
    found = read(gbxml([replace(LIVING, width=5.01), replace(OFFICE, x=5.0)]))
    one, other = (shapely.Polygon(room.outline) for room in found.request.rooms)
    assert one.intersection(other).area < 1e-6
    assert one.union(other).area == pytest.approx(8.0 * 4.0, abs=1e-2)


def test_of_spaces_that_overlap_the_later_is_left_out_and_told_with_its_line() -> None:
    found = read(gbxml([LIVING, replace(OFFICE, x=4.0)]))
    assert states(found) == {"living": "taken", "office": "left_out"}
    (finding,) = [finding for finding in found.findings if finding.code == "room_left_out"]
    assert "Space office, line" in finding.places[0].message
    assert "overlaps Living room by 4.00 m2" in finding.places[0].message
    designs.calculate(found.request)


Loop = list[str]
"""The points of a polygon as they stand in the file."""


@pytest.mark.parametrize(
    "damage",
    [
        lambda points: [point.replace(">5<", ">wide<") for point in points],
        lambda points: [point.replace(">4<", ">NaN<") for point in points],
        lambda points: points[:2],
        lambda points: [points[corner] for corner in (0, 2, 1, 3)],
        lambda points: [],
    ],
    ids=["not a number", "NaN", "open", "crossed", "missing"],
)
def test_a_space_without_a_whole_floor_is_left_out_and_the_rest_goes_on(
    damage: Callable[[Loop], Loop],
) -> None:
    found = read(with_other_floors(damage))
    assert states(found) == {"living": "left_out", "office": "taken"}
    assert "no flat floor" in found.rooms_found[0].reason


def test_a_polygon_may_end_with_its_first_point() -> None:
    found = read(with_other_floors(lambda points: [*points, points[0]]))
    assert [area(found, number) for number in (0, 1)] == pytest.approx([20.0, 9.0])


def with_other_floors(change: Callable[[Loop], Loop]) -> bytes:
    """A living room of 5 m by 4 m, whose floors and ceilings are changed, and an office that stays as it is."""

    def loop(found: re.Match[str]) -> str:
        points = re.findall("<CartesianPoint>.*?</CartesianPoint>", found[0])
        level = {point.split("<Coordinate>")[-1] for point in points}
        kept = len(level) > 1 or "<Coordinate>5<" not in found[0]
        return found[0] if kept else f"<PolyLoop>{''.join(change(points))}</PolyLoop>"

    text = gbxml([replace(LIVING, beyond={}), replace(OFFICE, depth=3.0, x=6.5, beyond={})]).decode()
    changed = re.sub("<PolyLoop>.*?</PolyLoop>", loop, text, flags=re.DOTALL)
    assert changed != text
    return changed.encode()


def test_rooms_that_no_door_reaches_get_a_doorway_unless_unwanted() -> None:
    plan = gbxml([LIVING, OFFICE])
    (doorway,) = read(plan).request.doorways
    assert doorway.place == pytest.approx((5.1, 2.0), abs=1e-3)
    assert doorway.width == pytest.approx(0.8, abs=1e-3)
    assert any(part.where == "/doorways/0" for part in read(plan).guessed)
    without = read(plan, replace(WINTER, find_doorways=False))
    assert without.request.doorways == ()
    assert codes(without) == {"storey_in_parts": 1}
    assert any(part.where == "/manifold/position" for part in without.guessed)
    designs.calculate(without.request)


def test_a_wall_thicker_than_asked_for_parts_the_rooms() -> None:
    plan = gbxml([LIVING, OFFICE])
    assert read(plan, replace(WINTER, thickest_wall=0.21)).request.doorways
    assert not read(plan, replace(WINTER, thickest_wall=0.19)).request.doorways


def test_storeys_have_a_manifold_each_and_the_floor_between_counts_once() -> None:
    upper = Box("upper", 0, 0, 5.0, 4.0, z=2.8, storey="s1", beyond={"z0": "living"})
    lower = replace(LIVING, beyond={"z1": "upper"})
    found = read(gbxml([lower, upper], storeys=(("s1", 2.8), ("s0", 0.0))))
    assert [storey.id for storey in found.request.storeys] == ["s0", "s1"]
    assert [manifold.storey for manifold in found.request.manifolds] == ["s0", "s1"]
    assert {room.build_up for room in found.request.rooms} == {"ground", "heated_room"}
    loss = found.request.heat_loss
    assert loss is not None
    between = [e for room in loss.rooms for e in room.elements if e.beyond == "room"]
    assert [(e.surface, e.area) for e in between] == [("ceiling", 20.0)]
    one = read(gbxml([lower, upper], storeys=(("s0", 0.0), ("s1", 2.8))), replace(WINTER, storeys=("s1",)))
    assert [room.id for room in one.request.rooms] == ["upper"]
    assert one.request.heat_loss is not None
    (floor,) = [e for e in one.request.heat_loss.rooms[0].elements if e.surface == "floor"]
    assert (floor.beyond, floor.neighbour_temperature) == ("heated_neighbour", 21.0)
    designs.calculate(found.request)


def test_a_space_without_heating_is_not_taken_and_borders_as_unheated() -> None:
    found = read(gbxml([LIVING, replace(OFFICE, attributes='conditionType="Unconditioned"')]))
    assert states(found) == {"living": "taken", "office": "not_heated"}
    assert found.request.heat_loss is not None
    (room,) = found.request.heat_loss.rooms
    assert [e.area for e in room.elements if e.beyond == "unheated"] == [10.0]


def test_insulation_below_the_standard_is_reported_and_not_taken() -> None:
    thin = HOUSE.replace(b'<Thickness unit="Meters">0.1<', b'<Thickness unit="Meters">0.04<')
    found = read(thin)
    (finding,) = [finding for finding in found.findings if finding.code == "floor_insulation_low"]
    assert finding.value == pytest.approx(0.04 / 0.035)
    assert finding.limit == 1.25  # EN 1264-4, Table 1: on the ground
    assert found.request.build_ups[0].resistance_below == 1.25
    assert read(HOUSE).request.build_ups[0].resistance_below == pytest.approx(0.1 / 0.035, abs=1e-3)


def test_a_u_value_that_its_layers_do_not_have_is_reported() -> None:
    odd = HOUSE.replace(
        b'<LayerId layerIdRef="l1"/>',
        b'<U-value unit="WPerSquareMeterK">2.0</U-value><LayerId layerIdRef="l1"/>',
    )
    assert codes(read(odd)) == {"u_value_unlike_layers": 1}
    fits = odd.replace(b">2.0<", b">0.33<")  # 1 / (0.1 / 0.035 + 0.17)
    assert codes(read(fits)) == {}


def test_an_area_that_the_outline_does_not_have_is_reported() -> None:
    near = HOUSE.replace(b"<Name>Living room</Name>", b"<Name>Living room</Name><Area>20.5</Area>")
    assert codes(read(near)) == {}
    far = near.replace(b"20.5", b"24")
    (finding,) = read(far).findings
    assert (finding.code, finding.value, finding.limit) == (
        "floor_area_unlike_file",
        pytest.approx(20.0),
        24.0,
    )


def test_no_more_rooms_than_a_design_may_have() -> None:
    boxes = [Box(f"r{n:03}", 4.0 * n, 0.0, 4.0, 3.0) for n in range(70)]
    found = read(gbxml(boxes))
    assert len(found.request.rooms) == 64
    assert sum(room.state == "left_out" for room in found.rooms_found) == 6


BOMB = b"""<?xml version="1.0"?><!DOCTYPE gbXML [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">
<!ENTITY c "&b;&b;&b;&b;">]><gbXML><Campus>&c;</Campus></gbXML>"""
OUTSIDE = b'<?xml version="1.0"?><!DOCTYPE gbXML SYSTEM "file:///etc/hostname"><gbXML/>'


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (BOMB, "document type, which a plan does not need and is not read at line 1"),
        (OUTSIDE, "document type"),
        (b"<gbXML>" + b"<a>" * 200_000, "nested more than 64 deep at line 1"),
        (HOUSE[:3000], "not XML at line"),
        (HOUSE[:-8], "not XML at line"),
        (b"\x00" * 100, "not XML"),
        (b"<html><body/></html>", "no gbXML: its first element is html"),
        (b"<gbXML/>", "no room was found"),
        (b"ISO-10303-21;\nHEADER;\n", "is IFC.*save the plan as gbXML or DXF"),
        (b"\xef\xbb\xbf%PDF-1.7\n", "is a PDF"),
        (HOUSE.replace(b'encoding="utf-8"', b'encoding="klingon"'), "encoding that is not known"),
        (
            gbxml([replace(LIVING, width=0.05, beyond={})]),
            "none of the 1 rooms of the file can be taken; Living room",
        ),
    ],
)
def test_what_is_no_plan_is_refused_with_the_place(content: bytes, reason: str) -> None:
    with pytest.raises(UnreadableFileError, match=reason) as refusal:
        read(content)
    assert [(fault.pointer, fault.code) for fault in refusal.value.faults] == [("", "unreadable_file")]


def test_files_in_other_encodings_are_read() -> None:
    text = HOUSE.decode().replace("Living room", "Wohnküche").replace('encoding="utf-8"', 'encoding="utf-16"')
    assert read(text.encode("utf-16")).request.rooms[0].name == "Wohnküche"
    latin = text.replace('encoding="utf-16"', 'encoding="iso-8859-1"').encode("latin-1")
    assert read(latin).request.rooms[0].name == "Wohnküche"


def test_options_out_of_range_are_refused() -> None:
    with pytest.raises(InputError) as refusal:
        read(HOUSE, replace(WINTER, snap_tolerance=5.0, doorway_width=90.0))
    assert {fault.pointer for fault in refusal.value.faults} == {"/snap_tolerance", "/doorway_width"}


def test_the_same_file_gives_the_same_result() -> None:
    assert read(HOUSE) == read(HOUSE)
