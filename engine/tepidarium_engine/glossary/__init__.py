"""One glossary for every field name of the engine: unit, range and meaning.

The engine checks inputs against it, the service derives its schemas and its list of limits from it. A field
without an entry cannot be part of a calculation, so no number goes without unit and bounds.
"""

from __future__ import annotations

from types import MappingProxyType

from .building import BUILDING
from .comparing import COMPARING
from .drawing import DRAWING
from .entries import Day, Entry, Items, Number, Text, Word, named
from .envelope import ENVELOPE
from .estimating import ESTIMATING
from .findings import FINDINGS
from .fitting import FITTING
from .geometry import GEOMETRY
from .options import OPTIONS
from .ordering import ORDERING
from .plan_import import PLAN_IMPORT
from .practice import PRACTICE
from .section import SECTION
from .site_work import SITE_WORK
from .storey import STOREY
from .thermal import THERMAL
from .water import WATER

__all__ = [
    "GLOSSARY",
    "Day",
    "Entry",
    "Items",
    "Number",
    "Text",
    "Word",
    "items",
    "lookup",
    "named",
    "number",
]


def _merged(*parts: dict[str, Entry]) -> dict[str, Entry]:
    merged: dict[str, Entry] = {}
    for part in parts:
        for name, entry in part.items():
            if name in merged:
                raise ValueError(f"{name} stands twice in the glossary")
            merged[name] = entry
    return merged


GLOSSARY = MappingProxyType(
    _merged(
        THERMAL,
        WATER,
        GEOMETRY,
        PRACTICE,
        BUILDING,
        COMPARING,
        ENVELOPE,
        SECTION,
        STOREY,
        FINDINGS,
        ORDERING,
        SITE_WORK,
        FITTING,
        PLAN_IMPORT,
        DRAWING,
        OPTIONS,
        ESTIMATING,
    )
)


def lookup(name: str) -> Entry:
    """The entry of a field name; ``KeyError`` names what is missing."""
    try:
        return GLOSSARY[name]
    except KeyError:
        raise KeyError(f"the field {name!r} has no glossary entry (unit, range, meaning)") from None


def number(name: str) -> Number:
    """The entry of a quantity; ``TypeError`` where the name stands for none."""
    entry = lookup(name)
    if not isinstance(entry, Number):
        raise TypeError(f"{name!r} is no quantity")
    return entry


def items(name: str) -> Items:
    """The entry of a list; ``TypeError`` where the name stands for none."""
    entry = lookup(name)
    if not isinstance(entry, Items):
        raise TypeError(f"{name!r} is no list")
    return entry
