"""What has changed from a former design, as tables for the fitter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tepidarium_engine.designs import DesignChange, DesignComparison

from .parts import Chapter, Column, Listed, Table

__all__ = ["comparison_chapter", "comparison_table"]

_COLUMNS = (
    Column("Where", width=2.0),
    Column("What", width=2.0),
    Column("Before", width=1.4),
    Column("Now", width=1.4),
    Column("Why", width=4.0),
)
_ASKED = "As asked for."
_INSIDE = ("/rooms/", "/circuits/")
_KINDS = {"new": "New", "gone": "Gone", "severity": "Changed", "places": "Other places"}


def comparison_chapter(comparison: DesignComparison) -> Chapter:
    """Decisions, with the figures of the house, its order and its dates. Those of rooms and circuits stand in the
    schedules and, beside the former ones, in the workbook."""
    figures = (own for own in comparison.figures if not own.where.startswith(_INSIDE))
    rows = (*_rows(comparison.asked, _ASKED), *_rows(comparison.decisions), *_rows(figures))
    if not rows and not comparison.findings:
        return Chapter("What has changed", (Listed("", (("-", "Nothing has changed."),)),))
    parts: list[Table | Listed] = [Table("Beside the former design", _COLUMNS, rows)] if rows else []
    if comparison.findings:
        items = tuple(
            (_KINDS[own.change], own.message + (f" ({', '.join(own.subjects)})" if own.subjects else ""))
            for own in comparison.findings
        )
        parts.append(Listed("Findings that have changed", items, True))
    return Chapter("What has changed", tuple(parts))


def comparison_table(comparison: DesignComparison) -> Table:
    """Everything that has changed, for a workbook."""
    rows = (*_rows(comparison.asked, _ASKED), *_rows(comparison.decisions), *_rows(comparison.figures))
    return Table("What has changed", _COLUMNS, rows)


def _rows(changes: Iterable[DesignChange], why: str = "") -> Iterator[tuple[str, ...]]:
    for own in changes:
        yield own.subject, own.what, own.text_before, own.text_after, own.because or why
