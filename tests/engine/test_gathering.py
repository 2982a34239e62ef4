"""Findings as they are answered: one for each matter, every place once, in order, in the units of the trade."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from tepidarium_engine.cautions import (
    COILS,
    FLOOR,
    LAYING,
    MOISTURE,
    commissioning_cautions,
    once,
    order_cautions,
    water_cautions,
)
from tepidarium_engine.gathering import gathered, subject_of
from tepidarium_engine.results import Finding, Severity
from tepidarium_engine.trade_units import in_trade_units, value_and_limit


@dataclass(frozen=True)
class Wall:
    name: str = ""


@dataclass(frozen=True)
class Room:
    id: str
    name: str
    walls: tuple[Wall, ...] = ()


@dataclass(frozen=True)
class Plan:
    rooms: tuple[Room, ...]


PLAN = Plan((Room("k", "Kitchen", (Wall(), Wall("north"))), Room("hall", "")))


def at(
    code: str, severity: Severity, where: str, value: float | None = None, limit: float | None = None
) -> Finding:
    return Finding.at(code, where, severity=severity, value=value, limit=limit, quantity="total_length")


def test_one_matter_is_one_finding_with_the_worst_place_first() -> None:
    (one,) = gathered(
        [
            at("long_circuit", "warning", "/rooms/0", 104.0, 100.0),
            at("long_circuit", "warning", "/rooms/1", 130.0, 100.0),
            at("long_circuit", "warning", "/rooms/1", 104.0, 100.0),
        ],
        PLAN,
    )
    assert [(place.where, place.subject, place.value) for place in one.places] == [
        ("/rooms/1", "hall", 130.0),
        ("/rooms/0", "Kitchen", 104.0),
    ]
    assert (one.where, one.value, one.limit, one.unit) == ("/rooms/1", 130.0, 100.0, "m")


def test_the_worst_severity_counts_for_all_places() -> None:
    (one,) = gathered(
        [at("bare_spot", "note", "/rooms/0", 1.0), at("bare_spot", "warning", "/rooms/1", 1.0)], PLAN
    )
    assert one.severity == "warning"
    assert [place.where for place in one.places] == ["/rooms/1", "/rooms/0"]


def test_findings_come_by_severity_then_by_what_to_do_first() -> None:
    told = [
        at("drying_decides", "note", "/rooms/0"),
        at("velocity_low", "note", "/rooms/0"),
        at("below_meter_range", "warning", "/rooms/0"),
        at("heat_missing", "violation", "/rooms/0"),
        at("long_circuit", "warning", "/rooms/0"),
    ]
    assert [one.code for one in gathered(told, Plan(()))] == [
        "heat_missing",
        "long_circuit",
        "below_meter_range",
        "drying_decides",
    ]


def test_what_another_code_says_of_a_place_is_not_said_again() -> None:
    told = [
        at("velocity_low", "note", "/rooms/0"),
        at("velocity_low", "note", "/rooms/1"),
        at("below_meter_range", "warning", "/rooms/1"),
    ]
    places = {one.code: [place.subject for place in one.places] for one in gathered(told, PLAN)}
    assert places == {"below_meter_range": ["hall"], "velocity_low": ["Kitchen"]}
    milder = [at("supply_above_limit", "violation", "/s"), at("water_too_hot_for_screed", "warning", "/s")]
    assert len(gathered(milder, PLAN)) == 2


@pytest.mark.parametrize(
    ("pointer", "subject"),
    [
        ("/rooms/0", "Kitchen"),
        ("/rooms/1/name", "hall"),
        ("/rooms/0/walls/0", "Kitchen, wall 1"),
        ("/rooms/0/walls/1", "Kitchen, north"),
        ("/rooms/7", "room 8"),
        ("/rooms", ""),
        ("", ""),
    ],
)
def test_subjects_are_what_people_say(pointer: str, subject: str) -> None:
    assert subject_of(PLAN, pointer) == subject


@pytest.mark.parametrize(
    ("quantity", "value", "limit", "words"),
    [
        ("volume_flow", 4.1814e-06, 8.33333e-06, "0.25 l/min, at least 0.50 l/min"),
        ("total_length", 104.4, 100.0, "104.4 m, at most 100.0 m"),
        ("velocity", 0.2463, 0.25, "0.246 m/s, at least 0.250 m/s"),
        ("screed_cover", 0.044, 0.045, "44 mm, at least 45 mm"),
        ("pressure_drop_upper", 25_300.0, 20_000.0, "25.3 kPa, at most 20.0 kPa"),
        ("drying_days", 72.0, None, "72 days"),
        ("surface_temperature_limit", None, 27.0, "at most 27.0 °C"),
        ("concentration", 0.15, 0.2, "15 %, at least 20 %"),
        ("bare_area", 0.02, None, "0.02 m2"),
        ("joint_angle", 0.7853981633974483, 0.5235987755982988, "45 degrees, at most 30 degrees"),
        ("reynolds", 3268.2, 4000.0, "Reynolds number 3268, at least 4000"),
        ("heat_given", -0.2, None, "-0.2 W"),
        ("heat_given", None, None, ""),
    ],
)
def test_numbers_are_read_in_the_units_of_the_trade(
    quantity: str, value: float | None, limit: float | None, words: str
) -> None:
    assert value_and_limit(quantity, value, limit) == words


def test_a_number_needs_its_quantity() -> None:
    with pytest.raises(TypeError, match="quantity"):
        Finding.at("long_circuit", "/rooms/0", value=1.0)
    with pytest.raises(KeyError):
        in_trade_units("no_such_quantity", 1.0)


def test_cautions_are_short_and_said_once() -> None:
    said = once(
        (
            *water_cautions(glycol=False),
            *FLOOR,
            *LAYING,
            *COILS,
            *MOISTURE,
            *order_cautions(130.0, glycol=True),
            *commissioning_cautions(air=True, glycol=False),
            *water_cautions(glycol=True),
        )
    )
    assert said[0].code == "local_codes_decide"
    assert len({caution.code for caution in said}) == len(said)
    for caution in said:
        assert caution.message.count(". ") <= 1 and len(caution.message) <= 220, caution
