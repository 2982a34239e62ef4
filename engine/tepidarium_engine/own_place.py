"""A request computed near the origin, wherever its plan lies: what comes in is moved there, what goes out moved back.

A double holds a coordinate of a national grid (up to 2e7 m) to 4e-9 m, but a product of two of them only to a
centimetre. Near the origin the same room gives the same numbers, and so the same pipe, whatever its place.
"""

from __future__ import annotations

import re
import types
from collections.abc import Callable, Iterable
from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Annotated, Any, TypeVar, Union, get_args, get_origin, get_type_hints

import numpy as np
from shapely.errors import GEOSException

from .errors import Fault, InputError
from .places import FREE, PLACES, Point
from .plan.tolerances import GRID, stepped

__all__ = ["at_own_place", "lower_left", "moved", "on_grid"]

_Inputs = TypeVar("_Inputs")
_Result = TypeVar("_Result")
_Change = Callable[[Point], Point]
_Move = Callable[[Any, _Change], Any]

_WRITTEN = re.compile(r"\[(-?\d+\.(\d{2,3})), (-?\d+\.\d{2,3})\]")
"""A place as texts name it."""
_AS_SENT = frozenset({"outline", "voids", "path", "pieces"})
"""Rooms get a grid of their own after the checks; a pipe that is brought is judged as it is."""
_NOT_COMPUTED = (
    "leads to areas that could not be computed. Move a corner or the entry by a centimetre, or leave out what is finer "
    "than that, and ask again"
)


def at_own_place(
    inputs: _Inputs, origin: Point, calculate: Callable[[_Inputs], _Result], pointer: str = "/outline"
) -> _Result:
    """``calculate`` with ``origin`` [m] of the inputs' plan moved to (0, 0); its result, or the faults that it raises,
    in the frame of ``inputs``.

    Entries, doorways, joints and the like are put on a grid of ``GRID``, as they are not measured finer. What the
    geometry library cannot compute is a fault of what ``pointer`` names.
    """
    try:
        result = calculate(_changed(moved(inputs, (-origin[0], -origin[1])), on_grid, _AS_SENT))
    except InputError as error:
        raise InputError(*(moved(fault, origin) for fault in error.faults)) from error
    except GEOSException as error:
        raise InputError(Fault(pointer, "geometry_failed", _NOT_COMPUTED)) from error
    return moved(result, origin)


def on_grid(place: Point) -> Point:
    """The place [m] at whole multiples of ``GRID``."""
    x, y = stepped(np.array(place), GRID).tolist()
    return x, y


def lower_left(rings: Iterable[Iterable[Point]]) -> Point:
    """The least x and the least y of all points [m]; (0, 0) where there are none."""
    points = [point for ring in rings for point in ring]
    return min((x for x, _ in points), default=0.0), min((y for _, y in points), default=0.0)


def moved(record: _Result, by: Point) -> _Result:
    """A record with all its places [m], those in texts too, moved by a distance along x and along y [m]."""
    return _changed(record, lambda place: (place[0] + by[0], place[1] + by[1]))


def _changed(record: _Result, change: _Change, left: frozenset[str] = frozenset()) -> _Result:
    """A record with all its places changed, but for those in fields that are ``left``."""
    owner: Any = type(record)
    move = _of_record(owner, left)
    found: _Result = record if move is None else move(record, change)
    return found


@cache
def _of_record(owner: Any, left: frozenset[str]) -> _Move | None:
    hints = get_type_hints(owner, include_extras=True)
    moves = {
        item.name: move
        for item in fields(owner)
        if item.name not in left and (move := _of(hints[item.name], left)) is not None
    }
    if not moves:
        return None

    def move_record(record: Any, change: _Change) -> Any:
        return replace(record, **{name: move(getattr(record, name), change) for name, move in moves.items()})

    return move_record


def _of(hint: Any, left: frozenset[str]) -> _Move | None:
    """How a value of this type is changed; ``None`` for one that holds no place."""
    origin, arms = get_origin(hint), get_args(hint)
    if hint == Point:  # the library makes the type anew
        return lambda place, change: change(place)
    if origin is Annotated:
        return (
            None
            if FREE in hint.__metadata__
            else _text
            if PLACES in hint.__metadata__
            else _of(arms[0], left)
        )
    if origin in (Union, types.UnionType):
        return _optional(next(arm for arm in arms if arm is not type(None)), left)
    if origin is tuple and arms[-1:] == (...,):
        return _sequence(arms[0], left)
    return _of_record(hint, left) if isinstance(hint, type) and is_dataclass(hint) else None


def _text(text: str, change: _Change) -> str:
    def rewritten(match: re.Match[str]) -> str:
        (x, y), digits = change((float(match[1]), float(match[3]))), len(match[2])
        return f"[{x:.{digits}f}, {y:.{digits}f}]"

    return _WRITTEN.sub(rewritten, text)


def _optional(hint: Any, left: frozenset[str]) -> _Move | None:
    move = _of(hint, left)
    return None if move is None else lambda value, change: None if value is None else move(value, change)


def _sequence(hint: Any, left: frozenset[str]) -> _Move | None:
    move = _of(hint, left)
    return None if move is None else lambda values, change: tuple(move(value, change) for value in values)
