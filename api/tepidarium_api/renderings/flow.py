"""Rows of text that flow through the columns of sheets, from one to the next, so that nothing is left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from .marks import Box, Line, Mark, Paper, Words, printable
from .sheet import INSET, TEXT_WIDTH
from .text_widths import wrapped

__all__ = [
    "LINES",
    "SMALL",
    "Cell",
    "Row",
    "Sample",
    "flowed",
    "heading",
    "paragraph",
    "rule",
    "samples",
    "table",
]

LINES = (3.6, 3.3, 3.0)
"""Between lines of small print [mm]: as it is usual, and closer where that saves a sheet. ISO 3098 asks for 1.5 times
the height of capitals at least."""
SMALL = 1.8
"""Height of small print [mm]."""
HEADING = 2.5
INDENT = 4.0
SAMPLE = 16.0
"""Where the words of a legend begin [mm]."""

Sample = Callable[[Paper], Iterable[Mark]]
"""Draws the sample of a legend from a place on, 13 mm wide."""


class Row(NamedTuple):
    """What takes so many ``lines`` of a column, and ``more`` [mm]: ``draw`` draws it with its lower left corner at a
    place, its lines so far apart [mm]. ``tied`` rows stay with the next one; ``head`` is repeated on top of the next
    column."""

    lines: int
    draw: Callable[[Paper, float], Iterable[Mark]]
    more: float = 0.0
    tied: bool = False
    head: Row | None = None

    def height(self, line: float) -> float:
        """With lines so far apart [mm]."""
        return self.lines * line + self.more


class Cell(NamedTuple):
    """A column of a table: its heading, how wide it is [mm], and whether it holds numbers."""

    heading: str
    width: float
    number: bool = False


def _written(words: str, indent: float = 0.0, height: float = SMALL, bold: bool = False) -> Row:
    def draw(place: Paper, _line: float) -> Iterator[Mark]:
        yield Words((place[0] + indent, place[1]), words, height, bold=bold)

    return Row(1, draw)


def heading(words: str) -> Row:
    return Row(
        1,
        lambda place, _line: [Words((place[0], place[1] - 1.0), printable(words), HEADING, bold=True)],
        4.4,
        tied=True,
    )


def paragraph(words: str, mark: str = "") -> Iterator[Row]:
    """Wrapped lines, led by a mark; they may break between columns."""
    indent = INDENT if mark else 0.0
    for count, line in enumerate(wrapped(printable(words), SMALL, TEXT_WIDTH - indent)):
        row = _written(line, indent)
        yield row if count or not mark else _marked(row, mark)


def _marked(row: Row, mark: str) -> Row:
    return Row(row.lines, lambda place, line: [Words(place, mark, SMALL), *row.draw(place, line)])


def rule() -> Row:
    def draw(place: Paper, _line: float) -> Iterator[Mark]:
        x, y = place[0] - INSET, place[1] - 0.6
        yield Line("thin", ((x, y), (x + TEXT_WIDTH + 2.0 * INSET, y)))

    return Row(0, draw, 2.6)


def table(columns: Sequence[Cell], rows: Iterable[Sequence[str]]) -> Iterator[Row]:
    """Words that are too long for their column are wrapped; the headings are repeated where the table breaks."""
    head = _cells(columns, [cell.heading for cell in columns], True)
    yield head._replace(tied=True)
    for texts in rows:
        yield _cells(columns, texts, False)._replace(head=head)


def _cells(columns: Sequence[Cell], texts: Sequence[str], bold: bool) -> Row:
    """One row; its cells begin on the same line."""
    cells = [
        wrapped(printable(words), SMALL, cell.width - 1.0, bold)
        for cell, words in zip(columns, texts, strict=True)
    ]
    count = max(1, *map(len, cells))

    def draw(place: Paper, line: float) -> Iterator[Mark]:
        x, top = place[0], place[1] - (count - 1) * line
        for cell, lines in zip(columns, cells, strict=True):
            at, anchor = (x + cell.width - 1.0, "end") if cell.number else (x, "start")
            for number, words in enumerate(lines):
                yield Words((at, top + number * line), words, SMALL, anchor, bold)
            x += cell.width

    return Row(count, draw)


def samples(rows: Iterable[tuple[Sample, str]]) -> Iterator[Row]:
    """A legend."""
    for sample, words in rows:
        for count, line in enumerate(wrapped(words, SMALL, TEXT_WIDTH - SAMPLE)):
            yield _sampled(sample if count == 0 else None, line)


def _sampled(sample: Sample | None, words: str) -> Row:
    def draw(place: Paper, _line: float) -> Iterator[Mark]:
        yield Words((place[0] + SAMPLE, place[1]), words, SMALL)
        if sample is not None:
            yield from sample((place[0], place[1] - 0.9))

    return Row(1, draw)


def flowed(rows: Sequence[Row], columns: Callable[[], Iterable[tuple[int, Box]]]) -> dict[int, list[Mark]]:
    """The marks of all rows by the number of the sheet that each of the ``columns`` belongs to; columns never end.
    Lines come closer where that saves a sheet, so that none holds a few lines alone."""
    best: dict[int, list[Mark]] | None = None
    for line in LINES:
        way = _flowed(rows, columns(), line)
        if best is None or max(way, default=0) < max(best, default=0):
            best = way
        if len(best) <= 1:
            break
    return best or {}


def _flowed(rows: Sequence[Row], columns: Iterable[tuple[int, Box]], line: float) -> dict[int, list[Mark]]:
    drawn: dict[int, list[Mark]] = {}
    following = iter(columns)
    sheet, box = next(following)
    y = box.top + 1.0
    for group in _groups(rows):
        if y + sum(row.height(line) for row in group) > box.bottom - 2.0:
            sheet, box = next(following)
            y = box.top + 1.0
        repeated = [group[0].head] if group[0].head is not None and y == box.top + 1.0 else []
        for row in [*repeated, *group]:
            y += row.height(line)
            drawn.setdefault(sheet, []).extend(row.draw((box.left + INSET, y), line))
    return drawn


def _groups(rows: Sequence[Row]) -> Iterator[list[Row]]:
    """Rows that stay together."""
    group: list[Row] = []
    for row in rows:
        group.append(row)
        if not row.tied:
            yield group
            group = []
    if group:
        yield group
