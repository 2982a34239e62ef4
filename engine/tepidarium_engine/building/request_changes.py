"""What two requests ask for differently, field by field; records with an id are the same wherever they stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from typing import get_args, get_origin, get_type_hints

from ..checking import field_entry
from ..gathering import subject_of
from ..glossary import Number, lookup
from ..trade_units import in_trade_units
from .comparison_records import DesignChange
from .house_records import HouseToDesign

__all__ = ["changed", "request_changes"]

_LONGEST = 200
"""Characters of a value in words."""
_ON_PAPER = frozenset({"drawing", "ordering", "commissioning", "laying_sheets", "quick"})
"""What decides on documents and orders, not on what is laid."""


def request_changes(before: HouseToDesign, after: HouseToDesign) -> Iterator[DesignChange]:
    """In the order of the request; ``where`` leads into the request ``after``."""
    for item in fields(HouseToDesign):
        if item.name not in _ON_PAPER:
            field = _Field(after, HouseToDesign, item.name, "")
            yield from field.changes(getattr(before, item.name), getattr(after, item.name))


def changed(
    what: str,
    where: str,
    before: object,
    after: object,
    *,
    quantity: str | None = None,
    subject: str = "",
    because: str = "",
    in_request: bool = False,
) -> DesignChange:
    """A change of a number of the glossary's ``quantity``, or of anything else in words."""
    entry = None if quantity is None else lookup(quantity)
    number = entry if isinstance(entry, Number) else None
    known = quantity if number is not None else None
    return DesignChange(
        what=what,
        subject=subject,
        where=where,
        where_in="request" if in_request else "answer",
        quantity=known,
        unit=None if number is None else number.unit,
        value_before=_number(before),
        value_after=_number(after),
        text_before=_text(before, known),
        text_after=_text(after, known),
        because=because,
    )


@dataclass(frozen=True)
class _Field:
    """A field ``name`` of a record of the type ``owner``, which stands at ``parent`` in the ``whole`` request."""

    whole: HouseToDesign
    owner: type
    name: str
    parent: str

    @property
    def pointer(self) -> str:
        return f"{self.parent}/{self.name}"

    def changes(self, before: object, after: object) -> Iterator[DesignChange]:
        if before == after:
            return
        if is_dataclass(after) and before is not None:
            yield from self._parts(self.pointer, before, after)
        elif self._by_id() and isinstance(before, tuple) and isinstance(after, tuple):
            yield from self._items(before, after)
        else:
            yield changed(
                self.name.replace("_", " "),
                self.pointer,
                before,
                after,
                quantity=field_entry(self.owner, self.name),
                subject=subject_of(self.whole, self.pointer),
                in_request=True,
            )

    def _parts(self, pointer: str, before: object, after: object) -> Iterator[DesignChange]:
        """Of two records of one type."""
        owner = type(after)
        for name in _names(owner):
            field = _Field(self.whole, owner, name, pointer)
            yield from field.changes(getattr(before, name), getattr(after, name))

    def _by_id(self) -> bool:
        """Whether the field holds a list of records that have an id."""
        hint = get_type_hints(self.owner)[self.name]
        member = get_args(hint)[0] if get_origin(hint) is tuple else None
        return isinstance(member, type) and is_dataclass(member) and "id" in _names(member)

    def _items(self, before: tuple[object, ...], after: tuple[object, ...]) -> Iterator[DesignChange]:
        """Those that are others or new, then those that are gone."""
        known = {_id(item): item for item in before}
        one = self.name.removesuffix("s").replace("_", " ")
        for place, item in enumerate(after):
            where = f"{self.pointer}/{place}"
            if _id(item) in known:
                yield from self._parts(where, known[_id(item)], item)
            else:
                yield changed(one, where, None, "new", subject=_label(item), in_request=True)
        there = {_id(item) for item in after}
        for item in before:
            if _id(item) not in there:
                yield changed(one, self.pointer, "there", None, subject=_label(item), in_request=True)


def _names(owner: type) -> tuple[str, ...]:
    return tuple(item.name for item in fields(owner))


def _id(item: object) -> str:
    return str(getattr(item, "id", ""))


def _label(item: object) -> str:
    return str(getattr(item, "name", "")) or _id(item)


def _number(value: object) -> float | None:
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def _text(value: object, quantity: str | None) -> str:
    number = _number(value)
    if number is not None:
        return f"{number:g}" if quantity is None else in_trade_units(quantity, number)
    if value is None or isinstance(value, bool):
        return {None: "none", True: "yes", False: "no"}[value]
    if isinstance(value, tuple):
        return _of_list(value)[:_LONGEST]
    return "given" if is_dataclass(value) else str(value).replace("_", " ")[:_LONGEST]


def _of_list(value: tuple[object, ...]) -> str:
    """A point as it stands in the plan, numbers one after the other, of all else how many."""
    numbers = [each for each in value if isinstance(each, float | int)]
    if len(numbers) < len(value) or not value:
        return f"{len(value)} of them" if value else "none"
    if len(numbers) == 2:
        return f"[{numbers[0]:.2f}, {numbers[1]:.2f}]"
    return ", ".join(f"{each:g}" for each in numbers)
