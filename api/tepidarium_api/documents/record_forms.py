"""The records of commissioning as forms: design values printed, room for what is found on site."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from tepidarium_engine.commissioning import CommissioningResult, FormField, RecordForm

from ..renderings.stages import settable
from .parts import Chapter, Column, Fields, Listed, Table, Value

__all__ = [
    "balancing_table",
    "flushing_table",
    "heat_up_table",
    "leak_test_table",
    "moisture_table",
    "record_chapters",
]

_UNITS: dict[str, tuple[str, float, int]] = {
    "Pa": ("bar", 1e-5, 2),
    "Pa/K": ("bar/K", 1e-5, 2),
    "m3": ("l", 1e3, 1),
    "m3/s": ("l/min", 6e4, 2),
    "s": ("h", 1.0 / 3600.0, 1),
    "m": ("mm", 1e3, 0),
    "degC": ("°C", 1.0, 1),
    "S/m": ("µS/cm", 1e4, 0),
    "mol/m3": ("mol/m³", 1.0, 2),
    "1": ("", 1.0, 0),
    "": ("", 1.0, 2),
}
"""SI unit of a field -> as it is read on site, factor, decimals."""


def leak_test_table(result: CommissioningResult) -> Table:
    columns = (Column("After h", 1, 0.7), Column("What to do", width=4.0), Column("Gauge bar", 1, 0.9))
    rows = ((step.after / 3600.0, step.action, step.pressure * 1e-5) for step in result.leak_test.steps)
    return Table("Steps", columns, tuple(rows))


def flushing_table(result: CommissioningResult) -> Table:
    columns = (
        Column("Manifold", width=1.1),
        Column("Port", width=0.7),
        Column("Circuit", width=1.6),
        Column("Flow l/min", 1),
        Column("Minutes", 1),
        Column("Water l", 0),
        Column("Pressure bar", 2, 1.1),
    )
    rows = (
        (
            row.manifold,
            None if row.port is None else str(row.port),
            row.circuit,
            row.volume_flow * 6e4,
            row.flushing_time / 60.0,
            row.water_volume * 1e3,
            row.pressure_drop * 1e-5,
        )
        for row in result.flushing
    )
    return Table("Circuit by circuit", columns, tuple(rows))


def balancing_table(result: CommissioningResult) -> Table:
    columns = (
        Column("Manifold"),
        Column("Port", width=0.7),
        Column("Circuit", width=1.6),
        Column("Room", width=2.2),
        Column("Flow l/min", 2, 1.1),
        Column("Setting", 2),
    )
    rows = (
        (
            row.manifold,
            None if row.port is None else str(row.port),
            row.circuit,
            row.room,
            None if row.volume_flow is None else row.volume_flow * 6e4,
            row.valve_setting,
        )
        for row in result.balancing
    )
    return Table("Circuit by circuit", columns, tuple(rows))


def heat_up_table(result: CommissioningResult) -> Table:
    columns = (
        Column("Date", width=1.2),
        Column("Day", 0, 0.6),
        Column("Stage", width=1.5),
        Column("Supply to set °C", 0, 1.2),
    )
    rows = (
        (row.date, row.day, row.stage.replace("_", " "), settable(row.supply_temperature))
        for row in result.heat_up_log
    )
    return Table("Day by day", columns, tuple(rows))


def moisture_table(result: CommissioningResult) -> Table:
    columns = (
        Column("Screed", width=1.2),
        Column("Room", width=2.2),
        Column("Point", width=0.7),
        Column("Limit CM-%", 1),
        Column("Limit % r.h.", 0, 1.1),
    )
    rows = (
        (
            row.screed,
            row.room,
            str(row.point_number),
            row.carbide_moisture * 100.0,
            row.relative_humidity * 100.0,
        )
        for row in result.moisture_points
    )
    return Table("Point by point", columns, tuple(rows))


_TABLES: dict[str, Callable[[CommissioningResult], Table]] = {
    "leak_test.steps": leak_test_table,
    "flushing": flushing_table,
    "balancing": balancing_table,
    "heat_up_log": heat_up_table,
    "moisture_points": moisture_table,
}
"""Name of the list of a form -> its table."""


def record_chapters(result: CommissioningResult) -> Iterator[Chapter]:
    """One chapter for each record, in the order in which they are needed."""
    for form in result.forms:
        fields = Fields("", tuple((_label(own), _value(own)) for own in form.fields), True)
        parts: list[Any] = [fields]
        if form.table in _TABLES:
            added = (Column(_label(own), width=1.2) for own in form.columns)
            parts.append(_TABLES[form.table](result).with_columns(added))
        if form.code == "leak_test":
            parts.append(_editions(result))
        if form.code == "flushing":
            parts.append(_filling(result))
        parts.append(Listed("", (("Basis", form.basis),), True))
        yield Chapter(f"Record: {_lower(form)}", tuple(parts))


def _lower(form: RecordForm) -> str:
    return form.title[0].lower() + form.title[1:]


def _editions(result: CommissioningResult) -> Table:
    columns = (
        Column("Text", width=1.4),
        Column("Medium", width=0.8),
        Column("Least bar", 1, 0.8),
        Column("Most bar", 1, 0.8),
        Column("Hours", 1, 0.7),
        Column("Note", width=3.4),
    )
    rows = (
        (
            own.edition,
            own.medium,
            own.lowest_pressure * 1e-5,
            own.highest_pressure * 1e-5,
            None if own.duration is None else own.duration / 3600.0,
            own.note,
        )
        for own in result.leak_test.editions
    )
    return Table("What the texts ask for", columns, tuple(rows))


def _filling(result: CommissioningResult) -> Listed:
    return Listed("Order of filling", tuple((f"{own.number}", own.action) for own in result.filling.steps))


def _label(own: FormField) -> str:
    unit = _UNITS.get(own.unit, (own.unit, 1.0, 2))[0]
    return f"{own.label} [{unit}]" if unit else own.label


def _value(own: FormField) -> str:
    if own.design_value is None:
        return own.design_text
    _, factor, decimals = _UNITS.get(own.unit, (own.unit, 1.0, 2))
    number: Value = f"{own.design_value * factor:.{decimals}f}"
    return f"{number} {own.design_text}".strip()
