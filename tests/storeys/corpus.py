"""Storeys of our own invention, each with something that is hard to lay."""

from __future__ import annotations

from tests.storeys.case import Door, Room, StoreyCase, rect

__all__ = ["CORPUS"]


def _flat() -> StoreyCase:
    """Two rooms, bath and hall about the front door."""
    rooms = {
        "living": Room(rect(0.0, 0.0, 5.0, 4.4)),
        "bed": Room(rect(5.12, 0.0, 8.6, 4.4), 0.2),
        "hall": Room(rect(2.9, 4.52, 6.2, 6.1), 0.2),
        "bath": Room(rect(6.32, 4.52, 8.6, 6.8), 0.1),
    }
    doors = (
        Door("hall", "living", (3.9, 4.46)),
        Door("hall", "bed", (5.64, 4.46)),
        Door("hall", "bath", (6.26, 5.3)),
    )
    return StoreyCase("flat", rooms, doors, "hall", (4.5, 6.1))


def _bungalow() -> StoreyCase:
    """A corridor with rooms on both sides."""
    rooms = {
        "corridor": Room(rect(0.0, 4.12, 10.0, 5.7), 0.2),
        "south-1": Room(rect(0.0, 0.0, 4.0, 4.0)),
        "south-2": Room(rect(4.12, 0.0, 7.0, 4.0)),
        "south-3": Room(rect(7.12, 0.0, 10.0, 4.0)),
        "north-1": Room(rect(0.0, 5.82, 4.4, 9.2)),
        "north-2": Room(rect(4.52, 5.82, 6.6, 9.2), 0.1),
        "north-3": Room(rect(6.72, 5.82, 10.0, 9.2)),
    }
    doors = (
        Door("corridor", "south-1", (3.0, 4.06)),
        Door("corridor", "south-2", (6.2, 4.06)),
        Door("corridor", "south-3", (8.0, 4.06)),
        Door("corridor", "north-1", (3.4, 5.76)),
        Door("corridor", "north-2", (5.6, 5.76)),
        Door("corridor", "north-3", (7.6, 5.76)),
    )
    return StoreyCase("bungalow", rooms, doors, "corridor", (0.0, 4.9))


def _l_house() -> StoreyCase:
    """Two wings about an L-shaped hall."""
    rooms = {
        "hall": Room(((0.0, 0.0), (6.0, 0.0), (6.0, 1.8), (1.9, 1.8), (1.9, 6.0), (0.0, 6.0)), 0.2),
        "east": Room(rect(6.12, -1.0, 10.0, 3.2)),
        "inner": Room(rect(2.02, 1.92, 6.0, 6.0)),
        "north": Room(rect(-1.0, 6.12, 3.4, 9.4)),
    }
    doors = (
        Door("hall", "east", (6.06, 0.9)),
        Door("hall", "inner", (3.2, 1.86)),
        Door("hall", "north", (0.9, 6.06)),
    )
    return StoreyCase("L house", rooms, doors, "hall", (0.0, 2.4))


def _open_plan() -> StoreyCase:
    """One large room round a stair, a study and a bath off it."""
    rooms = {
        "open": Room(rect(0.0, 0.0, 9.0, 6.0), 0.15, voids=(rect(4.0, 3.2, 5.0, 5.2),)),
        "study": Room(rect(9.12, 0.0, 12.0, 3.0)),
        "bath": Room(rect(9.12, 3.12, 12.0, 6.0), 0.1),
    }
    doors = (Door("open", "study", (9.06, 2.2)), Door("open", "bath", (9.06, 4.0)))
    return StoreyCase("open plan with a stair", rooms, doors, "open", (6.5, 6.0))


def _one_room() -> StoreyCase:
    """A studio: no doorway at all, two circuits from the wall."""
    return StoreyCase("studio", {"room": Room(rect(0.0, 0.0, 6.0, 4.4))}, (), "room", (3.0, 0.0))


def _row() -> StoreyCase:
    """Rooms one behind the other: tails to the last pass all."""
    rooms = {f"room-{number}": Room(rect(3.6 * number, 0.0, 3.6 * number + 3.48, 4.0)) for number in range(4)}
    doors = tuple(
        Door(f"room-{number}", f"room-{number + 1}", (3.6 * number + 3.54, 2.0 + 0.6 * (-1) ** number))
        for number in range(3)
    )
    return StoreyCase("rooms in a row", rooms, doors, "room-0", (0.0, 2.0))


def _roof() -> StoreyCase:
    """Slanting outlines under a roof."""
    rooms = {
        "landing": Room(rect(3.0, 0.0, 5.0, 5.0), 0.2),
        "west": Room(((0.4, 0.0), (2.88, 0.0), (2.88, 5.0), (1.2, 5.0), (0.0, 2.5))),
        "east": Room(((5.12, 0.0), (8.0, 0.6), (7.2, 4.4), (5.12, 5.0))),
    }
    doors = (Door("landing", "west", (2.94, 3.4)), Door("landing", "east", (5.06, 2.4)))
    return StoreyCase("under the roof", rooms, doors, "landing", (4.0, 0.0))


def _narrow_door() -> StoreyCase:
    """More circuits than a doorway lets through: some serve a part, the others are refused with the doorway named."""
    rooms = {
        "lobby": Room(rect(0.0, 0.0, 3.0, 3.0), 0.2),
        "hall": Room(rect(3.12, 0.0, 15.0, 9.0), 0.2),
    }
    doors = (Door("lobby", "hall", (3.06, 1.5), 0.7),)
    return StoreyCase("narrow door", rooms, doors, "lobby", (0.0, 1.5), maximum_circuit_length=60.0)


def _shut_off() -> StoreyCase:
    """A room without a doorway cannot be reached."""
    rooms = {"one": Room(rect(0.0, 0.0, 3.6, 3.6)), "other": Room(rect(3.72, 0.0, 7.0, 3.6))}
    return StoreyCase("shut off", rooms, (), "one", (1.8, 0.0))


def _serpentine() -> StoreyCase:
    """Serpentine fields with an unheated lobby that tails pass."""
    rooms = {
        "lobby": Room(rect(0.0, 0.0, 2.4, 5.0), 0.2, count=0),
        "left": Room(rect(-4.12, 0.0, -0.12, 5.0), 0.2, pattern="serpentine"),
        "right": Room(rect(2.52, 0.0, 6.4, 5.0), 0.2, pattern="serpentine"),
    }
    doors = (Door("lobby", "left", (-0.06, 3.6)), Door("lobby", "right", (2.46, 3.2)))
    return StoreyCase("serpentines", rooms, doors, "lobby", (1.2, 0.0))


def _office() -> StoreyCase:
    """Thirty rooms along two sides of a wide corridor: far more circuits than one manifold's wall takes."""
    rooms = {"corridor": Room(rect(0.0, 4.12, 48.0, 7.6), 0.25, count=0)}
    doors = []
    for number in range(15):
        x0 = 3.2 * number
        for side, (low, high, wall) in {"south": (0.0, 4.0, 4.06), "north": (7.72, 11.7, 7.66)}.items():
            rooms[f"{side}-{number}"] = Room(rect(x0, low, x0 + 3.08, high), 0.2)
            doors.append(Door("corridor", f"{side}-{number}", (x0 + 1.5, wall), 0.9))
    return StoreyCase(
        "office floor", rooms, tuple(doors), "corridor", (0.0, 5.86), maximum_circuit_length=160.0
    )


def _hall() -> StoreyCase:
    """400 m2 with four columns, parted by movement joints."""
    columns = tuple(
        rect(x - 0.25, y - 0.25, x + 0.25, y + 0.25) for x in (6.67, 13.33) for y in (6.67, 13.33)
    )
    joints = (((10.0, 0.0), (10.0, 20.0)), ((0.0, 10.0), (20.0, 10.0)))
    return StoreyCase(
        "hall with columns",
        {"hall": Room(rect(0.0, 0.0, 20.0, 20.0), 0.25, voids=columns, joints=joints)},
        (),
        "hall",
        (10.0, 0.0),
        bend_radius=0.1,
        maximum_circuit_length=150.0,
    )


def _thin_walls() -> StoreyCase:
    """Rooms that share walls without thickness, 14 mm pipe."""
    rooms = {
        "middle": Room(rect(3.0, 0.0, 5.0, 6.0), 0.2),
        "left": Room(rect(0.0, 0.0, 3.0, 6.0)),
        "right": Room(rect(5.0, 0.0, 8.4, 6.0)),
    }
    doors = (Door("middle", "left", (3.0, 4.2)), Door("middle", "right", (5.0, 4.6), 0.9))
    return StoreyCase("walls without thickness", rooms, doors, "middle", (4.0, 0.0), bend_radius=0.07)


CORPUS = (
    _flat(),
    _bungalow(),
    _l_house(),
    _open_plan(),
    _one_room(),
    _row(),
    _roof(),
    _narrow_door(),
    _shut_off(),
    _serpentine(),
    _thin_walls(),
    _office(),
    _hall(),
)
