"""Names and numbers on a plan: they stand where nothing is drawn, or outside the plan with a leader line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from .free_floor import FreeFloor
from .marks import Box, Disc, Line, Mark, Paper, Words, printable
from .text_widths import shortened, text_width

__all__ = ["Label", "placed"]

HEIGHTS = (2.2, 1.8)
"""Of the letters, best first [mm] (ISO 3098: 1.8 at least)."""
MARGIN = 0.35
"""Between the words and what is drawn [mm]."""
LEADING = 1.6
"""Between lines of words, over their height."""
DESCENT = 0.3
"""Of letters below the line, over the height of capitals."""
LONGEST = 60.0
"""Longer names are shortened [mm]."""
DOT = 0.5
UPRIGHT = (0.0, -1.0)


class Label(NamedTuple):
    """``lines`` of words near ``target`` [mm]; ``floor`` says which cells they may stand on. The first line is bold."""

    lines: tuple[str, ...]
    target: Paper
    floor: Sequence[int]
    kind: str = "name"


class _Form(NamedTuple):
    lines: tuple[str, ...]
    height: float
    along: Paper

    @property
    def size(self) -> Paper:
        across = max(text_width(line, self.height, True) for line in self.lines) + 2.0 * MARGIN
        down = self.height * (1.0 + DESCENT + LEADING * (len(self.lines) - 1)) + 2.0 * MARGIN
        return (across, down) if self.along != UPRIGHT else (down, across)


def placed(free: FreeFloor, labels: Sequence[Label], outside: Sequence[int]) -> Iterator[Mark]:
    """The labels; what finds no place on its floor stands ``outside`` with a line to its target."""
    for label in labels:
        lines = tuple(shortened(printable(line), HEIGHTS[0], LONGEST, True) for line in label.lines)
        found = _on_floor(free, lines, label)
        if found is not None:
            form, box = found
            free.take_box(box)
            yield from _written(form, box)
            continue
        form = _Form(lines, HEIGHTS[1], (1.0, 0.0))
        aside = free.nearest(form.size, label.target, outside)
        if aside is not None:
            free.take_box(aside)
            yield from _leader(aside, label.target)
            yield from _written(form, aside)


def _on_floor(free: FreeFloor, lines: tuple[str, ...], label: Label) -> tuple[_Form, Box] | None:
    """One line after the other, then all on one line, then upright."""
    single = (("  ".join(lines)),)
    for form in (
        *(_Form(lines, height, (1.0, 0.0)) for height in HEIGHTS),
        _Form(single, HEIGHTS[1], (1.0, 0.0)),
        _Form(single, HEIGHTS[1], UPRIGHT),
    ):
        box = free.nearest(form.size, label.target, label.floor)
        if box is not None:
            return form, box
    return None


def _written(form: _Form, box: Box) -> Iterator[Mark]:
    for count, line in enumerate(form.lines):
        down = MARGIN + form.height * (1.0 + LEADING * count)
        if form.along == UPRIGHT:
            place = (box.left + down, (box.top + box.bottom) / 2.0)
        else:
            place = ((box.left + box.right) / 2.0, box.top + down)
        yield Words(place, line, form.height, "middle", count == 0, form.along, "name")


def _leader(box: Box, target: Paper) -> Iterator[Mark]:
    """From the middle of the nearest side to a dot."""
    x, y = target
    ends = (
        ((box.left + box.right) / 2.0, box.top),
        ((box.left + box.right) / 2.0, box.bottom),
        (box.left, (box.top + box.bottom) / 2.0),
        (box.right, (box.top + box.bottom) / 2.0),
    )
    end = min(ends, key=lambda at: (at[0] - x) ** 2 + (at[1] - y) ** 2)
    yield Line("leader", (end, target))
    yield Disc("dot", target, DOT)
