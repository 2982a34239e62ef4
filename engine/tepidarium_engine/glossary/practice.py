"""Screed, dates, materials and site practice."""

from __future__ import annotations

from .entries import Entry

PRACTICE: dict[str, Entry] = {}
