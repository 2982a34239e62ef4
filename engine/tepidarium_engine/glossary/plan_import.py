"""Plans as files, and what is read from them."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

PLAN_IMPORT: dict[str, Entry] = {
    "length_unit": Word("Unit of the file's lengths, in place of the one that it names"),
    "snap_tolerance": Number("m", 0.0, 0.2, "Gaps and overlaps of the drawing that are closed"),
    "thickest_wall": Number("m", 0.0, 1.0, "Rooms that face each other over no more have a wall in common"),
    "layer": Text("A layer of the drawing", 255, 1),
    "find_doorways": Word("Whether rooms that no doorway of the file reaches get one to a neighbour"),
    "storeys_wanted": Items("Ids of the storeys to take; all where there are none", 0, 64, of="storey_id"),
    "file_format": Word("Format of the file"),
    "file_unit": Text("Unit of the file's lengths", 40),
    "metres_per_unit": Number("m", 0.0, 1e4, "Metres in one unit of the file"),
    "imported_request": Word(
        "A request of designs; it can be computed once what is in missing has been filled in"
    ),
    "parts_taken": Items("What was taken from the file", 0, 10_000),
    "parts_guessed": Items("What the file does not say and was guessed: look at each", 0, 10_000),
    "parts_missing": Items("What must be filled in before the request can be computed", 0, 10_000),
    "storeys_found": Items("The storeys of the file from below", 0, 10_000),
    "rooms_found": Items("The rooms of the file and what became of each", 0, 10_000),
    "layers_found": Items("The layers of a drawing; none in other files", 0, 10_000),
    "level": Number("m", -1e6, 1e6, "Height of the storey's floor"),
    "rooms_on_storey": Number("1", 0, 100_000, "Number of its rooms in the file"),
    "storey_taken": Word("Whether rooms of the storey are in the request"),
    "found_area": Number("m2", 0.0, 1e12, "Area of the outline, 0 where there is none"),
    "room_state": Word("taken into the request, not_heated, not_asked_for or left_out"),
    "room_reason": Text("Why the room is not in the request; empty where it is", 2000),
    "file_element": Text("Element of the file; empty where nothing in the file says it", 400),
    "file_line": Number("1", 1, 1e9, "Line of the file; null where it has none"),
    "where_in_request": Text("JSON pointer (RFC 6901) into request of this answer", 400),
    "layer_use": Text("What the layer was used for: rooms, names, doorways; empty: nothing", 40),
    "outline_count": Number("1", 0, 1e7, "Closed outlines on it"),
    "open_line_count": Number("1", 0, 1e7, "Open lines on it"),
    "text_count": Number("1", 0, 1e7, "Texts on it"),
    "block_count": Number("1", 0, 1e7, "Blocks on it"),
    "other_count": Number("1", 0, 1e7, "All else on it"),
}
