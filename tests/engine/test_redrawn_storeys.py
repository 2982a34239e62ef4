"""The same storey drawn otherwise is laid alike: turned, rounded to the millimetre, or measured in a house whose walls
are not quite straight (that walls are off by some millimetres is common practice, no source)."""

from __future__ import annotations

import json
import math
import random
from collections.abc import Callable

import pytest
import shapely
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_engine.plan.outlines.intake import settled_rooms
from tepidarium_engine.plan.outlines.pipe_zone import PipeZone
from tepidarium_engine.storey.division.ring_lengths import RingLengths

Place = tuple[float, float]
Drawing = Callable[[Place], Place]

DESIGNS = next(item for item in CALCULATIONS if item.name == "designs")
BOXES = {
    "parlour": ((0.0, 0.0, 5.2, 4.1), 700.0),
    "scullery": ((5.32, 0.0, 8.9, 2.4), 350.0),
    "passage": ((5.32, 2.52, 9.9, 4.1), 250.0),
    "pantry": ((8.02, 4.22, 9.2, 5.6), 80.0),
    "loft": ((5.32, 4.22, 7.9, 7.2), 400.0),
    "nook": ((0.0, 4.22, 5.2, 7.2), 500.0),
}
DOORS = {
    ("passage", "parlour"): ((5.26, 3.3), 0.9),
    ("passage", "scullery"): ((6.8, 2.46), 0.9),
    ("passage", "pantry"): ((8.6, 4.16), 0.7),
    ("passage", "loft"): ((6.4, 4.16), 0.8),
    ("parlour", "nook"): ((4.0, 4.16), 0.9),
}
MANIFOLD = (8.4, 2.52)


def _storey(drawn: Drawing, moved: Drawing = lambda place: place) -> dict[str, object]:
    def ring(x0: float, y0: float, x1: float, y1: float) -> list[Place]:
        return [drawn(moved(corner)) for corner in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))]

    return {
        "rooms": [
            {"id": name, "outline": ring(*box), "heat_demand": demand, "build_up": "floor"}
            for name, (box, demand) in BOXES.items()
        ],
        "build_ups": [
            {"id": "floor", "covering": "ceramic", "resistance_below": 2.5, "temperature_below": 10.0}
        ],
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
        "manifold": {"position": drawn(MANIFOLD)},
        "doorways": [
            {"rooms": rooms, "place": drawn(place), "width": width} for rooms, (place, width) in DOORS.items()
        ],
        "quick": True,
    }


def _turned(degrees: float, decimals: int) -> Drawing:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return lambda place: (
        round(c * place[0] - s * place[1], decimals),
        round(s * place[0] + c * place[1], decimals),
    )


def _shaken(seed: int, most: float) -> Drawing:
    source = random.Random(seed)
    return lambda place: (place[0] + source.uniform(-most, most), place[1] + source.uniform(-most, most))


def _lengths(body: dict[str, object]) -> dict[str, float]:
    found = answer(DESIGNS, json.dumps(body).encode(), "application/json")
    assert isinstance(found, Answer), found
    result = json.loads(found.content)
    assert not [each["code"] for each in result["findings"] if each["code"].startswith("not_drawn")]
    return {circuit["id"]: circuit["total_length"] for circuit in result["circuits"]}


@pytest.fixture(scope="module")
def as_planned() -> dict[str, float]:
    return _lengths(_storey(_turned(0.0, 9)))


@pytest.mark.parametrize(("degrees", "decimals"), [(90.0, 9), (17.0, 3), (-31.0, 3)])
def test_turned_storeys_get_the_same_pipe(
    as_planned: dict[str, float], degrees: float, decimals: int
) -> None:
    assert _lengths(_storey(_turned(degrees, decimals))) == pytest.approx(as_planned, rel=0.02, abs=0.3)


@pytest.mark.parametrize(
    "most", [pytest.param(0.0005, marks=pytest.mark.long), pytest.param(0.002, marks=pytest.mark.long), 0.005]
)
def test_storeys_whose_walls_are_askew_get_the_same_circuits(
    as_planned: dict[str, float], most: float
) -> None:
    for seed in range(2):
        body = _storey(_turned(0.0, 4), _shaken(seed, most))
        assert _lengths(body) == pytest.approx(as_planned, rel=0.03, abs=0.5), seed


@pytest.mark.parametrize("most", [0.0005, 0.002, 0.005])
def test_rooms_askew_are_settled_inwards_and_square_to_each_other(most: float) -> None:
    shake = _shaken(7, most)
    rings = [
        tuple(shake(corner) for corner in ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
        for (x0, y0, x1, y1), _ in BOXES.values()
    ]
    rooms = settled_rooms([(ring, ()) for ring in rings])
    headings = set()
    for ring, room in zip(rings, rooms, strict=True):
        # All corners within 1.2 mm of the outline, or inside of it: pipe keeps its clearance to 2 mm.
        assert shapely.covers(shapely.buffer(shapely.Polygon(ring), 1.8e-3, join_style="mitre"), room.placed)
        assert (
            shapely.hausdorff_distance(shapely.Polygon(ring), room.placed)
            < 2.0 * math.sqrt(2.0) * most + 2e-3
        )
        points = shapely.get_coordinates(room.placed)
        for (ax, ay), (bx, by) in zip(points[:-1].tolist(), points[1:].tolist(), strict=True):
            headings.add(round(math.atan2(by - ay, bx - ax) % (math.pi / 2.0), 6) % round(math.pi / 2.0, 6))
    assert len(headings) == 1


def test_a_wall_that_is_meant_to_slant_stays() -> None:
    ring = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 2.9))
    room = settled_rooms([(ring, ())])[0]
    assert shapely.hausdorff_distance(shapely.Polygon(ring), room.placed) < 1.5e-3


def test_a_piece_without_rings_is_laid_out_anew_at_other_spacings() -> None:
    zone = PipeZone(shapely.box(0.0, 0.0, 2.0, 0.02), (), ())
    lengths = RingLengths(zone, 0.15, 0.08, (1.0, 1.0))
    assert lengths.at(0.8) == lengths.at(1.25) == pytest.approx(0.15)
