"""Plans from DXF drawings of our own making, written by ezdxf."""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import ezdxf
import pytest
import shapely
from tepidarium_engine import designs
from tepidarium_engine.errors import InputError, UnreadableFileError
from tepidarium_engine.plan_import.room_names import is_bathroom
from tepidarium_engine.plan_imports import PlanImportsInputs, PlanImportsResult, read_plan

Drawing = Callable[[Any], object]
USUAL = PlanImportsInputs()
LIVING = [(0, 0), (5, 0), (5, 4), (0, 4)]
OFFICE = [(5.2, 0), (8.2, 0), (8.2, 4), (5.2, 4)]
BATHROOMS = [
    "Bath",
    "MASTER BATH 2",
    "MasterBath",
    "Bath/WC",
    "Bad1",
    "EG_Bad",
    "Gästebad",
    "Dusche/WC",
    "SDB 1",
    "Salle de bains",
    "Salle d'eau",
    "Baño",
    "Cuarto de baño",
    "Bagno",
    "Badkamer",
    "Doucheruimte",
    "En-suite",
    "Shower room",
]
OTHER_ROOMS = [
    "",
    "WC",
    "Toilet",
    "Bathurst room",
    "Badminton",
    "Hall to bath",
    "Flur Bad",
    "Bath store",
    "Bed + bath",
    "Kitchen",
    "Küche",
    "Salle à manger",
    "Salón",
    "Bano-Raum 3 Lager",
    "Couloir",
    "Technik/Dusche",
    "Utility",
    "Sandbad-en",
]


def drawing(draw: Drawing, unit: int = 6, version: str = "R2010") -> bytes:
    document = ezdxf.new(version)
    document.units = unit
    document.blocks.new("DOOR-90")
    draw(document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode(document.output_encoding)


def room(sheet: Any, corners: list[tuple[float, ...]], layer: str = "ROOMS", *, closed: bool = True) -> None:
    sheet.add_lwpolyline(corners, format="xyb", close=closed, dxfattribs={"layer": layer})


def house(sheet: Any, scale: float = 1.0) -> None:
    for corners in (LIVING, OFFICE):
        room(sheet, [(x * scale, y * scale) for x, y in corners])
    names = {"layer": "NAMES", "height": 0.3 * scale}
    sheet.add_text("Living", dxfattribs=names).set_placement((1 * scale, 1 * scale))
    sheet.add_mtext(
        "Büro", dxfattribs={"layer": "NAMES", "char_height": 0.3 * scale, "insert": (6 * scale, 2 * scale)}
    )
    sheet.add_text("20 m2 net", dxfattribs={"height": 0.1 * scale}).set_placement((1 * scale, 2 * scale))
    sheet.add_blockref("DOOR-90", (5.0 * scale, 1.5 * scale), dxfattribs={"layer": "A-DOOR"})


def read(content: bytes, inputs: PlanImportsInputs = USUAL) -> PlanImportsResult:
    return read_plan(content, "dxf", inputs)


def areas(result: PlanImportsResult) -> list[float]:
    return [float(shapely.Polygon(each.outline, each.voids).area) for each in result.request.rooms]


def reasons(result: PlanImportsResult) -> list[str]:
    return [each.reason for each in result.rooms_found if each.state == "left_out"]


@pytest.mark.parametrize(
    ("unit", "scale"),
    [(6, 1.0), (4, 1000.0), (5, 100.0), (1, 1 / 0.0254), (2, 1 / 0.3048), (0, 1000.0), (0, 1.0), (0, 100.0)],
)
def test_rooms_names_and_doorways_in_every_unit(unit: int, scale: float) -> None:
    found = read(drawing(lambda sheet: house(sheet, scale), unit))
    assert areas(found) == pytest.approx([20.0, 12.0], abs=1e-3)
    assert [each.name for each in found.request.rooms] == ["Living", "Büro"]
    (doorway,) = found.request.doorways
    assert doorway.place == pytest.approx((5.1, 1.5), abs=1e-3)
    assert found.metres_per_unit == pytest.approx(1 / scale)
    assert any("unit of length" in part.message for part in found.guessed) == (unit == 0)
    assert {layer.name: layer.use for layer in found.layers_found}["ROOMS"] == "rooms"


def test_heat_demands_are_missing_and_a_design_takes_the_rest() -> None:
    found = read(drawing(house))
    assert [part.where for part in found.missing] == ["/rooms/0/heat_demand", "/rooms/1/heat_demand"]
    rooms = tuple(replace(each, heat_demand=600.0) for each in found.request.rooms)
    design = designs.calculate(replace(found.request, rooms=rooms))
    assert design.layout is not None
    assert design.heat_demand == 1200.0


def test_a_bathroom_is_told_by_its_name_and_nothing_else_is_guessed() -> None:
    def bath(sheet: Any) -> None:
        house(sheet)
        room(sheet, [(8.4, 0), (10.4, 0), (10.4, 3), (8.4, 3)])
        sheet.add_text("BAD 1.04", dxfattribs={"layer": "NAMES", "height": 0.3}).set_placement((8.8, 1))

    found = read(drawing(bath))
    assert [each.use for each in found.request.rooms] == ["occupied", "occupied", "bathroom"]
    (guess,) = (part for part in found.guessed if part.where.endswith("/use"))
    assert guess.where == "/rooms/2/use" and "BAD 1.04" in guess.message
    assert {each.room_temperature for each in found.request.rooms} == {20.0}
    assert {each.counts_for_supply for each in found.request.rooms} == {None}


@pytest.mark.parametrize("name", BATHROOMS)
def test_names_of_bathrooms(name: str) -> None:
    assert is_bathroom(name)


@pytest.mark.parametrize("name", OTHER_ROOMS)
def test_names_of_other_rooms(name: str) -> None:
    assert not is_bathroom(name)


def test_layers_that_are_given_are_used() -> None:
    def draw(sheet: Any) -> None:
        house(sheet)
        for number in range(5):
            room(sheet, [(x + 20 * number, y + 30) for x, y in LIVING], "FURNITURE")
        sheet.add_line((5.1, 2.5), (5.1, 3.5), dxfattribs={"layer": "GAPS"})

    content = drawing(draw)
    assert len(read(content).request.rooms) == 5
    given = PlanImportsInputs(room_layer="ROOMS", name_layer="NAMES", doorway_layer="GAPS")
    found = read(content, given)
    assert [each.name for each in found.request.rooms] == ["Living", "Büro"]
    (doorway,) = found.request.doorways
    assert (doorway.place, doorway.width) == (pytest.approx((5.1, 3.0)), pytest.approx(1.0, abs=1e-3))
    with pytest.raises(InputError, match="its layers: 0, A-DOOR, FURNITURE") as refusal:
        read(content, PlanImportsInputs(room_layer="rooms"))
    assert [(fault.pointer, fault.code) for fault in refusal.value.faults] == [
        ("/room_layer", "unknown_layer")
    ]


def test_an_arc_keeps_its_area() -> None:
    """A half disc on a wall: area pi r2 / 2; chords may leave the arc by 5 mm."""
    corners = [(0, 0, 0), (4, 0, 1.0), (4, 4, 0), (0, 4, 0)]
    found = read(drawing(lambda sheet: room(sheet, corners)))
    assert areas(found)[0] == pytest.approx(16.0 + math.pi * 2.0**2 / 2.0, rel=3e-3)
    inwards = [(0, 0, 0), (4, 0, -0.5), (4, 4, 0), (0, 4, 0)]
    angle = 4.0 * math.atan(0.5)
    radius = 4.0 / (2.0 * math.sin(angle / 2.0))
    segment = radius**2 / 2.0 * (angle - math.sin(angle))
    assert areas(read(drawing(lambda sheet: room(sheet, inwards))))[0] == pytest.approx(
        16.0 - segment, rel=3e-3
    )


def test_open_outlines_are_closed_up_to_the_tolerance() -> None:
    def draw(sheet: Any) -> None:
        room(sheet, [*LIVING, (0, 0.01)], closed=False)
        room(sheet, [*OFFICE, (5.2, 0.5)], closed=False)

    found = read(drawing(draw))
    assert areas(found) == pytest.approx([20.0], abs=0.05)
    assert reasons(found) == ["its outline is open by 0.500 m"]
    assert any("a gap of 10 mm" in part.message for part in found.guessed)


def test_splines_frames_and_columns() -> None:
    def draw(sheet: Any) -> None:
        house(sheet)
        sheet.add_spline([(10, 0), (12, 1), (11, 3), (10, 0)], dxfattribs={"layer": "ROOMS"})
        room(sheet, [(-1, -1), (9, -1), (9, 5), (-1, 5)])
        room(sheet, [(2, 2), (2.5, 2), (2.5, 2.5), (2, 2.5)])

    found = read(drawing(draw))
    assert areas(found) == pytest.approx([20.0 - 0.25, 12.0], abs=1e-3)
    assert sorted(reason.split(":")[0] for reason in reasons(found)) == [
        "it is a spline, which is no outline",
        "it is drawn round other rooms",
    ]


def test_nothing_but_splines_is_refused_with_the_reason() -> None:
    def draw(sheet: Any) -> None:
        sheet.add_spline([(10, 0), (12, 1), (11, 3), (10, 0)], dxfattribs={"layer": "ROOMS"})

    with pytest.raises(UnreadableFileError, match=r"SPLINE .* on ROOMS.*draw it as a polyline"):
        read(drawing(draw), PlanImportsInputs(room_layer="ROOMS"))


@pytest.mark.parametrize(
    ("lettered", "name"),
    [
        (["Wohnzimmer\\P19.32 m²"], "Wohnzimmer"),
        (["A = 20,00 m2", "Küche"], "Küche"),
        (["Living 215 sq ft"], "Living"),
        (["Bad 1.2 / 6,4 qm"], "Bad 1.2"),
        (["Zimmer 12 m"], "Zimmer 12 m"),
        (["Raum 101"], "Raum 101"),
        (["20.00 m²"], "Room 1"),
    ],
)
def test_the_lettered_area_is_not_part_of_the_name(lettered: list[str], name: str) -> None:
    """As offices letter rooms, in one text or two (common practice, no source)."""

    def draw(sheet: Any) -> None:
        sheet.add_lwpolyline(LIVING, close=True, dxfattribs={"layer": "ROOMS"})
        for number, words in enumerate(lettered):
            place = (1.0, 1.0 + number)
            sheet.add_mtext(words, dxfattribs={"layer": "T", "char_height": 0.2}).set_location(place)

    (room,) = read(drawing(draw)).request.rooms
    assert room.name == name


def test_old_drawings_are_read() -> None:
    def draw(sheet: Any) -> None:
        sheet.add_polyline2d(LIVING, close=True, dxfattribs={"layer": "ROOMS"})

    assert areas(read(drawing(draw, version="R12"), PlanImportsInputs(length_unit="m"))) == pytest.approx(
        [20.0]
    )


@pytest.mark.parametrize(
    ("damage", "reason"),
    [
        (lambda content: content[: len(content) // 2], "no DXF|cut off"),
        (lambda content: content[:-60], "cut off"),
        (lambda _: b"<gbXML/>", "no DXF"),
        (lambda _: b"AC1032\x00\x00", "is a DWG.*save the plan as gbXML or DXF"),
        (lambda _: b"0\nSECTION\n2\nENTITIES\nx\nEOF", "damaged|no room"),
        (
            lambda content: content.replace(b"LWPOLYLINE", b"LWPOLYGONE"),
            "no room was found in the file; its layers.*closed polylines.*room_layer",
        ),
    ],
)
def test_what_is_no_drawing_is_refused(damage: Callable[[bytes], bytes], reason: str) -> None:
    with pytest.raises(UnreadableFileError, match=reason):
        read(damage(drawing(house)))
