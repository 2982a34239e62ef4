"""Outlines, lengths and areas."""

from __future__ import annotations

from .entries import Entry, Items, Number

GEOMETRY: dict[str, Entry] = {
    "coordinate": Number("m", -2e6, 2e6, "Coordinate"),
    "point": Items("x and y [m]", 2, 2, of="coordinate"),
    "outline": Items("Corners of the outline in order, without repeating the first [m]", 3, 256),
    "ring": Items("Corners of a closed ring in order, without repeating the first [m]", 3, 256),
    "voids": Items("Rings of areas that stay free of pipe [m]", 0, 32, of="ring"),
    "area": Number("m2", 0.05, 10_000.0, "Floor area"),
}
