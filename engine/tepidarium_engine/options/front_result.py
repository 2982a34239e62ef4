"""The options of a house as they are answered."""

from __future__ import annotations

from ..building.option_records import DesignOption, DesignOptionsResult
from ..results import Caution, Finding
from .front import FrontSearch
from .house_options import Front, best_in

__all__ = ["front_result"]


def front_result(
    search: FrontSearch,
    front: Front,
    by_rule: DesignOption,
    findings: tuple[Finding, ...] = (),
    cautions: tuple[Caution, ...] = (),
) -> DesignOptionsResult:
    """What was found, with how it was searched for."""
    material, supply, power, use = best_in(front.options)
    return DesignOptionsResult(
        options=front.options,
        by_rule=by_rule,
        least_material=material,
        least_supply=supply,
        least_pump_power=power,
        least_cost_of_use=use,
        supplies_considered=search.supplies,
        searches=search.searches,
        solver=search.solver,
        findings=findings,
        cautions=cautions,
    )
