"""Frozen records that are made in great number, made three times as fast.

The constructor of a frozen dataclass sets each field by a call that goes round the lock, and in an answer of many
records that takes longer than the formulas. Here the new record is of an open class with the same slots while its
fields are set, and of its own class, frozen, from then on.
"""

from __future__ import annotations

import inspect
from dataclasses import fields
from typing import TypeVar

__all__ = ["quickly_made"]

_T = TypeVar("_T")


def quickly_made(owner: type[_T]) -> type[_T]:
    """Give a dataclass with ``frozen`` and ``slots`` another constructor of the same signature.

    Raises ``TypeError`` where the constructor does more than to set its arguments.
    """
    names = [item.name for item in fields(owner)]  # type: ignore[arg-type]
    first = inspect.signature(owner.__init__)
    if hasattr(owner, "__post_init__") or list(first.parameters) != ["self", *names]:
        raise TypeError(f"the constructor of {owner.__name__} does more than to set its fields")
    lines = [
        f"def __init__(self, {', '.join(names)}):",
        "    set_attribute(self, '__class__', Open)",
        *(f"    self.{name} = {name}" for name in names),
        "    self.__class__ = owner",
    ]
    made: dict[str, object] = {
        "owner": owner,
        "Open": type(owner.__name__, (), {"__slots__": tuple(names)}),
        "set_attribute": object.__setattr__,
    }
    # made of names of fields alone
    exec("\n".join(lines), made)
    constructor = made["__init__"]
    for kept in ("__defaults__", "__annotations__", "__qualname__"):
        setattr(constructor, kept, getattr(owner.__init__, kept))
    setattr(owner, "__init__", constructor)  # noqa: B010 - mypy knows a class's own constructor only
    return owner
