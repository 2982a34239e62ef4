"""The whole building: rooms, sources, manifolds and limits of a design."""

from __future__ import annotations

from .entries import Entry

BUILDING: dict[str, Entry] = {}
