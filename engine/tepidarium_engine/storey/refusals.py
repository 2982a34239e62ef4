"""What is told of a circuit that is not drawn: what is in the way, where, and what would help."""

from __future__ import annotations

from ..plan.laying.laying import Refusal
from .layout_records import Unplaced
from .storey_drawing import StoreyDrawing
from .tail_records import UnroutedTail

__all__ = ["no_floor", "refused", "unrouted"]


def no_floor(drawing: StoreyDrawing, index: int, circuit: str) -> Unplaced:
    place = drawing.lanes.stubs(index)[circuit].right
    return Unplaced(
        circuit,
        index,
        "no_floor",
        place,
        "Tails to other rooms leave no floor in which the room's own pipe could begin. Place the manifold elsewhere, or "
        "heat the room by the tails alone.",
    )


def refused(drawing: StoreyDrawing, index: int, circuit: str, refusal: Refusal) -> Unplaced:
    fault = refusal.code.replace("_", " ")
    if refusal.value is not None and refusal.limit is not None:
        fault += f": {refusal.value:.3f} against {refusal.limit:.3f} (m)"
    return Unplaced(
        circuit,
        index,
        refusal.code,
        refusal.place,
        f"No pipe passes in the floor that is left for it ({fault}). Another place of the entry, another spacing or "
        "number of circuits would help.",
    )


def unrouted(drawing: StoreyDrawing, tail: UnroutedTail) -> Unplaced:
    index = drawing.room_of[tail.circuit]
    return Unplaced(tail.circuit, index, f"tails_{tail.named}", tail.place, tail.reason)
