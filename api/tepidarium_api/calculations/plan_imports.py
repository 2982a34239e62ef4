"""Plans as files, made into a request of designs."""

from __future__ import annotations

from tepidarium_engine.plan_imports import PlanImportsInputs, PlanImportsResult, read_plan

from ._base import FileReading

__all__ = ["PLAN_IMPORTS"]

PLAN_IMPORTS = FileReading(
    name="plan-imports",
    operation_id="plan_imports",
    summary="A plan as architects have it, made into a request of designs",
    description=(
        "The body is a gbXML file (`application/xml`) or a DXF drawing (`image/vnd.dxf`); options stand in the query "
        "string. The answer holds the rooms "
        "that are heated with their outlines, storeys, doorways and design temperatures as a `request` of designs, and "
        "with `external_temperature` also the heat loss from the elements of the file. `taken` names what is from the "
        "file, `guessed` what is not and must be looked at, `missing` what must be filled in before the request can be "
        "computed: each with its place in the request and in the file. A heat demand is never guessed. Rooms that "
        "cannot be taken are reported with the reason, and the rest goes on.\n\nGaps and overlaps up to "
        "`snap_tolerance` are closed. Doorways are those of the file; rooms that none reaches get one to a neighbour "
        "across a wall of at most `thickest_wall`, unless `find_doorways` is false. A document type, entities and deep "
        "nesting are refused.\n\nRooms of a DXF are the closed polylines on `room_layer`, their names the largest "
        "texts in them, doorways the blocks and lines on `doorway_layer`. Layers that are not given are guessed, and "
        "`layers_found` lists all; the unit comes from the header or `length_unit`. A DXF knows no elements, so that "
        "the heat demand of its rooms is missing."
    ),
    options=PlanImportsInputs,
    result=PlanImportsResult,
    read=read_plan,
    formats={"application/xml": "gbxml", "text/xml": "gbxml", "image/vnd.dxf": "dxf"},
)
