"""What is said about a list of materials."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..results import Finding
from .material_outcome import AreaQuantities, MaterialQuantity
from .material_records import MaterialsInputs

__all__ = ["material_findings"]

_MOST_NAMED = 6
"""Items that are named where prices are missing; all stand in the answer."""


def material_findings(
    inputs: MaterialsInputs, lines: Sequence[MaterialQuantity], areas: Sequence[AreaQuantities]
) -> Iterator[Finding]:
    """Joints that are due, areas without outline, then prices."""
    for line in lines:
        if line.status == "due" and line.unit == "m":
            yield Finding.at(
                "joints_due_not_given",
                "/joints",
                value=line.net_quantity,
                quantity="joint_length",
                source="EN 1264-4, movement joints",
            )
    for number, area in enumerate(areas):
        if not area.measured:
            yield Finding.at(
                "estimated_by_area",
                f"/areas/{number}",
                value=area.floor_area,
                quantity="floor_area",
            )
    missing = [line for line in lines if line.unit_price is None]
    if inputs.ordering.price_list is not None and missing:
        yield Finding.at(
            "price_missing",
            "/ordering/price_list/prices",
            detail=", ".join(line.name for line in missing[:_MOST_NAMED])
            + ("" if len(missing) <= _MOST_NAMED else f" and {len(missing) - _MOST_NAMED} more"),
        )
