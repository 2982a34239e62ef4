"""Laying sheets: each circuit as a plan with its metre marks, and its straights and turns one after the other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import chain
from typing import NamedTuple

from tepidarium_engine.laying_sheets import LayingRoom, LayingSheet
from tepidarium_engine.routes import PathPiece

from ..renderings.drawn_pipe import drawn_way, pipe_width
from ..renderings.drawn_room import drawn_void
from ..renderings.free_floor import FreeFloor
from ..renderings.marks import Area, Box, Disc, Group, Line, Mark, Paper, Way, Words, away, between, printable
from ..renderings.sheet import Sheet, extent
from ..renderings.sheets import DrawnSheet, scale_bar
from ..renderings.svg_sheets import svg_of
from ..renderings.text_widths import shortened, text_width
from .parts import Chapter, Column, Fields, Listed, Picture, Table

__all__ = ["AXIS", "axes", "laying_chapter", "placed", "step_table"]

WIDTH, HIGHEST = 178.0, 160.0
"""Of a picture [mm]."""
SCALES = (20, 25, 50, 100, 200, 500, 1000)
ROUND, BELOW = 8.0, 10.0
"""Kept free round the plan and for the scale bar [mm]."""
MARKED = 8.0
"""Straights from this length on paper bear their metre mark [mm]."""
REACH = 7.0
"""Words stand no further from their place [mm]."""
AXIS, HEAD = 9.0, 2.2
"""Length of the arrows x and y, and of their heads [mm]."""
SMALL = 1.6
TABLE, ROOM_COLUMN = 2.05, 28.0
"""Height of the capitals in a table, and room for the name of a room in the table of steps [mm]."""
_READING = (
    (
        "-",
        "A number in bold on the plan is the metre mark, counted from the port, at which that straight begins.",
    ),
    (
        "-",
        "x and y are the place where a step begins: they count from the corner with the ring, along the arrows x "
        "and y.",
    ),
)


def laying_chapter(sheet: LayingSheet, rooms: Sequence[LayingRoom], pieces: Sequence[PathPiece]) -> Chapter:
    """The rooms are those of the circuit's storey, the pieces those of its pipe."""
    names = {room.id: room.name or room.id for room in rooms}
    title = f"Laying sheet: circuit {sheet.circuit}, {names.get(sheet.room, sheet.room)}"
    head, plan = Fields("", tuple(_head(sheet))), _picture(sheet, rooms, pieces)
    return Chapter(
        title, (head, plan, Listed("", _READING), step_table((sheet,), _on_one_line(sheet, names)))
    )


def _on_one_line(sheet: LayingSheet, names: dict[str, str]) -> dict[str, str]:
    """Names of the rooms that the pipe passes, each short enough for the table; ids where that makes them alike. The
    title has the whole name."""
    passed = {step.room: names[step.room] for step in sheet.steps if step.room in names}
    short = {room: shortened(printable(name), TABLE, ROOM_COLUMN) for room, name in passed.items()}
    uses = Counter(short.values())
    return {
        room: name if uses[name] == 1 else shortened(printable(room), TABLE, ROOM_COLUMN)
        for room, name in short.items()
    }


def _head(sheet: LayingSheet) -> Iterator[tuple[str, str]]:
    port = "" if sheet.port is None else f", port {sheet.port}"
    yield "Manifold and port", f"{sheet.manifold}{port}"
    if sheet.coil is not None and sheet.coil_start_mark is not None and sheet.coil_end_mark is not None:
        yield "Coil", f"{sheet.coil}, mark {sheet.coil_start_mark:.2f} m to {sheet.coil_end_mark:.2f} m"
    yield "Pipe from port to port", f"{sheet.total_length:.1f} m"
    yield "Spacing", f"{sheet.pipe_spacing * 1e3:.0f} mm, spacer {sheet.spacer_length * 1e3:.0f} mm"
    if sheet.infeed_spacing is not None and sheet.infeed_spacer_length is not None:
        spacer = f"spacer {sheet.infeed_spacer_length * 1e3:.0f} mm"
        yield (
            "First pass, inwards",
            f"{sheet.infeed_spacing * 1e3:.0f} mm, {spacer}; the way back fills the gaps",
        )
    if sheet.core_mark is not None:
        yield "Turns in the middle at", f"{sheet.core_mark:.2f} m from the port"
    yield (
        "Fixings",
        f"{sheet.fixings_on_straights} on straights and {sheet.fixings_at_bends} at bends",
    )
    walls = ", ".join(dict.fromkeys(f"{own.distance * 1e3:.0f}" for own in sheet.wall_distances))
    yield "From the walls to the first pipe", f"{walls} mm"


def step_table(sheets: Sequence[LayingSheet], names: dict[str, str]) -> Table:
    """Straights and turns with the metre mark at which each begins. x and y count from the corner of the room that is
    marked on the plan, along its walls."""
    several = len(sheets) > 1
    columns = (
        *((Column("Circuit", width=1.6),) if several else ()),
        Column("Step", 0, 0.6),
        Column("From port m", 2, 1.0),
        Column("On coil m", 2, 1.0),
        Column("What", width=1.9),
        Column("Length m", 2, 0.9),
        Column("x m", 2, 0.7),
        Column("y m", 2, 0.7),
        Column("Part", width=0.8),
        Column("Room", width=1.8),
        Column("Fixings", 0, 0.8),
    )
    rows = (
        (
            *((sheet.circuit,) if several else ()),
            step.number,
            step.mark,
            step.coil_mark,
            "straight" if step.angle is None else f"turn {step.angle:.0f}° {step.hand}",
            step.step_length,
            *step.from_datum,
            step.part,
            names.get(step.room, step.room) or "doorway",
            step.fixings,
        )
        for sheet in sheets
        for step in sheet.steps
    )
    return Table("Straights and turns in the order of laying", columns, tuple(rows), one_line=not several)


def _picture(sheet: LayingSheet, rooms: Sequence[LayingRoom], pieces: Sequence[PathPiece]) -> Picture:
    """The circuit to scale; what is near of the storey as outlines."""
    plan = placed(sheet)
    groups = (
        Group("rooms", tuple(_rooms(plan, rooms))),
        Group("pipe", tuple(_pipe(plan, sheet, pieces))),
    )
    marks = Group("metre-marks", tuple(_marks(plan, sheet, groups)))
    paper = (Group("scale-bar", tuple(scale_bar(plan))),)
    drawn = DrawnSheet(sheet.circuit, plan.size, (*groups, marks), (0.0, 0.0), plan.area, paper, plan)
    return Picture(svg_of([drawn]).decode(), *plan.size)


def placed(sheet: LayingSheet) -> Sheet:
    """All of the pipe and the corner from which its places count."""
    low, high = extent([sheet.datum, *chain.from_iterable((step.start, step.end) for step in sheet.steps)])
    across, down = ((high[side] - low[side]) * 1000.0 for side in (0, 1))
    scale = next(
        (
            scale
            for scale in SCALES
            if across / scale <= WIDTH - 2.0 * ROUND and down / scale <= HIGHEST - 2.0 * ROUND - BELOW
        ),
        SCALES[-1],
    )
    height = down / scale + 2.0 * ROUND + BELOW
    area = Box(0.0, 0.0, WIDTH, height - BELOW - 4.0)
    middle = (WIDTH / 2.0, ROUND + down / scale / 2.0)
    return Sheet("A4", (WIDTH, height), scale, low, high, middle, area)


def _rooms(plan: Sheet, rooms: Sequence[LayingRoom]) -> Iterator[Mark]:
    for room in rooms:
        yield Area("floor", (plan.ring(room.outline),))
        for void in room.voids:
            yield from drawn_void(plan.ring(void))


def _pipe(plan: Sheet, sheet: LayingSheet, pieces: Sequence[PathPiece]) -> Iterator[Mark]:
    core = None if sheet.core_mark is None else plan.length(sheet.core_mark - sheet.steps[0].mark)
    yield from drawn_way(plan.pieces(pieces), core, sheet.circuit, 0.6, pipe_width(plan))
    for own in sheet.wall_distances:
        yield Line("wall-distance", (plan.at(own.on_wall), plan.at(own.on_pipe)))
    for _, start, tip in axes(plan, sheet):
        head = between(start, tip, 1.0 - HEAD / AXIS)
        x, y = ((tip[0] - head[0]) / 3.0, (tip[1] - head[1]) / 3.0)
        yield Line("dimension-tick", (start, head))
        yield Area("dot", ((tip, (head[0] - y, head[1] + x), (head[0] + y, head[1] - x)),))
    yield Disc("mark", plan.at(sheet.datum), 1.4)


def axes(plan: Sheet, sheet: LayingSheet) -> Iterator[tuple[str, Paper, Paper]]:
    """Name, beginning and end of the directions in which places of steps count, ``from_datum`` of the engine."""
    (x, y), (along, across) = sheet.datum, sheet.datum_direction
    reach = AXIS / plan.length(1.0)
    for name, (to_x, to_y) in (("x", (along, across)), ("y", (-across, along))):
        yield name, plan.at((x, y)), plan.at((x + reach * to_x, y + reach * to_y))


def _marks(plan: Sheet, sheet: LayingSheet, groups: Sequence[Group]) -> Iterator[Mark]:
    """The metre mark at the beginning of each long straight, and the distance of each wall, where there is room; the
    table has them all."""
    free = FreeFloor(plan.area)
    for mark in chain.from_iterable(group.marks for group in groups):
        match mark:
            case Way():
                free.take_pieces(mark.pieces)
            case Area(kind="floor" | "void" | "dot"):
                free.take_ring(mark.rings[0])
            case Line():
                free.take_line(*mark.points)
            case Disc():
                free.take_box(Box(*mark.centre, *mark.centre).grown(mark.radius))
            case _:
                pass
    free.thicken()
    for note in _notes(plan, sheet):
        yield from _written(free, note)


class _Note(NamedTuple):
    """Words about the line between the ends ``own``, near ``place``. Where one of ``others`` is nearer to them, they
    would be read as its own."""

    words: str
    bold: bool
    place: Paper
    own: tuple[Paper, Paper]
    others: Sequence[tuple[Paper, Paper]] = ()


def _notes(plan: Sheet, sheet: LayingSheet) -> Iterator[_Note]:
    steps = [(plan.at(step.start), plan.at(step.end)) for step in sheet.steps]
    for step, own in zip(sheet.steps, steps, strict=True):
        if step.kind == "straight" and plan.length(step.step_length) >= MARKED:
            others = [each for each in steps if each != own]
            yield _Note(f"{step.mark:.1f}", True, between(*own, 0.2), own, others)
    for name, start, tip in axes(plan, sheet):
        yield _Note(name, False, between(start, tip, 1.2), (start, tip))
    for wall in sheet.wall_distances:
        own = plan.at(wall.on_wall), plan.at(wall.on_pipe)
        yield _Note(f"{wall.distance * 1e3:.0f} mm", False, between(*own, 0.5), own)


def _written(free: FreeFloor, note: _Note) -> Iterator[Mark]:
    words, bold, place, own, others = note
    across, down = text_width(words, SMALL, bold) + 0.4, SMALL + 0.5
    near = Box(place[0] - REACH, place[1] - REACH, place[0] + REACH, place[1] + REACH)
    openings = free.openings_in(near)
    for size, along in (((across, down), (1.0, 0.0)), ((down, across), (0.0, -1.0))):
        box = openings.nearest(size, place)
        if box is not None and _is_nearest(box.middle, own, others):
            free.take_box(box)
            middle = box.middle
            shift = SMALL / 2.0
            at = (middle[0], middle[1] + shift) if along[0] else (middle[0] + shift, middle[1])
            yield Words(at, words, SMALL, "middle", bold, along)
            return


def _is_nearest(place: Paper, own: tuple[Paper, Paper], others: Sequence[tuple[Paper, Paper]]) -> bool:
    reach = away(place, own)
    return all(away(place, each) > reach for each in others)
