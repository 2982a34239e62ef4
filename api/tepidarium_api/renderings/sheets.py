"""Sheets put together: the plan, the text beside it, the title block, and further sheets for what has no room. They are
numbered through all plans of a document."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate
from itertools import count as counted
from typing import NamedTuple

from tepidarium_engine.drawing_sheet import DrawingSheet

from .flow import Row, flowed
from .marks import Box, Group, Line, Mark, Paper, Words, boxed
from .sheet import BINDING, EDGE, OVERLAP, SCALE_BAR, TITLE_BLOCK, Sheet, columns_of
from .title_block import TitleBlock, title_block

__all__ = ["DrawnPlan", "DrawnSheet", "drawn_sheets"]

OUTSIDE_FRAME = 1.5
"""Between the frame and words beside it [mm]."""


class DrawnSheet(NamedTuple):
    """One sheet: ``plan`` is moved by ``offset`` and cut off at ``window``, ``paper`` stands as it is [mm]. ``sheet``
    is where the plan lies; None where the sheet holds text alone."""

    title: str
    size: Paper
    plan: tuple[Group, ...]
    offset: Paper
    window: Box
    paper: tuple[Group, ...]
    sheet: Sheet | None


class DrawnPlan(NamedTuple):
    """A ``plan`` as drawn for the first of its ``tiles``, the ``rows`` of text to it, and what its title block says."""

    tiles: Sequence[Sheet]
    plan: Sequence[Group]
    rows: Sequence[Row]
    block: TitleBlock


class _Filled(NamedTuple):
    """A plan with the marks of its text by sheet, and how many sheets both take."""

    drawn: DrawnPlan
    texts: dict[int, list[Mark]]
    number: int


def drawn_sheets(plans: Iterable[DrawnPlan], wanted: DrawingSheet) -> list[DrawnSheet]:
    """The sheets of a document, plan after plan. Rows of text begin beside a plan on one sheet and go on over sheets of
    their own."""
    filled = list(map(_filled, plans))
    starts = list(accumulate((own.number for own in filled), initial=0))
    return [
        sheet
        for own, start in zip(filled, starts, strict=False)
        for sheet in _sheets_of(own, wanted, start, starts[-1])
    ]


def _filled(drawn: DrawnPlan) -> _Filled:
    tiles = drawn.tiles
    size, whole = tiles[0].size, tiles[0].text_beside
    texts = flowed(drawn.rows, lambda: _columns(size, 0 if whole else len(tiles), whole))
    return _Filled(drawn, texts, max(len(tiles), max(texts, default=0) + 1))


def _sheets_of(filled: _Filled, wanted: DrawingSheet, start: int, last: int) -> Iterator[DrawnSheet]:
    """Those of one plan, after ``start`` others of a document with ``last`` sheets."""
    (tiles, plan, _, block), texts, number = filled
    size, whole = tiles[0].size, tiles[0].text_beside
    for index in range(number):
        tile = tiles[index] if index < len(tiles) else None
        boxes = columns_of(size, tile is not None and whole)
        words = tuple(texts.get(index, ()))
        if words or tile is None:
            words += tuple(_lines(size, boxes))
        place = boxes[-1]._replace(top=boxes[-1].bottom - TITLE_BLOCK)
        sheet = (start + index + 1, last)
        parts = [
            Group("column", words),
            Group("title-block", tuple(title_block(place, block, wanted, tile, sheet))),
            Group("frame", (boxed("frame", Box(BINDING, EDGE, size[0] - EDGE, size[1] - EDGE)),)),
        ]
        if tile is None:
            yield DrawnSheet(block.title, size, (), (0.0, 0.0), Box(0.0, 0.0, *size), tuple(parts), None)
            continue
        parts += [
            Group("scale-bar", tuple(scale_bar(tile))),
            Group("match-lines", tuple(_match(tile, tiles, start))),
        ]
        offset = _offset(tiles[0], tile)
        yield DrawnSheet(block.title, size, tuple(plan), offset, tile.area, tuple(parts), tile)


def _offset(first: Sheet, tile: Sheet) -> Paper:
    return (tile.middle[0] - first.middle[0], tile.middle[1] - first.middle[1])


def _columns(size: Paper, first: int, beside_plan: bool) -> Iterator[tuple[int, Box]]:
    """Columns for text with the number of their sheet, above the title block where it stands in them."""
    for number in counted(first):
        *boxes, last = columns_of(size, beside_plan and number == first)
        for box in boxes:
            yield number, box
        yield number, last._replace(bottom=last.bottom - TITLE_BLOCK)


def _lines(size: Paper, boxes: Sequence[Box]) -> Iterator[Mark]:
    """Between the columns, and between them and the plan."""
    for box in boxes:
        if box.left > BINDING:
            yield Line("thin", ((box.left, box.top), (box.left, box.bottom)))
    if boxes[0].top > EDGE:
        yield Line("frame", ((BINDING, boxes[0].top), (size[0] - EDGE, boxes[0].top)))


def scale_bar(sheet: Sheet) -> Iterator[Mark]:
    """A bar of whole metres, alternately filled, and the scale in figures."""
    step = next(step for step in (0.5, 1.0, 2.0, 5.0, 10.0, 50.0) if sheet.length(step) >= 10.0)
    width = sheet.length(step)
    left, y = sheet.area.left + 8.0, sheet.area.bottom + SCALE_BAR / 2.0
    for count in range(4):
        x = left + count * width
        yield boxed("black" if count % 2 == 0 else "thin", Box(x, y, x + width, y + 1.6))
    for count in range(5):
        yield Words((left + count * width, y - 1.2), f"{count * step:g}", 1.8, "middle")
    end = left + 4.0 * width
    yield Words((end + 3.0, y + 1.6), "m", 1.8)
    yield Words((end + 8.0, y + 1.6), f"Scale 1:{sheet.scale} on {sheet.paper}", 2.5)


def _match(tile: Sheet, tiles: Sequence[Sheet], before: int) -> Iterator[Mark]:
    """Lines at which neighbouring sheets meet, in the middle of what both show, with the numbers of these sheets, which
    come after so many ``before``. Their names, which both bear, stand beside the ends of the lines outside the frame,
    where nothing of the plan is."""
    numbers = {own.tile: count for count, own in enumerate(tiles, start=before + 1)}
    (column, row), area, away = tile.tile, tile.area, OVERLAP / 2.0
    left, right, top, bottom = area.left + away, area.right - away, area.top + away, area.bottom - away
    over, aside = area.top - OUTSIDE_FRAME, area.left - OUTSIDE_FRAME
    sides = {
        (column - 1, row): ((left, area.bottom), (left, area.top), (left, over), "start"),
        (column + 1, row): ((right, area.bottom), (right, area.top), (right, over), "end"),
        (column, row - 1): ((area.left, top), (area.right, top), (aside, top), "end"),
        (column, row + 1): ((area.left, bottom), (area.right, bottom), (aside, bottom), "start"),
    }
    for other, (start, end, place, anchor) in sides.items():
        if other in numbers:
            pair = "-".join(map(str, sorted((numbers[tile.tile], numbers[other]))))
            along = (1.0, 0.0) if start[0] == end[0] else (0.0, -1.0)
            words = f"Match line {pair}, continued on sheet {numbers[other]}"
            yield Line("match", (start, end))
            yield Words(place, words, 1.8, anchor, along=along)
