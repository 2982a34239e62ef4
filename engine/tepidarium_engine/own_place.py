"""A request computed near the origin, wherever its plan lies: what comes in is moved there, what goes out moved back.

A double holds a coordinate of a national grid (up to 2e7 m) to 4e-9 m, but a product of two of them only to a
centimetre. Near the origin the same room gives the same numbers, and so the same pipe, whatever its place.
"""

from __future__ import annotations

import math
import re
import types
from collections.abc import Callable, Iterable
from dataclasses import fields, is_dataclass
from functools import cache
from operator import is_
from typing import Annotated, TypeVar, Union, cast, get_args, get_origin, get_type_hints

from shapely.errors import GEOSException

from .errors import Fault, InputError
from .places import PLACES, Point
from .plan.tolerances import BLUR, GRID, stepped

__all__ = ["at_own_place", "lower_left", "moved", "moved_text", "on_grid"]

_Inputs = TypeVar("_Inputs")
_Result = TypeVar("_Result")
_Record = TypeVar("_Record")
_Change = Callable[[Point], Point]
_Changer = Callable[[object, _Change, frozenset[str]], object]
"""A value, the change of its places, names of fields that are left -> the value changed, itself where nothing is."""

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
        raise InputError(*(_moved_back(fault, origin) for fault in error.faults)) from error
    except GEOSException as error:
        raise InputError(Fault(pointer, "geometry_failed", _NOT_COMPUTED)) from error
    return moved(result, origin)


def on_grid(place: Point) -> Point:
    """The place [m] at whole multiples of ``GRID``."""
    x, y = place
    return stepped(x, GRID), stepped(y, GRID)


def lower_left(rings: Iterable[Iterable[Point]]) -> Point:
    """The least x and the least y of all points [m]; (0, 0) where there are none."""
    points = [point for ring in rings for point in ring]
    return min((x for x, _ in points), default=0.0), min((y for _, y in points), default=0.0)


def moved(record: _Record, by: Point) -> _Record:
    """A record with all its places [m], those in texts too, moved by a distance along x and along y [m]."""
    return _changed(record, lambda place: (place[0] + by[0], place[1] + by[1]))


def moved_text(text: str, by: Point) -> str:
    """A text whose places are moved by a distance along x and along y [m]."""
    return str(_text(text, lambda place: (place[0] + by[0], place[1] + by[1]), frozenset()))


def _moved_back(fault: Fault, origin: Point) -> Fault:
    """The fault where the plan lies, without what adding has blurred of its places."""
    digits = -round(math.log10(BLUR))
    return _changed(
        fault, lambda place: (round(place[0] + origin[0], digits), round(place[1] + origin[1], digits))
    )


def _changed(record: _Record, change: _Change, left: frozenset[str] = frozenset()) -> _Record:
    """A record with all its places changed, but for those in fields that are ``left``; itself where there are none."""
    owner: type = type(record)
    values = {}
    for name, changer in _fields_with_places(owner):
        if name not in left:
            value = getattr(record, name)
            if (changed := changer(value, change, left)) is not value:
                values[name] = changed
    if not values:
        return record
    made: _Record = owner(**{name: getattr(record, name) for name in _names(owner)} | values)
    return made


@cache
def _names(owner: type) -> tuple[str, ...]:
    """Of all fields. The library's way to replace some of them looks each up anew, in half as much time again."""
    return tuple(item.name for item in fields(owner))


@cache
def _fields_with_places(owner: type) -> tuple[tuple[str, _Changer], ...]:
    """Name of each field that can hold places, with what changes them."""
    hints = get_type_hints(owner, include_extras=True)
    pairs = ((item.name, _changer(hints[item.name])) for item in fields(owner))
    return tuple((name, changer) for name, changer in pairs if changer is not None)


def _changer(hint: object) -> _Changer | None:
    """What changes the places of a value of this type; None where it cannot hold any."""
    origin, arms = get_origin(hint), get_args(hint)
    if origin in (Union, types.UnionType):
        inner = _changer(next(arm for arm in arms if arm is not type(None)))
        return inner and _optional(inner)
    if origin is Annotated:
        return _text if PLACES in arms[1:] else None
    if hint == Point:  # the library makes the type anew, so that it is never the same one
        return _point
    if isinstance(hint, type) and is_dataclass(hint):
        return _changed if _fields_with_places(hint) else None
    inner = _changer(arms[0]) if origin is tuple and arms[1:] == (...,) else None
    return inner and _sequence(inner)


def _optional(inner: _Changer) -> _Changer:
    return lambda value, change, left: None if value is None else inner(value, change, left)


def _sequence(inner: _Changer) -> _Changer:
    def changed(value: object, change: _Change, left: frozenset[str]) -> object:
        items = cast(tuple[object, ...], value)
        made = tuple([inner(item, change, left) for item in items])
        return items if all(map(is_, made, items)) else made

    return changed


def _point(place: object, change: _Change, _left: frozenset[str]) -> object:
    return change(cast(Point, place))


def _text(text: object, change: _Change, _left: frozenset[str]) -> object:
    def rewritten(match: re.Match[str]) -> str:
        (x, y), digits = change((float(match[1]), float(match[3]))), len(match[2])
        return f"[{x:.{digits}f}, {y:.{digits}f}]"

    return _WRITTEN.sub(rewritten, str(text))
