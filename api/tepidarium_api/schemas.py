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
from msgspec import Meta
from tepidarium_engine.checking import Point, field_entry
from tepidarium_engine.glossary import Day, Entry, Items, Number, Text, lookup
from tepidarium_engine.results import Working

__all__ = ["request_entries", "request_type", "response_type"]

WORKINGS_WANTED = "Whether the answer carries its workings: the intermediate values with formula and source"
WORKINGS = "The intermediate values, enough to redo the calculation by hand; present when asked for"
ENGINE_VERSION = "Version of the engine: the same request to the same version gives the same answer"


@cache
def request_type(inputs: type) -> type[msgspec.Struct]:
    """The closed and bounded type of a request, from the engine's inputs dataclass."""
    workings = ("workings", Annotated[bool, Meta(description=WORKINGS_WANTED)], False)
    return _struct(inputs, _request_name(inputs.__name__), _Closed(), [workings])


@cache
def response_type(inputs: type, result: type) -> type[msgspec.Struct]:
    """The open type of an answer: the inputs as used, the fields of the result, version and workings."""
    if clash := {"inputs", "engine_version", "workings"} & {item.name for item in fields(result)}:
        raise TypeError(f"{result.__name__} may not have the fields {sorted(clash)}")
    style = _Open()
    echo = (
        "inputs",
        Annotated[_record(inputs, style), Meta(description="The inputs as used, defaults filled in")],
    )
    tail: list[tuple[str, Any, Any]] = [
        ("engine_version", Annotated[str, Meta(description=ENGINE_VERSION)], msgspec.NODEFAULT),
        (
            "workings",
            Annotated[tuple[_record(Working, style), ...], Meta(description=WORKINGS)] | msgspec.UnsetType,  # type: ignore[misc]
            msgspec.UNSET,
        ),
    ]
    return _struct(
        result,
        result.__name__.removesuffix("Result") + "Response",
        style,
        tail,
        head=[(*echo, msgspec.NODEFAULT)],
    )


def request_entries(inputs: type) -> dict[str, Entry]:
    """Every glossary entry that a request of this dataclass is checked against, by glossary name."""
    return dict(_entries(inputs))


class _Closed:
    """Requests: no unknown fields, bounds on everything."""

    closed = True

    def name(self, dataclass_name: str) -> str:
        return f"{dataclass_name}Input"

    def number(self, entry: Number) -> Meta:
        return Meta(ge=entry.minimum, le=entry.maximum, extra_json_schema={"x-unit": entry.unit})

    def text(self, entry: Text) -> Meta:
        return Meta(min_length=entry.minimum_length, max_length=entry.maximum_length)

    def items(self, entry: Items) -> Meta:
        return Meta(min_length=entry.minimum, max_length=entry.maximum)


class _Open:
    """Responses: units and meanings, no bounds."""

    closed = False

    def name(self, dataclass_name: str) -> str:
        return dataclass_name

    def number(self, entry: Number) -> Meta:
        return Meta(extra_json_schema={"x-unit": entry.unit})

    def text(self, _entry: Text) -> Meta:
        return Meta()

    def items(self, _entry: Items) -> Meta:
        return Meta()


_Style = _Closed | _Open


def _request_name(dataclass_name: str) -> str:
    return dataclass_name.removesuffix("Inputs") + "Request"


@cache
def _cached_record(owner: Any, closed: bool) -> type[msgspec.Struct]:
    style: _Style = _Closed() if closed else _Open()
    return _struct(owner, style.name(owner.__name__), style)


def _record(owner: Any, style: _Style) -> type[msgspec.Struct]:
    return _cached_record(owner, style.closed)


def _struct(
    owner: type,
    name: str,
    style: _Style,
    tail: list[tuple[str, Any, Any]] | None = None,
    head: list[tuple[str, Any, Any]] | None = None,
) -> type[msgspec.Struct]:
    hints = get_type_hints(owner)
    members = [_member(owner, item, hints[item.name], style) for item in fields(owner)]
    return msgspec.defstruct(
        name,
        [*(head or ()), *members, *(tail or ())],
        frozen=True,
        kw_only=True,
        forbid_unknown_fields=style.closed,
        module=__name__,
    )


def _member(owner: type, item: Field[Any], hint: Any, style: _Style) -> tuple[str, Any, Any]:
    entry = lookup(field_entry(owner, item.name))
    annotation = Annotated[_annotation(hint, entry, style), Meta(description=_description(entry))]
    if not style.closed or (default := _default(item)) is MISSING:
        return item.name, annotation, msgspec.NODEFAULT
    return item.name, annotation, msgspec.convert(default, annotation, from_attributes=True)


def _default(item: Field[Any]) -> Any:
    return item.default if item.default_factory is MISSING else item.default_factory()


def _description(entry: Entry) -> str:
    match entry:
        case Number(unit=unit):
            return f"{entry.description} [{unit}]"
        case Items(of=str(member)) if isinstance(unit_entry := lookup(member), Number):
            return f"{entry.description} [{unit_entry.unit}]"
        case Day(first_year=first, last_year=last):
            return f"{entry.description}, in {first} to {last}"
    return entry.description


def _annotation(hint: Any, entry: Entry, style: _Style) -> Any:
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        return _annotation(_without_none(hint), entry, style) | None
    if hint is Point:
        coordinate: Any = Annotated[float, style.number(_coordinate())]
        return tuple[coordinate, coordinate]
    if origin is tuple and isinstance(entry, Items):
        member: Any = _annotation(get_args(hint)[0], lookup(entry.of) if entry.of else entry, style)
        return Annotated[tuple[member, ...], style.items(entry)]
    if is_dataclass(hint):
        return _record(hint, style)
    return _plain(hint, entry, style)


def _plain(hint: Any, entry: Entry, style: _Style) -> Any:
    if hint in (bool, date) or get_origin(hint) is Literal:
        return hint
    if hint is str and isinstance(entry, Text):
        return Annotated[str, style.text(entry)]
    if hint in (int, float) and isinstance(entry, Number):
        return Annotated[hint, style.number(entry)]
    raise TypeError(f"no schema for {hint} with {entry}")


def _coordinate() -> Number:
    entry = lookup("coordinate")
    assert isinstance(entry, Number)
    return entry


def _without_none(hint: Any) -> Any:
    arms = [arm for arm in get_args(hint) if arm is not type(None)]
    if len(arms) != 1:
        raise TypeError(f"no schema for the union {hint}")
    return arms[0]


def _entries(owner: Any) -> Iterator[tuple[str, Entry]]:
    hints = get_type_hints(owner)
    for item in fields(owner):
        name = field_entry(owner, item.name)
        yield from _entries_of(hints[item.name], name)


def _entries_of(hint: Any, name: str) -> Iterator[tuple[str, Entry]]:
    entry = lookup(name)
    yield name, entry
    if get_origin(hint) in (Union, types.UnionType):
        hint = _without_none(hint)
    if hint is Point:
        yield "coordinate", lookup("coordinate")
    elif get_origin(hint) is tuple and isinstance(entry, Items):
        member = get_args(hint)[0]
        if entry.of or get_origin(member) is tuple:
            yield from _entries_of(member, entry.of or name)
        elif is_dataclass(member):
            yield from _entries(member)
    elif is_dataclass(hint):
        yield from _entries(hint)
