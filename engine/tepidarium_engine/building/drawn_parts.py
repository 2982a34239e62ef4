"""Parts of storeys with what is remembered of them: once for all that were asked for alike so far.

Parts that are alike go on together until one is asked for otherwise than the others. From there on it has a memory of
its own, as what is remembered counts in how much is tried: each part is drawn as it would be alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple, TypeAlias

from ..storey.model.layout_records import StoreyTask
from ..storey.own_frame import OwnFrame
from ..storey.storey_layout import StoreyMemory
from .drawn_storey import Drawing
from .house import StoreySite

__all__ = ["AskedPart", "Book", "Part", "known", "part_of", "with_books"]

Part: TypeAlias = tuple[int, ...]
"""Rooms of a part of a storey, by index."""
_Drawings: TypeAlias = list[tuple[tuple[StoreyTask, ...], Drawing]]
"""Each with all tasks for which it is the same."""


@dataclass
class Book:
    """What is remembered of parts of storeys: fields and ways, and drawings and sketches by what was asked for."""

    memory: StoreyMemory = field(default_factory=StoreyMemory)
    layouts: _Drawings = field(default_factory=list)
    sketches: _Drawings = field(default_factory=list)

    def copied(self) -> Book:
        return Book(self.memory.copied(), [*self.layouts], [*self.sketches])


class AskedPart(NamedTuple):
    """A part of a storey, its task in a frame of its own, and the book about it."""

    site: StoreySite
    frame: OwnFrame
    book: Book


def part_of(site: StoreySite) -> Part:
    return tuple(room.index for room in site.rooms)


def known(made: _Drawings, task: StoreyTask) -> Drawing | None:
    """What was made before for the same task."""
    return next((drawing for asked, drawing in made if task in asked), None)


def with_books(books: dict[Part, Book], parts: Sequence[tuple[StoreySite, OwnFrame]]) -> list[AskedPart]:
    """Parts that are asked for at once, with their ``books``, which are begun and parted where that is due."""
    used: set[int] = set()
    now: dict[tuple[int, StoreyTask], Book] = {}
    found = []
    for site, frame in parts:
        before = books.get(part_of(site))
        key = (id(before), frame.task)
        if key not in now:
            now[key] = Book() if before is None else before.copied() if id(before) in used else before
            used.add(id(before))
        books[part_of(site)] = now[key]
        found.append(AskedPart(site, frame, now[key]))
    return found
