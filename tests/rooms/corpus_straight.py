"""Rooms with straight walls square to each other, and nothing in them."""

from __future__ import annotations

from .case import room
from .shapes import rectangle, staircase, walls

__all__ = ["CORRIDORS", "LEGS", "NECKS", "NICHES", "RECTANGLES", "SMALL", "STAIRS"]

RECTANGLES = (
    room("bedroom", "rectangle", rectangle(4.2, 3.6), (0.6, 0.0), (150, 16)),
    room("study", "rectangle", rectangle(3.1, 2.7), (3.1, 0.5), (100, 14)),
    room("living room", "rectangle", rectangle(6.3, 5.2), (3.1, 0.0), (150, 17)),
    room("bathroom", "rectangle", rectangle(2.6, 2.1), (0.4, 2.1), (100, 12)),
    room("square", "rectangle", rectangle(4.0, 4.0), (0.0, 2.0), (200, 20)),
    room("five rings exactly", "rectangle", rectangle(3.75, 1.5), (1.0, 0.0), (150, 14)),
    room("long room", "rectangle", rectangle(9.4, 2.9), (0.0, 1.4), (150, 16)),
    room("entry in the corner", "rectangle", rectangle(3.7, 3.3), (0.0, 0.0), (150, 16)),
    room("workshop", "rectangle", rectangle(7.7, 4.9), (7.0, 4.9), (200, 20), clearance=0.1),
    room("store", "rectangle", rectangle(2.2, 1.9), (1.1, 0.0), (125, 12), clearance=0.05),
)

LEGS = (
    room("L kitchen", "L", walls(5.1, 2.4, -2.4, 2.3, -2.7), (1.0, 0.0), (150, 16)),
    room("L hall", "L", walls(6.2, 3.1, -3.9, 3.4, -2.3), (6.2, 1.2), (200, 20)),
    room("L with thin leg", "L", walls(5.6, 1.3, -3.1, 2.9, -2.5), (5.6, 0.65), (100, 14)),
    room("L mirrored", "L", walls(4.4, 4.7, -2.2, -2.3, -2.2), (4.4, 4.0), (150, 14)),
    room("L at the elbow", "L", walls(4.9, 2.2, -2.7, 2.6, -2.2), (0.0, 0.3), (100, 16)),
    room("T lounge", "T", walls(6.4, 2.5, -1.9, 2.6, -2.4, -2.6, -2.1), (3.2, 0.0), (150, 16)),
    room("T entered at the stem", "T", walls(5.5, 1.9, -1.7, 3.1, -2.0, -3.1, -1.8), (2.8, 5.0), (150, 17)),
    room("T small", "T", walls(4.2, 1.6, -1.3, 1.4, -1.5, -1.4, -1.4), (0.0, 0.8), (100, 12)),
    room("U about a yard", "U", walls(6.8, 4.6, -2.2, -2.4, -2.3, 2.4, -2.3), (3.4, 0.0), (150, 16)),
    room("U uneven", "U", walls(5.9, 3.1, -1.5, -1.4, -2.6, 2.8, -1.8), (0.0, 4.0), (100, 14)),
    room("U deep", "U", walls(4.6, 5.2, -1.5, -3.6, -1.6, 3.6, -1.5), (4.6, 4.6), (150, 14)),
    room("Z passage", "Z", walls(3.6, 2.1, 2.4, 2.2, -3.7, -2.0, -2.3), (0.5, 0.0), (150, 16)),
    room("Z wide", "Z", walls(4.1, 3.4, 2.2, 3.0, -3.6, -3.2, -2.7), (6.3, 5.0), (200, 20)),
    room("Z fine", "Z", walls(2.6, 1.7, 1.7, 1.8, -2.7, -1.8, -1.6), (0.0, 0.8), (100, 12)),
    room(
        "H two rooms",
        "H",
        walls(2.4, 1.6, 2.0, -1.6, 2.5, 4.9, -2.5, -1.6, -2.0, 1.6, -2.4),
        (1.2, 0.0),
        (150, 16),
    ),
    room(
        "H short bar",
        "H",
        walls(2.0, 1.3, 1.2, -1.3, 2.1, 4.2, -2.1, -1.4, -1.2, 1.4, -2.0),
        (2.6, 1.3),
        (100, 14),
    ),
    room(
        "plus",
        "plus",
        walls(2.2, 1.8, 1.7, 2.3, -1.7, 1.9, -2.2, -1.9, -1.8, -2.3, 1.8),
        (1.1, 0.0),
        (150, 16),
    ),
    room(
        "plus with short arms",
        "plus",
        walls(3.0, 0.9, 0.8, 2.9, -0.8, 0.7, -3.0, -0.7, -0.9, -2.9, 0.9),
        (3.8, 2.3),
        (150, 14),
    ),
    room(
        "comb of three",
        "legs",
        walls(6.1, 3.8, -1.5, -2.0, -0.8, 2.0, -1.5, -2.0, -0.8, 2.0, -1.5),
        (0.0, 1.0),
        (100, 14),
    ),
    room(
        "spiral hall",
        "legs",
        walls(5.4, 5.0, -5.4, -3.2, 2.7, 1.3, -1.4, 0.6, 2.7, -2.3, -4.0),
        (0.0, 0.7),
        (150, 16),
    ),
)

STAIRS = (
    room("four steps", "stair-shaped", staircase(4, 1.1, 0.9, 1.5), (0.0, 2.0), (150, 16)),
    room("six small steps", "stair-shaped", staircase(6, 0.7, 0.35, 1.9), (2.1, 0.0), (100, 14)),
    room("two steps", "stair-shaped", staircase(2, 2.3, 1.2, 2.0), (4.6, 1.0), (200, 20)),
    room(
        "stepped both ways",
        "stair-shaped",
        walls(3.2, 0.8, 1.1, 1.3, -0.9, 1.4, -1.6, 0.7, -1.8),
        (1.5, 0.0),
        (150, 16),
    ),
)

CORRIDORS = (
    room("corridor 0.9", "corridor", rectangle(6.5, 0.9), (0.0, 0.45), (150, 14)),
    room("corridor 1.0", "corridor", rectangle(4.6, 1.0), (2.3, 0.0), (100, 14)),
    room("corridor 1.1", "corridor", rectangle(8.2, 1.1), (8.2, 0.5), (150, 16)),
    room("corridor 1.2", "corridor", rectangle(5.3, 1.2), (5.0, 1.2), (200, 20)),
    room("corridor round a corner", "corridor", walls(5.8, 1.2, -4.6, 3.5, -1.2), (5.8, 0.6), (100, 14)),
    room(
        "corridor round two corners",
        "corridor",
        walls(4.9, 4.2, -1.1, -3.1, -2.7, 2.4, -1.1),
        (0.0, 3.0),
        (100, 12),
    ),
    room(
        "corridor with a bulge",
        "corridor",
        walls(7.1, 1.1, -2.4, 0.9, -1.6, -0.9, -3.1),
        (0.0, 0.5),
        (150, 16),
    ),
    room(
        "corridor that widens",
        "corridor",
        ((0.0, 0.0), (6.0, -0.3), (6.0, 1.5), (0.0, 1.0)),
        (0.0, 0.5),
        (100, 14),
    ),
)

SMALL = (
    room("WC", "WC", rectangle(1.6, 1.0), (0.5, 0.0), (100, 14)),
    room("WC narrow", "WC", rectangle(1.9, 0.9), (0.0, 0.45), (100, 12)),
    room("WC with a duct", "WC", walls(1.8, 1.3, -1.3, -0.25, -0.5), (1.2, 0.0), (100, 14)),
    room("WC square", "WC", rectangle(1.3, 1.25), (0.65, 1.25), (150, 16)),
    room("shower room", "WC", walls(2.3, 1.6, -0.9, 0.5, -1.4), (2.3, 0.8), (100, 14)),
)

NECKS = (
    room(
        "two rooms and a doorway",
        "neck",
        walls(3.3, 1.4, 0.2, -1.4, 3.1, 3.4, -3.1, -1.1, -0.2, 1.1, -3.3),
        (0.8, 0.0),
        (150, 14),
        radius=0.06,
    ),
    room(
        "neck of 0.7 m",
        "neck",
        walls(2.9, 1.3, 0.9, -1.3, 2.8, 3.2, -2.8, -1.2, -0.9, 1.2, -2.9),
        (0.0, 1.5),
        (150, 14),
    ),
    room(
        "neck of 1 m",
        "neck",
        walls(3.1, 1.2, 1.1, -1.2, 2.7, 3.3, -2.7, -1.1, -1.1, 1.1, -3.1),
        (6.9, 1.0),
        (150, 16),
    ),
    room(
        "hour-glass",
        "neck",
        ((0.0, 0.0), (5.0, 0.0), (3.1, 2.1), (5.0, 4.2), (0.0, 4.2), (1.9, 2.1)),
        (2.5, 0.0),
        (150, 16),
    ),
)

NICHES = (
    room("niche", "niche", walls(4.5, 3.3, -1.4, 0.6, -1.3, -0.6, -1.8), (0.5, 0.0), (150, 16)),
    room("shallow niche", "niche", walls(4.2, 3.5, -1.7, 0.25, -0.9, -0.25, -1.6), (4.2, 1.0), (150, 16)),
    room(
        "door recesses",
        "recess",
        walls(5.2, 1.2, 0.15, 0.9, -0.15, 1.4, -1.4, 0.15, -0.9, -0.15, -2.9),
        (0.6, 0.0),
        (150, 16),
    ),
    room(
        "doorway recess as entry",
        "recess",
        walls(1.2, -0.2, 0.9, 0.2, 2.4, 3.4, -4.5),
        (1.65, -0.2),
        (150, 16),
    ),
    room("chimney breast", "niche", walls(4.9, 3.7, -1.7, -0.4, -1.3, 0.4, -1.9), (0.0, 0.6), (150, 16)),
    room(
        "pilasters",
        "niche",
        walls(1.9, 0.2, 0.3, -0.2, 2.1, 0.2, 0.3, -0.2, 1.6, 3.9, -6.2),
        (6.2, 2.0),
        (150, 17),
    ),
    room("small jogs", "niche", walls(4.3, 2.1, -0.04, 1.5, -2.0, -0.03, -2.26), (1.0, 0.0), (150, 16)),
)
