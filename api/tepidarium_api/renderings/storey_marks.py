"""The plan of a storey: rooms, doorways, joints, every circuit from its port and back, names and dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tepidarium_engine.designs import DesignRoom

from .drawn_manifold import drawn_manifold
from .drawn_pipe import at_share, drawn_way, parted
from .drawn_room import drawn_dimensions, drawn_sleeve, drawn_void, overall_dimensions
from .free_floor import FreeFloor
from .labels import Label, placed
from .marks import Area, Box, Group, Line, Mark, Piece, Way, Words
from .sheet import Sheet
from .storey_plans import StoreyPlan

__all__ = ["JOINT_KINDS", "storey_groups"]

JOINT_KINDS = {"given": "joint", "adopted": "joint-proposed", "due": "joint-due"}
"""State of a joint -> how it is drawn."""
ARROWS = 0.6
FAR = 10_000.0
"""Beyond every sheet [mm]."""
BESIDE_WALL = 3.0
"""Names outside a plan stay so far from it [mm]."""
TAKES_ROOM = ("joints", "sleeves", "manifold", "dimensions")
"""Groups that names keep clear of, beside the pipe and the walls."""


def storey_groups(plan: StoreyPlan, sheet: Sheet) -> list[Group]:
    doorways = Group("doorways", tuple(_doorways(plan, sheet)))
    pipes = (
        Group(f"circuit-{plan.labels[one.id]}", tuple(_pipe(plan, sheet, number)))
        for number, one in enumerate(plan.circuits)
    )
    groups = [
        Group("rooms", tuple(_rooms(plan, sheet))),
        *([doorways, *pipes] if plan.room is None else [*pipes, _outside_room(plan.room, sheet), doorways]),
        Group("joints", tuple(_joints(plan, sheet))),
        Group("sleeves", tuple(drawn_sleeve(sheet, own.place, own.ahead) for own in plan.sleeves)),
        Group("manifold", tuple(_manifolds(plan, sheet))),
        Group("dimensions", tuple(_dimensions(plan, sheet))),
    ]
    return [*groups, Group("names", tuple(_names(plan, sheet, groups)))]


def _rooms(plan: StoreyPlan, sheet: Sheet) -> Iterator[Mark]:
    """All walls first: a wall between rooms is painted from both of its sides."""
    outlined = [room for _, room in plan.shown if room.outline is not None]
    for room in outlined:
        yield Area("wall", (sheet.ring(room.outline or ()),))
    for room in outlined:
        yield Area("floor", (sheet.ring(room.outline or ()),))
        for void in room.voids:
            yield from drawn_void(sheet.ring(void))


def _doorways(plan: StoreyPlan, sheet: Sheet) -> Iterator[Mark]:
    """The wall is taken away between the jambs; the jambs stay."""
    for doorway in plan.doorways:
        one, other = sheet.ring(doorway.jambs), sheet.ring(doorway.opposite_jambs)
        yield Area("doorway", ((*one, *other),))
        yield Line("jamb", (one[0], other[-1]))
        yield Line("jamb", (one[-1], other[0]))


def _joints(plan: StoreyPlan, sheet: Sheet) -> Iterator[Mark]:
    for joint in plan.joints:
        yield Line(JOINT_KINDS[joint.state], sheet.ring(joint.points))


def _pipe(plan: StoreyPlan, sheet: Sheet, number: int) -> Iterator[Mark]:
    """Thinner the smaller the scale, so that tails side by side stay apart."""
    circuit = plan.circuits[number]
    core = plan.cores.get(circuit.id)
    width = None if sheet.scale <= 50 else 25.0 / sheet.scale
    yield from drawn_way(
        sheet.pieces(circuit.pieces),
        None if core is None else sheet.length(core),
        circuit.id,
        ARROWS,
        width,
    )


def _outside_room(room: DesignRoom, sheet: Sheet) -> Group:
    """What hides the pipe outside of a room that is drawn alone."""
    ring = sheet.ring(room.outline or ())
    hidden = (tuple(Box(-FAR, -FAR, FAR, FAR).corners), ring)
    return Group("outside", (Area("outside", hidden), Area("room-edge", (ring,))))


def _manifolds(plan: StoreyPlan, sheet: Sheet) -> Iterator[Mark]:
    for manifold in plan.manifolds:
        circuits = [circuit for circuit in plan.circuits if circuit.manifold == manifold.id]
        yield from drawn_manifold(sheet, manifold.place, circuits, plan.labels, manifold.tail_pitch)


def _dimensions(plan: StoreyPlan, sheet: Sheet) -> Iterator[Mark]:
    if plan.room is not None:
        yield from drawn_dimensions(sheet, plan.room.outline or ())
    else:
        yield from overall_dimensions(sheet, plan.corners)


def _names(plan: StoreyPlan, sheet: Sheet, groups: Sequence[Group]) -> Iterator[Mark]:
    free = FreeFloor(_space(plan, sheet))
    for group in groups:
        for mark in group.marks:
            _take(free, mark, group.name)
    free.thicken()
    return placed(free, list(_labels(plan, sheet, free)), _outside(plan, sheet, free))


def _space(plan: StoreyPlan, sheet: Sheet) -> Box:
    """The paper of one sheet, or of all that the plan takes."""
    if sheet.tiles == (1, 1):
        return sheet.area
    (left, bottom), (right, top) = sheet.at(sheet.low), sheet.at(sheet.high)
    return Box(left - 20.0, top - 20.0, right + 20.0, bottom + 20.0)


def _take(free: FreeFloor, mark: Mark, group: str) -> None:
    match mark:
        case Way():
            free.take_pieces(mark.pieces)
        case Area(kind="floor" | "void"):
            free.take_ring(mark.rings[0])
        case Area() if group in TAKES_ROOM:
            xs, ys = zip(*mark.rings[0], strict=True)
            free.take_box(Box(min(xs), min(ys), max(xs), max(ys)))
        case Words() if group in TAKES_ROOM:
            (x, y), half = mark.place, mark.width / 2.0
            free.take_box(Box(x - half, y - half, x + half, y + half))
        case Line():
            for start, end in zip(mark.points, mark.points[1:], strict=False):
                free.take_line(start, end)
        case _:
            pass


def _outside(plan: StoreyPlan, sheet: Sheet, free: FreeFloor) -> list[int]:
    """The cells round the plan."""
    (left, bottom), (right, top) = sheet.at(sheet.low), sheet.at(sheet.high)
    box = Box(left - BESIDE_WALL, top - BESIDE_WALL, right + BESIDE_WALL, bottom + BESIDE_WALL)
    return [~cells & free.all for cells in free.inside([box.corners])]


def _labels(plan: StoreyPlan, sheet: Sheet, free: FreeFloor) -> Iterator[Label]:
    """The numbers of several circuits of a room, each in its own field; then each room with its area and, if it has one
    circuit, its number."""
    names = []
    for number, room in plan.shown:
        place = plan.label_places[number]
        if place is None:
            continue
        floor = free.inside([sheet.ring(ring) for ring in (room.outline or (), *room.voids)])
        own = [circuit for circuit in plan.circuits if circuit.room == room.id]
        words = f"{plan.areas[number]:.1f} m²"
        if len(own) == 1:
            words += f", circuit {plan.labels[own[0].id]}"
        lost = tuple(f"NOT DRAWN: {one.id}" for one in plan.unplaced if one.room == room.id)
        names.append(Label((room.name or room.id, words, *lost), sheet.at(place), floor))
        if len(own) > 1:
            for circuit in own:
                pieces = sheet.pieces(circuit.pieces)
                field = _inner_field(pieces)
                within = [
                    cells & both for cells, both in zip(floor, free.inside([field.corners]), strict=True)
                ]
                yield Label((f"Circuit {plan.labels[circuit.id]}",), at_share(pieces, 0.5), within)
    yield from names


def _inner_field(pieces: Sequence[Piece]) -> Box:
    """Round the middle half of a pipe, which lies in the middle of its field."""
    quarter = sum(piece.length for piece in pieces) / 4.0
    _, after = parted(pieces, quarter)
    inner, _ = parted(after, 2.0 * quarter)
    xs, ys = zip(*(piece.start for piece in inner or pieces), strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))
