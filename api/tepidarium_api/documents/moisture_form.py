"""The record of measured moisture: each reading beside its limit, the judgement, and room to sign it."""

from __future__ import annotations

from tepidarium_engine.moisture_reading import (
    JudgedReading,
    Method,
    MoistureReadingInputs,
    MoistureReadingResult,
)
from tepidarium_engine.practice.coverings import COVERING_NAMES

from .parts import Chapter, Column, Fields, Quantity, Table

__all__ = ["limit_table", "moisture_chapter", "reading_table"]

_METHODS: dict[Method, str] = {"carbide": "carbide", "relative_humidity": "relative humidity"}
_TO_FILL_IN = (
    "Measured with: instrument, number, last calibration",
    "Heating off since",
    "Measured by, name and signature",
    "Client or site manager, name and signature",
    "Place and date",
)


def moisture_chapter(inputs: MoistureReadingInputs, result: MoistureReadingResult) -> Chapter:
    """The record as it is signed: what was measured on, the judgement, the readings, the limits of other rules."""
    given = (
        ("Screed", f"{inputs.binder.replace('_', ' ')}, {'heated' if inputs.heated else 'not heated'}"),
        ("Covering", COVERING_NAMES[inputs.covering]),
        ("Area [m²]", "" if inputs.area is None else f"{inputs.area:.2f}"),
        ("Points measured, and needed", f"{len(result.readings)}, {_needed(result.points_needed)}"),
        (
            "Days that the heating was off",
            "" if inputs.heating_off_days is None else f"{inputs.heating_off_days}",
        ),
        ("Judgement", _judgement(result)),
    )
    blank = tuple((label, "") for label in _TO_FILL_IN)
    rows = (("Project", ""), ("Part of the building", ""), *given, *blank)
    found = reading_table(inputs, result).with_columns(
        (Column("Depth [mm]", width=0.8), Column("Date", width=1.1))
    )
    return Chapter("Record: measured moisture", (Fields("", rows, True), found, limit_table(result)))


def reading_table(inputs: MoistureReadingInputs, result: MoistureReadingResult) -> Table:
    """One row for each reading, with what it was judged by."""
    columns = (
        Column("Number", 0, 0.7),
        Column("Point", width=1.4),
        Column("Method", width=1.2),
        Column("Reading", 2, 1.1),
        Column("At most", 2, 1.1),
        Column("Covering", width=1.3),
        Column("Judgement", width=1.0),
    )
    rows = (
        (
            number,
            own.point,
            _METHODS[own.method],
            _moisture(own.method, own.moisture),
            _moisture(own.method, own.highest),
            COVERING_NAMES[inputs.covering],
            _verdict(own),
        )
        for number, own in enumerate(result.readings, start=1)
    )
    return Table("Readings", columns, tuple(rows))


def limit_table(result: MoistureReadingResult) -> Table:
    """What several rules allow, and which of them the readings were judged by."""
    columns = (Column("Method", width=1.2), Column("At most", 2, 1.0), Column("Judged by it", width=0.8))
    rows = (
        (
            _METHODS[own.method],
            _moisture(own.method, own.moisture),
            "yes" if own.applied else "no",
            own.source,
        )
        for own in result.limits
    )
    return Table("Limits of several rules", (*columns, Column("Source", width=3.6)), tuple(rows))


def _moisture(method: Method, moisture: float) -> Quantity:
    return Quantity(moisture * 100.0, "CM-%" if method == "carbide" else "% r.h.", 2)


def _verdict(reading: JudgedReading) -> str:
    return "dry enough" if reading.passed else "too moist"


def _judgement(result: MoistureReadingResult) -> str:
    if result.passed:
        return "Dry enough to be covered" + (", but see the findings" if result.findings else "")
    moist = sum(not own.passed for own in result.readings)
    reasons = [f"{moist} of {len(result.readings)} points too moist"] if moist else []
    if result.points_needed is not None and len(result.readings) < result.points_needed:
        reasons.append("points are missing")
    return f"Do not cover: {', '.join(reasons)}"


def _needed(points: int | None) -> str:
    return "not known without the area" if points is None else f"{points}"
