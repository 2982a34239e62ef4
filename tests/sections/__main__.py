"""``python -m tests.sections [file]``: draw how far EN 1264-2 lies from the solved section, for the documentation."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from tepidarium_api.renderings.svg import Paper, document, element, group, points, text

from .against_standard import EN_OVER_ELEMENTS, SPACINGS, THICK, THIN, standard_over_section

PLACES = tuple(0.05 + 0.0125 * step for step in range(27))
COVERINGS = {0.0: "#b3261e", 0.05: "#c77b1a", 0.10: "#2d7d46", 0.15: "#1f4e9e"}
PIPES = {"20 x 2 mm": THICK, "16 x 2 mm": THIN}

SIZE = (195.0, 105.0)
LEFT, TOP, WIDTH, HEIGHT = 18.0, 14.0, 122.0, 76.0
LOW, HIGH = -4.0, 18.0

STYLE = {
    "sheet": "fill: #fff",
    "grid": "stroke: #ccc; stroke-width: 0.2",
    "axis": "stroke: #000; stroke-width: 0.4",
    "curve": "fill: none; stroke-width: 0.6",
    "thin": "stroke-dasharray: 2 1",
    "band": "fill: #e8e4da",
    "dot": "stroke: #fff; stroke-width: 0.2",
}


def _at(spacing: float, percent: float) -> Paper:
    x = LEFT + WIDTH * (spacing - 0.05) / 0.325
    return x, TOP + HEIGHT * (HIGH - percent) / (HIGH - LOW)


def _grid() -> Iterator[str]:
    for percent in range(int(LOW), int(HIGH) + 1, 2):
        (x, y), (right, _) = _at(0.05, percent), _at(0.375, percent)
        yield element("line", class_="axis" if percent == 0 else "grid", x1=x, y1=y, x2=right, y2=y)
        yield text((x - 1.5, y + 0.8), f"{percent}", 2.0, text_anchor="end")
    for step in range(7):
        spacing = 0.075 + 0.05 * step
        x, y = _at(spacing, LOW)
        yield element("line", class_="grid", x1=x, y1=y, x2=x, y2=TOP)
        yield text((x, y + 4.0), f"{1000 * spacing:.0f}", 2.0, text_anchor="middle")
    yield text((LEFT + WIDTH / 2.0, TOP + HEIGHT + 9.0), "pipe spacing, mm", 2.2, text_anchor="middle")
    title = "Heat output by EN 1264-2 over the solved section, per cent more"
    yield text((LEFT, TOP - 5.0), title, 2.4)


def _curves() -> Iterator[str]:
    for number, (name, pipe) in enumerate(PIPES.items()):
        for covering, colour in COVERINGS.items():
            line = [_at(spacing, standard_over_section(pipe, spacing, covering)) for spacing in PLACES]
            kind = "curve thin" if number else "curve"
            yield element("polyline", class_=kind, stroke=colour, points=points(line))
            y = TOP + 6.0 + 26.0 * number + 5.0 * list(COVERINGS).index(covering)
            x = LEFT + WIDTH + 4.0
            yield element("line", class_=kind, stroke=colour, x1=x, y1=y - 0.8, x2=x + 7.0, y2=y - 0.8)
            yield text((x + 9.0, y), f"covering {covering:g} m²K/W", 2.0)
        yield text((LEFT + WIDTH + 4.0, TOP + 1.0 + 26.0 * number), f"pipe {name}", 2.2)
    y = TOP + 57.0
    yield element("rect", class_="band", x=LEFT + WIDTH + 4.0, y=y - 2.4, width=7.0, height=3.0)
    yield element("circle", class_="dot", fill="#444", cx=LEFT + WIDTH + 7.5, cy=y - 0.9, r=0.9)
    notes = (
        "finite elements, pipe 20 x 2 mm,",
        "its outside of one temperature",
        "",
        "45 mm of screed, 1.2 W/(m.K)",
        "0.75 m²K/W, 150 mm of concrete",
        "without water film",
    )
    for number, note in enumerate(notes):
        yield text((LEFT + WIDTH + (13.0 if number == 0 else 4.0), y + 3.6 * number), note, 1.9)


def _band() -> Iterator[str]:
    """Between the lowest and the highest of the independent values, with these as dots."""
    rows = EN_OVER_ELEMENTS.values()
    above = [_at(spacing, max(row[i] for row in rows)) for i, spacing in enumerate(SPACINGS)]
    below = [_at(spacing, min(row[i] for row in rows)) for i, spacing in enumerate(SPACINGS)]
    yield element("polygon", class_="band", points=points([*above, *reversed(below)]))


def _dots() -> Iterator[str]:
    for covering, row in EN_OVER_ELEMENTS.items():
        for spacing, percent in zip(SPACINGS, row, strict=True):
            x, y = _at(spacing, percent)
            yield element("circle", class_="dot", fill=COVERINGS[covering], cx=x, cy=y, r=0.9)


def drawing() -> bytes:
    """The whole picture."""
    sheet = element("rect", class_="sheet", width=SIZE[0], height=SIZE[1])
    family = "Liberation Sans, Arial, Helvetica, sans-serif"
    content = group([*_band(), *_grid(), *_curves(), *_dots()], font_family=family)
    return document(SIZE, "EN 1264-2 against the solved section", [sheet, content], STYLE)


if __name__ == "__main__":
    Path(sys.argv[1] if len(sys.argv) > 1 else "tests/sections/section-against-en-1264.svg").write_bytes(
        drawing()
    )
