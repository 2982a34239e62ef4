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
from typing import Annotated, TypeVar, Union, cast, get_args, get_origin, get_type_hints

import numpy as np
from shapely.errors import GEOSException

from .errors import Fault, InputError
from .places import PLACES, Point
from .plan.tolerances import GRID, stepped

__all__ = ["at_own_place", "lower_left", "moved", "on_grid"]

_Inputs = TypeVar("_Inputs")
_Result = TypeVar("_Result")
_Record = TypeVar("_Record")
_Change = Callable[[Point], Point]

_WRITTEN = re.compile(r"\[(-?\d+\.(\d{2,3})), (-?\d+\.\d{2,3})\]")
"""A place as texts name it."""
_AS_SENT = frozenset({"outline", "voids", "path", "pieces"})
"""Rooms get a grid of their own after the checks; a pipe that comes with the request is validated as it is."""
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


def moved(record: _Record, by: Point) -> _Record:
    """A record with all its places [m], those in texts too, moved by a distance along x and along y [m]."""
    return _changed(record, lambda place: (place[0] + by[0], place[1] + by[1]))


def _changed(record: _Record, change: _Change, left: frozenset[str] = frozenset()) -> _Record:
    """A record with all its places changed, but for those in fields that are ``left``."""
    owner: type = type(record)
    values = {
        name: _value(getattr(record, name), hint, change, left)
        for name, hint in _fields_with_places(owner)
        if name not in left
    }
    return replace(record, **values) if values else record  # type: ignore[type-var]


def _value(value: object, hint: object, change: _Change, left: frozenset[str]) -> object:
    """A value of a type that holds places, with all of them changed."""
    hint = _without_none(hint)
    if value is None:
        return None
    if hint == Point:
        return change(cast(Point, value))
    if get_origin(hint) is Annotated:
        return _text(str(value), change)
    if isinstance(value, tuple):
        return tuple(_value(item, get_args(hint)[0], change, left) for item in value)
    return _changed(value, change, left)


@cache
def _fields_with_places(owner: type) -> tuple[tuple[str, object], ...]:
    hints = get_type_hints(owner, include_extras=True)
    return tuple((item.name, hints[item.name]) for item in fields(owner) if _holds_places(hints[item.name]))


@cache
def _holds_places(hint: object) -> bool:
    hint = _without_none(hint)
    if get_origin(hint) is Annotated:
        return PLACES in hint.__metadata__  # type: ignore[attr-defined]
    if hint == Point:  # the library makes the type anew, so that it is never the same one
        return True
    if isinstance(hint, type) and is_dataclass(hint):
        return bool(_fields_with_places(hint))
    arms = get_args(hint)
    return get_origin(hint) is tuple and arms[1:] == (...,) and _holds_places(arms[0])


def _without_none(hint: object) -> object:
    if get_origin(hint) in (Union, types.UnionType):
        return next(arm for arm in get_args(hint) if arm is not type(None))
    return hint


def _text(text: str, change: _Change) -> str:
    def rewritten(match: re.Match[str]) -> str:
        (x, y), digits = change((float(match[1]), float(match[3]))), len(match[2])
        return f"[{x:.{digits}f}, {y:.{digits}f}]"

    return _WRITTEN.sub(rewritten, text)
