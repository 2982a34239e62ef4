"""What a file of a plan says."""

from __future__ import annotations

from .kind import WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "room_size_unlikely": Kind(
        WARNING,
        "Half of the rooms are smaller or larger than in most houses, so the unit of length may be wrong.",
        "Check the unit, and give it if the file has a wrong one.",
        cause="The file names no unit of length, or a wrong one.",
        calculations=("plan-imports",),
    ),
    "room_left_out": Kind(
        WARNING,
        "Some rooms of the file are not in the request, so their floors and heat are not designed.",
        "Mend the drawing, or enter them by hand.",
        cause="The room's outline is open, crosses itself or is missing in the file.",
        calculations=("plan-imports",),
    ),
    "storey_in_parts": Kind(
        WARNING,
        "Not all rooms of the storey can be reached from each other, so its pipes cannot be drawn "
        "and lengths are estimated.",
        "Add the missing doorways.",
        cause="Doorways are missing in the file, or drawn away from the walls.",
        calculations=("plan-imports",),
    ),
    "floor_area_unlike_file": Kind(
        WARNING,
        "The outline has another area than the file states for the room, so pipe and heat may be wrong.",
        "Check the outline.",
        cause="The outline in the file is rough, or its area includes walls.",
        calculations=("plan-imports",),
    ),
    "u_value_unlike_layers": Kind(
        WARNING,
        "The U-value in the file differs from that of its layers, and the layers are used.",
        "Check which of them is right, as the heat loss follows from it.",
        cause="The layers were changed in the file after the U-value was computed, or the other way round.",
        calculations=("plan-imports",),
    ),
    "floor_insulation_low": Kind(
        WARNING,
        "The floor in the file has less insulation than EN 1264-4 asks for, and the least that it "
        "asks for is used instead.",
        "Check what will be laid.",
        cause="The file describes an old floor, or leaves the insulation out.",
        calculations=("plan-imports",),
    ),
}
