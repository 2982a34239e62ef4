"""Which rooms of a plan a design takes, and why not the others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from ..glossary import Items, lookup
from .drawn_plan import DrawnPlan, DrawnRoom
from .outlines import OutlinedRoom, outlined, without_overlaps
from .records import FoundRoom, FoundStorey, PlanImportsInputs, RoomState
from .report import Report

__all__ = ["Selection", "select"]

_AREA_DIFFERS = 0.05
"""Share by which the area that the file states may differ, as some programs count to the middle of walls; common
practice, no source."""
_USUAL_AREAS = (2.0, 400.0)
"""Half of a house's rooms are neither smaller nor larger [m2]; common practice, no source."""


def _most(name: str) -> int:
    entry = lookup(name)
    return entry.maximum if isinstance(entry, Items) else 0


@dataclass(frozen=True)
class Selection:
    """The rooms ``taken`` in the order of their storeys (ids), and what became of every room and storey."""

    taken: tuple[OutlinedRoom, ...]
    storeys: tuple[str, ...]
    rooms_found: tuple[FoundRoom, ...]
    storeys_found: tuple[FoundStorey, ...]


def select(plan: DrawnPlan, inputs: PlanImportsInputs, report: Report) -> Selection:
    """Outline all heated rooms of the storeys that are asked for and take as many as a design may have."""
    storeys = sorted(plan.storeys, key=lambda storey: (storey.level is None, storey.level or 0.0))
    fates: dict[int, tuple[RoomState, str]] = {}
    made: dict[int, OutlinedRoom] = {}
    for storey in storeys:
        wanted = not inputs.storeys or storey.id in inputs.storeys
        own = [(number, room) for number, room in enumerate(plan.rooms) if room.storey == storey.id]
        for number, room in own:
            fates[number] = _first_fate(room, wanted)
        _outline([entry for entry in own if fates[entry[0]][0] == "taken"], inputs, made, fates)
    _bound(plan, [storey.id for storey in storeys], made, fates)
    taken = tuple(
        made[number]
        for storey in storeys
        for number, room in enumerate(plan.rooms)
        if room.storey == storey.id and fates[number][0] == "taken"
    )
    used = tuple(s.id for s in storeys if any(room.room.storey == s.id for room in taken))
    found = tuple(
        FoundRoom(
            room.id,
            room.name,
            room.storey,
            float(made[number].floor.area) if number in made else 0.0,
            *fates[number],
            room.source.element,
            room.source.line,
        )
        for number, room in enumerate(plan.rooms)
    )
    counts = {storey.id: sum(room.storey == storey.id for room in plan.rooms) for storey in storeys}
    listed = tuple(FoundStorey(s.id, s.name, s.level, counts[s.id], s.id in used) for s in storeys)
    _tell(found, taken, report)
    return Selection(taken, used, found, listed)


def _first_fate(room: DrawnRoom, wanted: bool) -> tuple[RoomState, str]:
    if not wanted:
        return "not_asked_for", "its storey is not asked for"
    if not room.heated:
        return "not_heated", "the file says that it is not heated"
    return "taken", ""


def _outline(
    rooms: Sequence[tuple[int, DrawnRoom]],
    inputs: PlanImportsInputs,
    made: dict[int, OutlinedRoom],
    fates: dict[int, tuple[RoomState, str]],
) -> None:
    """Outlines of one storey, and what cannot have one."""
    own: dict[int, OutlinedRoom] = {}
    for number, room in rooms:
        outline = outlined(room, inputs.snap_tolerance)
        if isinstance(outline, str):
            fates[number] = ("left_out", outline)
        else:
            own[number] = outline
    reasons = without_overlaps(list(own.values()), inputs.snap_tolerance)
    for number, outline in own.items():
        if outline.room.id in reasons:
            fates[number] = ("left_out", reasons[outline.room.id])
    made.update(own)


def _bound(
    plan: DrawnPlan,
    storeys: Sequence[str],
    made: dict[int, OutlinedRoom],
    fates: dict[int, tuple[RoomState, str]],
) -> None:
    """No more storeys and rooms than a design may have, from below; ids that occur once."""
    most_rooms, most_storeys, count = _most("rooms"), _most("storeys"), 0
    seen: set[str] = set()
    used: list[str] = []
    for storey in storeys:
        for number, room in enumerate(plan.rooms):
            if room.storey != storey or fates[number][0] != "taken":
                continue
            if storey not in used and len(used) < most_storeys and count < most_rooms:
                used.append(storey)
            reason = ""
            if room.id in seen:
                reason = "another room has the same id"
            elif storey not in used:
                reason = (
                    f"a design has at most {most_storeys} storeys and {most_rooms} rooms: ask for this storey"
                )
            elif count >= most_rooms:
                reason = f"a design has at most {most_rooms} rooms: ask for one storey at a time"
            if reason:
                fates[number] = ("left_out", reason)
                continue
            seen.add(room.id)
            count += 1


def _tell(found: Sequence[FoundRoom], taken: Sequence[OutlinedRoom], report: Report) -> None:
    for number, room in enumerate(found):
        if room.state == "left_out":
            line = "" if room.file_line is None else f", line {room.file_line}"
            report.find(
                "room_left_out", f"/rooms_found/{number}", room.name, f"{room.reason} ({room.element}{line})"
            )
    for index, made in enumerate(taken):
        area, stated = float(made.floor.area), made.room.stated_area
        where = f"/request/rooms/{index}/outline"
        if stated and abs(area - stated) > _AREA_DIFFERS * stated and stated >= 0.05:
            report.find(
                "floor_area_unlike_file", where, made.room.name, value=area, limit=stated, quantity="area"
            )
    if taken:
        usual = median(float(made.floor.area) for made in taken)
        if not _USUAL_AREAS[0] <= usual <= _USUAL_AREAS[1]:
            limit = _USUAL_AREAS[usual > 1.0]
            report.find(
                "room_size_unlikely", "/metres_per_unit", value=usual, limit=limit, quantity="found_area"
            )
