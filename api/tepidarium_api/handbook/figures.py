"""Single figures in a line of text: ``<example> <pointer> [as <quantity>]``, or the same after ``sum`` or ``count``.

A ``*`` in a pointer stands for all members of a list. The quantity is the glossary's name for the number; without it,
the last name of the pointer.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import Any

from tepidarium_engine.trade_units import in_trade_units

from .answers import answered
from .wording import unit

__all__ = ["figure", "figure_of", "values_at"]


def figure(words: str) -> str:
    """The figure that the words ask for, with its unit."""
    first, *rest = words.split()
    if first == "constant":
        module, name = rest[0].split(":")
        return figure_of(rest[2], getattr(import_module(module), name))
    if first in _REDUCED:
        found = values_at(answered(rest[0]), rest[1])
        return _REDUCED[first](found, _quantity(rest[1:]))
    (value,) = values_at(answered(first), rest[0])
    return str(value) if isinstance(value, str | bool) else figure_of(_quantity(rest), value)


def values_at(document: Any, pointer: str) -> list[Any]:
    """Everything that a pointer with ``*`` leads to."""
    found = [document]
    for step in pointer.split("/")[1:]:
        if step == "*":
            found = [member for each in found for member in each]
        else:
            found = [each[int(step)] if isinstance(each, list) else each[step] for each in found]
    return found


def _quantity(words: list[str]) -> str:
    pointer, *named = words
    return (
        named[1]
        if named
        else next(step for step in reversed(pointer.split("/")) if not step.isdigit() and step != "*")
    )


def figure_of(quantity: str, value: float) -> str:
    """A value of the glossary's quantity as the trade reads it."""
    number, _, name = in_trade_units(quantity, value).partition(" ")
    return f"{number} {unit(name)}".strip().replace("-", "−")


_REDUCED: dict[str, Callable[[list[Any], str], str]] = {
    "count": lambda found, _: str(len(found)),
    "sum": lambda found, quantity: figure_of(quantity, sum(found)),
    "least": lambda found, quantity: figure_of(quantity, min(found)),
    "most": lambda found, quantity: figure_of(quantity, max(found)),
    "list": lambda found, _: ", ".join(map(str, found)),
}
