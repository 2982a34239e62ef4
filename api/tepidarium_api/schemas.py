"""Request and response types, derived from the engine's dataclasses and its glossary.

Nobody writes these types by hand: unit, range and meaning stand once, in the glossary. Requests are closed
and bounded; responses are open, so that a later release may add fields.
"""

from __future__ import annotations

import types
from collections.abc import Iterator
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date
from functools import cache
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

import msgspec
from msgspec import NODEFAULT, UNSET, Meta, UnsetType
from tepidarium_engine.checking import Point, field_entry
from tepidarium_engine.glossary import Day, Entry, Items, Number, Text, lookup
from tepidarium_engine.results import Working

__all__ = ["options_type", "request_entries", "request_type", "response_type"]

WORKINGS_WANTED = "Whether the answer carries its workings: the intermediate values with formula and source"
WORKINGS = "The intermediate values, enough to redo the calculation by hand; present when asked for"
INPUTS = "The inputs as used, defaults filled in"
ENGINE_VERSION = "Version of the engine: the same request to the same version gives the same answer"

Member = tuple[str, Any, Any]
"""Name, annotation and default of a field."""


@cache
def request_type(inputs: Any) -> type[msgspec.Struct]:
    """The closed and bounded type of a request, from the engine's inputs dataclass."""
    wanted = ("workings", Annotated[bool, Meta(description=WORKINGS_WANTED)], False)
    name = inputs.__name__.removesuffix("Inputs") + "Request"
    return _define(name, [*_members(inputs, closed=True), wanted], closed=True)


@cache
def options_type(options: Any) -> type[msgspec.Struct]:
    """The closed and bounded type of options in a query string, from the engine's dataclass."""
    return _define(
        options.__name__.removesuffix("Inputs") + "Options", _members(options, closed=True), closed=True
    )


@cache
def response_type(inputs: Any, result: Any) -> type[msgspec.Struct]:
    """The open type of an answer: the inputs as used, the fields of the result, version and workings."""
    working: Any = _record(Working, closed=False)
    members = [
        ("inputs", Annotated[_record(inputs, closed=False), Meta(description=INPUTS)], NODEFAULT),
        *_members(result, closed=False),
        ("engine_version", Annotated[str, Meta(description=ENGINE_VERSION)], NODEFAULT),
        ("workings", Annotated[tuple[working, ...] | UnsetType, Meta(description=WORKINGS)], UNSET),
    ]
    return _define(result.__name__.removesuffix("Result") + "Response", members, closed=False)


def request_entries(inputs: Any) -> dict[str, Entry]:
    """Every glossary entry that a request of this dataclass is checked against, by glossary name."""
    return dict(_entries(inputs))


@cache
def _record(owner: Any, closed: bool) -> type[msgspec.Struct]:
    """A nested record. What a request and a response both hold differs in bounds, hence in name. One that is read of
    an answer is ``OPEN``: what is not read in it is ignored."""
    name = f"{owner.__name__}Input" if closed else owner.__name__
    return _define(name, _members(owner, closed), closed and not getattr(owner, "OPEN", False))


def _define(name: str, members: list[Member], closed: bool) -> type[msgspec.Struct]:
    return msgspec.defstruct(
        name, members, frozen=True, kw_only=True, forbid_unknown_fields=closed, module=__name__
    )


def _members(owner: Any, closed: bool) -> list[Member]:
    hints = get_type_hints(owner)
    return [
        _member(item, hints[item.name], lookup(field_entry(owner, item.name)), closed)
        for item in fields(owner)
    ]


def _member(item: Field[Any], hint: Any, entry: Entry, closed: bool) -> Member:
    annotation: Any = Annotated[_annotation(hint, entry, closed), Meta(description=_description(entry))]
    default = item.default if item.default_factory is MISSING else item.default_factory()
    if default is MISSING or not closed:  # an answer holds every field
        return item.name, annotation, NODEFAULT
    return item.name, annotation, msgspec.convert(default, annotation, from_attributes=True)


def _annotation(hint: Any, entry: Entry, closed: bool) -> Any:
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        return _annotation(_without_none(hint), entry, closed) | None
    if hint == Point:
        of = entry.of if isinstance(entry, Items) and entry.of else "coordinate"
        member: Any = Annotated[float, _bounds(lookup(of), closed)]
        return tuple[member, member]
    if origin is tuple and isinstance(entry, Items):
        member = _annotation(get_args(hint)[0], lookup(entry.of) if entry.of else entry, closed)
        return Annotated[tuple[member, ...], _bounds(entry, closed)]
    if isinstance(hint, type) and is_dataclass(hint):
        return _record(hint, closed=closed)
    if hint in (bool, date) or origin is Literal:
        return hint
    if (hint is str and isinstance(entry, Text)) or (hint in (int, float) and isinstance(entry, Number)):
        return Annotated[hint, _bounds(entry, closed)]
    raise TypeError(f"no schema for {hint} with {entry}")


def _bounds(entry: Entry, closed: bool) -> Meta:
    unit = {"x-unit": entry.unit} if isinstance(entry, Number) else None
    match entry if closed else None:
        case Number(minimum=low, maximum=high):
            return Meta(ge=low, le=high, extra_json_schema=unit)
        case Items(minimum=least, maximum=most) | Text(minimum_length=least, maximum_length=most):
            return Meta(min_length=least, max_length=most)
    return Meta(extra_json_schema=unit)


def _description(entry: Entry) -> str:
    match entry:
        case Number(unit=unit):
            return f"{entry.description} [{unit}]"
        case Items(of=str(member)) if isinstance(number := lookup(member), Number):
            return f"{entry.description} [{number.unit}]"
        case Day(first_year=first, last_year=last):
            return f"{entry.description}, in {first} to {last}"
    return entry.description


def _without_none(hint: Any) -> Any:
    arms = [arm for arm in get_args(hint) if arm is not type(None)]
    if len(arms) != 1:
        raise TypeError(f"no schema for the union {hint}")
    return arms[0]


def _entries(owner: Any) -> Iterator[tuple[str, Entry]]:
    hints = get_type_hints(owner)
    for item in fields(owner):
        yield from _entries_of(hints[item.name], field_entry(owner, item.name))


def _entries_of(hint: Any, name: str) -> Iterator[tuple[str, Entry]]:
    entry = lookup(name)
    yield name, entry
    if get_origin(hint) in (Union, types.UnionType):
        hint = _without_none(hint)
    if hint == Point:
        yield "coordinate", lookup("coordinate")
    elif get_origin(hint) is tuple and isinstance(entry, Items):
        yield from _entries_of(get_args(hint)[0], entry.of or name)
    elif is_dataclass(hint):
        yield from _entries(hint)
