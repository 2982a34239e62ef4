"""Divided rooms: what is drawn is judged by shapely's predicates (``tests.division.check``), not by the engine.

All invented rooms are divided by ``python -m tests.division``; here those that do not take long. The bounds on
lengths are what the project holds itself to; no standard states figures for the division of a field.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely.affinity import scale
from shapely.ops import split
from tepidarium_engine.plan.outlines.polygons import room_outline
from tepidarium_engine.storey.division.cuts import cut_trees, pieces_of
from tepidarium_engine.storey.division.division import DividedRoom, divided
from tepidarium_engine.storey.division.fields import circuits_of_fields, joint_fields
from tepidarium_engine.storey.division.sheets import Cut, Sheet

from tests.division.check import complaints
from tests.division.fields import FIELDS, SERPENTINES, FieldCase

WHOLE = ("living room, entry at the side", "hall, 200 mm", "U, entry at the base", "unlike outer tails")
QUICK = ("long room", "room with island", "hall with one joint", "L with a joint at the corner")
STEPPED = tuple(
    f"{name}, serpentine"
    for name in (
        "living room, two circuits",
        "living room, entry in the middle",
        "living room, entry at the side",
        "long room, entry at the end",
        "room of three circuits",
        "bay",
    )
)
Found = list[tuple[FieldCase, DividedRoom]]


def _case(name: str) -> FieldCase:
    return replace(
        next(case for case in (*FIELDS, *SERPENTINES) if case.name == name), quick=name not in WHOLE
    )


@pytest.fixture(scope="module")
def found() -> Found:
    return [(case, case.divided()) for case in map(_case, (*WHOLE, *QUICK, *STEPPED))]


def test_there_are_enough_fields_told_apart() -> None:
    assert len({case.name for case in FIELDS}) == len(FIELDS) >= 30


def test_divided_and_drawn_without_fault(found: Found) -> None:
    faults = {
        case.name: [str(room.refusal)] if room.refusal else list(complaints(case, room))
        for case, room in found
    }
    assert not {name: wrong for name, wrong in faults.items() if wrong}


def test_lengths_are_alike(found: Found) -> None:
    """At most 3 % between the shortest and the longest in three quarters of the rooms, at most 8 % in all; tails in
    the room and outside it count. Pipe cannot be moved over a joint: there each field by itself."""
    spreads = sorted(max(_spreads(case, room)) for case, room in found)
    assert spreads[-1] <= 0.08
    assert spreads[math.ceil(0.75 * len(spreads)) - 1] <= 0.03


def test_pieces_are_covered(found: Found) -> None:
    """A spacing drawn in or stretched for equal lengths leaves no more floor bare than single rooms may have."""
    for case, room in found:
        for circuit in room.circuits:
            assert circuit.laid.check is not None
            served = circuit.laid.check.measures.coverage_three_quarters
            assert served >= 0.96, (case.name, circuit.id)


def _spreads(case: FieldCase, room: DividedRoom) -> Iterator[float]:
    fields = joint_fields(Polygon(case.outline, case.voids), case.joints)
    for field in fields:
        lengths = [
            circuit.length + 2.0 * case.request.outer_tail(circuit.id)
            for circuit in room.circuits
            if shapely.intersection(field, circuit.piece).area > 0.5 * circuit.piece.area
        ]
        yield (max(lengths) - min(lengths)) * len(lengths) / sum(lengths)


def test_tails_and_what_is_laid_add_up(found: Found) -> None:
    for case, room in found:
        for circuit in room.circuits:
            assert circuit.laid.path is not None, case.name
            assert circuit.laid.check is not None, case.name
            assert circuit.laid.check.valid, case.name
            assert 0.0 <= circuit.tail_length < circuit.length
            pieces = math.fsum(piece.length for piece in circuit.path.pieces)
            assert circuit.length == pytest.approx(pieces, rel=1e-12)


def test_same_lengths_wherever_the_room_lies() -> None:
    case = _case("living room, two circuits")
    there = [(x + 3.0e5, y - 2.0e5) for x, y in case.outline]
    moved = replace(case, outline=there, entry=(case.entry[0] + 3.0e5, case.entry[1] - 2.0e5))
    lengths = [[circuit.length for circuit in one.divided().circuits] for one in (case, moved)]
    assert lengths[0] == pytest.approx(lengths[1], abs=1e-3)


def _refusals() -> Iterator[tuple[FieldCase, str]]:
    room = _case("living room, two circuits")
    yield replace(room, count=0), "too_few_circuits"
    yield replace(room, count=25), "too_many_circuits"
    yield replace(room, outer=60.0), "circuit_too_long"
    yield replace(room, longest=60.0, count=2), "circuit_too_long"
    yield replace(room, tail_pitch=0.5, count=4, entry=(0.0, 1.0)), "entry_too_narrow"
    joint = (((3.0, 0.0), (3.0, 4.5)),)
    yield replace(room, joints=joint, count=1), "too_few_circuits"


@pytest.mark.parametrize(
    ("case", "code"), tuple(_refusals()), ids=lambda value: value if isinstance(value, str) else ""
)
def test_what_cannot_be_divided_is_refused(case: FieldCase, code: str) -> None:
    room = divided(room_outline(case.outline, case.voids), case.request)
    assert room.refusal is not None
    assert room.refusal.code == code
    assert not room.circuits


_SIZES = st.floats(3.0, 9.0)


@settings(max_examples=15, deadline=None)
@given(width=_SIZES, depth=_SIZES, notch=st.floats(0.2, 0.6), count=st.integers(2, 4), data=st.data())
def test_cuts_keep_the_shares_and_the_area(
    width: float, depth: float, notch: float, count: int, data: st.DataObject
) -> None:
    """Pieces disjoint, together the whole, areas in the proportion asked for."""
    x, y = width * notch, depth * notch
    area = Polygon([(0, 0), (width, 0), (width, y), (x, y), (x, depth), (0, depth)])
    walls = shapely.buffer(area.exterior, 1e-6)
    trees = cut_trees(area, count, 0.15, shapely.Point(-1.0, -1.0), walls)
    assert trees
    shares = data.draw(st.lists(st.floats(0.8, 1.2), min_size=count, max_size=count))
    pieces = pieces_of(trees[0], area, shares)
    if pieces is None:  # the chords that the tree cuts are not there for these shares
        return
    assert len(pieces) == count
    assert math.fsum(piece.area for piece in pieces) == pytest.approx(area.area, rel=1e-6)
    assert shapely.union_all(pieces).area == pytest.approx(area.area, rel=1e-6)


_BLOCKS = st.lists(st.tuples(st.integers(1, 6), st.integers(1, 6)), min_size=2, max_size=5)


@settings(max_examples=25, deadline=None)
@given(blocks=_BLOCKS, axis=st.integers(0, 1), share=st.floats(0.05, 0.95))
def test_the_area_below_a_cut_is_that_of_the_piece(
    blocks: list[tuple[int, int]], axis: int, share: float
) -> None:
    """Against shapely's ``split``: columns side by side, standing on one line or hanging from it."""
    columns, x = [], 0.0
    for width, height in blocks:
        columns.append(shapely.box(x, -1.0 if height % 2 else -float(height), x + width, float(height)))
        x += width
    area = shapely.union_all(columns)
    assert isinstance(area, Polygon)
    low, high = area.bounds[axis], area.bounds[axis + 2]
    at = low + share * (high - low) + 1e-3
    line = LineString([(at, -99.0), (at, 99.0)] if axis == 0 else [(-99.0, at), (99.0, at)])
    sheet = Sheet(area)
    for chords, of in sheet.families(axis, at):
        cut = Cut(axis, chords, of, at)
        below, halves = sheet.below(cut), sheet.halves(cut)
        assert below is not None and halves is not None
        chord = sorted(shapely.get_parts(shapely.intersection(line, area)), key=lambda part: part.bounds)
        pieces = split(area, scale(chord[chords[0]], 1.0 + 1e-9, 1.0 + 1e-9)).geoms
        assert min(abs(below[0] - piece.area) for piece in pieces) < 1e-6
        assert below[0] == pytest.approx(halves.lower.area, abs=1e-9)
        assert halves.lower.area + halves.upper.area == pytest.approx(area.area, abs=1e-9)
        assert shapely.intersection(halves.lower, halves.upper).area < 1e-9


def test_joints_leave_fields() -> None:
    room = shapely.box(0, 0, 14, 10)
    fields = joint_fields(room, [((7.0, 0.0), (7.0, 10.0)), ((0.0, 5.0), (14.0, 5.0))])
    assert [field.area for field in fields] == pytest.approx([35.0] * 4)
    # 35 m2 at 200 mm and a clearance of half of it is 175 m: two circuits of 100 m each.
    assert circuits_of_fields(fields, 0.2, 0.1, 100.0, None) == [2, 2, 2, 2]
    assert circuits_of_fields(fields, 0.2, 0.1, 100.0, 5) == [2, 1, 1, 1]
    assert circuits_of_fields(fields, 0.2, 0.1, 100.0, 3) is None
