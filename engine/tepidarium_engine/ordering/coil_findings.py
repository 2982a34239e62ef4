"""What is said about a coil plan."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Finding
from .coil_cutting import CutCircuits
from .coil_records import CoilPlanInputs

__all__ = ["coil_findings"]

_SOURCE = "EN 1264-4, couplings in the floor; one piece of pipe for each circuit is common practice"
_BOUND = "Lower bound of the linear programme over cutting patterns (Gilmore and Gomory 1961)"


def coil_findings(inputs: CoilPlanInputs, cut: CutCircuits) -> Iterator[Finding]:
    """Circuits that no coil holds, then whether the plan is proven."""
    places = {circuit.id: number for number, circuit in enumerate(inputs.circuits)}
    longest = max((*inputs.coil_lengths, *(coil.length for coil in inputs.stock)))
    for circuit in cut.not_planned:
        yield Finding.at(
            "circuit_longer_than_coils",
            f"/circuits/{places[circuit.id]}",
            value=circuit.length + 2.0 * inputs.cutting_allowance,
            limit=longest,
            quantity="cut_length",
            source=_SOURCE,
        )
    plan = cut.plan
    if plan.bought > plan.least_bought:
        yield Finding.at(
            "coil_plan_not_proven",
            "/circuits",
            value=plan.bought / 1000.0,
            limit=plan.least_bought / 1000.0,
            quantity="bought_length",
            source=_BOUND,
        )
    elif len(plan.coils) > plan.least_coils:
        yield Finding.at(
            "coil_plan_not_proven",
            "/circuits",
            value=float(len(plan.coils)),
            limit=float(plan.least_coils),
            quantity="opened_coils",
            source=_BOUND,
        )
