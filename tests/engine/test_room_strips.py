"""Strips of closer pipe along outside walls, in designs.

Oracles: EN 1264-3, peripheral areas: outputs of both parts added by area, each part as `heat-output` has it by itself
(which is held to published cases elsewhere); the limits of EN 1264-2, 29 degC where people stay and 35 degC in the
strip; plain arithmetic for lengths; a general geometry library for what is drawn.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely
from tepidarium_engine import designs, heat_output
from tepidarium_engine.designs import DesignRoom, DesignsInputs, DesignsResult, PeripheralStrip, RoomDesign
from tepidarium_engine.errors import InputError
from tepidarium_engine.heat_output import HeatOutputInputs, HeatOutputResult

from tests.engine.test_designs_comparison import FLAT
from tests.options.houses import BUILD_UPS, house

STRIP = PeripheralStrip(0.1, width=0.8, length=5.0)
TILE = BUILD_UPS[0]
PIPE = house(1, 1).pipe


def with_strip(seed: int, strip: PeripheralStrip | None, **others: object) -> DesignsInputs:
    """A house of one tiled room of 20 m2 at 200 mm."""
    asked = house(seed, 1)
    room = DesignRoom(
        "r", "tile", heat_demand=1100.0, area=20.0, pipe_spacing=0.2, tail_length=3.0, peripheral=strip
    )
    return replace(asked, rooms=(replace(room, **others),))  # type: ignore[arg-type]


def part(room: RoomDesign, spacing: float, limit: float) -> HeatOutputResult:
    """One part of the floor by itself, on the water of the room."""
    assert room.field_supply_temperature is not None
    assert room.return_temperature is not None
    return heat_output.calculate(
        HeatOutputInputs(
            spacing,
            PIPE,
            TILE.screed_cover,
            TILE.resistance_below,
            room.field_supply_temperature,
            room.return_temperature,
            TILE.screed_conductivity,
            TILE.covering_resistance,
            surface_temperature_limit=limit,
        )
    )


def test_outputs_add_by_area() -> None:
    result = designs.calculate(with_strip(1, STRIP))
    room, strip = result.rooms[0], result.rooms[0].peripheral
    assert strip is not None
    close, rest = part(room, 0.1, 35.0), part(room, 0.2, 29.0)
    assert strip.heat_output == pytest.approx(close.heat_output, rel=1e-9)
    assert strip.rest_heat_output == pytest.approx(rest.heat_output, rel=1e-9)
    assert strip.mean_surface_temperature == pytest.approx(close.mean_surface_temperature, rel=1e-9)
    assert strip.area == pytest.approx(4.0)
    assert room.heat_given == pytest.approx(4.0 * close.heat_output + 16.0 * rest.heat_output, rel=1e-9)
    assert strip.surface_temperature_limit == 35.0


def test_the_part_that_is_first_at_its_limit_ends_both() -> None:
    """On a floor that needs more than it may give: neither part is above its own limit, and one is at it."""
    result = designs.calculate(with_strip(1, STRIP, heat_demand=4000.0))
    room, strip = result.rooms[0], result.rooms[0].peripheral
    assert strip is not None
    close, rest = part(room, 0.1, 35.0), part(room, 0.2, 29.0)
    shares = strip.heat_output / close.limit_heat_output, strip.rest_heat_output / rest.limit_heat_output
    assert max(shares) <= 1.0 + 1e-9
    limit = room.limit_heat_output
    assert limit is not None
    ratio = strip.heat_output / room.heat_output, strip.rest_heat_output / room.heat_output
    assert max(
        ratio[0] * limit / close.limit_heat_output, ratio[1] * limit / rest.limit_heat_output
    ) == pytest.approx(1.0)
    plain = designs.calculate(with_strip(1, None, heat_demand=4000.0)).rooms[0]
    assert plain.limit_heat_output is not None
    assert limit > plain.limit_heat_output


def test_the_strip_takes_its_pipe_by_area() -> None:
    """4 m2 at 100 mm and 16 m2 at 200 mm, and two tails of 3 m for each circuit."""
    result = designs.calculate(with_strip(1, STRIP))
    tails = 2.0 * 3.0 * len(result.circuits)
    assert result.rooms[0].pipe_length == pytest.approx(4.0 / 0.1 + 16.0 / 0.2 + tails)


@pytest.mark.parametrize(
    ("others", "limit"),
    [
        ({}, 35.0),
        ({"build_up": "timber"}, 27.0),  # its makers, common practice, no source
        ({"surface_temperature_limit": 28.0}, 28.0),
        ({"use": "bathroom", "room_temperature": 24.0}, 33.0),
        ({"peripheral": replace(STRIP, width=1.2)}, 29.0),  # EN 1264-1: at most 1 m
    ],
)
def test_how_warm_the_strip_may_get(others: dict[str, object], limit: float) -> None:
    result = designs.calculate(with_strip(1, STRIP, **others))
    strip = result.rooms[0].peripheral
    assert strip is not None
    assert strip.surface_temperature_limit == limit
    wide = "wide_peripheral_area" in {finding.code for finding in result.findings}
    assert wide == ("peripheral" in others)


def test_a_strip_as_close_as_the_room_makes_no_difference() -> None:
    plain, same = (designs.calculate(with_strip(1, strip, pipe_spacing=0.1)) for strip in (None, STRIP))
    assert same.rooms == plain.rooms


@pytest.mark.parametrize(
    ("others", "where", "code"),
    [
        ({"pattern": "serpentine"}, "", "with_serpentine"),
        ({"peripheral": replace(STRIP, length=None)}, "/length", "missing"),
        ({"peripheral": replace(STRIP, edges=(0,))}, "/edges", "needs_outline"),
        ({"peripheral": replace(STRIP, length=40.0)}, "", "strip_fills_room"),
        ({"peripheral": replace(STRIP, pipe_spacing=0.05)}, "/pipe_spacing", "bend_too_wide"),
    ],
)
def test_what_cannot_be_a_strip(others: dict[str, object], where: str, code: str) -> None:
    with pytest.raises(InputError) as refused:
        designs.calculate(with_strip(1, STRIP, **others))
    assert [(fault.pointer, fault.code) for fault in refused.value.faults] == [
        (f"/rooms/0/peripheral{where}", code)
    ]


@pytest.mark.parametrize(
    ("edges", "where", "code"),
    [((0, 4), "/edges/1", "no_such_wall"), ((1, 1), "/edges", "repeated"), ((), "/edges", "missing")],
)
def test_walls_that_are_none(edges: tuple[int, ...], where: str, code: str) -> None:
    room = replace(FLAT.rooms[1], peripheral=PeripheralStrip(0.1, edges=edges))
    with pytest.raises(InputError) as refused:
        designs.calculate(replace(FLAT, rooms=(FLAT.rooms[0], room, *FLAT.rooms[2:])))
    assert [(fault.pointer, fault.code) for fault in refused.value.faults] == [
        (f"/rooms/1/peripheral{where}", code)
    ]


# --- drawn ---

WALLS = {"west": (2, 3), "middle": (2,), "east": (1, 2)}
"""Outside walls of the flat: the upper ones, and the far side of the outer rooms."""


def drawn(longest: float | None) -> tuple[DesignsInputs, DesignsResult]:
    rooms = tuple(
        replace(room, pipe_spacing=0.2, peripheral=PeripheralStrip(0.1, 0.8, edges=WALLS[room.id]))
        if room.id in WALLS
        else room
        for room in FLAT.rooms
    )
    asked = replace(FLAT, rooms=rooms, limits=replace(FLAT.limits, maximum_circuit_length=longest))
    return asked, designs.calculate(asked)


def density(asked: DesignsInputs, result: DesignsResult, room: DesignRoom) -> tuple[float, float]:
    """Pipe per floor [1/m] beside the upper wall, and in the middle of the room, both off the corners."""
    assert result.layout is not None
    lines = [
        shapely.LineString([point for piece in circuit.pieces for point in (piece.start, piece.end)])
        for circuit in result.layout.drawn_circuits
        if circuit.room == room.id
    ]
    (low, _), (high, _), (_, top), _ = room.outline or ()
    beside = shapely.box(low + 0.9, top - 0.8, high - 0.9, top)
    inside = shapely.box(low + 0.9, top - 1.7, high - 0.9, top - 0.9)
    pipe = shapely.union_all(lines)
    return tuple(shapely.intersection(pipe, box).length / box.area for box in (beside, inside))  # type: ignore[return-value]


def test_a_strip_is_drawn_closer() -> None:
    asked, result = drawn(None)
    assert result.layout is not None
    assert not result.layout.unplaced
    for room in asked.rooms[1:]:
        beside, inside = density(asked, result, room)
        assert beside > 1.3 * inside
    assert "strip_not_closer" not in {finding.code for finding in result.findings}


def test_a_strip_is_drawn_closer_in_several_circuits() -> None:
    asked, result = drawn(45.0)
    assert result.layout is not None
    assert not result.layout.unplaced
    for room in asked.rooms[1:]:
        own = next(each for each in result.rooms if each.id == room.id)
        assert len(own.circuit_ids) > 1
        beside, inside = density(asked, result, room)
        assert beside > 1.2 * inside


def test_a_wall_beside_which_pipe_cannot_lie_closer_is_told() -> None:
    """Tails of all circuits pass along the lower wall of the hall: its strip has no floor of its own there."""
    hall = replace(FLAT.rooms[0], pipe_spacing=0.2, peripheral=PeripheralStrip(0.1, 0.8, edges=(2,)))
    result = designs.calculate(replace(FLAT, rooms=(hall, *FLAT.rooms[1:])))
    places = [
        place.where for own in result.findings if own.code == "strip_not_closer" for place in own.places
    ]
    assert places == ["/rooms/0/peripheral/edges/0"]
