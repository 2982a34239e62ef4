"""Fluid, friction, balancing, pump and expansion."""

from __future__ import annotations

from .entries import Entry

WATER: dict[str, Entry] = {}
