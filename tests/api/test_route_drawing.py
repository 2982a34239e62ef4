"""The drawing of a room's circuits: well-formed, to scale, readable without colour, complete."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any
from xml.etree import ElementTree

import msgspec
import pytest
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations.routes import ROUTES
from tepidarium_api.renderings.route_drawing import route_drawing
from tepidarium_api.renderings.styles import STYLES
from tepidarium_api.renderings.svg import document, element, number, text
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.routes import RoutesInputs, RoutesResult, calculate

SVG = "{http://www.w3.org/2000/svg}"
EXAMPLE = msgspec.convert(ROUTES.example, RoutesInputs)
TWO = replace(EXAMPLE, second_entry=(1.0, 4.2))
SLANTED = replace(
    EXAMPLE,
    outline=((1e6, 2e5), (1e6 + 2.4, 2e5 + 1.8), (1e6 + 0.6, 2e5 + 4.2), (1e6 - 1.8, 2e5 + 2.4)),
    voids=(),
    entry=(1e6 + 1.2, 2e5 + 0.9),
)
LARGE = replace(
    EXAMPLE, outline=((0.0, 0.0), (12.0, 0.0), (12.0, 9.0), (0.0, 9.0)), pipe_spacing=0.3, quick=True
)
JOINT = replace(EXAMPLE, voids=(), movement_joints=(((0.0, 2.0), (1.0, 2.0)),), quick=True)
DIVIDED = RoutesInputs(
    outline=((0.0, 0.0), (5.0, 0.0), (5.0, 2.6), (0.0, 2.6)),
    pipe_spacing=0.15,
    entry=(1.0, 0.0),
    pipe=Pipe(0.012, 0.002),
    movement_joints=(((2.5, 0.0), (2.5, 2.6)),),
)
CASES = {
    "example": EXAMPLE,
    "two": TWO,
    "slanted": SLANTED,
    "large": LARGE,
    "joint": JOINT,
    "divided": DIVIDED,
}


@cache
def laid(name: str) -> RoutesResult:
    return calculate(CASES[name])


@cache
def drawing(name: str) -> ElementTree.Element:
    return ElementTree.fromstring(route_drawing(CASES[name], laid(name)))


def classed(root: ElementTree.Element, kind: str) -> list[ElementTree.Element]:
    return [one for one in root.iter() if one.get("class") == kind]


def words(root: ElementTree.Element) -> str:
    return " ".join("".join(one.itertext()) for one in root.iter(f"{SVG}text"))


def scale_of(root: ElementTree.Element) -> float:
    found = re.search(r"Scale 1:(\d+) on (A\d)", words(root))
    assert found is not None
    return float(found[1])


def corners(root: ElementTree.Element) -> list[tuple[float, float]]:
    (wall,) = classed(root, "wall")
    return _corners(wall)


def _corners(one: ElementTree.Element) -> list[tuple[float, float]]:
    pairs = (pair.split(",") for pair in one.attrib["points"].split())
    return [(float(x), float(y)) for x, y in pairs]


@pytest.mark.parametrize("name", CASES)
def test_walls_are_to_scale_and_not_mirrored(name: str) -> None:
    root, outline = drawing(name), CASES[name].outline
    scale = scale_of(root)
    # ISO 5455: reductions 1:2, 1:5, 1:10 and their multiples by ten
    assert scale in {1.0 * step * ten for step in (1, 2, 5) for ten in (10, 100, 1000)}
    drawn = corners(root)
    for index, (x, y) in enumerate(drawn):
        back = index - 1
        across, up = (x - drawn[back][0]) * scale / 1000.0, -(y - drawn[back][1]) * scale / 1000.0
        assert across == pytest.approx(
            outline[index][0] - outline[back][0], abs=0.002 * scale / 1000.0 + 1e-6
        )
        assert up == pytest.approx(outline[index][1] - outline[back][1], abs=0.002 * scale / 1000.0 + 1e-6)


@pytest.mark.parametrize("name", CASES)
def test_the_sheet_is_of_iso_216_and_holds_everything(name: str) -> None:
    root = drawing(name)
    size = tuple(float(root.attrib[side].removesuffix("mm")) for side in ("width", "height"))
    assert size in {(420.0, 297.0), (420.0, 2 * 297.0 + 10.0), (594.0, 420.0)}  # ISO 216, landscape
    assert root.attrib["viewBox"] == f"0 0 {size[0]:g} {size[1]:g}"
    for x, y in corners(root):
        assert 20.0 < x < size[0] - 10.0 - 124.0
        assert 10.0 < y < size[1] - 10.0
    for one in root.iter(f"{SVG}text"):
        if one.get("x") and float(one.attrib["x"]) > 0.0:
            assert 10.0 < float(one.attrib["y"]) < size[1] - 10.0, "".join(one.itertext())


@pytest.mark.parametrize("name", ["example", "two", "slanted", "divided"])
def test_the_pipe_on_paper_is_as_long_as_the_pipe(name: str) -> None:
    """Lines and arcs of the path data, measured by school geometry, times the scale."""
    root = drawing(name)
    inside = [one for one in (*classed(root, "flow"), *classed(root, "return")) if is_pipe(root, one)]
    on_paper = math.fsum(length for one in inside for length in lengths(one.attrib["d"]))
    expected = sum(circuit.length for circuit in laid(name).circuits)
    assert on_paper * scale_of(root) / 1000.0 == pytest.approx(expected, rel=1e-4)
    arcs = sum(one.attrib["d"].count("A ") for one in inside)
    given = sum(piece.kind == "arc" for circuit in laid(name).circuits for piece in circuit.pieces)
    # the arc in which flow becomes return is drawn in two parts
    assert given <= arcs <= given + len(laid(name).circuits)


def is_pipe(root: ElementTree.Element, one: ElementTree.Element) -> bool:
    """Not a sample of the legend, nor a stub outside the wall, which have one straight line."""
    return "d" in one.attrib and one.attrib["d"].count("L ") + one.attrib["d"].count("A ") > 1


def lengths(data: str) -> Iterator[float]:
    at = (0.0, 0.0)
    for step in re.findall(r"[MLA][^MLA]*", data):
        numbers = [float(value) for value in re.findall(r"-?[\d.]+", step)]
        to = (numbers[-2], numbers[-1])
        if step[0] == "L":
            yield math.dist(at, to)
        elif step[0] == "A":
            angle = 2.0 * math.asin(min(1.0, math.dist(at, to) / (2.0 * numbers[0])))
            yield numbers[0] * (2.0 * math.pi - angle if numbers[3] else angle)
        at = to


def test_arcs_bend_to_the_side_of_their_centre() -> None:
    """SVG 1.1, 8.3.8: a sweep flag of 1 turns by positive angles, which is clockwise where y points down."""
    (circuit,) = laid("example").circuits
    flags = [flag for one in pipes(drawing("example")) for flag in re.findall(r"A \S+ \S+ 0 \d (\d)", one)]
    turns = [piece.sweep for piece in circuit.pieces if piece.sweep is not None]
    assert [flag == "1" for flag in flags] == [turn < 0.0 for turn in turns]


def pipes(root: ElementTree.Element) -> list[str]:
    found = [one for kind in ("flow", "return") for one in classed(root, kind) if is_pipe(root, one)]
    return [one.attrib["d"] for one in found]


def test_flow_and_return_are_told_apart_without_colour() -> None:
    assert not STYLES["flow"].dash
    assert STYLES["return"].dash
    assert STYLES["clearance"].dash
    root = drawing("example")
    assert classed(root, "flow-arrow")
    assert classed(root, "return-arrow")
    assert STYLES["return-arrow"].fill == "#fff"
    assert {"Flow", "Return"} <= set(words(root).split())


def test_the_drawing_says_what_the_person_on_the_floor_needs() -> None:
    root, result = drawing("example"), laid("example")
    written = words(root)
    (circuit,) = result.circuits
    for told in (
        "Pipe 16 x 2 mm",
        "least bend radius 80 mm",
        "Clearance of the centre line 75 mm, spacer 184 mm",
        "counterflow, spacing 200 mm",
        f"{circuit.length:.1f} m in the room + 7.0 m tails = {circuit.total_length:.1f} m",
        f"{circuit.bends.right_angle} right angles",
        "4.60",
        "4.20",
    ):
        assert told in written
    assert len(classed(root, "void")) == 2  # the void and its sample
    assert written.count("! ") == len(result.cautions)


def test_findings_with_a_place_are_marked_there() -> None:
    root, result = drawing("joint"), laid("joint")
    points = [place.point for finding in result.findings for place in finding.places]
    assert len(classed(root, "mark")) == len(points) - points.count(None) > 0
    assert "movement joint" in words(root)
    assert classed(root, "joint")


def test_two_circuits_are_named() -> None:
    written = words(drawing("two"))
    assert {"Flow 1", "Return 1", "Flow 2", "Return 2"} <= set(re.findall(r"(?:Flow|Return) \d", written))


def test_the_same_request_gives_the_same_bytes() -> None:
    first, second = (route_drawing(EXAMPLE, calculate(EXAMPLE)) for _ in range(2))
    assert first == second
    assert b"-0 " not in first and b"nan" not in first.lower()


def test_a_brought_route_is_drawn_with_its_faults() -> None:
    crossing = (
        (3.6, 0.0),
        (3.6, 2.0),
        (1.0, 2.0),
        (1.0, 0.5),
        (2.0, 0.5),
        (2.0, 2.3),
        (3.8, 2.3),
        (3.8, 0.0),
    )
    inputs = replace(EXAMPLE, path=crossing)
    root = ElementTree.fromstring(route_drawing(inputs, calculate(inputs)))
    assert "CANNOT BE LAID AS DRAWN" in words(root)
    assert "crosses itself" in words(root)


def test_by_accept_over_the_wire() -> None:
    body = json.dumps(ROUTES.example).encode()
    got = answer(ROUTES, body, "image/svg+xml")
    assert isinstance(got, Answer)
    assert got.media_type == "image/svg+xml"
    assert got.content == route_drawing(EXAMPLE, laid("example"))


def test_text_and_attributes_are_escaped() -> None:
    made: Any = document((10.0, 10.0), "a < b & c", [text((1.0, 2.0), "<&>\"'"), element("g", id='"<&')], {})
    root = ElementTree.fromstring(made)
    assert [one.text for one in root.iter(f"{SVG}text")] == ["<&>\"'"]
    assert [one.get("id") for one in root.iter(f"{SVG}g")] == ['"<&']


@pytest.mark.parametrize(
    ("value", "written"),
    [(0.0, "0"), (-0.0001, "0"), (1.5, "1.5"), (-2.0, "-2"), (1e3, "1000"), (0.1234, "0.123")],
)
def test_numbers_are_written_in_one_way(value: float, written: str) -> None:
    assert number(value) == written


def test_circuits_at_one_entry_are_told_apart_without_colour() -> None:
    """By their number at the entry and in their floor, and by the width of their line."""
    root, result = drawing("divided"), laid("divided")
    circles = classed(root, "number")
    assert len(circles) == 2 * len(result.circuits) + 1  # and the sample of the legend
    assert all(words(root).split().count(circuit.id) >= 2 for circuit in result.circuits)
    widths = {one.get("style") for one in classed(root, "flow") if is_pipe(root, one)}
    assert len(widths) == len(result.circuits)


def test_each_sleeve_is_drawn_over_its_joint() -> None:
    root, result = drawing("divided"), laid("divided")
    (group,) = (one for one in root.iter(f"{SVG}g") if one.get("id") == "sleeves")
    boxes = [_corners(one) for one in classed(group, "sleeve")]
    assert len(boxes) == len(result.sleeves) == 2
    # common practice: 150 mm on either side of the joint, at least
    assert all(math.dist(one[0], one[1]) * scale_of(root) / 1000.0 >= 0.3 - 1e-4 for one in boxes)
    assert "sleeve" in words(root)
