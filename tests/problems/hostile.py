"""Hostile requests made of good ones, a number at a time, and whether a problem points into the request."""

from __future__ import annotations

import types
from collections.abc import Iterator
from dataclasses import MISSING, asdict, fields, is_dataclass
from typing import Any, Union, get_args, get_origin, get_type_hints

from tepidarium_engine.checking import Point, field_entry
from tepidarium_engine.glossary import Entry, Items, Number, lookup

__all__ = ["LEFT_OUT", "Path", "changed", "hostile_values", "leads_into", "numbers"]

Path = tuple[str | int, ...]
LEFT_OUT = object()
"""In place of a value: the field is left out."""


def leads_into(request: Any, inputs: type, pointer: str) -> bool:
    """Whether a JSON pointer (RFC 6901) leads to a member of the request, or to a field of ``inputs`` that was left out
    of a record that is there, or is filled in for it."""
    hint: Any = inputs
    here = request
    for step in pointer.split("/")[1:]:
        hint, key = _plain(hint), step.replace("~1", "/").replace("~0", "~")
        if is_dataclass(hint):
            known = {item.name: item for item in fields(hint)}
            if key not in known or not isinstance(here, dict):
                return False
            here = here[key] if key in here else _default(known[key])
            hint = get_type_hints(hint)[key]
        else:
            if not isinstance(here, list | tuple) or not key.isdigit() or int(key) >= len(here):
                return False
            here, hint = here[int(key)], get_args(hint)[0]
    return True


def _plain(hint: Any) -> Any:
    if get_origin(hint) in (Union, types.UnionType):
        return next(arm for arm in get_args(hint) if arm is not type(None))
    return hint


def _default(item: Any) -> Any:
    value = None if item.default is MISSING else item.default
    return asdict(value) if is_dataclass(value) and not isinstance(value, type) else value


def numbers(request: Any, inputs: type, coordinates: bool = True) -> Iterator[tuple[Path, Number]]:
    """Where numbers stand in a request, each with its range."""
    yield from _numbers(request, inputs, None, (), coordinates)


def _numbers(
    here: Any, hint: Any, entry: Entry | None, path: Path, coordinates: bool
) -> Iterator[tuple[Path, Number]]:
    hint = _plain(hint)
    if here is None:
        return
    if is_dataclass(hint):
        hints = get_type_hints(hint)
        for name, value in here.items():
            if name in hints:
                own = lookup(field_entry(hint, name))  # type: ignore[arg-type]
                yield from _numbers(value, hints[name], own, (*path, name), coordinates)
    elif hint is Point:
        number = lookup("coordinate")
        if coordinates and isinstance(number, Number):
            yield from (((*path, index), number) for index in range(len(here)))
    elif isinstance(here, list | tuple):
        inner = lookup(entry.of) if isinstance(entry, Items) and entry.of else entry
        for index, value in enumerate(here):
            yield from _numbers(value, get_args(hint)[0], inner, (*path, index), coordinates)
    elif isinstance(entry, Number):
        yield path, entry


def hostile_values(entry: Number) -> tuple[Any, ...]:
    """Both bounds and what lies beyond, nothing, less than nothing, far too much, no value, no field."""
    beyond = abs(entry.maximum) + 1.0
    return (
        entry.minimum,
        entry.maximum,
        entry.minimum - beyond,
        entry.maximum + beyond,
        0,
        -1,
        1e9,
        None,
        LEFT_OUT,
    )


def changed(request: Any, path: Path, value: Any) -> Any:
    """The request with one number changed."""
    head, *rest = path
    copy = list(request) if isinstance(request, list | tuple) else dict(request)
    if not rest and value is LEFT_OUT:
        del copy[head]  # type: ignore[arg-type]
    elif rest:
        copy[head] = changed(copy[head], tuple(rest), value)  # type: ignore[call-overload,index]
    else:
        copy[head] = value  # type: ignore[call-overload]
    return copy
