"""A straight stretch of pipe led through bare floor beside it, against figures worked by hand and general geometry."""

from __future__ import annotations

import math

import pytest
import shapely
from shapely import LineString, Polygon, box
from tepidarium_engine.plan.pipes.pipe_path import Arc, Line, PipePath
from tepidarium_engine.storey.halls.led_aside import Aside, AsideRules, asides

LENGTH = 3.0
RULES = AsideRules(bend_radius=0.08, reach=0.075, pitch=0.06)
"""Pipes 100 mm apart serve 75 mm on each side."""


def _lines(*heights: float, length: float = LENGTH) -> shapely.Geometry:
    return shapely.multilinestrings([[(0.0, y), (length, y)] for y in heights])


def _found(far: float, *, length: float = LENGTH, twin: float = -0.06) -> list[Aside]:
    """Of a pipe along x with its twin on one side, and another pipe ``far`` away on the other."""
    path = PipePath((Line((0.0, 0.0), (length, 0.0)),))
    room = box(-0.5, twin - 0.5, length + 0.5, far + 0.5)
    bare = box(0.0, RULES.reach, length, far - RULES.reach)
    return list(
        asides(
            path,
            bare,
            (LineString([(0.0, 0.0), (length, 0.0)]), _lines(twin, far, length=length)),
            _floors(room),
            rules=RULES,
        )
    )


def _floors(room: Polygon) -> tuple[Polygon, Polygon]:
    """The room, and where in it pipe may lie: 75 mm off its walls."""
    return room, room.buffer(-0.075, join_style="mitre")


def _line(aside: Aside) -> LineString:
    return LineString(aside.path.polyline(1e-5))


def test_a_pipe_takes_the_slot_that_it_borders() -> None:
    """A slot of 0.30 m: 0.15 m of it is bare, which one pipe in its middle serves."""
    (aside,) = _found(0.3)
    line = _line(aside)
    assert line.is_simple
    assert line.distance(_lines(0.3)) >= RULES.reach
    assert aside.path.start == (0.0, 0.0)
    assert aside.path.end == pytest.approx((LENGTH, 0.0))
    assert all(joint.gap < 1e-9 and joint.kink < 1e-6 for joint in aside.path.joints())
    assert {round(arc.radius, 6) for arc in aside.path.pieces if isinstance(arc, Arc)} == {RULES.bend_radius}


def test_its_length_is_that_of_four_arcs() -> None:
    """Two arcs of radius R that turn by a and back go 2 R sin a along and 2 R (1 - cos a) aside, on 2 R a of pipe."""
    (aside,) = _found(0.3)
    depth = max(y for _, y in shapely.get_coordinates(_line(aside)).tolist())
    turn = math.acos(1.0 - depth / (2.0 * RULES.bend_radius))
    more = 2.0 * 2.0 * RULES.bend_radius * (turn - math.sin(turn))
    assert math.degrees(turn) >= 60.0
    assert aside.path.length == pytest.approx(LENGTH + more, abs=2e-4)


def test_a_deep_way_is_square() -> None:
    """0.9 m of bare floor, 0.6 m deep: the pipe goes in and out at right angles, deeper than two radii."""
    found = _found(0.75, length=0.9)
    deepest = max(found, key=lambda each: each.gain)
    turns = [abs(arc.sweep) for arc in deepest.path.pieces if isinstance(arc, Arc)]
    assert turns == pytest.approx([math.pi / 2.0] * 4)


@pytest.mark.parametrize("far", [0.25, 0.3, 0.4, 0.6])
def test_what_it_gains_is_what_general_geometry_finds(far: float) -> None:
    """Floor that only the moved pipe served before and nothing serves now is taken off."""
    window = box(0.0, -0.06, LENGTH, far)
    served = shapely.buffer(_lines(-0.06, far), RULES.reach)

    def bare(line: LineString) -> float:
        return float(window.difference(shapely.union(served, line.buffer(RULES.reach))).area)

    for aside in _found(far):
        gain = bare(LineString([(0.0, 0.0), (LENGTH, 0.0)])) - bare(_line(aside))
        assert aside.gain == pytest.approx(gain, abs=0.012)  # bends cut the corners that it reckons with


def test_there_is_no_way_past_a_pipe_or_a_wall() -> None:
    straight = LineString([(0.0, 0.0), (LENGTH, 0.0)])
    path = PipePath((Line((0.0, 0.0), (LENGTH, 0.0)),))
    bare = box(0.0, RULES.reach, LENGTH, 0.3)
    wide = box(-0.5, -0.5, LENGTH + 0.5, 0.8)
    across = LineString([(1.5, 0.07), (1.5, 0.6)])
    (aside,) = asides(path, bare, (straight, across), _floors(wide), rules=RULES)
    assert _line(aside).distance(across) >= RULES.pitch - 1e-3
    posts = shapely.multilinestrings([[(x / 4.0, 0.02), (x / 4.0, 0.6)] for x in range(1, 12)])
    assert not list(asides(path, bare, (straight, posts), _floors(wide), rules=RULES))
    low = Polygon([(-0.5, -0.5), (LENGTH + 0.5, -0.5), (LENGTH + 0.5, 0.14), (-0.5, 0.14)])
    assert not list(
        asides(path, bare.intersection(low), (straight, _lines(-0.06)), _floors(low), rules=RULES)
    )


def test_a_short_piece_stays_straight() -> None:
    assert not _found(0.3, length=0.3)
