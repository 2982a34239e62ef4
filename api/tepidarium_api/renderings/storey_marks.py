"""The plan of a storey: rooms, doorways, joints, every circuit from its port and back, dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tepidarium_engine.designs import DesignRoom

from .drawn_manifold import drawn_manifold
from .drawn_pipe import drawn_way, pipe_width
from .drawn_room import drawn_dimensions, drawn_sleeve, drawn_void, overall_dimensions
from .marks import Area, Box, Group, Line, Mark
from .sheet import Sheet, tiling
from .storey_plans import StoreyPlan

__all__ = ["JOINT_KINDS", "storey_groups"]

JOINT_KINDS = {"given": "joint", "adopted": "joint-proposed", "due": "joint-due"}
"""State of a joint -> how it is drawn."""
ARROWS = 0.6
FAR = 10_000.0
"""Beyond every sheet [mm]."""


def storey_groups(plan: StoreyPlan, tiles: Sequence[Sheet]) -> list[Group]:
    """What is drawn but for names, on the paper of the first of its sheets."""
    sheet = tiles[0]
    doorways = Group("doorways", tuple(_doorways(plan, sheet)))
    pipes = (
        Group(f"circuit-{plan.labels[one.id]}", tuple(_pipe(plan, sheet, number)))
        for number, one in enumerate(plan.circuits)
    )
    return [
        Group("rooms", tuple(_rooms(plan, sheet))),
        *([doorways, *pipes] if plan.room is None else [*pipes, _outside_room(plan.room, sheet), doorways]),
        Group("joints", tuple(_joints(plan, sheet))),
        Group("sleeves", tuple(drawn_sleeve(sheet, own.place, own.ahead) for own in plan.sleeves)),
        Group("manifold", tuple(_manifolds(plan, sheet))),
        Group("dimensions", tuple(_dimensions(plan, sheet, tiling(tiles).seams))),
    ]


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
    circuit = plan.circuits[number]
    core = plan.cores.get(circuit.id)
    yield from drawn_way(
        sheet.pieces(circuit.pieces),
        None if core is None else sheet.length(core),
        circuit.id,
        ARROWS,
        pipe_width(sheet),
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


def _dimensions(plan: StoreyPlan, sheet: Sheet, seams: Sequence[Box]) -> Iterator[Mark]:
    if plan.room is not None:
        yield from drawn_dimensions(sheet, plan.room.outline or (), seams)
    else:
        yield from overall_dimensions(sheet, plan.corners, seams)
