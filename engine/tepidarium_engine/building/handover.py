"""What is made of a design for the site: order, commissioning, laying sheets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..commissioning import CommissioningResult
from ..laying_sheets import LayingSheet
from ..materials import MaterialsResult
from ..results import Caution, Finding
from .house_commissioning import house_commissioning
from .house_order import house_order
from .house_sheets import house_sheets
from .layout_outcome import DesignJoint
from .whole_design import WholeDesign

__all__ = ["Handover", "handover"]


@dataclass(frozen=True)
class Handover:
    """None for what was not asked for. What is said about the parts stands in ``findings`` and ``cautions``, no longer
    in them."""

    materials: MaterialsResult | None
    commissioning: CommissioningResult | None
    laying_sheets: tuple[LayingSheet, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]


def handover(design: WholeDesign, joints: Sequence[DesignJoint]) -> Handover:
    """``joints`` are those of the answer; the design says itself which of them are due."""
    inputs = design.inputs
    materials = None if inputs.ordering is None else house_order(design, joints, inputs.ordering)
    options = inputs.commissioning
    commissioning = None if options is None else house_commissioning(design, options)
    parts = [part for part in (materials, commissioning) if part is not None]
    return Handover(
        materials=None if materials is None else replace(materials, findings=(), cautions=()),
        commissioning=None if commissioning is None else replace(commissioning, findings=(), cautions=()),
        laying_sheets=house_sheets(design, materials) if inputs.laying_sheets else (),
        findings=tuple(
            finding for part in parts for finding in part.findings if finding.code != "joints_due_not_given"
        ),
        cautions=tuple(caution for part in parts for caution in part.cautions),
    )
