"""The names of rooms and circuits on the plan of a storey, each where it covers nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from typing import NamedTuple

from .drawn_manifold import unwritten_ports
from .drawn_pipe import at_share, parted
from .free_floor import FreeFloor
from .labels import Label, Side, placed
from .marks import Area, Box, Group, Line, Mark, Paper, Piece, Way, Words, bounds
from .sheet import Sheet, tiling
from .storey_plans import StoreyPlan, room_title

__all__ = ["StoreyNames", "storey_names"]

BESIDE_WALL = 3.0
"""Names outside a plan stay so far from it [mm]."""
SURROUND = 20.0
"""They stand no farther from it, where it is on several sheets [mm]."""
TAKES_ROOM = ("joints", "sleeves", "manifold", "dimensions")
"""Groups that names keep clear of, beside the pipe and the walls."""


class StoreyNames(NamedTuple):
    """The names, and the numbers by room of those whose name cannot be read whole on the plan."""

    group: Group
    numbers: dict[str, str]


def storey_names(plan: StoreyPlan, tiles: Sequence[Sheet], groups: Sequence[Group]) -> StoreyNames:
    """Names for a plan of which ``groups`` are drawn. None stands where two sheets meet."""
    surface = _Surface(plan, tiles, groups)
    labels = list(_labels(plan, tiles[0], surface))
    found = list(placed(surface.free, surface.words, surface.written, [label for _, label in labels]))
    numbers = {
        room: label.number
        for (room, label), own in zip(labels, found, strict=True)
        if room is not None and own.numbered
    }
    return StoreyNames(Group("names", tuple(mark for own in found for mark in own.marks)), numbers)


class _Surface:
    """What of the paper is taken: in ``free`` by anything that is drawn, in ``words`` by what no name may cover.
    ``written`` are the boxes of the words on it."""

    def __init__(self, plan: StoreyPlan, tiles: Sequence[Sheet], groups: Sequence[Group]) -> None:
        self._parts, seams = tiling(tiles).parts, tiling(tiles).seams
        (left, bottom), (right, top) = (tiles[0].at(corner) for corner in (tiles[0].low, tiles[0].high))
        self._plan = Box(left, top, right, bottom)
        space = tiles[0].area if len(tiles) == 1 else self._plan.grown(SURROUND)
        self.free, self.words = FreeFloor(space), FreeFloor(space)
        self.written: list[Box] = []
        for group in groups:
            for mark in group.marks:
                _take(self.free, mark, group.name)
                if group.name in TAKES_ROOM and not isinstance(mark, Line):
                    _take(self.words, mark, group.name)
                if isinstance(mark, Words):
                    self.written.append(mark.round)
        self.free.thicken()
        for seam in seams:
            self.free.take_box(seam)
            self.words.take_box(seam)
        self._masks = cache(self._masks_of)

    def around(self, place: Paper) -> tuple[list[Side], list[int]]:
        """The cells above, below, left and right of the plan, the side nearest to a place first, and all cells, of the
        sheet that shows it."""
        sides, anywhere = self._masks(
            next((part for part in self._parts if part.holds(place)), self._parts[0])
        )
        (x, y), plan = place, self._plan
        away = (y - plan.top, plan.bottom - y, x - plan.left, plan.right - x)
        return [Side(away[side], sides[side]) for side in sorted(range(4), key=away.__getitem__)], anywhere

    def _masks_of(self, part: Box) -> tuple[list[list[int]], list[int]]:
        near = self._plan.grown(BESIDE_WALL)
        bands = (
            part._replace(bottom=near.top),
            part._replace(top=near.bottom),
            part._replace(right=near.left),
            part._replace(left=near.right),
        )
        return [self.free.only(band) for band in bands], self.free.only(part)


def _take(free: FreeFloor, mark: Mark, group: str) -> None:
    match mark:
        case Way():
            free.take_pieces(mark.pieces)
        case Area(kind="floor" | "void"):
            free.take_ring(mark.rings[0])
        case Area() if group in TAKES_ROOM:
            free.take_box(bounds(mark.rings[0]))
        case Words() if group in TAKES_ROOM:
            free.take_box(mark.round)
        case Line():
            for start, end in zip(mark.points, mark.points[1:], strict=False):
                free.take_line(start, end)
        case _:
            pass


def _labels(plan: StoreyPlan, sheet: Sheet, surface: _Surface) -> Iterator[tuple[str | None, Label]]:
    """The numbers of several circuits of a room, each in its own field; then each room with its area and, if it has one
    circuit, its number; then ports that have no number on their manifold."""
    names: list[tuple[str, Label]] = []
    free = surface.free
    for number, room in plan.shown:
        place = plan.label_places[number]
        if place is None:
            continue
        floor = free.inside([sheet.ring(ring) for ring in (room.outline or (), *room.voids)])
        own = [circuit for circuit in plan.circuits if circuit.room == room.id]
        single = (f"circuit {plan.labels[own[0].id]}",) if len(own) == 1 else ()
        lost = tuple(f"NOT DRAWN: {one.id}" for one in plan.unplaced if one.room == room.id)
        target = sheet.at(place)
        below = (f"{plan.areas[number]:.1f} m²", *single)
        label = Label(room_title(room), f"R{number + 1}", target, floor, *surface.around(target), below, lost)
        names.append((room.id, label))
        if len(own) > 1:
            for circuit in own:
                pieces = sheet.pieces(circuit.pieces)
                field = free.inside([_inner_field(pieces).corners])
                within = [cells & both for cells, both in zip(floor, field, strict=True)]
                port, target = plan.labels[circuit.id], at_share(pieces, 0.5)
                yield None, Label(f"Circuit {port}", port, target, within, *surface.around(target))
    yield from names
    for manifold in plan.manifolds:
        own = [circuit for circuit in plan.circuits if circuit.manifold == manifold.id]
        for target, port in unwritten_ports(sheet, manifold.place, own, plan.labels):
            _, anywhere = surface.around(target)
            yield None, Label(f"Port {port}", port, target, (), (Side(0.0, anywhere),), anywhere)


def _inner_field(pieces: Sequence[Piece]) -> Box:
    """Round the middle half of a pipe, which lies in the middle of its field."""
    quarter = sum(piece.length for piece in pieces) / 4.0
    _, after = parted(pieces, quarter)
    inner, _ = parted(after, 2.0 * quarter)
    return bounds([piece.start for piece in inner or pieces])
