"""What is said about an estimate."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..ordering.order_lines import CountedItem
from ..ordering.price_findings import price_findings
from ..results import Finding
from .assumptions import KnownHouse
from .estimate_records import EstimatedMaterial, EstimatesInputs
from .rough_design import RoughDesign
from .spread import FLOOR_AREAS

__all__ = ["estimate_findings"]

ENOUGH = 0.9
"""Share of the heat demand: bathrooms mostly get some heat from another emitter (common practice, no source)."""
JOINTS_FROM = 40.0
"""Field of screed that is poured without movement joint at most [m2] (EN 1264-4, value from memory)."""


def estimate_findings(
    inputs: EstimatesInputs,
    house: KnownHouse,
    roughs: Sequence[RoughDesign],
    materials: Sequence[EstimatedMaterial],
    items: Sequence[CountedItem],
) -> Iterator[Finding]:
    """Heat that the floor cannot give, houses unlike those drawn, what is not counted, prices; ``items`` are all of the
    order."""
    yield from _heat(inputs, roughs)
    yield from _beyond(inputs, house)
    if house.largest > JOINTS_FROM:
        yield Finding.at(
            "joints_not_estimated",
            _floor(inputs),
            value=house.largest,
            limit=JOINTS_FROM,
            quantity="area",
            source="EN 1264-4, movement joints",
        )
    if inputs.ordering.price_list is not None:
        yield from price_findings(inputs.ordering.price_list, {item.item for item in items}, materials)


def _heat(inputs: EstimatesInputs, roughs: Sequence[RoughDesign]) -> Iterator[Finding]:
    likely, high = roughs[1].heat_share, roughs[2].heat_share
    if high >= ENOUGH:
        return
    yield Finding.at(
        "estimated_heat_short",
        _demand(inputs),
        severity="warning" if likely < ENOUGH else "note",
    )


def _beyond(inputs: EstimatesInputs, house: KnownHouse) -> Iterator[Finding]:
    area = house.floor_area / inputs.storey_count
    low, high = FLOOR_AREAS
    if not low <= area <= high:
        yield Finding.at(
            "estimate_beyond_drawn",
            _floor(inputs),
            value=area,
            limit=low if area < low else high,
            quantity="area",
        )


def _floor(inputs: EstimatesInputs) -> str:
    return "/rooms" if inputs.rooms else "/outline" if inputs.outline is not None else "/floor_area"


def _demand(inputs: EstimatesInputs) -> str:
    given = [name for name in ("heat_demand", "specific_heat_demand") if getattr(inputs, name) is not None]
    return f"/{(*given, 'building_standard')[0]}"
