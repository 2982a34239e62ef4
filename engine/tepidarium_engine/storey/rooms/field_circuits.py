"""The only circuit of a room, and the joining of fields to their tails."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ...errors import InvariantError, required
from ...plan.laying.laying import Laid, LayingTask, Refusal, lay
from ..division.pipe_ends import joined_ends
from ..model.layout_records import LaidRoom, StoreyCircuit, Unplaced
from .own_floor import OwnFloor

__all__ = ["joined_to_tails", "laid_single", "refused", "single_pipe"]


def laid_single(own: OwnFloor) -> LaidRoom:
    """The only circuit of a room."""
    place, index, laid = own.places[0], own.index, single_pipe(own)
    if laid.path is None or laid.check is None:
        refusal = required(laid.refusal, "the reason why nothing is laid")
        return LaidRoom((), (refused(place.circuit, index, refusal),))
    length = laid.path.length
    bare = StoreyCircuit(
        place.circuit, index, own.room.manifold, own.port(0), laid.path, length, own.outline.placed
    )
    return joined_to_tails(own, [bare])


def single_pipe(own: OwnFloor) -> Laid:
    """The pipe of a floor's only circuit without its tails, laid once."""
    task = own.task
    request = LayingTask(
        pipe_spacing=own.room.pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        tail_pitch=task.tail_pitch,
        entry=own.inlet.entry,
        pattern=own.room.pattern,
        quick=task.quick,
        outermost_pipe=own.room.outermost_pipe,
        closer_strip=own.strip,
    )
    key = own.remembered(request)
    laid = own.memory.get(key) or lay(own.outline, request)
    if not isinstance(laid, Laid):
        raise InvariantError("a laid room must be remembered under its request")
    own.memory[key] = laid
    return laid


def joined_to_tails(own: OwnFloor, bare: Sequence[StoreyCircuit]) -> LaidRoom:
    """The circuits with their tails; those of the manifold's own room may begin at the port."""
    circuits, unplaced = [], []
    tails = {place.circuit: tail for place, tail in zip(own.places, own.tails, strict=True)}
    for circuit in bare:
        pair, path = tails[circuit.id], circuit.path
        if math.dist(path.start, pair[0].end) > math.dist(path.start, pair[1].end):
            path = path.reversed()
        floor = own.for_curves(circuit.id)
        whole = joined_ends(pair, path, own.task.bend_radius, own.task.tail_pitch, floor=floor)
        if whole is None:
            message = "No bend joins the tails to the field at the doorway. Move the doorway or the entry."
            unplaced.append(Unplaced(circuit.id, circuit.room, "no_joint", pair[0].end, message))
            continue
        circuits.append(replace(circuit, path=whole[0], field_length=whole[1]))
    return LaidRoom(tuple(circuits), tuple(unplaced))


def refused(circuit: str, room: int, refusal: Refusal) -> Unplaced:
    """What is reported of a circuit that cannot be laid."""
    fault = refusal.code.replace("_", " ")
    if refusal.value is not None and refusal.limit is not None:
        fault += f": {refusal.value:.3g} m, limit {refusal.limit:.3g} m"
    message = (
        f"No pipe could be laid in the floor that is left for it ({fault}). Try another entry, spacing or number of "
        "circuits."
    )
    return Unplaced(circuit, room, refusal.code, refusal.place, message)
