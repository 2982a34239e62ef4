"""What a design is asked beside itself: how it is ordered and commissioned."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..glossary import named
from ..site_work.commissioning_records import Flushing, LeakTest, PipeMaterial, WaterSide

__all__ = ["Commissioning"]


@dataclass(frozen=True, slots=True)
class Commissioning:
    """As in ``CommissioningInputs``. Where ``leak_test`` and ``water_side`` say nothing the design does: pressures of
    its expansion vessel, its heat flow as the output of the source. ``project`` is that of the drawing, too."""

    pipe_material: PipeMaterial = "PE-X"
    leak_test: LeakTest = LeakTest()
    flushing: Flushing = Flushing()
    water_side: WaterSide = WaterSide()
    pour_temperature: float = 15.0
    project: str = field(default="", metadata=named("project_name"))
