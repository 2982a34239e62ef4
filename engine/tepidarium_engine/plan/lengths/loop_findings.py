"""What is said about a pipe's length and place when it can be computed but should be looked at."""

from __future__ import annotations

from typing import NamedTuple

from ...results import Caution, Finding, Severity

__all__ = ["CHIMNEY_DISTANCE", "loop_finding"]


class _FindingText(NamedTuple):
    severity: Severity
    where: str
    message: str
    source: str | None


_FINDINGS = {
    "divided": _FindingText(
        "note",
        "/maximum_circuit_length",
        "One circuit would be too long; the field is divided into equal circuits.",
        None,
    ),
    "long_circuit": _FindingText(
        "warning",
        "/maximum_circuit_length",
        "Circuits are longer than usual for this pipe. Length stands for pressure drop: calculate it.",
        None,
    ),
    "too_long_circuit": _FindingText(
        "violation",
        "/maximum_circuit_length",
        "Circuits are longer than any of the sources allows for this pipe.",
        None,
    ),
    "unusual_spacing": _FindingText(
        "note", "/pipe_spacing", "Pipe spacing outside the usual 50 to 300 mm.", "Common practice, no source"
    ),
    "u_turn_too_tight": _FindingText(
        "note",
        "/pipe_spacing",
        "A plain U-turn of a serpentine needs twice the bend radius: lay a counterflow, whose bends are "
        "right-angled, or widen the turns.",
        "Geometry; a bend radius of five outside diameters is common practice, the maker's sheet decides",
    ),
    "close_to_wall": _FindingText(
        "violation",
        "/wall_clearance",
        "The outside of the pipe lies less than 50 mm from walls and other upright building parts.",
        "EN 1264-4, distance to vertical structures",
    ),
    "narrow_room": _FindingText(
        "warning",
        "/outline",
        "Even where the room is widest, flow and return lie closer together than the spacing.",
        "Geometry",
    ),
    "not_drawn": _FindingText(
        "note",
        "/outline",
        "No single route could be laid in this outline, so its length is reckoned from the area; ask routes, which "
        "says why.",
        "Geometry",
    ),
    "fixings_far_apart": _FindingText(
        "warning",
        "/fixing_distance",
        "Fixings lie further apart than 500 mm; the pipe can rise in the screed.",
        "EN 1264-4:2001, fixing of pipes",
    ),
}

_QUANTITIES = {
    "divided": "total_length",
    "long_circuit": "total_length",
    "too_long_circuit": "total_length",
    "unusual_spacing": "pipe_spacing",
    "u_turn_too_tight": "pipe_spacing",
    "close_to_wall": "clear_distance",
    "narrow_room": "pipe_side_distance",
    "not_drawn": "field_length",
    "fixings_far_apart": "fixing_distance",
}

CHIMNEY_DISTANCE = Caution(
    "chimney_distance",
    "Keep pipe at least 200 mm away from chimneys, open fireplaces, shafts and lift shafts (EN 1264-4). This "
    "calculation does not know where they stand: enlarge their voids accordingly. Local codes decide.",
)


def loop_finding(code: str, value: float, bound: float | None, length_source: str) -> Finding:
    """The finding ``code``; those about lengths take the source of the pipe's length rule."""
    text = _FINDINGS[code]
    source = text.source or length_source
    return Finding.at(
        code,
        text.severity,
        text.where,
        text.message,
        value=value,
        limit=bound,
        source=source,
        quantity=_QUANTITIES[code],
    )
