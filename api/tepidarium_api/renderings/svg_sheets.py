"""Sheets as SVG 1.1: one document, each sheet below the one before."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

from .marks import Area, Disc, Line, Mark, Paper, Piece, Way, Words, distance, isolated
from .sheets import DrawnSheet
from .styles import FONT, STYLES, Style
from .svg import document, element, group, number, points, polygon
from .text_widths import EM

__all__ = ["svg_of"]

BETWEEN = 10.0
"""Between sheets [mm]."""
HALF_TURN = 3.141592653589793


def svg_of(sheets: Sequence[DrawnSheet]) -> bytes:
    """The sheets as ``image/svg+xml``; printed without fitting to the page they are to scale."""
    width = max(sheet.size[0] for sheet in sheets)
    height = sum(sheet.size[1] for sheet in sheets) + BETWEEN * (len(sheets) - 1)
    content, top = [], 0.0
    for count, sheet in enumerate(sheets, start=1):
        content.append(_sheet(sheet, count, top))
        top += sheet.size[1] + BETWEEN
    used = {mark.kind for sheet in sheets for each in (*sheet.plan, *sheet.paper) for mark in each.marks}
    style = {kind: _rule(style) for kind, style in STYLES.items() if kind in used} | {
        "strong": "font-weight: bold"
    }
    return document((width, height), sheets[0].title, [group(content, font_family=FONT)], style)


def _rule(style: Style) -> str:
    parts = [f"fill: {style.fill or 'none'}"]
    if style.line:
        parts += [f"stroke: {style.line}", f"stroke-width: {style.width:g}", f"stroke-linejoin: {style.join}"]
    if style.dash:
        parts.append("stroke-dasharray: " + " ".join(f"{length:g}" for length in style.dash))
    return "; ".join(parts)


def _sheet(sheet: DrawnSheet, count: int, top: float) -> str:
    clip = f"plan-{count}"
    window = sheet.window
    parts = [element("rect", class_="sheet", width=sheet.size[0], height=sheet.size[1], fill="#fff")]
    if sheet.plan:
        shape = element("rect", x=window.left, y=window.top, width=window.width, height=window.height)
        parts.append(element("clipPath", shape, id=clip))
        plan = [group(map(_drawn, each.marks), id=_id(each.name, count)) for each in sheet.plan]
        x, y = sheet.offset
        moved = group(plan, transform=f"translate({number(x)} {number(y)})") if (x, y) != (0.0, 0.0) else ""
        parts.append(group([moved] if moved else plan, id=_id("plan", count), clip_path=f"url(#{clip})"))
    parts += [group(map(_drawn, each.marks), id=_id(each.name, count)) for each in sheet.paper]
    placed = {"transform": f"translate(0 {number(top)})"} if top else {}
    return group(parts, id=f"sheet-{count}", **placed)


def _id(name: str, count: int) -> str:
    """Of the first sheet as it is; an identifier may stand only once in a document."""
    return name if count == 1 else f"{name}-sheet-{count}"


def _drawn(mark: Mark) -> str:
    match mark:
        case Way():
            style = {} if mark.width is None else {"style": f"stroke-width: {mark.width:g}"}
            return element("path", class_=mark.kind, d=path_data(mark.pieces), **style)
        case Line():
            return element("polyline", class_=mark.kind, points=points(mark.points))
        case Area():
            if len(mark.rings) == 1:
                return element("polygon", class_=mark.kind, points=points(mark.rings[0]))
            return element("path", class_=mark.kind, d=polygon(mark.rings), fill_rule="evenodd")
        case Disc():
            return element("circle", class_=mark.kind, cx=mark.centre[0], cy=mark.centre[1], r=mark.radius)
        case Words():
            return _words(mark)


def _words(mark: Words) -> str:
    (x, y), (c, s) = mark.place, mark.along
    attributes: dict[str, str | float] = {"font_size": mark.height * EM}
    if (
        mark.width > 0.0
    ):  # as wide in any other font: some are wider by a sixth, and notes would leave their frame
        attributes |= {"textLength": mark.width, "lengthAdjust": "spacingAndGlyphs"}
    if mark.anchor != "start":
        attributes["text_anchor"] = mark.anchor
    if mark.bold:
        attributes["class_"] = "strong"
    if (c, s) == (1.0, 0.0):
        return element("text", escape(isolated(mark.text)), x=x, y=y, **attributes)
    matrix = " ".join(f"{round(value, 6) + 0.0:.6f}" for value in (c, s, -s, c))
    return element(
        "text",
        escape(isolated(mark.text)),
        transform=f"matrix({matrix} {number(x)} {number(y)})",
        **attributes,
    )


def path_data(pieces: Sequence[Piece]) -> str:
    """Path data; a gap between pieces stays a gap."""
    return " ".join(_steps(pieces))


def _steps(pieces: Sequence[Piece]) -> Iterator[str]:
    at: Paper | None = None
    for piece in pieces:
        if at is None or distance(at, piece.start) > 0.01:
            yield f"M {points([piece.start])}"
        if piece.centre is None:
            yield f"L {points([piece.end])}"
        else:
            radius = number(piece.radius)
            large, clockwise = int(abs(piece.sweep) > HALF_TURN), int(piece.sweep > 0.0)
            yield f"A {radius} {radius} 0 {large} {clockwise} {points([piece.end])}"
        at = piece.end
