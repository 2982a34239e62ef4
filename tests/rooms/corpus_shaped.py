"""Rooms with bays, curves and slanted walls, and rooms that lie askew or far away."""

from __future__ import annotations

from .case import moved, room, turned
from .shapes import arc, bevelled, box, ellipse, halfway, rectangle, regular, sector, skewed, walls

__all__ = ["BAYS", "OBLIQUE", "PLACED", "ROUND"]

BAYS = (
    room(
        "bay with slanted sides",
        "bay",
        ((0.0, 0.0), (4.6, 0.0), (4.6, 3.4), (3.6, 3.4), (3.1, 4.1), (1.6, 4.1), (1.1, 3.4), (0.0, 3.4)),
        (4.0, 0.0),
        (150, 16),
    ),
    room(
        "round bay",
        "bay",
        ((0.0, 0.0), (5.2, 0.0), (5.2, 3.6), *arc((2.6, 3.6), 1.4, 0.0, 180.0, 12), (0.0, 3.6)),
        (0.0, 1.0),
        (150, 16),
    ),
    room("square bay", "bay", walls(5.4, 3.3, -1.6, 0.9, -2.1, -0.9, -1.7), (0.8, 0.0), (150, 17)),
    room(
        "corner bay",
        "bay",
        ((0.0, 0.0), (4.4, 0.0), (4.4, 2.9), (5.0, 3.5), (4.1, 4.4), (3.5, 3.8), (0.0, 3.8)),
        (1.4, 0.0),
        (150, 16),
    ),
    room(
        "apse",
        "bay",
        ((0.0, 0.0), (3.8, 0.0), (3.8, 4.4), *arc((1.9, 4.4), 1.9, 0.0, 180.0, 20)[1:-1], (0.0, 4.4)),
        (1.9, 0.0),
        (200, 20),
    ),
)

ROUND = (
    room("rotunda", "round", regular(36, 2.4), (0.0, -2.4), (150, 16)),
    room("oval", "round", ellipse(5.6, 3.8), (-2.8, 0.0), (150, 16)),
    room("half round", "round", tuple(arc((0.0, 0.0), 2.9, 0.0, 180.0, 24)), (0.4, 0.0), (100, 14)),
    room("quarter round", "round", ((0.0, 0.0), *arc((0.0, 0.0), 4.2, 0.0, 90.0, 18)), (1.6, 0.0), (150, 16)),
    room(
        "one round corner",
        "round",
        ((0.0, 0.0), (4.8, 0.0), *arc((3.3, 2.4), 1.5, 0.0, 90.0, 10), (0.0, 3.9)),
        (0.0, 2.0),
        (150, 17),
    ),
    room(
        "ring sector",
        "round",
        sector(2.2, 4.6, 10.0, 130.0),
        halfway(sector(2.2, 4.6, 10.0, 130.0), -1),
        (150, 16),
    ),
    room("hexagon", "round", regular(6, 2.3), halfway(regular(6, 2.3), 0), (100, 14)),
    room("octagon", "round", bevelled(4.4, 4.4, 1.3), (2.2, 0.0), (200, 20)),
)

OBLIQUE = (
    room("slanted wall", "oblique", ((0.0, 0.0), (4.7, 0.0), (4.7, 2.6), (0.0, 3.9)), (0.5, 0.0), (150, 16)),
    room("trapezium", "oblique", ((0.0, 0.0), (5.3, 0.0), (4.2, 3.5), (0.9, 3.5)), (2.6, 0.0), (150, 16)),
    room("parallelogram", "oblique", skewed(rectangle(4.4, 3.2), 18.0), (1.1, 0.0), (150, 14)),
    room("leaning L", "oblique", skewed(walls(5.2, 2.5, -2.6, 2.4, -2.6), 14.0), (4.4, 0.0), (150, 16)),
    room("kite", "oblique", ((0.0, 0.0), (2.4, 2.1), (0.4, 5.1), (-2.0, 2.4)), (1.2, 1.05), (100, 14)),
    room("triangle", "oblique", ((0.0, 0.0), (5.4, 0.0), (1.9, 4.3)), (3.65, 2.15), (150, 16)),
    room("right triangle", "oblique", ((0.0, 0.0), (5.0, 0.0), (0.0, 4.0)), (2.0, 0.0), (100, 12)),
    room(
        "attic",
        "oblique",
        ((0.0, 0.0), (3.3, 0.0), (5.1, 1.7), (5.1, 3.9), (1.2, 3.9), (0.0, 2.6)),
        (0.0, 1.2),
        (150, 16),
    ),
    room(
        "five walls",
        "oblique",
        ((0.0, 0.0), (4.1, -0.4), (5.0, 2.3), (2.7, 4.2), (-0.5, 3.0)),
        (4.55, 0.95),
        (150, 17),
    ),
    room(
        "no right angle",
        "oblique",
        ((0.0, 0.0), (3.2, 0.5), (5.9, -0.3), (6.3, 3.1), (3.4, 3.9), (0.4, 3.2)),
        (1.6, 0.25),
        (200, 20),
    ),
    room("wedge", "oblique", ((0.0, 0.0), (6.6, 0.9), (6.6, 2.5), (0.0, 3.6)), (0.0, 1.9), (150, 16)),
)

PLACED = (
    turned(room("turned bedroom", "turned", rectangle(4.4, 3.5), (0.7, 0.0), (150, 16)), 17.3),
    turned(room("turned L", "turned", walls(5.3, 2.4, -2.8, 2.5, -2.5), (5.3, 1.0), (150, 16)), -38.0),
    turned(
        room("turned T", "turned", walls(6.0, 2.3, -2.0, 2.2, -2.1, -2.2, -1.9), (3.0, 0.0), (100, 14)), 63.7
    ),
    turned(
        room(
            "turned with an island",
            "turned",
            rectangle(5.5, 4.3),
            (1.0, 0.0),
            (150, 16),
            box(2.1, 1.7, 1.3, 0.8),
        ),
        28.9,
    ),
    moved(room("far away", "far", walls(5.0, 2.6, -2.3, 1.9, -2.7), (0.9, 0.0), (150, 16)), (1e6, -1e6)),
    moved(
        turned(room("far away and turned", "far", rectangle(4.1, 3.9), (2.0, 0.0), (150, 16)), 71.2),
        (-8.5e5, 9.2e5),
    ),
    moved(
        room(
            "left of the origin",
            "far",
            ((0.0, 0.0), (4.9, 0.0), (4.9, 3.1), (1.1, 4.0)),
            (2.1, 0.0),
            (150, 16),
        ),
        (-330.0, 128.0),
    ),
)
