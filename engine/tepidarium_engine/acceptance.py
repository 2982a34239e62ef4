"""A quick yes for inputs that are in order.

For each kind of record one function is written out, as ``dataclasses`` does for constructors: it compares every field
with the glossary's bounds without a call for each of them. It never says why; where it says no, ``checking`` looks
again and finds the fault, or that there is none (a whole number in place of a float, for example).
"""

from __future__ import annotations

import types
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from datetime import date
from functools import cache
from itertools import count
from typing import Literal, Union, cast, get_args, get_origin, get_type_hints

from .glossary import Day, Entry, Items, Number, Text, lookup
from .places import Point

__all__ = ["acceptance", "field_entry"]

_Acceptance = Callable[[object], bool]


def field_entry(owner: type, name: str) -> str:
    """The glossary name of a dataclass field."""
    for item in fields(owner):
        if item.name == name:
            return str(item.metadata.get("glossary", name))
    raise KeyError(name)


@cache
def acceptance(owner: type) -> _Acceptance:
    """True only for a record of the dataclass ``owner`` of which every field is of its type and in its range."""
    written = _Written(owner)
    # made of the glossary and of names of fields alone
    exec(written.source, written.names)
    return cast(_Acceptance, written.names["accepts"])


class _Written:
    """The source of one function, and the names that it uses."""

    def __init__(self, owner: type) -> None:
        self.names: dict[str, object] = {"owner": owner, "date": date}
        self._numbers = count()
        hints = get_type_hints(owner)
        lines = ["def accepts(record):", "    if type(record) is not owner: return False"]
        for item in fields(owner):
            condition = self._condition("x", hints[item.name], lookup(field_entry(owner, item.name)))
            lines += [f"    x = record.{item.name}", f"    if not ({condition}): return False"]
        self.source = "\n".join((*lines, "    return True"))

    def _named(self, value: object) -> str:
        """A name for something that the function uses."""
        name = f"used_{next(self._numbers)}"
        self.names[name] = value
        return name

    def _condition(self, x: str, hint: object, entry: Entry) -> str:
        """In words of Python, what the variable ``x`` must keep to."""
        origin = get_origin(hint)
        if origin in (Union, types.UnionType):
            inner = next(arm for arm in get_args(hint) if arm is not type(None))
            return f"{x} is None or {self._condition(x, inner, entry)}"
        if hint == Point:
            corner = lookup("coordinate")
            both = " and ".join(self._condition(f"{x}[{axis}]", float, corner) for axis in (0, 1))
            return f"(type({x}) is tuple and len({x}) == 2 and {both})"
        if isinstance(hint, type) and is_dataclass(hint):
            return f"{self._named(acceptance(hint))}({x})"
        if origin is Literal:
            return f"{x} in {self._named(get_args(hint))}"
        if origin is tuple:
            return self._sequence(x, get_args(hint)[0], entry)
        return self._bounded(x, hint, entry)

    def _sequence(self, x: str, member: object, entry: Entry) -> str:
        if not isinstance(entry, Items):
            raise TypeError(f"{entry} must be of the kind Items")
        size = f"type({x}) is tuple and {entry.minimum} <= len({x}) <= {entry.maximum}"
        if isinstance(member, type) and is_dataclass(member):
            return f"({size} and (not {x} or all(map({self._named(acceptance(member))}, {x}))))"
        one = f"x{next(self._numbers)}"
        condition = self._condition(one, member, lookup(entry.of) if entry.of else entry)
        return f"({size} and (not {x} or all([{condition} for {one} in {x}])))"

    def _bounded(self, x: str, hint: object, entry: Entry) -> str:
        if hint is bool:
            return f"({x} is True or {x} is False)"
        match entry:
            case Number():
                low, high = self._named(entry.minimum), self._named(entry.maximum)
                return f"(type({x}) is {self._named(hint)} and {low} <= {x} <= {high})"
            case Text():
                return f"(type({x}) is str and {entry.minimum_length} <= len({x}) <= {entry.maximum_length})"
            case Day():
                return f"(type({x}) is date and {entry.first_year} <= {x}.year <= {entry.last_year})"
        raise TypeError(f"{hint} does not go with {entry}")
