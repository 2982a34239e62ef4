"""Measured moisture of a screed, judged against the limit of its covering and of the method.

Sources: interface guides of the heating and covering trades, DIN 18560-1 and SIA 253 (carbide method), BS 8203 and
BS 8201 (equilibrium relative humidity).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

from .cautions import MOISTURE
from .checking import check
from .errors import FaultList
from .gathering import gathered
from .glossary import named
from .practice.coverings import COVERING_NAMES, Covering, moisture_test_points
from .practice.screed import Binder
from .results import Caution, Finding, Working
from .site_work.moisture_limits import CARBIDE_RULES, MoistureRule, humidity_limit

__all__ = [
    "JudgedReading",
    "Method",
    "MoistureLimitRow",
    "MoistureReadingInputs",
    "MoistureReadingResult",
    "Reading",
    "calculate",
    "workings",
]

Method = Literal["carbide", "relative_humidity"]

_HEATING_OFF = 4
"""Days that the heating is off before humidity is measured (BS 8203)."""
_CLOSE = 0.9
"""Share of the limit from which a reading is close to it: site instruments are not more exact (common practice)."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One measurement at ``point``: either ``carbide_moisture`` [kg/kg] (1.8 CM-% is 0.018) or ``relative_humidity``
    [1]."""

    carbide_moisture: float | None = field(default=None, metadata=named("measured_carbide_moisture"))
    relative_humidity: float | None = None
    point: str = field(default="", metadata=named("test_point"))


@dataclass(frozen=True, slots=True)
class MoistureReadingInputs:
    """Readings of one floor. ``rule`` says whose limits of the carbide method hold. ``area`` [m2] of the floor tells
    how many points are needed. ``heating_off_days`` [d] before the measurement, if known."""

    binder: Binder
    covering: Covering
    readings: tuple[Reading, ...] = field(metadata=named("moisture_readings"))
    heated: bool = field(default=True, metadata=named("heated_screed"))
    rule: MoistureRule = field(default="trade_associations", metadata=named("moisture_rule"))
    area: float | None = None
    heating_off_days: int | None = None


@dataclass(frozen=True, slots=True)
class MoistureLimitRow:
    """A limit [kg/kg] or [1] of one rule, for comparison; ``applied``: readings are judged by it."""

    rule: str = field(metadata=named("moisture_rule_name"))
    method: Method = field(metadata=named("moisture_method"))
    moisture: float = field(metadata=named("measured_moisture"))
    applied: bool
    source: str


@dataclass(frozen=True, slots=True)
class JudgedReading:
    """A reading and its limit, both [kg/kg] or both [1] by its method; ``margin`` is what is left."""

    point: str = field(metadata=named("test_point"))
    method: Method = field(metadata=named("moisture_method"))
    moisture: float = field(metadata=named("measured_moisture"))
    highest: float = field(metadata=named("measured_moisture"))
    margin: float = field(metadata=named("moisture_margin"))
    passed: bool


@dataclass(frozen=True, slots=True)
class MoistureReadingResult:
    """``passed`` only if every reading is at or below its limit and no point is missing."""

    passed: bool
    readings: tuple[JudgedReading, ...] = field(metadata=named("judged_readings"))
    limits: tuple[MoistureLimitRow, ...] = field(metadata=named("moisture_limits"))
    points_needed: int | None
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]


def calculate(inputs: MoistureReadingInputs) -> MoistureReadingResult:
    """The verdict on every reading.

    Raises ``InputError`` for a reading with both or neither of the two methods.
    """
    check(inputs)
    _check_relations(inputs)
    readings = tuple(_judged(inputs, reading) for reading in inputs.readings)
    needed = None if inputs.area is None else moisture_test_points(inputs.area)
    enough = needed is None or len(readings) >= needed
    return MoistureReadingResult(
        passed=enough and all(reading.passed for reading in readings),
        readings=readings,
        limits=tuple(_limits(inputs)),
        points_needed=needed,
        findings=gathered(_findings(inputs, readings, needed), inputs),
        cautions=MOISTURE,
    )


def _check_relations(inputs: MoistureReadingInputs) -> None:
    faults = FaultList()
    for number, reading in enumerate(inputs.readings):
        missing = reading.carbide_moisture is None
        faults.require(
            missing != (reading.relative_humidity is None),
            f"/readings/{number}/{'carbide_moisture' if missing else 'relative_humidity'}",
            "one_of",
            "give either carbide_moisture or relative_humidity, exactly one of the two",
        )
    faults.raise_if_any()


def _judged(inputs: MoistureReadingInputs, reading: Reading) -> JudgedReading:
    if reading.carbide_moisture is not None:
        method: Method = "carbide"
        found, limit = (
            reading.carbide_moisture,
            CARBIDE_RULES[inputs.rule].limit(inputs.binder, inputs.heated),
        )
    else:
        method, found, limit = (
            "relative_humidity",
            reading.relative_humidity or 0.0,
            humidity_limit(inputs.covering)[0],
        )
    return JudgedReading(reading.point, method, found, limit, limit - found, found <= limit)


def _limits(inputs: MoistureReadingInputs) -> Iterator[MoistureLimitRow]:
    for name, rule in CARBIDE_RULES.items():
        limit = rule.limit(inputs.binder, inputs.heated)
        yield MoistureLimitRow(name, "carbide", limit, name == inputs.rule, rule.source)
    humidity, source = humidity_limit(inputs.covering)
    yield MoistureLimitRow(
        source.split(",")[0].replace(" ", "_"), "relative_humidity", humidity, True, source
    )


def _findings(
    inputs: MoistureReadingInputs, readings: tuple[JudgedReading, ...], needed: int | None
) -> Iterator[Finding]:
    for number, reading in enumerate(readings):
        carbide = reading.method == "carbide"
        quantity = "measured_carbide_moisture" if carbide else "relative_humidity"
        source = CARBIDE_RULES[inputs.rule].source if carbide else humidity_limit(inputs.covering)[1]
        if not reading.passed or reading.moisture > _CLOSE * reading.highest:
            yield Finding.at(
                "moisture_close_to_limit" if reading.passed else "too_moist",
                f"/readings/{number}",
                value=reading.moisture,
                limit=None if reading.passed else reading.highest,
                quantity=quantity,
                source=source,
                subject=reading.point,
                detail=COVERING_NAMES[inputs.covering],
            )
    if needed is not None and len(readings) < needed:
        yield Finding.at(
            "too_few_test_points",
            "/readings",
            value=float(len(readings)),
            limit=float(needed),
            quantity="points_needed",
            source="Interface guides of the heating and covering trades",
        )
    off, humid = inputs.heating_off_days, any(reading.method == "relative_humidity" for reading in readings)
    if inputs.heated and humid and off is not None and off < _HEATING_OFF:
        yield Finding.at(
            "heating_not_off",
            "/heating_off_days",
            value=float(off),
            limit=float(_HEATING_OFF),
            quantity="heating_off_days",
            source="BS 8203",
        )


def workings(inputs: MoistureReadingInputs, result: MoistureReadingResult) -> tuple[Working, ...]:
    """Each reading beside its limit."""
    steps = []
    for number, reading in enumerate(result.readings, start=1):
        carbide = reading.method == "carbide"
        unit = "kg/kg" if carbide else "1"
        source = CARBIDE_RULES[inputs.rule].source if carbide else humidity_limit(inputs.covering)[1]
        steps += [
            Working(
                f"m_{number}", f"reading {reading.point or number}", reading.moisture, unit, "given", "Input"
            ),
            Working(
                f"l_{number}", "its limit", reading.highest, unit, "by binder, covering and method", source
            ),
        ]
    return tuple(steps)
