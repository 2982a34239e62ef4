"""Every code of a refusal: what it means and what to do. The fault itself adds the field, the numbers and the place."""

from __future__ import annotations

from typing import NamedTuple

from ..findings.undrawn import GUARDS, NO_DIVISION, NO_ROUTE, REASONS
from . import of_fields, of_physics, of_places

__all__ = ["REFUSALS", "RefusalKind"]


class RefusalKind(NamedTuple):
    """``guard``: the engine watches over its own work; no request is known that makes it refuse so."""

    meaning: str
    remedy: str
    guard: bool = False


_GUARDS = {"invalid", "geometry_failed"}
_NO_PIPE = {"no_route_": NO_ROUTE, "no_division_": NO_DIVISION}
"""Beginnings of the codes of rooms in which no pipe could be laid, and how they can end."""

REFUSALS: dict[str, RefusalKind] = {
    **{
        code: RefusalKind(*words, guard=code in _GUARDS)
        for table in (of_fields.WORDS, of_places.WORDS, of_physics.WORDS)
        for code, words in table.items()
    },
    **{
        beginning + reason: RefusalKind(*REASONS[reason], guard=beginning + reason in GUARDS)
        for beginning, reasons in _NO_PIPE.items()
        for reason in reasons
    },
}
"""By code."""
