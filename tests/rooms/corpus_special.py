"""Rooms with voids, large rooms, and rooms that ask for more than the usual."""

from __future__ import annotations

from .case import room
from .shapes import box, disc, rectangle, regular, tilted, walls

__all__ = ["HALLS", "NARROW", "REFUSED", "SPACINGS", "VOIDS"]

VOIDS = (
    room("kitchen island", "void", rectangle(5.0, 4.1), (0.9, 0.0), (150, 16), box(1.9, 1.6, 1.6, 0.9)),
    room("stair hole", "void", rectangle(6.1, 4.6), (6.1, 0.6), (150, 17), box(1.4, 1.5, 2.7, 1.1)),
    room("bath tub", "void", rectangle(3.4, 2.8), (0.4, 0.0), (100, 14), box(1.3, 1.1, 1.0, 0.7)),
    room("column", "void", rectangle(4.8, 4.4), (2.4, 0.0), (150, 16), box(2.2, 2.1, 0.4, 0.4)),
    room("round column", "void", rectangle(5.2, 3.9), (0.0, 1.0), (150, 16), disc(3.1, 1.9, 0.25)),
    room("flue near the wall", "void", rectangle(4.5, 3.8), (4.5, 0.7), (150, 16), box(1.7, 3.0, 0.5, 0.5)),
    room(
        "tilted stove", "void", rectangle(4.9, 4.2), (0.6, 0.0), (150, 14), tilted(3.3, 2.7, 0.9, 0.6, 33.0)
    ),
    room("fixed cupboards", "void", rectangle(5.7, 4.3), (0.5, 4.3), (150, 16), box(0.7, 0.7, 0.6, 2.6)),
    room(
        "two columns",
        "void",
        rectangle(6.6, 4.2),
        (3.3, 0.0),
        (150, 16),
        box(1.9, 1.9, 0.4, 0.4),
        box(4.3, 1.9, 0.4, 0.4),
    ),
    room(
        "island and flue",
        "void",
        rectangle(5.8, 4.7),
        (0.0, 0.8),
        (150, 16),
        box(2.2, 1.9, 1.5, 0.8),
        box(4.4, 3.2, 0.5, 0.6),
    ),
    room(
        "three columns",
        "void",
        rectangle(8.3, 4.4),
        (1.0, 0.0),
        (200, 20),
        box(1.9, 2.0, 0.4, 0.4),
        disc(4.2, 2.2, 0.25),
        box(6.2, 2.0, 0.4, 0.4),
    ),
    room(
        "four columns",
        "void",
        rectangle(6.9, 6.3),
        (3.4, 0.0),
        (200, 20),
        *(box(x, y, 0.35, 0.35) for x in (1.9, 4.6) for y in (1.7, 4.2)),
    ),
    room(
        "L with an island",
        "void",
        walls(6.4, 3.5, -2.9, 2.7, -3.5),
        (6.4, 1.0),
        (150, 16),
        box(1.2, 1.3, 1.1, 0.8),
    ),
    room(
        "T with a stair",
        "void",
        walls(7.2, 3.1, -2.2, 2.6, -2.9, -2.6, -2.1),
        (0.0, 1.5),
        (150, 16),
        box(2.9, 1.1, 1.5, 0.8),
    ),
    room("rotunda with a stair", "void", regular(32, 2.9), (0.0, -2.9), (150, 16), disc(0.2, 0.3, 0.8, 20)),
    room(
        "slanted with a column",
        "void",
        ((0.0, 0.0), (5.6, 0.0), (5.6, 3.0), (0.0, 4.5)),
        (2.0, 0.0),
        (150, 16),
        disc(2.6, 2.0, 0.3, 12),
    ),
    room(
        "L shaped counter",
        "void",
        rectangle(6.0, 5.1),
        (0.7, 0.0),
        (150, 16),
        ((2.0, 1.6), (4.1, 1.6), (4.1, 3.4), (3.4, 3.4), (3.4, 2.3), (2.0, 2.3)),
    ),
    room("long island", "void", rectangle(7.4, 4.6), (7.4, 4.0), (100, 14), box(1.6, 1.9, 4.2, 0.8)),
    room(
        "two islands",
        "void",
        rectangle(7.6, 5.3),
        (3.8, 0.0),
        (150, 16),
        box(1.3, 1.5, 1.3, 2.3),
        box(4.7, 1.6, 1.4, 1.9),
    ),
    room("walk round a core", "void", rectangle(5.3, 5.0), (2.0, 0.0), (100, 14), box(1.4, 1.3, 2.5, 2.4)),
)

HALLS = (
    room("hall of 80 m2", "hall", rectangle(10.4, 7.7), (5.2, 0.0), (150, 17)),
    room("hall at 200 mm", "hall", rectangle(11.0, 7.4), (0.0, 3.3), (200, 20)),
    room("L hall of 80 m2", "hall", walls(11.2, 5.1, -5.6, 4.2, -5.6), (2.0, 0.0), (200, 20)),
    room(
        "hall with columns",
        "hall",
        rectangle(10.8, 7.5),
        (10.8, 1.0),
        (200, 20),
        box(3.3, 2.4, 0.4, 0.4),
        box(7.1, 2.4, 0.4, 0.4),
        disc(5.2, 5.1, 0.3),
    ),
)

SPACINGS = (
    room("75 mm bathroom", "spacing", rectangle(2.4, 1.9), (0.5, 0.0), (75, 12), radius=0.0375),
    room("75 mm edge strip", "spacing", rectangle(4.3, 0.9), (0.0, 0.4), (75, 12), radius=0.0375),
    room("250 mm hall", "spacing", rectangle(7.9, 5.6), (1.0, 0.0), (250, 20)),
    room("250 mm L", "spacing", walls(7.1, 3.7, -3.3, 3.1, -3.8), (0.0, 2.0), (250, 20)),
    room("300 mm hall", "spacing", rectangle(9.6, 6.6), (4.8, 0.0), (300, 20), clearance=0.15),
    room(
        "300 mm with a column", "spacing", rectangle(8.4, 6.9), (8.4, 2.0), (300, 20), box(3.7, 3.1, 0.5, 0.5)
    ),
    room("stiff pipe at 150 mm", "bend", rectangle(5.0, 4.0), (1.0, 0.0), (150, 20), radius=0.1),
    room("stiff pipe in an L", "bend", walls(5.4, 2.8, -2.7, 2.4, -2.7), (0.0, 1.0), (150, 17), radius=0.085),
    room("stiff pipe at 100 mm", "bend", rectangle(4.1, 3.2), (4.1, 0.8), (100, 14), radius=0.07),
    room(
        "stiff pipe about a column",
        "bend",
        rectangle(5.0, 4.4),
        (2.0, 0.0),
        (125, 16),
        box(2.3, 2.0, 0.4, 0.4),
        radius=0.08,
    ),
)

NARROW = (
    room("corridor at 300 mm", "narrow", rectangle(5.2, 0.9), (0.0, 0.45), (300, 20)),
    room("corridor of 0.6 m", "narrow", rectangle(4.4, 0.6), (1.0, 0.0), (150, 16)),
    room(
        "neck of 0.4 m",
        "narrow",
        walls(3.0, 1.3, 0.5, -1.3, 2.9, 3.1, -2.9, -1.4, -0.5, 1.4, -3.0),
        (0.7, 0.0),
        (150, 16),
    ),
    room("narrow niche", "narrow", walls(4.3, 3.4, -1.8, 0.5, -0.4, -0.5, -2.1), (0.0, 1.2), (150, 16)),
    room(
        "stair with a gap behind",
        "narrow",
        rectangle(5.2, 4.1),
        (0.8, 0.0),
        (150, 16),
        box(1.3, 2.7, 2.6, 1.0),
    ),
    room(
        "passage beside a core", "narrow", rectangle(4.4, 4.0), (0.7, 0.0), (200, 20), box(1.2, 1.4, 2.6, 1.3)
    ),
)

REFUSED = (
    room(
        "far too stiff",
        "refused",
        rectangle(4.0, 3.0),
        (1.0, 0.0),
        (100, 25),
        radius=0.125,
        refusals=frozenset({"bend_radius"}),
    ),
    room(
        "gap behind a cupboard",
        "refused",
        rectangle(3.0, 0.14),
        (0.0, 0.07),
        (150, 16),
        refusals=frozenset({"no_room_for_pipe"}),
    ),
    room(
        "nothing within the clearance",
        "refused",
        rectangle(1.4, 1.2),
        (0.0, 0.6),
        (150, 16),
        clearance=0.65,
        refusals=frozenset({"no_room_for_pipe"}),
    ),
)
