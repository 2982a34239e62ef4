"""Lengths and division into circuits: properties, findings and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tepidarium_engine import routes
from tepidarium_engine.errors import InputError
from tepidarium_engine.loop_length import LoopLengthInputs, LoopLengthResult, calculate, workings
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.plan.laying.ways import Pattern

Ring = tuple[tuple[float, float], ...]

SQUARE_ROOM: Ring = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
PLAIN = LoopLengthInputs(pipe_spacing=0.15, tail_length=5.0, area=13.5)
DRAWN = LoopLengthInputs(pipe_spacing=0.15, tail_length=5.0, outline=SQUARE_ROOM, measured=False)

spacings = st.sampled_from((0.05, 0.1, 0.125, 0.15, 0.2, 0.25, 0.3)) | st.floats(0.05, 0.4)
clearances = st.floats(0.05, 0.25)


@st.composite
def rooms(draw: st.DrawFn) -> Ring:
    """Rectangles, L- and U-shapes with a slanted corner now and then; corners counter-clockwise."""
    width, depth = draw(st.floats(3.0, 9.0)), draw(st.floats(3.0, 9.0))
    across, up = draw(st.floats(0.3, 0.6)) * width, draw(st.floats(0.3, 0.6)) * depth
    shape = draw(st.sampled_from(("rectangle", "L", "U", "chamfer")))
    top_right: Ring = {
        "rectangle": ((width, depth),),
        "L": ((width, up), (across, up), (across, depth)),
        "U": (
            (width, depth),
            (width - 0.2 * across, depth),
            (width - 0.2 * across, up),
            (0.9 * across, up),
            (0.9 * across, depth),
        ),
        "chamfer": ((width, up), (across, depth)),
    }[shape]
    return ((0.0, 0.0), (width, 0.0), *top_right, (0.0, depth))


def shoelace(ring: Ring) -> float:
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return abs(math.fsum(a[0] * b[1] - a[1] * b[0] for a, b in pairs)) / 2.0


def codes(result: LoopLengthResult) -> set[str]:
    return {finding.code for finding in result.findings}


# ---------------------------------------------------------------- division


@settings(max_examples=300, deadline=None)
@given(st.floats(1.0, 400.0), st.floats(0.05, 0.4), st.floats(0.0, 20.0), st.floats(50.0, 150.0))
def test_least_number_of_equal_circuits_within_the_limit(
    area: float, spacing: float, tail: float, limit: float
) -> None:
    field = area / spacing
    assume(math.ceil(field / (limit - 2 * tail)) <= 250)
    result = calculate(LoopLengthInputs(spacing, tail, area=area, maximum_circuit_length=limit))
    lengths = [circuit.total_length for circuit in result.circuits]
    assert len(set(lengths)) == 1
    assert math.fsum(lengths) == pytest.approx(result.pipe_length, rel=1e-12)
    assert math.fsum(c.field_length for c in result.circuits) == pytest.approx(field, rel=1e-12)
    assert math.fsum(c.area for c in result.circuits) == pytest.approx(area, rel=1e-12)
    for circuit in result.circuits:
        assert circuit.field_length + circuit.tail_length == circuit.total_length
        assert circuit.tail_length == 2.0 * tail
        assert circuit.total_length <= limit + 1e-6
    fewer = len(lengths) - 1
    assert fewer == 0 or field / fewer + 2.0 * tail > limit
    assert ("divided" in codes(result)) == (fewer > 0)
    assert len({circuit.id for circuit in result.circuits}) == len(lengths)


def test_the_last_bit_of_an_area_does_not_add_a_circuit() -> None:
    for area in (13.5, math.nextafter(13.5, 14.0), 13.5 + 1e-9):
        assert len(calculate(replace(PLAIN, area=area, maximum_circuit_length=100.0)).circuits) == 1
    assert len(calculate(replace(PLAIN, area=13.51, maximum_circuit_length=100.0)).circuits) == 2


# ---------------------------------------------------------------- outlines


@settings(max_examples=150, deadline=None)
@given(rooms(), spacings)
def test_clearance_of_half_a_spacing_is_area_over_spacing(room: Ring, spacing: float) -> None:
    result = calculate(
        LoopLengthInputs(spacing, 3.0, outline=room, wall_clearance=spacing / 2.0, measured=False)
    )
    assert result.area == pytest.approx(shoelace(room), rel=1e-12)
    assert result.field_length == pytest.approx(shoelace(room) / spacing, rel=1e-12)


@settings(max_examples=100, deadline=None)
@given(rooms(), spacings, clearances, st.tuples(st.integers(0, 7), st.booleans(), st.integers(0, 3)))
def test_length_does_not_depend_on_how_the_outline_is_drawn(
    room: Ring, spacing: float, clearance: float, way: tuple[int, bool, int]
) -> None:
    start, reverse, turns = way
    inputs = LoopLengthInputs(spacing, 3.0, outline=room, wall_clearance=clearance, measured=False)
    start %= len(room)
    drawn = room[start:] + room[:start]
    if reverse:
        drawn = drawn[::-1]
    for _ in range(turns):
        drawn = tuple((-y, x) for x, y in drawn)
    expected = calculate(inputs)
    for far in (0.0, 1e6):
        moved = tuple((x + far, y - far) for x, y in drawn)
        result = calculate(replace(inputs, outline=moved))
        assert result.field_length == pytest.approx(expected.field_length, rel=1e-9)
        assert result.pipe_length == pytest.approx(expected.pipe_length, rel=1e-9)
        assert len(result.circuits) == len(expected.circuits)


@settings(max_examples=100, deadline=None)
@given(rooms(), spacings, clearances, st.floats(0.1, 0.5), st.floats(0.3, 0.5))
def test_voids_take_pipe_away(
    room: Ring, spacing: float, clearance: float, size: float, depth: float
) -> None:
    void = ((0.3, 0.3), (0.3 + size, 0.3), (0.3 + size, 0.3 + depth), (0.3, 0.3 + depth))
    bare = calculate(LoopLengthInputs(spacing, 3.0, outline=room, wall_clearance=clearance, measured=False))
    pierced = calculate(
        LoopLengthInputs(spacing, 3.0, outline=room, voids=(void,), wall_clearance=clearance, measured=False)
    )
    assert pierced.area == pytest.approx(bare.area - size * depth, rel=1e-9)
    assert pierced.field_length < bare.field_length or min(size, depth) < spacing - 2.0 * clearance + 1e-6


@settings(max_examples=100, deadline=None)
@given(rooms(), st.floats(0.05, 0.3), clearances, st.floats(0.01, 0.1))
def test_wider_spacing_and_wider_clearance_take_less_pipe(
    room: Ring, spacing: float, clearance: float, more: float
) -> None:
    inputs = LoopLengthInputs(spacing, 3.0, outline=room, wall_clearance=clearance, measured=False)
    length = calculate(inputs).field_length
    assert calculate(replace(inputs, pipe_spacing=spacing + more)).field_length < length
    assert calculate(replace(inputs, wall_clearance=clearance + more)).field_length < length


@settings(max_examples=100, deadline=None)
@given(st.floats(2.0, 10.0), st.integers(4, 40), st.sampled_from((0.1, 0.15, 0.2)))
def test_length_matches_a_serpentine_drawn_by_hand(width: float, runs: int, spacing: float) -> None:
    """Parallel runs from wall to wall at the spacing, joined at alternate ends: counted run by run.

    The runs end at the clearance; each of the joints is one spacing long. Area over spacing counts half a
    spacing beyond the outermost pipe on every side, so the two agree to a spacing or two per side.
    """
    clearance = spacing / 2.0
    depth = runs * spacing
    drawn = runs * (width - 2.0 * clearance) + (runs - 1) * spacing
    outline = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    assume(depth >= 0.5)
    inputs = LoopLengthInputs(spacing, 0.0, outline=outline, wall_clearance=clearance, measured=False)
    assert calculate(inputs).field_length == pytest.approx(drawn, abs=spacing + 1e-9)


@pytest.mark.parametrize("pattern", ["counterflow", "serpentine"])
def test_a_drawn_field_is_as_long_as_its_route(pattern: Pattern) -> None:
    """Runs 3.85 m long across 4 m at 150 mm, joined at the walls, less what bends of 80 mm cut off corners:
    (2 - pi / 2) R each."""
    inputs = replace(DRAWN, measured=True, pattern=pattern, tail_length=0.0)
    result = calculate(inputs)
    assert result.length_method == "route"
    assert inputs.outline is not None
    route = routes.calculate(
        routes.RoutesInputs(
            outline=inputs.outline,
            entry=(2.0, 0.0),
            pipe_spacing=0.15,
            pattern=pattern,
            quick=True,
            pipe=inputs.pipe,
        )
    )
    assert result.field_length == pytest.approx(route.circuits[0].length, abs=1e-9)
    corners = route.circuits[0].bends.right_angle + 2 * route.circuits[0].bends.u_turn
    sharp = result.field_length + corners * (2.0 - math.pi / 2.0) * inputs.pipe.bend_radius
    assert sharp == pytest.approx(result.ideal_length, rel=0.06)


def test_a_room_in_which_nothing_can_be_laid_is_reckoned_by_area() -> None:
    """A bend radius of 80 mm at a spacing of 72 mm."""
    result = calculate(replace(DRAWN, measured=True, pipe_spacing=0.072))
    assert result.length_method == "outline"
    assert result.field_length == result.ideal_length
    assert "not_drawn" in {finding.code for finding in result.findings}


# ---------------------------------------------------------------- findings


@pytest.mark.parametrize(
    ("change", "code", "severity", "where"),
    [
        ({"area": 40.0}, "divided", "note", "/maximum_circuit_length"),
        (
            {"area": 16.0, "maximum_circuit_length": 120.0},
            "long_circuit",
            "warning",
            "/maximum_circuit_length",
        ),
        (
            {"area": 20.0, "maximum_circuit_length": 150.0},
            "too_long_circuit",
            "violation",
            "/maximum_circuit_length",
        ),
        ({"pipe_spacing": 0.35}, "unusual_spacing", "note", "/pipe_spacing"),
        ({"pipe_spacing": 0.04, "area": 2.0}, "unusual_spacing", "note", "/pipe_spacing"),
        ({"pipe_spacing": 0.15}, "u_turn_too_tight", "note", "/pipe_spacing"),
        ({"wall_clearance": 0.04}, "close_to_wall", "violation", "/wall_clearance"),
        ({"fixing_distance": 0.6}, "fixings_far_apart", "warning", "/fixing_distance"),
    ],
)
def test_findings(change: dict[str, float], code: str, severity: str, where: str) -> None:
    finding = {f.code: f for f in calculate(replace(PLAIN, **change)).findings}[code]  # type: ignore[arg-type]
    assert (finding.severity, finding.where) == (severity, where)
    assert finding.value is not None
    assert finding.limit is not None
    assert finding.source


def test_no_findings_where_nothing_is_unusual() -> None:
    assert codes(calculate(replace(PLAIN, pipe_spacing=0.2))) == set()


def test_a_u_turn_fits_from_twice_the_bend_radius() -> None:
    tight = replace(PLAIN, pipe=Pipe(0.016, 0.002, minimum_bend_radius=0.075))
    assert "u_turn_too_tight" not in codes(calculate(tight))


def test_fifty_millimetres_count_from_the_outside_of_the_pipe() -> None:
    """EN 1264-4 keeps the pipe, not its axis, 50 mm away from upright building parts."""
    assert "close_to_wall" in codes(calculate(replace(PLAIN, wall_clearance=0.0575)))
    assert "close_to_wall" not in codes(calculate(replace(PLAIN, wall_clearance=0.0585)))


def test_narrow_room() -> None:
    corridor = ((0.0, 0.0), (6.0, 0.0), (6.0, 0.32), (0.0, 0.32))
    found = {f.code: f for f in calculate(replace(DRAWN, outline=corridor, pipe_spacing=0.2)).findings}
    assert found["narrow_room"].value == pytest.approx(0.32 - 0.15, abs=0.002)
    assert "narrow_room" not in codes(calculate(replace(DRAWN, pipe_spacing=0.2)))


def test_a_sheath_is_what_the_spacer_touches() -> None:
    sheathed = Pipe(0.016, 0.002, sheath_diameter=0.024, sheath_conductivity=0.3)
    assert calculate(replace(PLAIN, pipe=sheathed)).spacer_length == pytest.approx(0.126, abs=1e-12)


# ---------------------------------------------------------------- refused


@pytest.mark.parametrize(
    ("change", "pointer", "code"),
    [
        ({"area": None}, "/area", "one_of"),
        ({"outline": SQUARE_ROOM}, "/outline", "one_of"),
        ({"voids": (((1.0, 1.0), (2.0, 1.0), (2.0, 2.0)),)}, "/voids", "needs_outline"),
        ({"tail_length": 50.0}, "/tail_length", "tails_too_long"),
        ({"tail_length": 49.999}, "/area", "too_many_circuits"),
        ({"pipe_spacing": 0.03, "pipe": Pipe(0.03, 0.002)}, "/pipe_spacing", "pipes_overlap"),
        ({"pipe": Pipe(0.016, 0.006, minimum_bend_radius=0.01)}, "/pipe/minimum_bend_radius", "too_small"),
        ({"pipe": Pipe(0.012, 0.006)}, "/pipe/wall_thickness", "no_bore"),
        ({"area": 0.5, "pipe_spacing": 0.6}, "/pipe_spacing", "no_pipe_fits"),
        ({"area": 10_000.0, "maximum_circuit_length": 500.0}, "/area", "too_much_pipe"),
        ({"area": 10_000.0}, "/area", "too_many_circuits"),
        ({"pipe_spacing": 150.0}, "/pipe_spacing", "too_large"),
        ({"pipe_spacing": math.nan}, "/pipe_spacing", "type"),
        ({"area": 1e308}, "/area", "too_large"),
        ({"area": -3.0}, "/area", "too_small"),
    ],
)
def test_refused(change: dict[str, object], pointer: str, code: str) -> None:
    with pytest.raises(InputError) as caught:
        calculate(replace(PLAIN, **change))  # type: ignore[arg-type]
    assert (pointer, code) in [(fault.pointer, fault.code) for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("change", "pointer", "code"),
    [
        (
            {"wall_clearance": 1.0, "outline": ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0))},
            "/wall_clearance",
            "",
        ),
        ({"outline": ()}, "/outline", "too_few"),
        ({"outline": tuple((float(i), float(i * i)) for i in range(100_000))}, "/outline", "too_many"),
        ({"voids": ((),)}, "/voids/0", "too_few"),
        ({"outline": ((0.0, 0.0), (4.0, 3.0), (4.0, 0.0), (0.0, 3.0))}, "/outline", "self_crossing"),
        ({"outline": ((0.0, 0.0), (1e308, 0.0), (4.0, 3.0))}, "/outline/1/0", "too_large"),
    ],
)
def test_refused_outlines(change: dict[str, object], pointer: str, code: str) -> None:
    with pytest.raises(InputError) as caught:
        calculate(replace(DRAWN, **change))  # type: ignore[arg-type]
    assert (pointer, code or "clearance_fills_room") in [(f.pointer, f.code) for f in caught.value.faults]


@settings(max_examples=200, deadline=None)
@given(st.floats(0.05, 10_000.0), st.floats(0.03, 0.6), st.floats(0.0, 200.0), st.floats(5.0, 500.0))
def test_answers_are_finite_and_bounded_or_refused(
    area: float, spacing: float, tail: float, limit: float
) -> None:
    try:
        result = calculate(LoopLengthInputs(spacing, tail, area=area, maximum_circuit_length=limit))
    except InputError:
        return
    assert 0.0 < result.pipe_length <= 20_000.0
    assert 1 <= len(result.circuits) <= 256
    assert result.fixings > 0


# ---------------------------------------------------------------- workings


@pytest.mark.parametrize("inputs", [PLAIN, DRAWN, replace(PLAIN, area=30.0, right_angle_bends=40)])
def test_the_workings_can_be_redone_by_hand(inputs: LoopLengthInputs) -> None:
    result = calculate(inputs)
    rows = workings(inputs, result)
    assert all(row.formula and row.source and math.isfinite(row.value) for row in rows)
    w = {row.symbol: row.value for row in rows}
    assert w["L_f"] == pytest.approx(w["A_s"] / w["T"], rel=1e-12)
    assert w["L_t"] == 2.0 * w["l_t"]
    assert w["A_max"] == pytest.approx((w["L_max"] - w["L_t"]) * w["T"], rel=1e-12)
    assert w["n"] == max(1, math.ceil(round(w["L_f"] / (w["L_max"] - w["L_t"]), 9)))
    assert w["L_i"] == pytest.approx(w["L_f"] / w["n"] + w["L_t"], rel=1e-12)
    assert w["L"] == pytest.approx(w["n"] * w["L_i"], rel=1e-12)
    assert w["s"] == pytest.approx(w["T"] - w["d"], rel=1e-12)
    assert w["L"] == result.pipe_length
    assert calculate(inputs) == result
