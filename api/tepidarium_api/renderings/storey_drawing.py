"""The storeys of a design with every circuit from its port and back, for the person who lays it."""

from __future__ import annotations

from dataclasses import replace

from tepidarium_engine.designs import DesignsInputs, DesignsResult, DrawingSheet

from .sheet import extent, sheets_for
from .sheets import DrawnPlan, DrawnSheet, drawn_sheets
from .storey_marks import storey_groups
from .storey_names import storey_names
from .storey_plans import StoreyPlan, storey_plans
from .storey_text import storey_text
from .svg_sheets import svg_of
from .title_block import TitleBlock

__all__ = ["storey_drawing", "storey_sheets", "with_project"]

TITLE = "Layout of floor heating pipe"


def storey_drawing(inputs: DesignsInputs, result: DesignsResult) -> bytes:
    """All sheets as ``image/svg+xml``; needs ``doorways``."""
    return svg_of(storey_sheets(inputs, result))


def storey_sheets(inputs: DesignsInputs, result: DesignsResult) -> list[DrawnSheet]:
    """The sheets of each storey, or of the storey or room that the request names."""
    wanted = with_project(inputs)
    return drawn_sheets(
        (_drawn(plan, inputs, result, wanted) for plan in storey_plans(inputs, result)), wanted
    )


def with_project(inputs: DesignsInputs) -> DrawingSheet:
    """What the drawing is asked for; without a project of its own that of the records."""
    wanted, commissioning = inputs.drawing, inputs.commissioning
    if wanted.project or commissioning is None:
        return wanted
    return replace(wanted, project=commissioning.project)


def _drawn(plan: StoreyPlan, inputs: DesignsInputs, result: DesignsResult, wanted: DrawingSheet) -> DrawnPlan:
    tiles = sheets_for(extent(plan.corners), wanted)
    groups = storey_groups(plan, tiles)
    names = storey_names(plan, tiles, groups)
    return DrawnPlan(
        tiles,
        [*groups, names.group],
        list(storey_text(inputs, result, plan, names.numbers)),
        TitleBlock(TITLE, plan.part),
    )
