"""The drawing of a storey: to scale, every circuit by its port, complete, readable without colour."""

from __future__ import annotations

import json
import math
import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import msgspec
import pytest
from shapely import MultiLineString, Point, Polygon, box
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations.designs import DESIGNS
from tepidarium_api.problems import Problem
from tepidarium_api.renderings.marks import Words
from tepidarium_api.renderings.sheet import Sheet, extent, sheets_for
from tepidarium_api.renderings.storey_drawing import storey_drawing, storey_sheets
from tepidarium_engine.building.layout_outcome import UnplacedCircuit
from tepidarium_engine.designs import (
    DesignLayout,
    DesignsInputs,
    DesignsResult,
    DrawingSheet,
    calculate,
    label_places,
)
from tepidarium_engine.results import Finding

from .test_route_drawing import SVG, classed, lengths, scale_of, words

EXAMPLE = replace(msgspec.convert(DESIGNS.example, DesignsInputs), laying_sheets=True)


def sheet_for(points: list[tuple[float, float]]) -> Sheet:
    return sheets_for(extent(points), DrawingSheet())[0]


@cache
def designed() -> DesignsResult:
    return calculate(EXAMPLE)


def layout() -> DesignLayout:
    found = designed().layout
    assert found is not None
    return found


@cache
def drawing() -> ElementTree.Element:
    return ElementTree.fromstring(storey_drawing(EXAMPLE, designed()))


def part(name: str, root: ElementTree.Element | None = None) -> ElementTree.Element:
    return next(one for one in (drawing() if root is None else root).iter(f"{SVG}g") if one.get("id") == name)


def test_walls_are_to_scale_and_not_mirrored() -> None:
    scale = scale_of(drawing())
    # ISO 5455: reductions 1:2, 1:5, 1:10 and their multiples by ten
    assert scale in {1.0 * step * ten for step in (1, 2, 5) for ten in (10, 100, 1000)}
    drawn = [corner for wall in classed(part("rooms"), "wall") for corner in _corners(wall)]
    given = [corner for room in EXAMPLE.rooms for corner in room.outline or ()]
    assert len(drawn) == len(given)
    for (x, y), (across, up) in zip(drawn, given, strict=True):
        assert (x - drawn[0][0]) * scale / 1000.0 == pytest.approx(across - given[0][0], abs=2e-4)
        assert -(y - drawn[0][1]) * scale / 1000.0 == pytest.approx(up - given[0][1], abs=2e-4)


def _corners(one: ElementTree.Element) -> list[tuple[float, float]]:
    pairs = (pair.split(",") for pair in one.attrib["points"].split())
    return [(float(x), float(y)) for x, y in pairs]


def test_every_pipe_on_paper_is_as_long_as_the_pipe_and_is_flow_until_its_core() -> None:
    """Lines and arcs of the path data, measured by school geometry, times the scale."""
    scale = scale_of(drawing())
    cores = {
        sheet.circuit: (sheet.core_mark or 0.0) - sheet.steps[0].mark for sheet in designed().laying_sheets
    }
    for circuit in layout().drawn_circuits:
        group = part(f"circuit-{circuit.port}")
        flow, back = (
            math.fsum(length for one in classed(group, kind) for length in lengths(one.attrib["d"]))
            for kind in ("flow", "return")
        )
        assert (flow + back) * scale / 1000.0 == pytest.approx(circuit.length, rel=1e-4)
        assert flow * scale / 1000.0 == pytest.approx(cores[circuit.id], abs=0.01)


def test_every_circuit_bears_its_port_at_the_manifold_and_in_its_room() -> None:
    ports = [str(circuit.port) for circuit in layout().drawn_circuits]
    assert len(set(ports)) == len(ports) == 3
    assert words(part("manifold")).split() == ports
    assert sorted(re.findall(r"[Cc]ircuit (\d+)", words(part("names")))) == sorted(ports)


def test_words_on_the_plan_cover_no_pipe() -> None:
    """The box of each name keeps clear of the centre lines of all pipe."""
    plan = sheet_for([corner for room in EXAMPLE.rooms for corner in room.outline or ()])
    pipes = MultiLineString(
        [
            [plan.at(piece.start), plan.at(piece.end)]
            for circuit in layout().drawn_circuits
            for piece in circuit.pieces
            if piece.kind == "line"
        ]
    )
    for mark in next(
        group for group in storey_sheets(EXAMPLE, designed())[0].plan if group.name == "names"
    ).marks:
        if isinstance(mark, Words) and mark.along == (1.0, 0.0):
            x, y = mark.place
            half = mark.width / 2.0
            assert not box(x - half, y - mark.height, x + half, y).intersects(pipes), mark.text


def test_the_schedule_stands_beside_the_plan() -> None:
    rows: dict[float, list[str]] = {}
    for one in part("column").iter(f"{SVG}text"):
        rows.setdefault(float(one.attrib["y"]), []).append("".join(one.itertext()))
    spacings = {room.id: room.pipe_spacing for room in designed().rooms}
    names = {room.id: room.name for room in EXAMPLE.rooms}
    for circuit in designed().circuits:
        assert [
            str(circuit.port),
            names[circuit.room],
            f"{circuit.total_length:.1f}",
            f"{spacings[circuit.room] * 1000.0:.4g}",
            f"{circuit.volume_flow * 60_000.0:.2f}",
            f"kv {circuit.valve_kv:.2f}",
        ] in rows.values()


def test_rooms_are_named_inside_and_doorways_are_gaps() -> None:
    for room, place in zip(EXAMPLE.rooms, label_places(EXAMPLE), strict=True):
        assert place is not None
        assert Polygon(room.outline, room.voids).contains(Point(place))
        assert room.name in words(part("names"))
    (gap,) = classed(part("doorways"), "doorway")
    scale = scale_of(drawing())
    area = Polygon(_corners(gap)).area * (scale / 1000.0) ** 2
    assert area == pytest.approx(0.8 * 0.12, rel=1e-3)  # clear width times the wall's thickness


def test_everything_lies_on_the_sheet() -> None:
    width, height = (float(drawing().attrib[side].removesuffix("mm")) for side in ("width", "height"))
    for one in drawing().iter(f"{SVG}text"):
        if one.get("x") and float(one.attrib["x"]) > 0.0:
            assert 10.0 < float(one.attrib["y"]) < height - 10.0, "".join(one.itertext())
            assert 20.0 < float(one.attrib["x"]) < width - 10.0


def test_flow_and_return_are_told_apart_without_colour() -> None:
    style = "".join(next(drawing().iter(f"{SVG}style")).itertext())
    rules = dict(re.findall(r"\.([\w-]+) \{ (.*?) \}", style))
    assert "dasharray" not in rules["flow"]
    assert "dasharray" in rules["return"]
    assert "fill: #fff" in rules["return-arrow"]


def test_what_is_not_drawn_is_said() -> None:
    kept = layout().drawn_circuits[1:]
    lost = layout().drawn_circuits[0]
    unplaced = UnplacedCircuit(lost.id, lost.room, "no_floor", None, "No floor is left.")
    changed = replace(designed(), layout=replace(layout(), drawn_circuits=kept, unplaced=(unplaced,)))
    root = ElementTree.fromstring(storey_drawing(EXAMPLE, changed))
    assert f"NOT DRAWN: {lost.id}" in words(part("names", root))
    column = words(part("column", root))
    assert f"{lost.id}: No floor is left." in column
    assert f"{lost.port}*" in column
    assert "not drawn, length estimated" in column


def test_prices_are_no_matter_of_a_drawing() -> None:
    found = tuple(
        Finding.at(code, "/ordering/price_list/prices") for code in ("price_missing", "price_unused")
    )
    result = replace(designed(), findings=(*found, Finding.at("joints_due_not_given", "/joints")))
    written = words(ElementTree.fromstring(storey_drawing(EXAMPLE, result)))
    assert "price" not in written and "Movement joints are due" in written


def test_a_sheet_without_notes_does_not_deny_what_the_pack_lists() -> None:
    """Notes stand in the pack: the sheet says that there is no violation and no warning, not that there is nothing."""
    noted = tuple(finding for finding in designed().findings if finding.severity == "note")
    assert noted
    found = ElementTree.fromstring(storey_drawing(EXAMPLE, replace(designed(), findings=noted)))
    text = words(part("column", found))
    assert "No violation and no warning." in text and "No findings" not in text


def test_circuits_with_one_reason_are_named_together() -> None:
    """A large storey has dozens, and a sentence for each fills the sheet."""
    lost, other, *kept = layout().drawn_circuits
    told = {lost.id: "No floor is left.", other.id: "No floor is left.", "third": "No way."}
    unplaced = tuple(UnplacedCircuit(name, lost.room, "no_floor", None, why) for name, why in told.items())
    changed = replace(designed(), layout=replace(layout(), drawn_circuits=tuple(kept), unplaced=unplaced))
    column = words(part("column", ElementTree.fromstring(storey_drawing(EXAMPLE, changed))))
    assert column.count("No floor is left.") == 1
    assert f"{lost.id}, {other.id}: No floor is left." in column and "third: No way." in column


def test_by_accept_over_the_wire_and_the_same_bytes() -> None:
    got = answer(DESIGNS, json.dumps(DESIGNS.example).encode(), "image/svg+xml")
    assert isinstance(got, Answer)
    assert got.media_type == "image/svg+xml"
    assert got.content == storey_drawing(EXAMPLE, designed())
    assert b"nan" not in got.content.lower()


def test_without_doorways_there_is_nothing_to_draw() -> None:
    refused = answer(DESIGNS, msgspec.json.encode({**DESIGNS.example, "doorways": []}), "image/svg+xml")
    assert isinstance(refused, Problem)
    assert [error.pointer for error in refused.errors or ()] == ["/doorways"]


def test_a_room_that_is_not_there_cannot_be_drawn() -> None:
    asked = {**DESIGNS.example, "drawing": {"room": "cellar"}}
    refused = answer(DESIGNS, msgspec.json.encode(asked), "image/svg+xml")
    assert isinstance(refused, Problem)
    assert [(error.pointer, error.code) for error in refused.errors] == [("/drawing/room", "not_drawn")]


def test_a_large_storey_gets_a_larger_sheet() -> None:
    # ISO 216: each format has twice the area of the next
    sizes = [sheet_for([(0.0, 0.0), (side, 0.6 * side)]).size for side in (5.0, 14.0, 25.0)]
    areas = [width * height for width, height in sizes]
    assert areas == sorted(areas)
    assert areas[2] > areas[0]
    assert sizes[0] == (420.0, 297.0)


TWO_STOREYS = replace(
    msgspec.convert(
        json.loads((Path(__file__).parents[2] / "examples" / "two-storeys.json").read_text()), DesignsInputs
    ),
    laying_sheets=True,
)


@cache
def two_storeys() -> tuple[DesignsResult, ElementTree.Element]:
    result = calculate(TWO_STOREYS)
    return result, ElementTree.fromstring(storey_drawing(TWO_STOREYS, result))


def sheets_of(root: ElementTree.Element) -> list[ElementTree.Element]:
    return [one for one in root.iter(f"{SVG}g") if re.fullmatch(r"sheet-\d+", one.get("id") or "")]


def plans_of(root: ElementTree.Element) -> list[ElementTree.Element]:
    return [sheet for sheet in sheets_of(root) if classed(sheet, "wall")]


def test_each_storey_has_a_sheet_of_its_own_with_its_name() -> None:
    _, root = two_storeys()
    ground, upper = plans_of(root)
    for sheet, storey in ((ground, TWO_STOREYS.storeys[0]), (upper, TWO_STOREYS.storeys[1])):
        scale = scale_of(sheet)
        own = [room for room in TWO_STOREYS.rooms if room.storey == storey.id]
        walls = [Polygon(_corners(wall)) for wall in classed(sheet, "wall")]
        for wall, room in zip(walls, own, strict=True):
            assert wall.area * (scale / 1000.0) ** 2 == pytest.approx(Polygon(room.outline).area, rel=1e-3)
        assert storey.name in words(sheet)
    ids = [one.attrib["id"] for one in root.iter() if one.get("id")]
    assert len(set(ids)) == len(ids)


def drawn_group(name: str, root: ElementTree.Element) -> ElementTree.Element:
    return next(
        one for one in root.iter(f"{SVG}g") if re.fullmatch(rf"{name}(-sheet-\d+)?", one.get("id") or "")
    )


def test_circuits_of_several_manifolds_bear_manifold_and_port() -> None:
    result, root = two_storeys()
    assert result.layout is not None and not result.layout.unplaced
    labels = {
        circuit.id: f"{['G', 'U'].index(circuit.manifold) + 1}.{circuit.port}" for circuit in result.circuits
    }
    assert len(set(labels.values())) == len(labels)
    boxes = " ".join(words(drawn_group("manifold", sheet)) for sheet in plans_of(root))
    assert sorted(boxes.split()) == sorted(labels.values())
    scale = scale_of(root)
    for circuit in result.layout.drawn_circuits:
        group = drawn_group(f"circuit-{labels[circuit.id]}", root)
        drawn = math.fsum(
            length
            for kind in ("flow", "return")
            for one in classed(group, kind)
            for length in lengths(one.attrib["d"])
        )
        assert drawn * scale / 1000.0 == pytest.approx(circuit.length, rel=1e-4)
    for manifold in result.manifolds:
        assert f"manifold {manifold.id}, " in words(root)


def test_joints_and_sleeves_are_drawn_and_counted() -> None:
    """Two joints; the living room's two circuits pass the one in its doorway, one of them that in the room."""
    result, root = two_storeys()
    joints = [one for sheet in plans_of(root) for one in classed(drawn_group("joints", sheet), "joint")]
    assert len(joints) == 2
    sleeves = [one for sheet in plans_of(root) for one in classed(drawn_group("sleeves", sheet), "sleeve")]
    assert len(sleeves) == result.sleeve_count == 6
    assert "6 sleeves" in words(root)
