"""The smallest change with which a refused room can be laid: found by laying it with one change after the other.

A bound on the floor that is laid, not on time, ends the search, so that the same request gets the same advice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

import shapely

from ...errors import Fault, InputError
from .route_changes import PLACE, Change, changes_for
from .route_records import RoutesInputs

__all__ = ["with_remedy"]

_MOST_WORK = 6_000.0
"""Of all trials, in squares of floor as wide as the spacing that are laid in the same time: about a second."""
_ROOM_WORK, _DIVISION_WORK = 2_000.0, 1_500.0
"""What a trial costs however small the room is; a room that is divided costs its floor twice."""
_NO_WAY = 0.25
"""Share of its work that a trial takes in which tails find no way: mostly no pipe was laid."""
_FEW_CORNERS = 12
"""Each corner of room and voids beyond so many costs a serpentine its floor once more, as its combs fall into many
pieces. Of 14 such trials with 46 to 70 corners two helped, and 8 took 5 to 14 seconds."""


class _Trials:
    """Lays changed requests, as far as the bound goes."""

    def __init__(
        self, inputs: RoutesInputs, fault_of: Callable[[RoutesInputs], Fault | None], *, divided: bool
    ) -> None:
        self._area = float(shapely.area(shapely.Polygon(inputs.outline)))
        self._corners = sum(map(len, (inputs.outline, *inputs.voids)))
        self._fault_of, self._left = fault_of, _MOST_WORK
        self._least, self._times = (_DIVISION_WORK, 2.0) if divided else (_ROOM_WORK, 1.0)

    def helps(self, change: Change) -> bool:
        times = self._times
        if change.inputs.pattern == "serpentine":
            times += max(0, self._corners - _FEW_CORNERS)
        work = self._least + times * self._area / change.inputs.pipe_spacing**2
        if self._left <= 0.0 or self._left - work <= -_MOST_WORK / 2.0:
            self._left = 0.0
            return False
        fault = self._fault_of(change.inputs)
        no_way = fault is not None and fault.code == "no_division_no_way_for_tails"
        self._left -= work * (_NO_WAY if no_way else 1.0)
        return fault is None

    def first(self, changes: Iterable[Change], *, monotone: bool) -> Change | None:
        """The first that helps; where the last helps if any does, it is tried before the others."""
        if not monotone:
            return next(filter(self.helps, changes), None)
        smaller = list(changes)
        if not smaller or not self.helps(largest := smaller.pop()):
            return None
        return next(filter(self.helps, smaller), largest)


def with_remedy(
    error: InputError, inputs: RoutesInputs, fault_of: Callable[[RoutesInputs], Fault | None]
) -> InputError:
    """The refusal with the first change that leaves the request without a fault, as ``fault_of`` tells; as it was where
    there is none within the bound.

    A refusal tells what is in the way, then after its last colon what to do.
    """
    fault = error.faults[0]
    trials = _Trials(inputs, fault_of, divided=fault.code.startswith("no_division"))
    for changes, monotone in changes_for(fault, inputs):
        found = trials.first(changes, monotone=monotone)
        if found is not None:
            return InputError(_told(fault, found), *error.faults[1:])
    return error


def _told(fault: Fault, change: Change) -> Fault:
    what, _, _ = fault.detail.rpartition(": ")
    place = PLACE.search(fault.detail)
    where = place[0] if place and place[0] not in what else ""
    return replace(fault, detail=f"{what or fault.detail}{where}: it can be laid with {change.words}")
