"""What is reported of a design that has least of something."""

from __future__ import annotations

from collections.abc import Iterator

from ..building.objective_records import DesignObjective, ObjectiveOutcome
from ..building.whole_design import WholeDesign
from ..results import Finding
from .option_findings import free_of_cost
from .room_choices import surface_range

__all__ = ["objective_findings", "uneven_floors"]


def uneven_floors(design: WholeDesign, objective: DesignObjective) -> int:
    """How many floors of a design are less even than asked for."""
    most = objective.maximum_surface_range
    return 0 if most is None else sum(surface_range(room) > most for room in design.solved.divided)


def _uneven_floors(objective: DesignObjective, design: WholeDesign) -> Iterator[Finding]:
    most = objective.maximum_surface_range
    for room in design.solved.divided:
        if most is not None and surface_range(room) > most:
            yield Finding.at(
                "floor_not_even",
                room.heated.pointer,
                value=surface_range(room),
                limit=most,
                source="EN 1264-2, basic characteristic curve",
                quantity="surface_range",
                subject=room.heated.label,
            )


def objective_findings(
    objective: DesignObjective, outcome: ObjectiveOutcome, design: WholeDesign
) -> Iterator[Finding]:
    prices = objective.prices
    if free_of_cost(prices, (*objective.coverings, *objective.patterns)):
        yield Finding.at("prices_are_zero", "/objective/prices")
    if objective.patterns and objective.maximum_surface_range is None:
        yield Finding.at("patterns_alike", "/objective/patterns")
    yield from _uneven_floors(objective, design)
    if objective.pump_stages and outcome.pump_stage is None:
        yield Finding.at("pump_stages_too_small", "/objective/pump_stages")
    if outcome.taken == "rule":
        yield Finding.at("objective_met_by_rule", "/objective/least")
    if not outcome.proven and outcome.gap:
        yield Finding.at(
            "option_not_proven" if prices is None or not prices.coils else "coils_not_proven",
            "/objective",
            value=outcome.gap,
            limit=0.0,
            quantity="objective_gap",
            limit_is="when proven",
            where_in="answer",
        )
