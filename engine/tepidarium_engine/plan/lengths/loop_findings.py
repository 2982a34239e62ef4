"""What is said about a pipe's length and place when it can be computed but should be looked at."""

from __future__ import annotations

from typing import NamedTuple

from ...results import Finding

__all__ = ["loop_finding"]


class _Kind(NamedTuple):
    where: str
    quantity: str
    source: str | None = None
    """None: that of the rule for the pipe's size."""


_KINDS = {
    "divided": _Kind("/maximum_circuit_length", "total_length"),
    "long_circuit": _Kind("/maximum_circuit_length", "total_length"),
    "too_long_circuit": _Kind("/maximum_circuit_length", "total_length"),
    "unusual_spacing": _Kind("/pipe_spacing", "pipe_spacing", "Common practice, no source"),
    "u_turn_too_tight": _Kind(
        "/pipe_spacing",
        "pipe_spacing",
        "Geometry; a bend radius of five outside diameters is common practice, the maker's sheet decides",
    ),
    "close_to_wall": _Kind("/wall_clearance", "clear_distance", "EN 1264-4, distance to vertical structures"),
    "narrow_room": _Kind("/outline", "pipe_side_distance", "Geometry"),
    "not_drawn": _Kind("/outline", "field_length", "Geometry"),
    "fixings_far_apart": _Kind("/fixing_distance", "fixing_distance", "EN 1264-4:2001, fixing of pipes"),
}


def loop_finding(code: str, value: float, bound: float | None, length_source: str) -> Finding:
    """The finding ``code``; those about lengths take the source of the pipe's length rule."""
    kind = _KINDS[code]
    return Finding.at(
        code,
        kind.where,
        value=value,
        limit=bound,
        source=kind.source or length_source,
        quantity=kind.quantity,
    )
