"""What should be looked at in the drawing of a storey, and how warm its tails make the floors they cross."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Finding, Severity
from ..storey.manifold.plan_input import narrow_doorways
from ..storey.model.layout_records import Unplaced
from .drawn_house import DrawnHouse
from .drawn_storey import BareFloor, DrawnStorey
from .drawn_strips import strips_not_closer
from .floors import RoomToHeat
from .ports_told import ports_told
from .solving import SolvedHouse

__all__ = ["layout_findings"]

_TAIL_HEAT = "steady heat conduction in the section, with the floor that is free beside each tail"
_WORTH_TELLING = 0.5
"""Floor that tails cut off before it is told [m2]."""
_MOST_IN_TAILS = 0.35
"""Share of a circuit's pipe that its tails may take before it is reported (common practice, no source)."""
_TOO_WARM = 1.1
"""Heat of tails over the demand of a room from which on it is worth a warning (common practice, no source)."""


def layout_findings(solved: SolvedHouse, drawn: DrawnHouse) -> Iterator[Finding]:
    """Circuits that are not drawn, rooms without an outline, a search that did not settle, warm tails, spacings kept
    although the wider one would do in turn."""
    state, convergence = solved.state, solved.convergence
    house = state.house
    for storey in drawn.storeys:
        yield from _not_drawn(storey)
        yield from _fewer(storey)
        yield from _closer(storey, house.inputs.limits.tail_pitch)
        yield from _long_tails(storey, drawn)
        yield from strips_not_closer(house, storey, drawn)
        yield from ports_told(house, drawn, storey)
        yield from narrow_doorways(
            storey.site.plan.doorways,
            [house.inputs.doorways[number].width for number in storey.site.doorways],
            [f"/doorways/{number}" for number in storey.site.doorways],
        )
    for site in house.sites:
        for room in house.rooms:
            if room.outline is None and house.storey_of[room.index] == site.number:
                yield Finding.at("not_drawn_no_outline", f"{room.pointer}/outline", subject=room.label)
    if not drawn.settled:
        yield Finding.at(
            "drawing_not_settled",
            "/limits",
        )
    if not convergence.settled:
        yield Finding.at(
            "design_not_settled",
            "/convergence",
            value=convergence.residual,
            limit=convergence.tolerance,
            source="Fixed point of this calculation",
            quantity="residual",
            where_in="answer",
        )
    for room in state.rooms:
        yield from _warm_tails(room, solved.lacking.get(room.index), _bare(room, drawn))
        if room.index in solved.kept:
            yield _kept(room, solved.kept[room.index])


def _not_drawn(storey: DrawnStorey) -> Iterator[Finding]:
    alike: dict[tuple[int, str, str], list[Unplaced]] = {}
    for one in storey.unplaced:
        alike.setdefault((one.room, one.code, one.words), []).append(one)
    for (place, code, message), circuits in alike.items():
        room = storey.site.rooms[place]
        yield Finding.at(
            f"not_drawn_{code}",
            room.pointer,
            detail=message,
            subject=_called(room, circuits),
            source="Geometry",
            point=circuits[0].place,
        )


def _called(room: RoomToHeat, circuits: list[Unplaced]) -> str:
    return (
        room.circuit_label(circuits[0].id)
        if len(circuits) == 1
        else f"{room.label} ({len(circuits)} circuits)"
    )


def _fewer(storey: DrawnStorey) -> Iterator[Finding]:
    """Rooms that were laid with as many circuits as have a way."""
    for one in storey.fewer:
        room = storey.site.rooms[one.room]
        yield Finding.at(
            "fewer_circuits",
            room.pointer,
            detail=one.message,
            value=float(one.laid),
            limit=float(one.asked),
            limit_is="asked for",
            source="Geometry",
            point=one.place,
            quantity="circuit_count",
        )


def _closer(storey: DrawnStorey, usual: float) -> Iterator[Finding]:
    """Places for which tails lie closer than at their ``usual`` pitch [m]."""
    site = storey.site
    for one in storey.narrow:
        pairs = f"{one.pairs} pairs of pipes" if one.pairs > 1 else "a pair of pipes"
        at_doorway = one.named == "doorway"
        yield Finding.at(
            "tails_closer",
            f"/doorways/{site.doorways[one.index]}/width" if at_doorway else site.rooms[one.index].pointer,
            value=storey.tail_pitch,
            limit=usual,
            limit_is="asked for",
            detail=f"For {pairs} in {one.width_there:.2f} m" if one.width_there > 0.0 else "For the bends",
            source="Common practice, no source",
            point=one.place,
            quantity="tail_pitch",
        )


def _long_tails(storey: DrawnStorey, drawn: DrawnHouse) -> Iterator[Finding]:
    """Circuits whose pipe lies on the way to their room for a good part, with the shortest way that there is."""
    site = storey.site
    for one in storey.circuits:
        if one.tail_length <= _MOST_IN_TAILS * one.path.length:
            continue
        room = site.rooms[one.room]
        yield Finding.at(
            "long_tails",
            room.pointer,
            value=one.tail_length,
            limit=_MOST_IN_TAILS * one.path.length,
            detail=f"The shortest way takes {2.0 * float(site.ways[one.manifold, one.room]):.1f} m of both",
            subject=room.circuit_label(one.id),
            source="Common practice, no source",
            quantity="both_tails_length",
        )


def _kept(room: RoomToHeat, wider: float) -> Finding:
    closer = room.pipe_spacings[0]
    return Finding.at(
        "closer_spacing_kept",
        f"{room.pointer}/pipe_spacing",
        limit=wider,
        limit_is="without those tails",
        value=closer,
        source="Fixed point of this calculation",
        quantity="pipe_spacing",
    )


def _bare(room: RoomToHeat, drawn: DrawnHouse) -> BareFloor | None:
    """Floor without pipe of a room that has no circuits of its own, or cut off from them."""
    spacing = drawn.divided[room.index].point.choice.pipe_spacing
    found = (storey.bare_floor(room, spacing) for storey in drawn.storeys if room.index in storey.indices)
    bare = next(filter(None, found), None)
    told = 0.0 if bare is None else bare.area if room.own_circuits else bare.largest
    return bare if told > _WORTH_TELLING else None


def _warm_tails(room: RoomToHeat, lacking: float | None, bare: BareFloor | None) -> Iterator[Finding]:
    """Heat from tails of others in a room, and floors that they make too warm; ``lacking`` is what the room would lack
    without circuits of its own [W], ``bare`` its floor without pipe where it has none, or cut off from them."""
    tails = room.tails
    if not tails.length:
        return
    if room.own_circuits and bare is not None:
        yield Finding.at(
            "floor_cut_off",
            room.pointer,
            value=bare.area,
            source="Geometry",
            point=bare.place,
            quantity="bare_area",
        )
        bare = None
    yield _heated_by_tails(room, lacking, bare)
    if tails.output > tails.limit:
        yield Finding.at(
            "tails_too_warm",
            room.pointer,
            value=tails.output,
            limit=tails.limit,
            source="EN 1264-2, limit curve",
            quantity="heat_output",
        )


def _heated_by_tails(room: RoomToHeat, lacking: float | None, bare: BareFloor | None) -> Finding:
    """What tails of others give to a room, and what its own circuits are for."""
    heat, demand = room.tails.heat, room.heat_demand
    severity: Severity | None = None
    detail = ""
    if not room.own_circuits:
        code = "room_without_circuits"
        severity = "warning" if heat > _TOO_WARM * demand or bare is not None else "note"
        detail = "" if bare is None else bare.words
    elif heat >= demand:
        code = "tails_give_too_much"
        if lacking is not None:
            detail = (
                f"Without its own circuit the tails would be shorter and {lacking:.0f} W would be missing"
            )
    else:
        code = "tails_heat"
        detail = f"On {room.tails.area:.1f} m2"
    return Finding.at(
        code,
        room.pointer,
        severity=severity,
        value=heat,
        limit=demand,
        limit_is="" if heat > demand and room.own_circuits else "of a demand of",
        detail=detail,
        source=_TAIL_HEAT,
        point=None if bare is None else bare.place,
        quantity="tails_heat",
        subject=room.label,
    )
