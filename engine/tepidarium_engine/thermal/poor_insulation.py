"""Floors with less insulation than EN 1264-4 asks for, for which EN 1264-2 promises more heat than they give.

The characteristic curve of the standard knows nothing of what lies below the pipes: it was measured on floors with
the insulation of EN 1264-4. With less the pipes warm what is below, and the solved section tells how much is left.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..practice.insulation_requirements import resistance_over_temperature
from ..results import Finding
from .floor import FloorSection
from .heated_room import HeatedRoom
from .section_output import section_output

__all__ = ["CLEARLY_MORE", "insulation_is_poor", "promises_too_much", "section_gives_less"]

CLEARLY_MORE = 1.1
"""Standard over section; within the tables and with good insulation they lie up to about a tenth apart."""


def insulation_is_poor(floor: FloorSection, temperature_below: float) -> bool:
    """Whether all below the pipes resists less than EN 1264-4, Table 1, asks of the insulation alone."""
    return floor.resistance_below < resistance_over_temperature(temperature_below)


def promises_too_much(by_standard: float, by_section: float) -> bool:
    """Whether the standard gives clearly more heat than the section [W/m2]."""
    return by_standard > CLEARLY_MORE * by_section


def section_gives_less(room: HeatedRoom, mean_excess: float, pointer: str) -> Iterator[Finding]:
    """A room whose floor, with water of a ``mean_excess`` [K] over the room, would give its demand by the standard and
    does not by the section; ``pointer`` leads to the resistance below."""
    if not insulation_is_poor(room.floor, room.temperature_below):
        return
    solved = section_output(
        room.floor,
        room.room_temperature,
        mean_excess,
        room.temperature_below,
        room.surface_temperature_limit,
    ).heat_output
    demand = room.required_heat_output
    if promises_too_much(demand, solved):
        yield Finding.at(
            "section_gives_less",
            pointer,
            value=solved,
            limit=demand,
            source="steady heat conduction in the section; EN 1264-4, Table 1",
            quantity="heat_output",
        )
