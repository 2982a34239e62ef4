"""What is said about a list of materials."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..results import Finding
from .material_outcome import AreaQuantities, MaterialQuantity
from .material_records import MaterialsInputs

__all__ = ["material_findings"]


def material_findings(
    inputs: MaterialsInputs, lines: Sequence[MaterialQuantity], areas: Sequence[AreaQuantities]
) -> Iterator[Finding]:
    """Joints that are due, then areas without outline."""
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
