"""The same plan gives the same answer wherever it lies, up to coordinates of 2e7 m, and whatever unit it was drawn in.

What is compared is the whole answer: every length, place and text, each place moved back by plain subtraction.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Annotated, Any, get_args, get_origin, get_type_hints

import msgspec
import pytest
from tepidarium_engine import designs, loop_length, manifold_position, routes
from tepidarium_engine.errors import Fault, InputError
from tepidarium_engine.own_place import at_own_place, lower_left, moved
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.places import Direction, Point
from tepidarium_engine.results import Finding

EXAMPLES = Path(__file__).parents[2] / "examples"
FAR = ((432_123.4567, 5_412_345.6789), (-1.99999e7, 1.9999e7))
"""A place in a national grid, and a corner of what is accepted [m]."""
SAME = 1e-6
"""[m]: the step of coordinates at 2e7 m is 3.7e-9 m."""
SAME_SHARE = 1e-5
"""Of what follows from areas beside pipe, whose arcs are taken as chords."""
PIPE_FIELDS = re.compile("/(pieces|path|entry|place|layout)(/|$)|length$")

PIPE = Pipe(0.016, 0.002, minimum_bend_radius=0.07)
FEET = ((0.0, 0.0), (3.6576, 0.0), (3.6576, 4.8768), (0.0, 4.8768))
TENTHS = ((0.0, 0.0), (3.1413, 0.0), (3.1413, 1.2346), (2.0007, 1.2346), (2.0007, 2.7183), (0.0, 2.7183))


def turned(ring: tuple[Point, ...], degrees: float) -> tuple[Point, ...]:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return tuple((c * x - s * y, s * x + c * y) for x, y in ring)


def halfway(ring: tuple[Point, ...]) -> Point:
    (ax, ay), (bx, by) = ring[0], ring[1]
    return ((ax + bx) / 2.0, (ay + by) / 2.0)


def asked(ring: tuple[Point, ...], pattern: str = "counterflow") -> routes.RoutesInputs:
    return routes.RoutesInputs(
        outline=ring, entry=halfway(ring), pipe_spacing=0.15, pattern=pattern, pipe=PIPE, tail_length=2.0
    )


def differences(one: Any, other: Any, where: str = "") -> Iterator[str]:
    if is_dataclass(one) and type(one) is type(other):
        for item in fields(one):
            yield from differences(getattr(one, item.name), getattr(other, item.name), f"{where}/{item.name}")
    elif isinstance(one, tuple) and isinstance(other, tuple) and len(one) == len(other):
        for number, pair in enumerate(zip(one, other, strict=True)):
            yield from differences(*pair, f"{where}/{number}")
    elif isinstance(one, float) and isinstance(other, float):
        step = SAME if PIPE_FIELDS.search(where) else SAME + SAME_SHARE * abs(one)
        if abs(one - other) > step:
            yield f"{where}: {one} {other}"
    elif one != other and not isinstance(one, str):
        yield f"{where}: {one} {other}"


def outcome(calculate: Callable[[Any], Any], inputs: Any) -> Any:
    try:
        return calculate(inputs)
    except InputError as error:
        return error.faults


def assert_same_everywhere(calculate: Callable[[Any], Any], inputs: Any) -> None:
    here = outcome(calculate, inputs)
    for x, y in FAR:
        there = outcome(calculate, moved(inputs, (x, y)))
        back = (
            tuple(moved(one, (-x, -y)) for one in there)
            if isinstance(there, tuple)
            else moved(there, (-x, -y))
        )
        assert list(differences(here, back)) == []


@pytest.mark.parametrize("pattern", ["counterflow", "serpentine"])
@pytest.mark.parametrize("degrees", [0.0, 33.3])
@pytest.mark.parametrize("ring", [FEET, TENTHS], ids=["feet", "tenths of a millimetre"])
def test_a_room_gets_the_same_pipe_anywhere(ring: tuple[Point, ...], degrees: float, pattern: str) -> None:
    assert_same_everywhere(routes.calculate, asked(turned(ring, degrees), pattern))


def test_a_room_that_is_divided_gets_the_same_pipe_anywhere() -> None:
    """17.8 m2 at 150 mm are 119 m of pipe in two circuits."""
    assert_same_everywhere(routes.calculate, replace(asked(turned(FEET, 12.0)), maximum_circuit_length=80.0))


@pytest.mark.parametrize("measured", [True, False])
def test_a_room_takes_as_much_pipe_anywhere(measured: bool) -> None:
    inputs = loop_length.LoopLengthInputs(
        0.15, 3.0, outline=turned(TENTHS, 33.3), pipe=PIPE, measured=measured
    )
    assert_same_everywhere(loop_length.calculate, inputs)


def test_a_refused_room_is_refused_anywhere() -> None:
    assert_same_everywhere(routes.calculate, replace(asked(FEET), entry=(1.0, 1.0)))


@pytest.mark.parametrize(
    ("calculation", "name"),
    [
        pytest.param(designs, "house", marks=pytest.mark.long),
        (designs, "two-storeys"),
        (manifold_position, "manifold-position"),
    ],
)
def test_a_storey_is_the_same_anywhere(calculation: Any, name: str) -> None:
    body = json.loads((EXAMPLES / f"{name}.json").read_text())
    body.pop("workings", None)
    owner = get_type_hints(calculation.calculate)["inputs"]
    assert_same_everywhere(calculation.calculate, msgspec.convert(body, owner))


# -- by hand


def test_what_is_moved() -> None:
    """Places and the places in texts; directions, lengths and other numbers in brackets are left alone."""
    text = "At [1.25, -2.00] of [3, 4], near [0.125, 10.000]."
    finding = Finding.at(
        "two_methods", "/a", severity="note", value=1.5, quantity="area", detail=text, point=(1.25, -2.0)
    )
    there = moved(finding, (10.0, 5.0))
    assert "At [11.25, 3.00] of [3, 4], near [10.125, 15.000]." in there.places[0].message
    assert there.point == (11.25, 3.0) and there.value == 1.5
    sleeve = routes.RouteSleeve("1", (1.0, 2.0), (0.0, 1.0))
    assert moved(sleeve, (10.0, 5.0)) == routes.RouteSleeve("1", (11.0, 7.0), (0.0, 1.0))


def test_faults_are_told_in_the_frame_of_the_request() -> None:
    def refuse(inputs: routes.RoutesInputs) -> None:
        assert inputs.outline[0] == (0.0, 0.0)
        raise InputError(Fault("/outline", "x", "near [1.000, 2.000]"))

    with pytest.raises(InputError) as caught:
        at_own_place(moved(asked(FEET), (100.0, -50.0)), (100.0, -50.0), refuse)
    assert caught.value.faults[0].detail == "near [101.000, -48.000]"


def test_the_lower_left_corner_of_nothing() -> None:
    assert lower_left([]) == (0.0, 0.0)
    assert lower_left([[(3.0, 1.0)], [(2.0, 5.0)]]) == (2.0, 1.0)


@pytest.mark.parametrize(
    "owner",
    [
        *(routes.RoutesInputs, routes.RoutesResult, designs.DesignsInputs, designs.DesignsResult),
        *(manifold_position.ManifoldPositionInputs, manifold_position.ManifoldPositionResult),
    ],
)
def test_every_pair_of_numbers_is_a_place_or_stays_the_same(owner: type) -> None:
    """A pair under another type, or an offset under that of places, would be moved wrongly and nobody would know."""
    found = dict(pairs(owner, owner.__name__))
    assert found
    for path, hint in found.items():
        name = path.rsplit(".", 1)[1]
        free = name in {"ahead", "inward", "axis", "heading", "datum_direction", "from_datum"}
        assert hint == (Direction if free else Point), path


def pairs(owner: Any, path: str) -> Iterator[tuple[str, Any]]:
    for name, hint in get_type_hints(owner, include_extras=True).items():
        yield from pairs_in(hint, f"{path}.{name}")


def pairs_in(hint: Any, path: str) -> Iterator[tuple[str, Any]]:
    arms = get_args(hint)
    if is_dataclass(hint):
        yield from pairs(hint, path)
    elif (get_origin(hint) is tuple and arms[-1] is not ...) or (
        get_origin(hint) is Annotated and arms[0] == Point
    ):
        yield path, hint
    else:
        for arm in arms:
            yield from pairs_in(arm, path)
