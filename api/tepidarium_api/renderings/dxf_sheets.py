"""The plan as DXF: real size in millimetres in model space, each sheet with its frame and text as a layout."""

from __future__ import annotations

import io
from collections import OrderedDict
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, NamedTuple

from .marks import Area, Disc, Group, Line, Mark, Paper, Piece, Way, Words, distance, isolated
from .sheet import Sheet
from .sheets import DrawnSheet
from .styles import STYLES, Style

if TYPE_CHECKING:
    from ezdxf.document import Drawing

__all__ = ["dxf_of"]

BETWEEN = 5_000.0
"""Between the plans of several storeys in model space [mm]."""
_VERSION = "R2010"
_WEIGHTS = (13, 18, 25, 30, 35, 40, 50, 60, 70, 100, 120)
"""Line weights of the format, in hundredths of a millimetre."""
_CONTROLS = (("%%", "%%%%%%"), ("^", "^ "), ("\\U+", "\\ U+"), ("\\M+", "\\ M+"))
"""What CAD programs read as a control sequence in a text -> how it is written so that it is read as it is."""
_ANCHORS = {"start": "LEFT", "middle": "CENTER", "end": "RIGHT"}


class _Space(NamedTuple):
    """Where marks go: ``at`` turns a place on paper into one of the drawing, ``size`` is the drawing's units for a
    millimetre on paper."""

    layout: Any
    at: Callable[[Paper], Paper]
    size: float


def dxf_of(sheets: Sequence[DrawnSheet]) -> bytes:
    """The plans as ``image/vnd.dxf``, in the frame of the request where there is one storey; further storeys stand to
    the right. The same sheets give the same bytes."""
    with _fixed_metadata() as library:
        drawing = library.new(_VERSION, setup=False)
        drawing.units = library.units.MM
        drawing.header["$PSLTSCALE"] = 0
        _add_styles(drawing, sheets)
        shift = 0.0
        for number, each in enumerate(sheets, start=1):
            if each.sheet is not None and each.sheet.tile == (0, 0):
                shift = _next_shift(sheets[: number - 1])
                _draw_plan(drawing, each.plan, each.sheet, shift)
            _draw_layout(drawing, each, number, shift)
        drawing.layouts.delete("Layout1")
        _sort_classes(drawing)
        text = io.StringIO()
        drawing.write(text)
        return text.getvalue().encode("utf-8")


@contextmanager
def _fixed_metadata() -> Iterator[Any]:
    """The library without dates and random identifiers in what it writes."""
    import ezdxf  # noqa: PLC0415 - most starts need not spend the time
    from ezdxf._options import options  # noqa: PLC0415

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield ezdxf
    finally:
        options.write_fixed_meta_data_for_testing = before


def _sort_classes(drawing: Drawing) -> None:
    """The library lists some of its classes in the order of hashes, which changes from process to process."""
    section = drawing.classes
    section.add_required_classes(drawing.dxfversion)
    section.classes = OrderedDict(sorted(section.classes.items()))


def _next_shift(before: Sequence[DrawnSheet]) -> float:
    """How far the plan goes to the right of those before it [mm]."""
    plans = [each.sheet for each in before if each.sheet is not None and each.sheet.tile == (0, 0)]
    return sum((plan.high[0] - plan.low[0]) * 1000.0 + BETWEEN for plan in plans)


def _add_styles(drawing: Drawing, sheets: Sequence[DrawnSheet]) -> None:
    """A layer for each kind of mark that there is, a line type for each dash."""
    drawing.styles.add("Words", font="arial.ttf")
    used = {mark.kind for each in sheets for group in (*each.plan, *each.paper) for mark in group.marks}
    for kind, style in STYLES.items():
        if kind not in used or not style.layer:
            continue
        if style.dash:
            strokes = [length if count % 2 == 0 else -length for count, length in enumerate(style.dash)]
            drawing.linetypes.add(_line_type(kind), [sum(style.dash), *strokes])
        if style.layer not in drawing.layers:
            layer = drawing.layers.add(style.layer, color=7, lineweight=_weight(style.width))
            colour = style.line or style.fill or "#000"
            if colour not in ("#000", "#fff"):
                red, green, blue = (int(part, 16) for part in _parts(colour))
                layer.rgb = (red, green, blue)


def _parts(colour: str) -> list[str]:
    digits = colour[1:] if len(colour) == 7 else "".join(2 * digit for digit in colour[1:])
    return [digits[:2], digits[2:4], digits[4:]]


def _line_type(kind: str) -> str:
    return f"{kind.capitalize()} line" if STYLES[kind].dash else "Continuous"


def _weight(width: float) -> int:
    return min(_WEIGHTS, key=lambda weight: abs(weight - 100.0 * width))


def _draw_plan(drawing: Drawing, groups: Iterable[Group], sheet: Sheet, shift: float) -> None:
    """Every mark at real size; the pipe of each circuit is a group of its own."""
    middle = [(low + high) * 500.0 for low, high in zip(sheet.low, sheet.high, strict=True)]

    def real(place: Paper) -> Paper:
        x, y = (at - centre for at, centre in zip(place, sheet.middle, strict=True))
        return (middle[0] + shift + x * sheet.scale, middle[1] - y * sheet.scale)

    space = _Space(drawing.modelspace(), real, float(sheet.scale))
    for group in groups:
        drawn = [entity for mark in group.marks for entity in _drawn(space, mark)]
        if group.name.startswith("circuit-") and drawn:
            drawing.groups.new(group.name).extend(drawn)


def _draw_layout(drawing: Drawing, each: DrawnSheet, number: int, shift: float) -> None:
    """A sheet on paper, with a window on the plan."""
    layout = drawing.layouts.new(f"Sheet {number}")
    layout.page_setup(size=each.size, margins=(0, 0, 0, 0), units="mm")
    space = _Space(layout, lambda place: (place[0], each.size[1] - place[1]), 1.0)
    for group in each.paper:
        for mark in group.marks:
            for _ in _drawn(space, mark):
                pass
    if each.sheet is None:
        return
    sheet, window = each.sheet, each.window
    centre = ((window.left + window.right) / 2.0, (window.top + window.bottom) / 2.0)
    away = (centre[0] - sheet.middle[0], centre[1] - sheet.middle[1])
    layout.add_viewport(
        center=space.at(centre),
        size=(window.width, window.height),
        view_center_point=(
            (sheet.low[0] + sheet.high[0]) * 500.0 + shift + away[0] * sheet.scale,
            (sheet.low[1] + sheet.high[1]) * 500.0 - away[1] * sheet.scale,
        ),
        view_height=window.height * sheet.scale,
    )


def _drawn(space: _Space, mark: Mark) -> Iterator[Any]:
    """The entities of a mark; none for what serves to paint over others."""
    style = STYLES[mark.kind]
    if not style.layer:
        return
    common = {
        "layer": style.layer,
        "linetype": _line_type(mark.kind),
        "ltscale": space.size,
        "lineweight": _weight(style.width),
    }
    match mark:
        case Way():
            for run in _runs(mark.pieces):
                yield space.layout.add_lwpolyline(_vertices(space, run), format="xyb", dxfattribs=common)
        case Line():
            yield space.layout.add_lwpolyline(list(map(space.at, mark.points)), dxfattribs=common)
        case Area():
            yield from _area(space, mark, style, common)
        case Disc():
            radius = mark.radius * space.size
            yield space.layout.add_circle(space.at(mark.centre), radius, dxfattribs=common)
        case Words():
            yield _text(space, mark, style.layer)


def _area(space: _Space, mark: Area, style: Style, common: dict[str, Any]) -> Iterator[Any]:
    for ring in mark.rings:
        corners = list(map(space.at, ring))
        if style.fill in (None, "#fff", "#eee") or len(corners) > 4:
            yield space.layout.add_lwpolyline(corners, close=True, dxfattribs=common)
        else:
            corners[2:] = corners[:1:-1]  # the format goes through the corners of a filled area crosswise
            yield space.layout.add_solid(corners, dxfattribs=common)


def _runs(pieces: Sequence[Piece]) -> Iterator[list[Piece]]:
    """Pieces that join each other."""
    run: list[Piece] = []
    for piece in pieces:
        if run and distance(run[-1].end, piece.start) > 0.01:
            yield run
            run = []
        run.append(piece)
    if run:
        yield run


def _vertices(space: _Space, run: Sequence[Piece]) -> list[tuple[float, float, float]]:
    """Corners with the bulge of the arc that begins there, counter-clockwise where it is positive."""
    from ezdxf.math import bulge_from_arc_angle  # noqa: PLC0415

    corners = [
        (*space.at(piece.start), bulge_from_arc_angle(-piece.sweep) if piece.centre else 0.0) for piece in run
    ]
    return [*corners, (*space.at(run[-1].end), 0.0)]


def _text(space: _Space, mark: Words, layer: str) -> Any:
    from ezdxf.enums import TextEntityAlignment  # noqa: PLC0415
    from ezdxf.math import Vec2  # noqa: PLC0415

    words = isolated(mark.text)
    for control, written in _CONTROLS:
        words = words.replace(control, written)
    attributes = {"layer": layer, "style": "Words", "rotation": Vec2(mark.along[0], -mark.along[1]).angle_deg}
    entity = space.layout.add_text(words, height=mark.height * space.size, dxfattribs=attributes)
    return entity.set_placement(space.at(mark.place), align=TextEntityAlignment[_ANCHORS[mark.anchor]])
