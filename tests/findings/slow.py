"""Kinds of findings whose known requests take seconds: ``tests/engine/test_guards.py`` plants them instead."""

from __future__ import annotations

__all__ = ["SLOW"]

SLOW = {"design_not_settled"}
