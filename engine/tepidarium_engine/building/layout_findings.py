"""What should be looked at in the drawing of a storey, and how warm its tails make the floors they cross."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Finding, Severity
from ..storey.plan_input import narrow_doorways
from .drawn_house import DrawnHouse
from .drawn_storey import DrawnStorey
from .floors import RoomToHeat
from .house import House
from .ports_told import ports_told
from .solving import SolvedHouse

__all__ = ["layout_findings"]

_TAIL_HEAT = "steady heat conduction in the section, with the floor that is free beside each tail"
_WORTH_TELLING = 0.5
"""Floor that tails cut off before it is told [m2]."""
_TOO_WARM = 1.1
"""Heat of tails over the demand of a room from which on it is worth a warning (common practice, no source)."""


def layout_findings(solved: SolvedHouse, drawn: DrawnHouse) -> Iterator[Finding]:
    """Circuits that are not drawn, rooms without an outline, a search that did not settle, warm tails, spacings kept
    although the wider one would do in turn."""
    state, convergence = solved.state, solved.convergence
    house = state.house
    for storey in drawn.storeys:
        yield from _not_drawn(house, storey)
        yield from _fewer(storey)
        yield from ports_told(house, drawn, storey)
        yield from narrow_doorways(
            storey.site.plan.doorways,
            [house.inputs.doorways[number].width for number in storey.site.doorways],
            [f"/doorways/{number}" for number in storey.site.doorways],
        )
    if not drawn.settled:
        yield Finding.at(
            "drawing_not_settled",
            "warning",
            "/limits",
            "No drawing was found in which all circuits keep their limits, so one is too long or loses too much "
            "pressure. Allow more circuits, take a wider pipe or add a manifold.",
        )
    if not convergence.settled:
        yield Finding.at(
            "design_not_settled",
            "warning",
            "/convergence",
            "The heat of tails did not settle, so rooms that hold tails may get more or less heat than shown. "
            "Insulate the tails, or give the spacing of these rooms.",
            value=convergence.residual,
            limit=convergence.tolerance,
            source="Fixed point of this calculation",
            quantity="residual",
            where_in="answer",
        )
    for room in state.rooms:
        yield from _warm_tails(room, solved.lacking.get(room.index))
        if room.index in solved.kept:
            yield _kept(room, solved.kept[room.index])


def _not_drawn(house: House, storey: DrawnStorey) -> Iterator[Finding]:
    for one in storey.layout.unplaced:
        room = storey.site.rooms[one.room]
        yield Finding.at(
            f"not_drawn_{one.code}",
            "violation",
            room.pointer,
            "Circuits could not be drawn, so their lengths are estimated. See for each what would help.",
            detail=one.message,
            subject=room.circuit_label(one.id),
            source="Geometry",
            point=one.place,
        )
    for room in house.rooms:
        if room.outline is None and house.storey_of[room.index] == storey.site.number:
            yield Finding.at(
                "not_drawn_no_outline",
                "note",
                f"{room.pointer}/outline",
                "Rooms without an outline are not drawn, so their lengths are estimated. Give their outlines.",
                subject=room.label,
            )


def _fewer(storey: DrawnStorey) -> Iterator[Finding]:
    """Rooms that were laid with as many circuits as have a way."""
    for one in storey.layout.fewer:
        room = storey.site.rooms[one.room]
        yield Finding.at(
            "fewer_circuits",
            "note",
            room.pointer,
            "Rooms get fewer circuits than asked for, as no more have a way; each keeps the permitted length. Widen "
            "the way if you need them all.",
            detail=one.message,
            value=float(one.laid),
            limit=float(one.asked),
            limit_is="asked for",
            source="Geometry",
            point=one.place,
            quantity="circuit_count",
        )


def _kept(room: RoomToHeat, wider: float) -> Finding:
    closer = room.pipe_spacings[0]
    return Finding.at(
        "closer_spacing_kept",
        "note",
        f"{room.pointer}/pipe_spacing",
        "A room keeps a closer spacing, as a wider one would no longer do with the tails that then pass it. Give its "
        "spacing to decide otherwise.",
        limit=wider,
        limit_is="without those tails",
        value=closer,
        source="Fixed point of this calculation",
        quantity="pipe_spacing",
    )


def _warm_tails(room: RoomToHeat, lacking: float | None) -> Iterator[Finding]:
    """Heat from tails of others in a room, and floors that they make too warm; ``lacking`` is what the room would lack
    without circuits of its own [W]."""
    tails = room.tails
    if not tails.length:
        return
    if tails.cut_off > _WORTH_TELLING:
        yield Finding.at(
            "floor_cut_off",
            "warning",
            room.pointer,
            "Tails cut part of a room off from its own circuits, and it stays without other pipe. Move the manifold "
            "or the doorway to let them pass elsewhere.",
            value=tails.cut_off,
            source="Geometry",
            point=tails.cut_off_place,
            quantity="bare_area",
        )
    yield _heated_by_tails(room, lacking)
    if tails.output > tails.limit:
        yield Finding.at(
            "tails_too_warm",
            "warning",
            room.pointer,
            "The floor above the tails gets warmer than its limit. Insulate the flow tails or lay them further apart.",
            value=tails.output,
            limit=tails.limit,
            source="EN 1264-2, limit curve",
            quantity="heat_output",
        )


def _heated_by_tails(room: RoomToHeat, lacking: float | None) -> Finding:
    """What tails of others give to a room, and what its own circuits are for."""
    heat, demand = room.tails.heat, room.heat_demand
    severity: Severity = "note"
    detail = ""
    if not room.own_circuits:
        code = "room_without_circuits"
        severity = "warning" if heat > _TOO_WARM * demand else "note"
        message = (
            "Tails to other rooms give a room all the heat it needs, so it gets no circuit of its own. Insulate the "
            "tails if it becomes too warm."
        )
    elif heat >= demand:
        code, severity = "tails_give_too_much", "warning"
        message = "Tails alone overheat a room, whatever its control does. Insulate the tails or lead some another way."
        if lacking is not None:
            detail = (
                f"Without its own circuit the tails would be shorter and {lacking:.0f} W would be missing"
            )
    else:
        code = "tails_heat"
        message = "Tails to other rooms warm a room they cross. Its own circuits are planned for the rest of its heat."
        detail = f"On {room.tails.area:.1f} m2"
    return Finding.at(
        code,
        severity,
        room.pointer,
        message,
        value=heat,
        limit=demand,
        limit_is="" if heat > demand and room.own_circuits else "of a demand of",
        detail=detail,
        source=_TAIL_HEAT,
        quantity="tails_heat",
        subject=room.label,
    )
