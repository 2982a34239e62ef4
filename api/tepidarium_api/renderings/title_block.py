"""The title block of a sheet: what it shows, of which project, who drew it when, which sheet it is (ISO 7200)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tepidarium_engine import __version__ as engine_version
from tepidarium_engine.drawing_sheet import DrawingSheet

from .marks import Area, Box, Disc, Line, Mark, Paper, Words, boxed, printable
from .sheet import Sheet
from .text_widths import shortened
from .turning import DEGREE, turned

__all__ = ["TitleBlock", "title_block"]

ROW = 8.0
LABEL, VALUE = 1.3, 2.0
ARROW = 8.0
"""Radius of the north arrow [mm]."""


class TitleBlock(NamedTuple):
    """What the drawing is called and which part of the house it shows."""

    title: str
    part: str


def title_block(
    box: Box, block: TitleBlock, wanted: DrawingSheet, tile: Sheet | None, sheet: tuple[int, int]
) -> Iterator[Mark]:
    """Fields that were not given stay empty, to be written by hand. ``sheet``: its number and how many there are."""
    yield boxed("frame", box)
    right = box.right - 2.5 * ARROW
    scale = "" if tile is None else f"1:{tile.scale} on {tile.paper}"
    rows = (
        (("Project", wanted.project, 1.0),),
        (("Part of the building", block.part, 0.6), ("Scale", scale, 0.4)),
        (
            ("Drawn by", wanted.author, 0.6),
            ("Date", wanted.drawn_on.isoformat() if wanted.drawn_on else "", 0.4),
        ),
        (
            ("Revision", wanted.revision, 0.3),
            ("Engine", engine_version, 0.3),
            ("Sheet", "{} of {}".format(*sheet), 0.4),
        ),
    )
    yield Words((box.left + 2.0, box.top + 3.2), block.title, 2.0, bold=True)
    y = box.bottom - ROW * len(rows)
    for fields in rows:
        yield from _fields(Box(box.left, y, right, y + ROW), fields)
        y += ROW
    yield Line("thin", ((right, box.bottom - ROW * len(rows)), (right, box.bottom)))
    if wanted.north is not None and tile is not None:
        yield from _north(((right + box.right) / 2.0, box.bottom - ROW * 2.0), wanted.north)


def _fields(box: Box, fields: tuple[tuple[str, str, float], ...]) -> Iterator[Mark]:
    yield Line("thin", ((box.left, box.top), (box.right, box.top)))
    x = box.left
    for label, words, share in fields:
        width = share * box.width
        if x > box.left:
            yield Line("thin", ((x, box.top), (x, box.bottom)))
        yield Words((x + 2.0, box.top + 2.4), label, LABEL)
        yield Words((x + 2.0, box.bottom - 1.6), shortened(printable(words), VALUE, width - 3.0), VALUE)
        x += width


def _north(centre: Paper, north: float) -> Iterator[Mark]:
    """An arrow to the north, which lies ``north`` degrees clockwise from the top of the sheet."""

    def at(x: float, y: float) -> Paper:
        across, down = turned((x, y), north * DEGREE)
        return (centre[0] + across, centre[1] + down)

    yield Disc("thin", centre, ARROW * 0.75)
    yield Area("black", ((at(0.0, -ARROW * 0.75), at(2.0, ARROW * 0.5), at(0.0, ARROW * 0.25)),))
    yield Area("thin", ((at(0.0, -ARROW * 0.75), at(-2.0, ARROW * 0.5), at(0.0, ARROW * 0.25)),))
    across, down = at(0.0, -ARROW * 0.95)
    yield Words((across, down + 1.0), "N", 2.0, "middle", True)
