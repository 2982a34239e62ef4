"""DXF: closed polylines as rooms, texts as their names, blocks and lines as doorways."""

from __future__ import annotations

import io
import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from statistics import median

import shapely
from ezdxf import recover
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.entities.insert import Insert
from ezdxf.entities.line import Line
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.entities.mtext import MText
from ezdxf.entities.polyline import Polyline
from ezdxf.entities.spline import Spline
from ezdxf.entities.text import Text
from shapely import Polygon

from ..errors import Fault, InputError, UnreadableFileError
from ..places import Point
from ..plan.outlines.overlays import difference, union
from .drawn_plan import DoorMark, DrawnPlan, DrawnRoom, DrawnStorey, Guess, Source, without_area
from .gbxml_units import METRES
from .records import FoundLayer, LengthUnit, PlanImportsInputs

__all__ = ["read_dxf"]

_UNITS: dict[int, LengthUnit] = {
    1: "in",
    2: "ft",
    3: "mi",
    4: "mm",
    5: "cm",
    6: "m",
    7: "km",
    10: "yd",
    14: "dm",
}
"""Values of $INSUNITS; 0 and all others say nothing about a house."""
_GUESSED: tuple[LengthUnit, ...] = ("m", "mm", "cm", "in", "ft")
_USUAL_ROOM = 15.0
"""Area that tells which unit is likely [m2]; common practice, no source."""
_LEAST_ROOM = 1.0
"""A smaller outline inside a room is a void: a column, a shaft [m2]."""
_SAGITTA = 0.005
"""By so much chords may leave an arc [m]."""
_MOST_CHORDS = 64
_DOOR_WORDS = ("door", "tür", "tuer", "porte", "puerta", "deur", "porta", "drzwi")
_MOST_ROOMS = 2000


@dataclass(slots=True)
class _Sheet:
    """What was found, in the drawing's own unit."""

    outlines: list[tuple[DXFEntity, list[tuple[float, float, float]]]] = field(default_factory=list)
    opened: list[tuple[DXFEntity, float]] = field(default_factory=list)
    splines: list[Spline] = field(default_factory=list)
    texts: list[tuple[DXFEntity, Point, str, float]] = field(default_factory=list)
    blocks: list[tuple[Insert, Point]] = field(default_factory=list)
    lines: list[tuple[DXFEntity, Point, Point]] = field(default_factory=list)
    counts: dict[str, Counter[str]] = field(default_factory=dict)


def read_dxf(content: bytes, inputs: PlanImportsInputs) -> DrawnPlan:
    """The rooms of a drawing's model space.

    Raises ``UnreadableFileError`` for what is no DXF or is cut off, ``InputError`` for a layer that it does not have.
    """
    if b"SECTION" not in content[:100_000] or b"ENTITIES" not in content:
        raise UnreadableFileError.because("the file is no DXF: it has no section of entities")
    if b"EOF" not in content[-200:]:
        raise UnreadableFileError.because("the file is cut off: its end mark is missing")
    try:
        document, _ = recover.read(io.BytesIO(content))
        sheet = _sheet(document.modelspace())
        stated = _UNITS.get(int(document.header.get("$INSUNITS", 0)))
    except Exception as fault:  # whatever a damaged file makes of the library
        raise UnreadableFileError.because(f"the drawing is damaged: {type(fault).__name__}") from fault
    _check_layers(sheet, inputs)
    layer = inputs.room_layer or _likely_layer(sheet)
    unit = inputs.length_unit or stated or _likely_unit(sheet, layer)
    plan = DrawnPlan("dxf", unit, METRES[unit], storeys=[DrawnStorey("1", "", None)])
    nowhere = Source("")
    if inputs.length_unit is None and stated is None:
        plan.guesses.append(Guess(f"the unit of length: {unit}; the drawing has none", nowhere))
    if inputs.room_layer is None:
        plan.guesses.append(Guess(f"the layer of the rooms: {layer}", nowhere))
    plan.rooms = _rooms(sheet, plan, layer, inputs)
    plan.doors, doors = _doors(sheet, plan, inputs)
    plan.layers = _layers(sheet, layer, inputs.name_layer, doors)
    return plan


def _sheet(entities: Iterable[DXFEntity]) -> _Sheet:
    sheet = _Sheet()
    for entity in entities:
        kind = "other"
        match entity:
            case LWPolyline():
                corners = [(float(x), float(y), float(b)) for x, y, b in entity.get_points("xyb")]
                kind = _keep_polyline(sheet, entity, corners, entity.closed)
            case Polyline() if entity.is_2d_polyline:
                corners = [
                    (float(v.dxf.location.x), float(v.dxf.location.y), float(v.dxf.get("bulge", 0.0)))
                    for v in entity.vertices
                ]
                kind = _keep_polyline(sheet, entity, corners, entity.is_closed)
            case Spline():
                sheet.splines.append(entity)
            case Text() | MText():
                words = entity.plain_text() if isinstance(entity, Text) else entity.plain_text(split=False)
                height = entity.dxf.get("height" if isinstance(entity, Text) else "char_height", 0.0)
                place = (float(entity.dxf.insert.x), float(entity.dxf.insert.y))
                sheet.texts.append((entity, place, " ".join(str(words).split()), float(height)))
                kind = "text"
            case Insert():
                sheet.blocks.append((entity, (float(entity.dxf.insert.x), float(entity.dxf.insert.y))))
                kind = "block"
            case Line():
                start, end = entity.dxf.start, entity.dxf.end
                sheet.lines.append((entity, (float(start.x), float(start.y)), (float(end.x), float(end.y))))
                kind = "open"
        layer = entity.dxf.layer if entity.dxf.is_supported("layer") else "0"
        sheet.counts.setdefault(layer, Counter())[kind] += 1
    return sheet


def _keep_polyline(
    sheet: _Sheet, entity: DXFEntity, corners: list[tuple[float, float, float]], closed: bool
) -> str:
    """An outline, if it is closed or its ends may be snapped later; what kind of thing it is."""
    if not all(math.isfinite(value) and abs(value) < 1e10 for corner in corners for value in corner):
        return "other"
    if len(corners) < 3:
        if len(corners) == 2:
            sheet.lines.append((entity, corners[0][:2], corners[1][:2]))
        return "open"
    gap = 0.0 if closed else math.dist(corners[0][:2], corners[-1][:2])
    if gap > 0.0:
        sheet.opened.append((entity, gap))
    sheet.outlines.append((entity, corners))
    return "open" if gap > 0.0 else "outline"


def _check_layers(sheet: _Sheet, inputs: PlanImportsInputs) -> None:
    known = ", ".join(sorted(sheet.counts)[:20])
    faults = [
        Fault(f"/{name}", "unknown_layer", f"the drawing has nothing on this layer; its layers: {known}")
        for name in ("room_layer", "name_layer", "doorway_layer")
        if getattr(inputs, name) is not None and getattr(inputs, name) not in sheet.counts
    ]
    if faults:
        raise InputError(*faults)


def _likely_layer(sheet: _Sheet) -> str:
    """The layer with the most closed outlines."""
    counted = [(counts["outline"], counts["open"], name) for name, counts in sheet.counts.items()]
    return max(
        counted, key=lambda entry: (entry[0], entry[1], [-ord(c) for c in entry[2]]), default=(0, 0, "")
    )[2]


def _likely_unit(sheet: _Sheet, layer: str) -> LengthUnit:
    """The unit in which half of the rooms are nearest to a usual size."""
    areas = [
        Polygon([corner[:2] for corner in corners]).area
        for entity, corners in sheet.outlines
        if entity.dxf.layer == layer
    ]
    areas = [area for area in areas if area > 0.0]
    if not areas:
        return "m"
    usual = median(areas)
    return min(_GUESSED, key=lambda unit: abs(math.log(usual * METRES[unit] ** 2 / _USUAL_ROOM)))


def _rooms(sheet: _Sheet, plan: DrawnPlan, layer: str, inputs: PlanImportsInputs) -> list[DrawnRoom]:
    gaps = {id(entity): gap * plan.metres for entity, gap in sheet.opened}
    drawn: list[tuple[DrawnRoom, Polygon]] = []
    for entity, corners in sheet.outlines[: 10 * _MOST_ROOMS]:
        if entity.dxf.layer != layer:
            continue
        source = Source(f"{entity.dxftype()} {entity.dxf.get('handle', '')} on {layer}"[:400])
        number = len(drawn) + 1
        polygon = Polygon(list(_flattened(corners, plan.metres)))
        room = DrawnRoom(f"room-{number}", f"Room {number}", "1", (polygon,), source)
        gap = gaps.get(id(entity), 0.0)
        if gap > inputs.snap_tolerance:
            room.fault = f"its outline is open by {gap:.3f} m"
        elif gap > 0.0:
            plan.guesses.append(
                Guess(f"a gap of {gap * 1000:.0f} mm in an outline was closed", source, room.id)
            )
        drawn.append((room, polygon))
    for spline in sheet.splines:
        if spline.dxf.layer == layer:
            number = len(drawn) + 1
            source = Source(f"SPLINE {spline.dxf.get('handle', '')} on {layer}"[:400])
            fault = "it is a spline, which is no outline: draw it as a polyline with arcs"
            drawn.append(
                (DrawnRoom(f"room-{number}", f"Room {number}", "1", (), source, fault=fault), Polygon())
            )
    if len(drawn) > _MOST_ROOMS:
        raise UnreadableFileError.because(f"the layer {layer} has more than {_MOST_ROOMS} outlines")
    return list(_named(sheet, plan, list(_without_frames(drawn, plan)), inputs))


def _flattened(corners: Sequence[tuple[float, float, float]], metres: float) -> Iterator[Point]:
    """Corners in metres, each arc as chords. A bulge is the tangent of a quarter of the arc's angle."""
    for (x, y, bulge), (ex, ey, _) in zip(corners, [*corners[1:], corners[0]], strict=True):
        yield x * metres, y * metres
        chord = math.hypot(ex - x, ey - y) * metres
        if abs(bulge) < 1e-9 or chord <= 0.0:
            continue
        angle = 4.0 * math.atan(bulge)
        radius = chord / (2.0 * abs(math.sin(angle / 2.0)))
        step = 2.0 * math.acos(max(0.0, 1.0 - _SAGITTA / max(radius, _SAGITTA)))
        count = min(_MOST_CHORDS, max(2, math.ceil(abs(angle) / step)))
        away = chord / (2.0 * math.tan(angle / 2.0))
        ux, uy = (ex - x) * metres / chord, (ey - y) * metres / chord
        cx, cy = (x + ex) / 2.0 * metres - away * uy, (y + ey) / 2.0 * metres + away * ux
        first = math.atan2(y * metres - cy, x * metres - cx)
        for number in range(1, count):
            turned = first + angle * number / count
            yield cx + radius * math.cos(turned), cy + radius * math.sin(turned)


def _without_frames(drawn: Sequence[tuple[DrawnRoom, Polygon]], plan: DrawnPlan) -> Iterator[DrawnRoom]:
    """Rooms: outlines round other rooms are frames, small ones inside a room are voids."""
    shapes = [shapely.make_valid(polygon) for _, polygon in drawn]
    tree = shapely.STRtree(shapes)
    voids: set[int] = set()
    inside = {
        number: [
            int(other)
            for other in tree.query(shape, predicate="contains")
            if other != number and 0.0 < shapes[other].area < 0.99 * shape.area
        ]
        for number, shape in enumerate(shapes)
        if shape.area > 0.0
    }
    for number, others in inside.items():
        if shapes[number].area >= _LEAST_ROOM:
            voids.update(other for other in others if shapes[other].area < _LEAST_ROOM)
    for number, (room, polygon) in enumerate(drawn):
        if number in voids:
            plan.guesses.append(Guess("a small outline in a room is a void of it", room.source))
            continue
        others = inside.get(number, [])
        if not room.fault and any(other not in voids for other in others):
            room.fault = "it is drawn round other rooms: a frame, no room"
        elif others:
            rest = difference(shapes[number], union(shapes[other] for other in others))
            room.floor = tuple(part for part in shapely.get_parts(rest) if isinstance(part, Polygon))
        del polygon
        yield room


def _named(
    sheet: _Sheet, plan: DrawnPlan, rooms: Sequence[DrawnRoom], inputs: PlanImportsInputs
) -> Iterator[DrawnRoom]:
    """Each room with the largest text that lies in it and has a letter beside the room's area."""
    texts = [
        (shapely.Point(place[0] * plan.metres, place[1] * plan.metres), words, height)
        for entity, place, written, height in sheet.texts
        if (words := without_area(written))
        and any(letter.isalpha() for letter in words)
        and inputs.name_layer in (None, entity.dxf.layer)
        and all(map(math.isfinite, place))
    ]
    tree = shapely.STRtree([point for point, _, _ in texts])
    for room in rooms:
        floor = shapely.make_valid(room.floor[0]) if room.floor else Polygon()
        found = sorted(int(number) for number in tree.query(floor, predicate="contains")) if texts else []
        best = max(found, key=lambda number: (texts[number][2], -number), default=None)
        if best is None:
            plan.guesses.append(
                Guess(f"the name {room.name}: no text lies in the room", room.source, room.id)
            )
        else:
            room.name = texts[best][1][:120]
        yield room


def _doors(sheet: _Sheet, plan: DrawnPlan, inputs: PlanImportsInputs) -> tuple[list[DoorMark], set[str]]:
    """Marks of doorways and the layers that they are on."""
    metres, layer = plan.metres, inputs.doorway_layer
    marks, used = [], set()
    for block, (x, y) in sheet.blocks:
        said = f"{block.dxf.name} {block.dxf.layer}".lower()
        if (block.dxf.layer == layer) if layer else any(word in said for word in _DOOR_WORDS):
            source = Source(f"block {block.dxf.name} on {block.dxf.layer}"[:400])
            marks.append(DoorMark((x * metres, y * metres), source))
            used.add(block.dxf.layer)
    for line, (x, y), (ex, ey) in sheet.lines if layer else ():
        if line.dxf.layer == layer:
            source = Source(f"{line.dxftype()} {line.dxf.get('handle', '')} on {layer}"[:400])
            place = ((x + ex) / 2.0 * metres, (y + ey) / 2.0 * metres)
            marks.append(DoorMark(place, source, math.dist((x, y), (ex, ey)) * metres))
            used.add(line.dxf.layer)
    if not layer:
        plan.guesses += [
            Guess(f"doorways are the blocks on the layer {name}", Source("")) for name in sorted(used)
        ]
    return [mark for mark in marks if all(map(math.isfinite, mark.place))], used


def _layers(sheet: _Sheet, rooms: str, names: str | None, doors: set[str]) -> list[FoundLayer]:
    found = []
    for name, counts in sorted(sheet.counts.items()):
        uses = [("rooms", name == rooms), ("names", name == names), ("doorways", name in doors)]
        found.append(
            FoundLayer(
                name[:255] or "0",
                " and ".join(use for use, holds in uses if holds),
                *(counts[kind] for kind in ("outline", "open", "text", "block", "other")),
            )
        )
    return found
