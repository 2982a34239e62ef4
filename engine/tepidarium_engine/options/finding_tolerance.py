"""How much more heat rooms may need before a finding of the design changes: the house designed again with each rise.

The rise is halved between two at which the house is decided or found otherwise. Between two rises with the same
decisions and the same findings every figure is taken to go one way, so that no finding comes and goes unseen.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from ..building.drawn_house import Draughtsman
from ..building.floors import RoomToHeat
from ..building.house import House
from ..building.sensitivity_records import FindingTolerance, ToleranceChange
from ..building.siting import SitedHouse
from ..building.whole_design import WholeDesign, whole_design
from ..errors import InputError
from ..gathering import gathered
from ..results import Finding

__all__ = ["GREATEST_RISE", "finding_tolerances"]

GREATEST_RISE = 1.0
"""Rises are looked at so far [1]."""
_STEPS = (0.01, 0.1, GREATEST_RISE)
_FINE = 1e-3
"""How exactly the rise is known [1]."""

_Found = dict[tuple[str, str, str], Finding]
"""By code, severity and subject."""


@dataclass(frozen=True)
class _Risen:
    """The house with demands that rose so much; ``None`` where it cannot be computed."""

    rise: float
    design: WholeDesign | None

    @cached_property
    def decisions(self) -> tuple[object, ...]:
        if self.design is None:
            return ()
        supply, divided = self.design.solved.supply, self.design.solved.divided
        return (
            supply.governing.index,
            tuple(room.index for room in supply.left_out),
            *((room.point.choice.pipe_spacing, len(room.loops.circuits), room.manifold) for room in divided),
        )

    @cached_property
    def findings(self) -> _Found:
        if self.design is None:
            return {}
        return {
            (finding.code, finding.severity, place.subject): finding
            for finding in gathered(self.design.findings, self.design.inputs)
            for place in finding.places
        }

    def like(self, other: _Risen) -> bool:
        return self.decisions == other.decisions and self.found_like(other)

    def found_like(self, other: _Risen) -> bool:
        computed = (self.design is None) == (other.design is None)
        return computed and self.findings.keys() == other.findings.keys()


def finding_tolerances(house: House) -> Iterator[FindingTolerance]:
    """Of all rooms together, then of each room alone, in their order."""
    before = _Risen(0.0, _designed(house, None, 0.0))
    for room in (None, *house.rooms):
        yield _tolerance(house, room, before)


def _tolerance(house: House, room: RoomToHeat | None, before: _Risen) -> FindingTolerance:
    changed = _first_change(lambda rise: _Risen(rise, _designed(house, room, rise)), before)
    return FindingTolerance(
        room="" if room is None else room.room.id,
        name="" if room is None else room.room.name,
        tolerable_rise=None if changed is None else changed[0].rise,
        changes=() if changed is None else tuple(_changes(before.findings, changed[1].findings)),
    )


def _first_change(risen: Callable[[float], _Risen], before: _Risen) -> tuple[_Risen, _Risen] | None:
    """The greatest rise with the findings of before, and one just above it; None where none of them changes."""
    low = before
    for rise in _STEPS:
        high = risen(rise)
        found = _between(risen, low, high)
        if found is not None:
            return found
        low = high
    return None


def _between(risen: Callable[[float], _Risen], low: _Risen, high: _Risen) -> tuple[_Risen, _Risen] | None:
    """The same between two rises, of which the lower has the findings of before."""
    if low.like(high):
        return None
    if high.rise - low.rise <= _FINE:
        return None if low.found_like(high) else (low, high)
    middle = risen(0.5 * (low.rise + high.rise))
    return _between(risen, low, middle) or _between(risen, middle, high)


def _designed(house: House, room: RoomToHeat | None, rise: float) -> WholeDesign | None:
    rooms = tuple(
        replace(own, heat_demand=own.heat_demand * (1.0 + rise))
        if room is None or own.index == room.index
        else own
        for own in house.rooms
    )
    risen = replace(house, rooms=rooms)
    try:
        return whole_design(SitedHouse(risen, frozenset(), len(house.manifolds), Draughtsman(risen, map)))
    except InputError:
        return None


def _changes(before: _Found, after: _Found) -> Iterator[ToleranceChange]:
    """What is new, then what is gone."""
    for (code, _, subject), finding in after.items():
        if (code, finding.severity, subject) not in before:
            yield ToleranceChange(code, "new", finding.severity, subject, finding.message)
    for (code, _, subject), finding in before.items():
        if (code, finding.severity, subject) not in after:
            yield ToleranceChange(code, "gone", finding.severity, subject, finding.message)
