"""What is said about a pipe's length and place when it can be computed but should be looked at."""

from __future__ import annotations

from typing import NamedTuple

from ...results import Finding, Severity

__all__ = ["loop_finding"]


class _Kind(NamedTuple):
    severity: Severity
    where: str
    quantity: str
    message: str
    source: str | None = None
    """None: that of the rule for the pipe's size."""


_KINDS = {
    "divided": _Kind(
        "note",
        "/maximum_circuit_length",
        "total_length",
        "One circuit would be too long. The field is divided into equal circuits.",
    ),
    "long_circuit": _Kind(
        "warning",
        "/maximum_circuit_length",
        "total_length",
        "Circuits are longer than usual for this pipe size and may lose too much pressure. Check their pressure "
        "drop, or divide them.",
    ),
    "too_long_circuit": _Kind(
        "violation",
        "/maximum_circuit_length",
        "total_length",
        "Circuits are too long for this pipe size. Divide them.",
    ),
    "unusual_spacing": _Kind(
        "note",
        "/pipe_spacing",
        "pipe_spacing",
        "The pipe spacing is outside the usual 50 to 300 mm. Check it.",
        "Common practice, no source",
    ),
    "u_turn_too_tight": _Kind(
        "note",
        "/pipe_spacing",
        "pipe_spacing",
        "A plain U-turn of a serpentine needs twice the bend radius as spacing. Lay a counterflow, or widen the turns.",
        "Geometry; a bend radius of five outside diameters is common practice, the maker's sheet decides",
    ),
    "close_to_wall": _Kind(
        "violation",
        "/wall_clearance",
        "clear_distance",
        "The pipe lies too close to walls and other upright parts. Enlarge the clearance.",
        "EN 1264-4, distance to vertical structures",
    ),
    "narrow_room": _Kind(
        "warning",
        "/outline",
        "pipe_side_distance",
        "The room is so narrow that flow and return lie closer than the spacing. Choose a closer spacing.",
        "Geometry",
    ),
    "not_drawn": _Kind(
        "note",
        "/outline",
        "field_length",
        "No single route could be laid in this outline, so its length follows from the area. Ask for its route to "
        "learn why.",
        "Geometry",
    ),
    "fixings_far_apart": _Kind(
        "warning",
        "/fixing_distance",
        "fixing_distance",
        "Fixings lie too far apart, so the pipe can rise in the screed. Fix it at least every 500 mm.",
        "EN 1264-4:2001, fixing of pipes",
    ),
}


def loop_finding(code: str, value: float, bound: float | None, length_source: str) -> Finding:
    """The finding ``code``; those about lengths take the source of the pipe's length rule."""
    kind = _KINDS[code]
    return Finding.at(
        code,
        kind.severity,
        kind.where,
        kind.message,
        value=value,
        limit=bound,
        source=kind.source or length_source,
        quantity=kind.quantity,
    )
