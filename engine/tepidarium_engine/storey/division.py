"""A room that needs several circuits, divided in pieces of equal pipe length, each with its pipe and its tails.

Movement joints divide first, then cuts along the room's main walls. The shares of area follow the lengths that
come out (a circuit that is too long gets less floor), while the shape of the tree of cuts stays as it is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..plan.entry import entry_at
from ..plan.laying import Refusal
from ..plan.pipe_zone import pipe_zone
from ..plan.polygons import RoomOutline
from .arrangement import Site
from .circuit_pipes import joint_crossings
from .division_job import DivisionJob, division_job
from .division_plans import GOOD_SPREAD, division_plans
from .division_records import MOST_CIRCUITS, DividedCircuit, DividedRoom, DivisionRequest, JointCrossing
from .division_rounds import Outcome, laid_rounds
from .fields import circuits_of_fields
from .inner_tails import Gate, Hallway
from .piece_domains import Spacing

__all__ = ["GOOD_SPREAD", "DividedCircuit", "DividedRoom", "DivisionRequest", "JointCrossing", "divided"]

_FILL = 0.93
"""Share of the greatest length that circuits are planned with."""
_MORE = 3
"""More circuits tried where some are too long."""


def divided(room: RoomOutline, request: DivisionRequest) -> DividedRoom:
    """Divide a room in circuits of equal length, none longer than the greatest length asked for.

    The answer holds circuits that can be laid as drawn or a refusal: ``entry_too_narrow`` (the wall at the
    entry is too short for all pairs), ``too_few_circuits`` (fewer than fields between joints),
    ``too_many_circuits``, ``circuit_too_long`` (with the length that comes out and the greatest one),
    ``no_way_for_tails`` (no cut was found whose pieces all have a way to the entry), or what the laying of
    a piece refuses.
    """
    job = division_job(room, request)
    refusal: Refusal | None = None
    for more in range(_MORE + 1 if request.count is None else 1):
        counts = _counts(job, more)
        if counts is None:
            return DividedRoom(refusal=Refusal("too_few_circuits", None, request.count, len(job.fields)))
        if sum(counts) > MOST_CIRCUITS:
            return DividedRoom(refusal=Refusal("too_many_circuits", None, sum(counts), MOST_CIRCUITS))
        found = _divided_in(job, counts)
        if found.refusal is None:
            return found
        refusal = refusal or found.refusal
        if found.refusal.code == "entry_too_narrow":
            break
    return DividedRoom(refusal=refusal)


def _counts(job: DivisionJob, more: int) -> list[int] | None:
    request = job.request
    longest = request.maximum_circuit_length - 2.0 * request.outer_tail(0)
    if longest <= 0.0:
        return None
    return circuits_of_fields(
        job.fields,
        request.pipe_spacing,
        request.wall_clearance,
        _FILL * longest,
        count=request.count,
        more=more,
    )


def _site(job: DivisionJob, count: int) -> Site | Refusal:
    request = job.request
    width = (2 * count - 1) * request.tail_pitch
    place = job.local(request.entry)
    entry = entry_at(job.polygon, place, width)
    first, last = entry.ends
    there = math.dist(first, last)
    middle = ((first[0] + last[0]) / 2.0, (first[1] + last[1]) / 2.0)
    if abs(there - width) > 1e-6 or math.dist(middle, entry.place) > 1e-6:
        return Refusal("entry_too_narrow", request.entry, there, width)
    along = ((first[0] - last[0]) / there, (first[1] - last[1]) / there)
    gate = Gate(entry.place, along, entry.inward, request.tail_pitch, count)
    spacing = Spacing(request.pipe_spacing, request.wall_clearance, request.bend_radius, request.tail_pitch)
    zone = pipe_zone(job.polygon, request.pipe_spacing, request.wall_clearance, job.walls)
    return Site(
        job.polygon, Hallway(job.polygon, zone, gate, request.wall_clearance, spacing.lane_start), spacing
    )


def _divided_in(job: DivisionJob, counts: Sequence[int]) -> DividedRoom:
    site = _site(job, sum(counts))
    if isinstance(site, Refusal):
        return DividedRoom(refusal=site)
    best: Outcome | None = None
    refusal: Refusal | None = None
    rounds = 0
    for plan in division_plans(job, site, counts):
        for outcome in laid_rounds(job, site, plan):
            rounds += 1
            if outcome.refusal is not None:
                refusal = refusal or outcome.refusal
            elif best is None or outcome.spread < best.spread:
                best = outcome
        if best is not None and best.spread <= GOOD_SPREAD:
            break
    if best is None:
        return DividedRoom(rounds=rounds, refusal=refusal or Refusal("no_way_for_tails"))
    limit = job.request.maximum_circuit_length
    if max(best.lengths) > limit:
        return DividedRoom(rounds=rounds, refusal=Refusal("circuit_too_long", None, max(best.lengths), limit))
    pieces = math.fsum(circuit.piece.area for circuit in best.circuits)
    return DividedRoom(
        circuits=best.circuits,
        crossings=tuple(joint_crossings(job, best.circuits)),
        spread=best.spread,
        bands=job.polygon.area - pieces,
        rounds=rounds,
        settled=best.spread <= GOOD_SPREAD,
    )
