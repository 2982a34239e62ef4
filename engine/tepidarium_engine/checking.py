"""Every input of a calculation against the glossary: type, range, length, all faults at once."""

from __future__ import annotations

import math
import types
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from datetime import date
from functools import cache
from typing import Literal, TypeVar, Union, cast, get_args, get_origin, get_type_hints

from .acceptance import acceptance, field_entry
from .errors import FaultList
from .glossary import Day, Entry, Items, Number, Text, lookup
from .places import Point

__all__ = ["Point", "check", "field_entry"]

_AnEntry = TypeVar("_AnEntry", Items, Number, Text, Day)
_Checker = Callable[[object, str, FaultList], None]


def check(inputs: object) -> None:
    """Raise ``InputError`` unless every field of the dataclass ``inputs`` is of its type and in its range.

    Pointers are relative to ``inputs``. Relations between fields are the calculation's own business.
    """
    owner: type = type(inputs)
    if acceptance(owner)(inputs):
        return
    faults = FaultList()
    _record_checker(owner)(inputs, "", faults)
    faults.raise_if_any()


@cache
def _record_checker(owner: type) -> _Checker:
    hints = get_type_hints(owner)
    plan = [
        (item.name, f"/{item.name}", _checker(hints[item.name], lookup(field_entry(owner, item.name))))
        for item in fields(owner)
    ]

    def check_record(value: object, pointer: str, faults: FaultList) -> None:
        if not isinstance(value, owner):
            faults.add(pointer, "type", f"must be a {owner.__name__}")
            return
        for name, step, checker in plan:
            checker(getattr(value, name), pointer + step, faults)

    return check_record


def _checker(hint: object, entry: Entry) -> _Checker:
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        return _optional(_checker(next(arm for arm in get_args(hint) if arm is not type(None)), entry))
    if hint == Point:
        return _point
    if isinstance(hint, type) and is_dataclass(hint):
        return _record_checker(hint)
    return _KINDS[origin or hint](hint, entry)


def _optional(inner: _Checker) -> _Checker:
    def check_optional(value: object, pointer: str, faults: FaultList) -> None:
        if value is not None:
            inner(value, pointer, faults)

    return check_optional


def _number(entry: Number, whole: bool) -> _Checker:
    low, high = entry.minimum, entry.maximum
    kinds = (int,) if whole else (float, int)
    unit = f" {entry.written_unit}" if entry.written_unit else ""
    in_unit = f" [{entry.written_unit}]" if entry.written_unit else ""

    def check_number(value: object, pointer: str, faults: FaultList) -> None:
        if type(value) is float and low <= value <= high and not whole:  # nearly all; NaN is in no range
            return
        if not isinstance(value, kinds) or isinstance(value, bool) or not math.isfinite(value):
            faults.add(pointer, "type", f"must be a finite {'whole ' if whole else ''}number{in_unit}")
        elif value < low:
            faults.add(pointer, "too_small", f"must be at least {low:g}{unit}", low)
        elif value > high:
            faults.add(pointer, "too_large", f"must be at most {high:g}{unit}", high)

    return check_number


def _text(entry: Text) -> _Checker:
    def check_text(value: object, pointer: str, faults: FaultList) -> None:
        if not isinstance(value, str):
            faults.add(pointer, "type", "must be text")
        elif not entry.minimum_length <= len(value) <= entry.maximum_length:
            faults.add(
                pointer,
                "text_length",
                f"must have {entry.minimum_length} to {entry.maximum_length} characters",
                entry.maximum_length,
            )

    return check_text


def _day(entry: Day) -> _Checker:
    def check_day(value: object, pointer: str, faults: FaultList) -> None:
        if not isinstance(value, date):
            faults.add(pointer, "type", "must be a calendar date")
        elif not entry.first_year <= value.year <= entry.last_year:
            faults.add(pointer, "date_range", f"must lie in {entry.first_year} to {entry.last_year}")

    return check_day


def _choice(words: tuple[object, ...]) -> _Checker:
    def check_choice(value: object, pointer: str, faults: FaultList) -> None:
        if value not in words:
            faults.add(pointer, "choice", "must be one of " + ", ".join(map(str, words)))

    return check_choice


def _flag(value: object, pointer: str, faults: FaultList) -> None:
    if not isinstance(value, bool):
        faults.add(pointer, "type", "must be true or false")


def _sequence(member: object, entry: Items) -> _Checker:
    inner = _checker(member, lookup(entry.of) if entry.of else entry)

    def check_sequence(value: object, pointer: str, faults: FaultList) -> None:
        if not isinstance(value, tuple | list):
            faults.add(pointer, "type", "must be a list")
        elif len(value) < entry.minimum:
            faults.add(pointer, "too_few", f"must have at least {entry.minimum} items", entry.minimum)
        elif len(value) > entry.maximum:
            faults.add(pointer, "too_many", f"must have at most {entry.maximum} items", entry.maximum)
        else:
            for index, item in enumerate(value):
                inner(item, f"{pointer}/{index}", faults)

    return check_sequence


_KINDS: dict[object, Callable[[object, Entry], _Checker]] = {
    tuple: lambda hint, entry: _sequence(get_args(hint)[0], _of(Items, entry)),
    Literal: lambda hint, _: _choice(get_args(hint)),
    bool: lambda _hint, _entry: _flag,
    date: lambda _, entry: _day(_of(Day, entry)),
    str: lambda _, entry: _text(_of(Text, entry)),
    float: lambda _, entry: _number(_of(Number, entry), whole=False),
    int: lambda _, entry: _number(_of(Number, entry), whole=True),
}
"""By kind of type: the check, for the kind of glossary entry that goes with it."""


def _of(kind: type[_AnEntry], entry: Entry) -> _AnEntry:
    if not isinstance(entry, kind):
        raise TypeError(f"{entry} must be of the kind {kind.__name__}")
    return entry


_coordinate = _number(cast(Number, lookup("coordinate")), whole=False)


def _point(value: object, pointer: str, faults: FaultList) -> None:
    if not isinstance(value, tuple | list) or len(value) != 2:
        faults.add(pointer, "type", "must be a point [x, y] in metres")
        return
    _coordinate(value[0], f"{pointer}/0", faults)
    _coordinate(value[1], f"{pointer}/1", faults)
