"""Errors and places in words that name the field."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from .._errors import FieldError, InvalidInput, Operation, TepidariumError
from .._units import UNITS
from ._units import in_si, in_trade, label

__all__ = ["explain", "field_line", "in_words", "last_name"]

COUNTING_CODES = {"too_few", "too_many", "text_length"}
"""Faults whose limit is a number of items or characters, not a value of the field."""


def explain(error: TepidariumError, request: Any) -> str:
    """The whole error for people: what happened, every field in words, the request id."""
    lines = [error.message]
    for item in error.errors:
        lines += [
            f"  {field_line(item, request)}",
            *(f"    {change_line(change)}" for change in item.changes),
        ]
    if isinstance(error, InvalidInput) and any(map(_is_of_size, error.errors)):
        lines.append(
            "Numbers in a request are in SI units: metres, not millimetres; pascals, not kilopascals."
        )
    return "\n".join([*lines, f"Request id: {error.request_id}"])


def _is_of_size(error: FieldError) -> bool:
    """Whether a number is too small or too large, as it would be in another unit."""
    return isinstance(error.limit, int | float) and error.code not in COUNTING_CODES


def field_line(error: FieldError, request: Any) -> str:
    """``pipe, wall thickness: must be at least 0.0005 m (0.0005 m = 0.5 mm) [/pipe/wall_thickness]``."""
    return f"{in_words(error.pointer, request)}: {error.detail}{_limit(error)} [{error.pointer or '/'}]"


def change_line(change: Operation) -> str:
    """``remove /rooms/0/voids/1``, or ``replace /rooms/0/outline by`` what comes in its place."""
    value = "" if change.value is None else f" by {json.dumps(change.value)}"
    return f"{change.op} {change.path}{value}"


def _limit(error: FieldError) -> str:
    """The limit, where the text does not hold it yet, and in the trade's unit where that is another one."""
    name = last_name(error.pointer)
    if error.limit is None or error.code in COUNTING_CODES or name not in UNITS:
        return ""
    in_file, in_shop = in_si(name, error.limit), in_trade(name, error.limit)
    told, same_unit = f"{error.limit:g}" in error.detail, in_shop.split()[-1] == in_file.split()[-1]
    if told and same_unit:
        return ""
    return f" ({'' if told else 'limit '}{in_file}{'' if same_unit else f' = {in_shop}'})"


def last_name(pointer: str) -> str:
    """The last part of a pointer that is a field name, not a place in a list."""
    names = [step for step in _steps(pointer) if not step.isdigit()]
    return names[-1] if names else ""


def in_words(pointer: str, document: Any) -> str:
    """A JSON pointer as people say it: ``rooms no. 3 (Kitchen), outline``. Members of a list are counted from
    1 and called by the ``name`` or ``id`` they have in the document."""
    words: list[str] = []
    found: Any = document
    for step in _steps(pointer):
        if step.isdigit():
            found = found[int(step)] if isinstance(found, list) and int(step) < len(found) else None
            words[-1:] = [f"{words[-1] if words else 'item'} no. {int(step) + 1}{_called(found)}"]
        else:
            found = found.get(step) if isinstance(found, Mapping) else None
            words.append(label(step))
    if words[:1] == ["result"]:
        words = words[1:]
    return ", ".join(words) or "the request"


def _steps(pointer: str) -> Iterator[str]:
    for step in pointer.split("/")[1:]:
        yield step.replace("~1", "/").replace("~0", "~")


def _called(record: Any) -> str:
    if isinstance(record, Mapping):
        name = record.get("name") or record.get("id")
        return f" ({name})" if isinstance(name, str) else ""
    return ""
