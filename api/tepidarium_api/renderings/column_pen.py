"""Lines of print in the column beside a drawing."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator, Mapping, Sequence

from tepidarium_engine.results import Caution, Finding

from .sheet import Sheet
from .svg import element, text

__all__ = [
    "LINE",
    "SMALL",
    "Pen",
    "Sample",
    "legend",
    "millimetres",
    "notes",
    "sample",
    "title_block",
]

LINE = 3.6
"""Between lines of small print [mm]."""
INSET = 3.0
CHARACTER = 1.4
"""Width of a character of small print, on average [mm]."""
SMALL = 1.8
FEW = 4
"""Places of a finding that are all written with their numbers."""
NAMED = 6
"""Further places that are written by name."""

Sample = Callable[[float, float], str]
"""Draws the sample of a legend at a place [mm]."""


class Pen:
    """Writes down the column, line by line, until its end is reached."""

    def __init__(self, sheet: Sheet, top: float, bottom: float) -> None:
        self.edge = sheet.column[0]
        self.width, self.left, self.y, self.bottom = sheet.column_width, self.edge + INSET, top, bottom
        self.drawn: list[str] = []

    def heading(self, words: str) -> None:
        self.y += 6.0
        self.drawn.append(text((self.left, self.y), words, 2.5, class_="strong"))
        self.y += 1.0

    def line(self, words: str, indent: float = 0.0) -> None:
        self.y += LINE
        self.drawn.append(text((self.left + indent, self.y), words, SMALL))

    def row(self, cells: Mapping[float, str], kind: str = "") -> None:
        """A line of a table: words by the distance of their beginning [mm], or of their end where negative."""
        self.y += LINE
        for stop, words in cells.items():
            anchor = "end" if stop < 0.0 else "start"
            named = {"class_": kind} if kind else {}
            place = (self.left + abs(stop), self.y)
            self.drawn.append(text(place, words, SMALL, text_anchor=anchor, **named))

    @property
    def lines_left(self) -> int:
        return int((self.bottom - self.y) / LINE) - 1

    def wrapped(self, words: str) -> list[str]:
        return textwrap.wrap(words, int((self.width - 2.0 * INSET) / CHARACTER))

    def rule(self) -> None:
        self.y += 2.0
        right = self.edge + self.width
        self.drawn.append(element("line", class_="thin", x1=self.edge, y1=self.y, x2=right, y2=self.y))


def legend(pen: Pen, rows: Sequence[tuple[Sample, str]]) -> None:
    pen.heading("Legend")
    for draw, words in rows:
        pen.line(words, 16.0)
        pen.drawn.append(draw(pen.left, pen.y - 0.9))
    pen.rule()


def sample(kind: str) -> Sample:
    """A line of the kind."""
    return lambda x, y: element("path", class_=kind, d=f"M {x:.3f},{y:.3f} L {x + 13.0:.3f},{y:.3f}")


def title_block(sheet: Sheet, lines: Sequence[str]) -> tuple[float, Iterator[str]]:
    """Where the block at the foot of the column begins [mm], and the block."""
    _, _, bottom = sheet.column
    top = bottom - 12.0 - LINE * len(lines)
    pen = Pen(sheet, top - 2.0, bottom)
    pen.rule()
    pen.heading("Layout of floor heating pipe")
    for words in lines:
        pen.line(words)
    return top, iter(pen.drawn)


def notes(
    pen: Pen, findings: Sequence[Finding], cautions: Sequence[Caution], marks: Mapping[str, str]
) -> None:
    """Findings with the ``marks`` of their codes, as many as there is room for; then the cautions, whole unless a
    violation or a warning needs the room, and at least what each begins with."""
    pen.heading("Notes")
    written = [_lines(pen, finding) for finding in findings]
    kept = [line for caution in cautions for line in pen.wrapped("! " + caution.message)]
    urgent = sum(len(lines) for lines, one in zip(written, findings, strict=True) if one.severity != "note")
    if pen.lines_left < urgent + len(kept) + 1:
        kept = [line for caution in cautions for line in pen.wrapped("! " + _beginning(caution.message))]
    for told, (lines, finding) in enumerate(zip(written, findings, strict=True)):
        if pen.lines_left < len(lines) + len(kept) + 1:
            left = len(findings) - told
            pen.line(f"{left} more finding{'s' if left > 1 else ''} in the report.")
            break
        pen.drawn.append(text((pen.left, pen.y + LINE), marks.get(finding.code, "-"), SMALL))
        for words in lines:
            pen.line(words, 4.0)
    if not findings:
        pen.line("No findings.")
    for words in kept:
        pen.line(words)


def _lines(pen: Pen, finding: Finding) -> list[str]:
    """The words of a finding and of its places: all of a few, of many the worst and the names of some others."""
    whole = finding.places if len(finding.places) <= FEW else finding.places[:1]
    places = "; ".join(
        filter(None, (": ".join(filter(None, (place.subject, place.message))) for place in whole))
    )
    others = list(dict.fromkeys(place.subject for place in finding.places[len(whole) :] if place.subject))
    others = [name for name in others if name != finding.places[0].subject]
    if others:
        more = f" and {len(others) - NAMED} more" if len(others) > NAMED else ""
        places += f"; also {', '.join(others[:NAMED])}{more}"
    words = f" ({places})" if places else ""
    return pen.wrapped(f"{finding.severity.capitalize()}: {finding.message}{words}")


def _beginning(message: str) -> str:
    """The first sentences, until there is something to go by."""
    sentences = message.rstrip(".").split(". ")
    count = next((n for n in range(1, len(sentences)) if len(". ".join(sentences[:n])) >= 30), len(sentences))
    return ". ".join(sentences[:count]) + "."


def millimetres(length: float) -> str:
    return f"{length * 1000.0:.4g}"
