"""Names and numbers on a plan: they stand where nothing is drawn, or beside the plan with a leader line.

Of each label several texts are tried, the whole name first, then shorter ones with a number that a list explains.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from typing import NamedTuple

from .free_floor import FreeFloor
from .marks import Box, Disc, Line, Mark, Paper, Words, crossing, distance, printable
from .openings import ANYWHERE
from .text_widths import shortened, text_width, wrapped

__all__ = ["Label", "Placed", "Side", "placed"]

HEIGHTS = (2.2, 1.8)
"""Of the letters, best first [mm] (ISO 3098: 1.8 at least)."""
MARGIN = 0.35
"""Between the words and what is drawn [mm]."""
LEADING = 1.6
"""Between lines of words, over their height."""
ASCENT, DESCENT = 0.25, 0.3
"""Of letters with accents above capitals, and of letters below the line, over the height of capitals."""
LINES = (60.0, 40.0, 27.0, 18.0)
"""Widths in which a name is wrapped, the best first [mm]."""
LONGEST = 120.0
"""A name with all that is said below it on one line [mm]."""
MOST_LINES = 3
"""Of a name."""
FEWEST = 6
"""Characters of the beginning of a name, where it is shortened."""
NEAR = 80.0
"""A name so far from its floor [mm] serves better than a number on it."""
FAR = 320.0
"""A leader line across more of a plan [mm] is hard to follow: a number nearby serves better than the name."""
APART = 1.5
"""Between names beside the plan [mm]."""
TRIALS = 6
"""Places that are tried on each side, because leader lines to the nearest cross something."""
REACHES = (NEAR, 2.0 * NEAR, 3.0 * NEAR, FAR, ANYWHERE)
"""From the target, so far is looked for a place [mm], one distance after the other."""
INSET = 1.0
"""Between the end of a leader line and the corner of a label, at least [mm]."""
DOT = 0.5
UPRIGHT = (0.0, -1.0)


class Side(NamedTuple):
    """Cells of which none is nearer than ``away`` [mm]."""

    away: float
    cells: Sequence[int]


class Label(NamedTuple):
    """A name with what is said ``below`` it and what must be seen in any case (``warnings``), near ``target`` [mm].

    ``number`` stands for the name where that has no room. The label may stand on the cells of ``floor``, then with a
    leader line to the target on those of each of ``beside``, then on those of ``anywhere``.
    """

    name: str
    number: str
    target: Paper
    floor: Sequence[int]
    beside: Sequence[Side]
    anywhere: Sequence[int]
    below: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()


class Placed(NamedTuple):
    """The marks of a label, and whether its name had to give way to its number."""

    marks: tuple[Mark, ...]
    numbered: bool


class _Form(NamedTuple):
    """Lines of words, the first of them ``bold``."""

    lines: tuple[str, ...]
    bold: int
    height: float
    along: Paper = (1.0, 0.0)
    numbered: bool = False

    @property
    def size(self) -> Paper:
        across = max(text_width(line, self.height, True) for line in self.lines) + 2.0 * MARGIN
        high = ASCENT + 1.0 + DESCENT + LEADING * (len(self.lines) - 1)
        down = self.height * high + 2.0 * MARGIN
        return (across, down) if self.along != UPRIGHT else (down, across)


_Leader = tuple[Paper, Paper]
_Found = tuple[_Form, Box, _Leader | None]


def placed(
    free: FreeFloor, words: FreeFloor, written: Sequence[Box], labels: Sequence[Label]
) -> Iterator[Placed]:
    """The labels in order. In ``free`` everything is taken that is drawn, in ``words`` what no label may cover in any
    case; only where there is no other place does a label stand on pipe. Leader lines cross nothing that is
    ``written``."""
    before = _Before(list(written), [])
    for label in labels:
        found = _place(free, words, label, before)
        if found is None:
            yield Placed((), True)
            continue
        form, box, leader = found
        before.boxes.append(box)
        for taken in (free, words):
            taken.take_box(box if leader is None else box.grown(APART))
            if leader is not None:
                taken.take_line(*leader)
        if leader is not None:
            before.leaders.append((leader, _round(leader)))
        line = () if leader is None else (Line("leader", leader), Disc("dot", leader[1], DOT))
        yield Placed((*line, *_written(form, box)), form.numbered)


class _Before(NamedTuple):
    """What was written before, with its leader lines and the box round each of them."""

    boxes: list[Box]
    leaders: list[tuple[_Leader, Box]]

    def beside_words(self, leader: _Leader) -> bool:
        """Whether a leader line crosses no words."""
        left, top, right, bottom = _round(leader)
        return not any(
            box.crossed(*leader)
            for box in self.boxes
            if box.left <= right and left <= box.right and box.top <= bottom and top <= box.bottom
        )

    def clear(self, leader: _Leader) -> bool:
        """Whether a leader line crosses neither words nor other leader lines."""
        left, top, right, bottom = _round(leader)
        return self.beside_words(leader) and not any(
            crossing(leader, other)
            for other, box in self.leaders
            if box.left <= right and left <= box.right and box.top <= bottom and top <= box.bottom
        )


def _round(leader: _Leader) -> Box:
    (ax, ay), (bx, by) = leader
    return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))


def _place(free: FreeFloor, words: FreeFloor, label: Label, before: _Before) -> _Found | None:
    """The best place that is left, from the whole name on its floor to the number wherever no words stand."""
    whole, number = _whole(label), list(_number(label))
    outside = next(form for form in whole if form.height == HEIGHTS[1])
    everywhere = [*label.beside, Side(0.0, label.anywhere)]
    clear = before.clear
    found = _on_floor(free, [*whole, *_short(label)], label)
    if found is not None:
        return found
    return (
        _led(free, outside, label, label.beside, clear, within=NEAR)
        or _on_floor(free, number, label)
        or _led(free, outside, label, label.beside, clear, within=FAR)
        or _led(free, number[0], label, everywhere, clear)
        or _led(free, outside, label, label.beside, clear)
        or _led(free, number[0], label, everywhere, before.beside_words)
        or _on_floor(words, number, label)
        or _led(words, number[0], label, everywhere, lambda _: True)
    )


def _on_floor(free: FreeFloor, forms: Sequence[_Form], label: Label) -> _Found | None:
    openings = free.openings(label.floor)
    for form in forms:
        box = openings.nearest(form.size, label.target)
        if box is not None:
            return form, box, None
    return None


def _led(
    free: FreeFloor,
    form: _Form,
    label: Label,
    around: Sequence[Side],
    usable: Callable[[_Leader], bool],
    *,
    within: float = ANYWHERE,
) -> _Found | None:
    """Away from the floor, as near as there is a place with a leader line that can be used, ``within`` so many mm."""
    best = None
    for away, cells in around:
        if away > within:
            continue
        for box in islice(_nearest_first(free, form.size, label.target, cells, within), TRIALS):
            leader = _leader(box, label.target)
            if usable(leader):
                best, within = (form, box, leader), distance(box.middle, label.target)
                break
    return best


def _nearest_first(
    free: FreeFloor, size: Paper, target: Paper, cells: Sequence[int], within: float
) -> Iterator[Box]:
    """Places ``within`` so many mm of a target, none over the middle of one before; far ones are looked for last."""
    refused: list[Paper] = []
    for reach in (min(own, within) for own in REACHES):
        around = Box(*target, *target).grown(reach + max(size))
        places = free.openings(cells, around).places(size)
        for place in refused:
            places.refuse(place)
        while (box := places.nearest(target, reach)) is not None:
            yield box
            refused.append(box.middle)
            places.refuse(box.middle)
        if reach == within:
            break


def _whole(label: Label) -> list[_Form]:
    """The name on one line or wrapped, with what is below it; then all on one line; then upright. At least one."""
    name, height = printable(label.name) or label.number, HEIGHTS[1]
    forms = []
    if text_width(name, HEIGHTS[0], True) <= LINES[0]:
        forms.append(_Form((name, *_below(label, HEIGHTS[0], LINES[0])), 1, HEIGHTS[0]))
    for width in LINES:
        lines = wrapped(name, height, width, True)
        if len(lines) <= MOST_LINES and (" ".join(lines) == name or " " not in name):
            forms.append(_Form((*lines, *_below(label, height, width)), len(lines), height))
    single = "  ".join(filter(None, (name, ", ".join(label.below), *_warnings(label))))
    if text_width(single, height, True) <= LONGEST:
        forms += [_Form((single,), 1, height, along) for along in ((1.0, 0.0), UPRIGHT)]
    return list(dict.fromkeys(forms)) or [*_short(label)][:1] or [*_number(label)]


def _short(label: Label) -> Iterator[_Form]:
    """The beginning of the name with its number."""
    name, height = printable(label.name), HEIGHTS[1]
    for width in LINES:
        kept = shortened(name, height, width - text_width(f" {label.number}", height, True), True)
        if kept != name and len(kept) > FEWEST:
            lines = (f"{kept} {label.number}", *_below(label, height, width))
            yield _Form(lines, 1, height, numbered=True)
            yield _Form(("  ".join(lines),), 1, height, UPRIGHT, True)


def _number(label: Label) -> Iterator[_Form]:
    for along in ((1.0, 0.0), UPRIGHT):
        yield _Form((label.number, *_warnings(label)), 1, HEIGHTS[1], along, True)


def _below(label: Label, height: float, width: float) -> list[str]:
    """On one line where that is no wider than ``width`` [mm]."""
    joined = ", ".join(label.below)
    fits = text_width(joined, height, True) <= width
    return [*filter(None, (joined,) if fits else label.below), *_warnings(label)]


def _warnings(label: Label) -> list[str]:
    return [shortened(printable(line), HEIGHTS[0], LINES[0], True) for line in label.warnings]


def _written(form: _Form, box: Box) -> Iterator[Mark]:
    for count, line in enumerate(form.lines):
        down = MARGIN + form.height * (ASCENT + 1.0 + LEADING * count)
        if form.along == UPRIGHT:
            place = (box.left + down, (box.top + box.bottom) / 2.0)
        else:
            place = ((box.left + box.right) / 2.0, box.top + down)
        yield Words(place, line, form.height, "middle", count < form.bold, form.along, "name")


def _leader(box: Box, target: Paper) -> _Leader:
    """From the side that faces the target, square to it where that can be."""
    x, y = target
    inset = min(INSET, box.width / 2.0, box.height / 2.0)
    if box.top <= y <= box.bottom:
        return (box.left if x < box.left else box.right, y), target
    across = min(max(x, box.left + inset), box.right - inset)
    return (across, box.top if y < box.top else box.bottom), target
