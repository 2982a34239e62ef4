"""Names of what a drawing is asked for."""

from __future__ import annotations

from .entries import Entry, Number, Text, Word

__all__ = ["DRAWING"]

DRAWING: dict[str, Entry] = {
    "drawing_sheet": Word("How drawings are laid out, and what their title block says; it changes no number"),
    "paper_size": Word("Format of the sheet (ISO 216); null takes the first that fits, from A3 on"),
    "paper_orientation": Word("Whether the sheet lies or stands; null takes what fits"),
    "drawing_scale": Number("1", 10, 1000, "Scale of the drawing: 50 stands for 1:50 (ISO 5455)"),
    "drawing_revision": Text("Revision of the drawing, printed in the title block", 20),
    "drawing_author": Text("Who drew it, printed in the title block", 60),
    "north_direction": Number(
        "deg", -360.0, 360.0, "Direction of north, clockwise from the y axis of the plan"
    ),
}
