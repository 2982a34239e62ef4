"""Requests for a storey of hard rooms: thin walls or none, rooms askew, niches, columns, doorways beside corners."""

from __future__ import annotations

import random
from typing import Any

import shapely
from shapely import Polygon
from tepidarium_engine.checking import Point
from tepidarium_engine.errors import FaultList, InputError
from tepidarium_engine.plan.outlines.polygons import room_outline
from tepidarium_engine.storey.manifold.plan_input import SentRoom, doorway_between, sent_rooms
from tepidarium_engine.storey.manifold.position_records import PlanDoorway

from tests.fuzz.case import Case
from tests.fuzz.places import any_place
from tests.fuzz.rings import UNITS, fine, hard_room, snapped
from tests.rooms.case import Ring

__all__ = ["storey_case"]

_CALCULATIONS = ("designs",) * 5 + ("manifold-position",) * 3 + ("heat-loss",)
_WALLS = (0.0, 0.001, 0.02, 0.05, 0.1, 0.115, 0.12, 0.12, 0.3, 0.5)
_LEAST = 0.9
"""Least side of a room [m]."""

_Box = tuple[float, float, float, float]


class _Plan:
    """Boxes cut out of a rectangle, what became of them, and doorways."""

    def __init__(self, lot: random.Random) -> None:
        self.lot = lot
        self.wall = lot.choice(_WALLS)
        self.boxes = self._cut()
        self.askew = lot.choice((0.0, 0.0, 1e-5, 1e-3, lot.uniform(-0.3, 0.3)))
        self.unit, self.place = lot.choice(UNITS), any_place(lot)
        drawn = [self._sound_room(box) for box in self.boxes]
        self.sent = [_sent(number, rings) for number, rings in enumerate(drawn)]
        self.rooms = [[tuple(map(self.place, ring)) for ring in rings] for rings in drawn]
        self.doors = self._doors()

    def _drawn(self, point: Point) -> Point:
        return (point[0] + self.askew * point[1], point[1])

    def _sound_room(self, box: _Box) -> list[Ring]:
        for _ in range(20):
            rings = [snapped(tuple(map(self._drawn, ring)), self.unit) for ring in self._room(box)]
            if _sent(0, rings) is not None:
                return rings
        x0, y0, x1, y1 = box
        return [tuple(map(self._drawn, ((x0, y0), (x1, y0), (x1, y1), (x0, y1))))]

    def _cut(self) -> list[_Box]:
        lot = self.lot
        boxes: list[_Box] = [(0.0, 0.0, lot.uniform(2.0, 9.0), lot.uniform(2.0, 7.0))]
        for _ in range(lot.randint(1, 8)):
            box = max(boxes, key=lambda b: (b[2] - b[0]) * (b[3] - b[1]) * lot.uniform(0.4, 1.0))
            axis = 0 if box[2] - box[0] > (box[3] - box[1]) * lot.uniform(0.7, 1.4) else 1
            low, high = box[axis], box[axis + 2]
            if high - low < 2.0 * _LEAST + self.wall:
                continue
            at = lot.uniform(low + _LEAST, high - _LEAST - self.wall)
            one, other = list(box), list(box)
            one[axis + 2], other[axis] = at, at + self.wall
            boxes.remove(box)
            boxes += [(one[0], one[1], one[2], one[3]), (other[0], other[1], other[2], other[3])]
        return boxes

    def _room(self, box: _Box) -> list[Ring]:
        """The floor within a box: all of it, less a few bites, or a hard room drawn to its size."""
        lot, (x0, y0, x1, y1) = self.lot, box
        if lot.random() < 0.15:
            rings = hard_room(lot)
            a0, b0, a1, b1 = Polygon(rings[0]).bounds
            fx, fy = (x1 - x0) / (a1 - a0), (y1 - y0) / (b1 - b0)
            return [tuple((x0 + fx * (x - a0), y0 + fy * (y - b0)) for x, y in ring) for ring in rings]
        floor = shapely.box(*box)
        for _ in range(lot.choice((0, 0, 1, 2, 4))):
            wide, deep = fine(lot), fine(lot)
            x = lot.choice((x0, x1 - wide, lot.uniform(x0, x1)))
            y = lot.choice((y0, y1 - deep, lot.uniform(y0, y1)))
            bitten = shapely.difference(floor, shapely.box(x, y, x + wide, y + deep))
            if isinstance(bitten, Polygon) and bitten.area > 0.5:
                floor = bitten
        rings = [tuple((float(x), float(y)) for x, y in floor.exterior.coords[:-1])]
        return rings + [tuple((float(x), float(y)) for x, y in void.coords[:-1]) for void in floor.interiors]

    def _doors(self) -> list[dict[str, Any]]:
        """One wherever it joins rooms that were apart, nearly always, and some more."""
        lot, group, found = self.lot, list(range(len(self.boxes))), []
        pairs = [(one, other) for one in range(len(self.boxes)) for other in range(one + 1, len(self.boxes))]
        lot.shuffle(pairs)
        for one, other in pairs:
            joins = group[one] != group[other]
            door = self._door(one, other) if joins or lot.random() < 0.15 else None
            if door is None:
                continue
            if joins and lot.random() < 0.97:
                old = group[other]
                group = [group[one] if each == old else each for each in group]
            found.append(
                {"rooms": list(door.rooms), "place": list(self.place(door.place)), "width": door.width}
            )
        return found

    def _door(self, one: int, other: int) -> PlanDoorway | None:
        """One that both rooms have a wall for; rarely one that they have not."""
        sent = [room for room in self.sent if room is not None]
        for _ in range(5):
            middle = self._between(self.boxes[one], self.boxes[other])
            if middle is None:
                return None
            width = self.lot.choice((0.8, 0.9, 0.6, self.lot.uniform(0.3, 1.5)))
            door = PlanDoorway((f"r{one}", f"r{other}"), self._drawn(middle), width)
            if doorway_between(door, "", sent, FaultList()) is not None or self.lot.random() < 0.005:
                return door
        return None

    def _between(self, a: _Box, b: _Box) -> Point | None:
        """A place in the wall that two boxes share."""
        for axis in (0, 1):
            first, second = (a, b) if a[axis] < b[axis] else (b, a)
            if abs(second[axis] - first[axis + 2] - self.wall) < 1e-9:
                low, high = max(a[1 - axis], b[1 - axis]), min(a[3 - axis], b[3 - axis])
                if high - low < 0.5:
                    return None
                along = self.lot.choice((self.lot.uniform(low + 0.25, high - 0.25), low + 0.41, high - 0.45))
                across = first[axis + 2] + self.wall / 2.0
                return (across, along) if axis == 0 else (along, across)
        return None

    def on_wall(self) -> Point:
        """A place at a wall of some room, or a little beside."""
        ring = shapely.LinearRing(self.lot.choice(self.rooms)[0])
        at = shapely.line_interpolate_point(ring, self.lot.random(), normalized=True)
        return (float(at.x) + self.lot.choice((0.0, 0.0, 0.1)), float(at.y))

    def outlines(self) -> list[dict[str, Any]]:
        found = []
        for number, (outline, *voids) in enumerate(self.rooms):
            room: dict[str, Any] = {"id": f"r{number}", "outline": [list(point) for point in outline]}
            if voids:
                room["voids"] = [[list(point) for point in ring] for ring in voids]
            found.append(room)
        return found

    def area(self, number: int) -> float:
        return float(Polygon(self.rooms[number][0]).area)


def _sent(number: int, rings: list[Ring]) -> SentRoom | None:
    try:
        room_outline(rings[0], rings[1:])
    except InputError:
        return None
    return sent_rooms([f"r{number}"], [""], [(rings[0], rings[1:])])[0]


def storey_case(seed: int) -> Case:
    """The request with this number: another plan and calculation for each."""
    lot = random.Random(f"storey {seed}")
    plan = _Plan(lot)
    calculation = lot.choice(_CALCULATIONS)
    body = _BODIES[calculation](lot, plan)
    if lot.random() < 0.1:
        body["workings"] = True
    return Case(f"storey {seed}", calculation, body, calculation == "designs" and lot.random() < 0.25)


def _designs(lot: random.Random, plan: _Plan) -> dict[str, Any]:
    diameter = lot.choice((0.010, 0.012, 0.014, 0.016, 0.017))
    radius = lot.choice((0.03, 0.05, 0.05, 0.08))
    spacings = lot.choice(([0.1, 0.15, 0.2], [0.15, 0.2, 0.3], [0.1], [0.12, 0.25]))
    rooms = plan.outlines()
    for number, room in enumerate(rooms):
        room["heat_demand"] = plan.area(number) * lot.choice((20.0, 40.0, 60.0, 90.0))
        room["build_up"] = "b"
        if lot.random() < 0.15:
            room["pattern"] = "serpentine"
        if lot.random() < 0.1:
            room["use"], room["room_temperature"] = "bathroom", 24.0
        if lot.random() < 0.2:
            room["pipe_spacing"] = lot.choice((0.1, 0.15, 0.2, 0.25))
        if lot.random() < 0.1:
            x0, y0, x1, y1 = Polygon(plan.rooms[number][0]).bounds
            at = lot.uniform(x0 + 0.2, x1 - 0.2)
            room["movement_joints"] = [[[at, y0], [at, y1]]]
    body: dict[str, Any] = {
        "rooms": rooms,
        "build_ups": [{"id": "b", "covering": "ceramic", "resistance_below": 2.0, "temperature_below": 10.0}],
        "pipe": {"outside_diameter": diameter, "wall_thickness": 0.0015, "minimum_bend_radius": radius},
        "doorways": plan.doors,
        "limits": {
            "pipe_spacings": [one for one in spacings if radius <= 0.8 * one] or [0.2],
            "maximum_circuit_length": lot.choice((30.0, 60.0, 100.0)),
            "wall_clearance": lot.choice((0.05, 0.075, 0.075, 0.1)),
            "tail_pitch": lot.choice((0.05, 0.06, 0.1)),
        },
    }
    how = lot.random()
    if how < 0.7:
        body["manifold"] = {"position": list(plan.on_wall())}
    elif how < 0.8:
        body["manifolds"] = [
            {"id": "m", "position": list(plan.on_wall())},
            {"id": "n", "position": list(plan.on_wall())},
        ]
    if lot.random() < 0.15:
        del body["doorways"]
    return body


def _manifold_position(lot: random.Random, plan: _Plan) -> dict[str, Any]:
    rooms = plan.outlines()
    for room in rooms:
        room["circuits"] = lot.choice((0, 1, 1, 2, 3))
    body: dict[str, Any] = {
        "rooms": rooms,
        "doorways": plan.doors,
        "wall_clearance": lot.choice((0.05, 0.075, 0.15)),
        "tail_pitch": lot.choice((0.04, 0.05, 0.08)),
        "maximum_ports": lot.choice((4, 8, 12)),
    }
    if lot.random() < 0.4:
        body["position"] = list(plan.on_wall())
    if lot.random() < 0.3:
        body["allowed_places"] = [{"room": lot.choice(rooms)["id"]} for _ in range(2)]
    if lot.random() < 0.2:
        body["maximum_tail_length"] = lot.uniform(2.0, 12.0)
    return body


def _heat_loss(lot: random.Random, plan: _Plan) -> dict[str, Any]:
    rooms = plan.outlines()
    for number, room in enumerate(rooms):
        room["walls"] = [{"edge": edge, "construction": "c"} for edge in range(len(plan.rooms[number][0]))]
        room["floors"] = [{"construction": "c", "beyond": "ground"}]
        room["ceilings"] = [{"construction": "c"}]
    return {
        "external_temperature": lot.uniform(-20.0, 5.0),
        "annual_mean_temperature": 9.0,
        "storey_height": 2.6,
        "constructions": [{"id": "c", "u_value": lot.uniform(0.1, 2.0)}],
        "rooms": rooms,
    }


_BODIES = {"designs": _designs, "manifold-position": _manifold_position, "heat-loss": _heat_loss}
