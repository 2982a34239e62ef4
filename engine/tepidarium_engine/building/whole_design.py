"""A house that was solved, with all that follows from it: schedules, drawings, dates, findings."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from ..results import Finding
from .assembly import circuit_designs, manifold_designs
from .build_up_checks import BuildUpCheck, build_up_checks, check_findings
from .dates import build_up_plans
from .design_findings import design_findings, water_side_findings
from .drawing_record import design_layout
from .drawn_house import DrawnHouse
from .house_joints import HouseJoint, house_joints
from .joints_told import joints_told
from .layout_findings import layout_findings
from .layout_outcome import DesignLayout, StoreySiting
from .outcome import BuildUpPlan, CircuitDesign, ManifoldDesign
from .records import DesignsInputs
from .siting import SitedHouse
from .siting_told import siting_findings, storey_sitings
from .sleeves import Crossing, crossings
from .solving import SolvedHouse, solve_house

__all__ = ["WholeDesign", "whole_design"]


@dataclass(frozen=True)
class WholeDesign:
    """The house with its places, and its solution; ``due`` are joints that it needs beside those of its rooms."""

    sited: SitedHouse
    solved: SolvedHouse
    due: tuple[HouseJoint, ...] = ()

    @property
    def inputs(self) -> DesignsInputs:
        return self.sited.house.inputs

    @cached_property
    def plans(self) -> tuple[BuildUpPlan, ...]:
        return build_up_plans(self.inputs, self.sited.house.rooms, self.solved.supply.temperature)

    @cached_property
    def checks(self) -> tuple[BuildUpCheck, ...]:
        return build_up_checks(self.inputs, self.solved.divided, self.solved.supply.temperature)

    @cached_property
    def sitings(self) -> tuple[StoreySiting, ...]:
        return () if self.solved.drawn is None else storey_sitings(self.sited, self.solved.drawn)

    @cached_property
    def layout(self) -> DesignLayout | None:
        drawn = self.solved.drawn
        return None if drawn is None else design_layout(self.sited, drawn, self.sitings, self.crossings)

    @cached_property
    def joints(self) -> tuple[HouseJoint, ...]:
        """All movement joints, those that are due last."""
        return house_joints(self.sited.house, self.due)

    @cached_property
    def crossings(self) -> tuple[Crossing, ...]:
        """Pipes on joints, as drawn."""
        drawn = self.solved.drawn
        storeys = () if drawn is None else drawn.storeys
        return tuple(crossing for storey in storeys for crossing in crossings(storey, self.joints))

    @cached_property
    def circuits(self) -> tuple[CircuitDesign, ...]:
        solved = self.solved
        ports = {} if solved.drawn is None else solved.drawn.ports
        return circuit_designs(self.inputs, solved.divided, solved.water, solved.state.tails, ports)

    @cached_property
    def manifolds(self) -> tuple[ManifoldDesign, ...]:
        return manifold_designs(self.inputs, self.solved.divided, self.solved.water)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        sited, solved, inputs = self.sited, self.solved, self.inputs
        drawn = solved.drawn
        return (
            *design_findings(inputs, solved.divided, solved.supply, self.plans),
            *water_side_findings(inputs, solved.divided, solved.water, self.circuits, self.manifolds),
            *check_findings(inputs, self.checks),
            *joints_told(self.joints, self.crossings),
            *(() if drawn is None else siting_findings(sited, self.sitings)),
            *(() if drawn is None else layout_findings(solved, drawn)),
        )


def whole_design(
    sited: SitedHouse, due: tuple[HouseJoint, ...] = (), before: DrawnHouse | None = None
) -> WholeDesign:
    """``before``: the same rooms as they were drawn with another request. Raises ``InputError`` as ``solve_house``."""
    return WholeDesign(sited, solve_house(sited.house, sited.draughtsman, before), due)
