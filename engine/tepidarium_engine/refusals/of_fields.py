"""A field by itself, or fields that do not go together."""

from __future__ import annotations

__all__ = ["WORDS"]

WORDS: dict[str, tuple[str, str]] = {
    "type": ("The value is of another type than the field.", "Send the type that the detail names."),
    "missing": ("A field that is needed here is not given.", "Give it."),
    "unknown_field": ("There is no field of this name.", "Correct the name, or leave the field out."),
    "choice": (
        "The word is none of those that the field takes.",
        "Take one of the words that the detail lists.",
    ),
    "date": ("The value is no date.", "Write dates as year, month and day, such as 2025-03-31."),
    "date_range": (
        "The date lies outside of what is computed.",
        "Give a date in the years that the detail names.",
    ),
    "too_small": (
        "The value is below the least that the field takes.",
        "Give a larger value; check its unit.",
    ),
    "too_large": (
        "The value is above the most that the field takes.",
        "Give a smaller value; check its unit.",
    ),
    "range": ("A value of an array lies outside of what the field takes.", "Check the unit and each value."),
    "shape": (
        "Arrays have lengths that do not fit to each other.",
        "Give arrays of one length, or single numbers.",
    ),
    "impossible": (
        "A point of the arrays cannot exist, such as a supply below the return.",
        "Correct that point.",
    ),
    "too_few": ("The list or the outline has too few members.", "Add what is missing."),
    "too_many": ("The list has too many members for one request.", "Divide the work into several requests."),
    "text_length": ("The text is empty or too long.", "Give a text of the length that the detail names."),
    "one_of": ("The same thing is described in two ways, or in none.", "Give exactly one of the fields."),
    "contradiction": ("Two fields contradict each other.", "Leave out the one that does not apply."),
    "incomplete": ("Of fields that go together only some are given.", "Give all of them, or none."),
    "not_unique": ("Two items of a list have the same name.", "Give each item a name of its own."),
    "duplicate": ("Two rooms have the same name.", "Give each room a name of its own."),
    "repeated": ("An item is named twice.", "Name it once."),
    "given_twice": ("The same thing is given at two places.", "Give it once."),
    "not_given": (
        "What lies between two rooms is given by neither.",
        "Give its construction in one of the rooms.",
    ),
    "differs": ("A number differs from what the list holds.", "Correct it, or leave it out."),
    "not_rising": ("The lines of a table are not in rising order.", "Sort them, each value once."),
    "implausible": ("The demand is far from what houses need.", "Check the unit and the floor area."),
    "unknown_area": ("The name is that of no area of the request.", "Correct the name, or add the area."),
    "unknown_build_up": (
        "The name is that of no build-up of the request.",
        "Correct the name, or add the build-up.",
    ),
    "unknown_construction": (
        "The name is that of no construction of the request.",
        "Correct the name, or add the construction.",
    ),
    "unknown_item": (
        "The name is that of no item of this order.",
        "Take one of the items that the detail lists.",
    ),
    "unknown_layer": (
        "The drawing has no layer of this name.",
        "Take one of the layers that the detail lists.",
    ),
    "unknown_manifold": (
        "The name is that of no manifold of the request.",
        "Correct the name, or add the manifold.",
    ),
    "unknown_neighbour": (
        "The name is that of no room or unheated space of the request.",
        "Correct the name, or add the room or space.",
    ),
    "own_neighbour": ("A room is named as its own neighbour.", "Name the room on the other side."),
    "unknown_room": ("The name is that of no room of the request.", "Correct the name, or add the room."),
    "unknown_storey": (
        "The name is that of no storey of the request.",
        "Correct the name, or add the storey.",
    ),
    "other_storey": ("Two things that belong together lie on different storeys.", "Put both on one storey."),
    "unreadable_file": (
        "The file is not of the format that it was sent as.",
        "Export the plan again, and check its format.",
    ),
}
