"""What to order for the floors of a house: quantities with rule, source and waste, and the plan of coils.

Quantities come from the drawn geometry where there is one: boards and film are laid over the outlines, fixings are put
along the drawn pipe, screed leaves out the pipe in it. Without it they follow from areas and lengths by the rules of
the trade, which the lines name.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from . import coil_plan
from .cautions import order_cautions
from .checking import check
from .coil_plan import CircuitToCut, CoilPlanInputs, CoilPlanResult
from .errors import FaultList
from .gathering import gathered
from .ordering.area_take_off import area_take_off
from .ordering.drawn_circuits import drawn_circuits
from .ordering.floor_items import floor_items
from .ordering.material_findings import material_findings
from .ordering.material_outcome import (
    AreaQuantities,
    BoardCount,
    CircuitQuantities,
    FilmSheet,
    MaterialQuantity,
    MaterialsResult,
)
from .ordering.material_records import (
    InsulationLayer,
    MaterialArea,
    MaterialBuildUp,
    MaterialCircuit,
    MaterialJoint,
    MaterialManifold,
    MaterialsInputs,
)
from .ordering.material_workings import material_workings
from .ordering.measured_areas import MeasuredArea, measured_areas
from .ordering.order_lines import check_ordering, check_prices, order_lines
from .ordering.order_options import (
    BoardSize,
    FilmRoll,
    ManifoldParts,
    MaterialOverride,
    Ordering,
    Price,
    PriceList,
    ScreedSupply,
)
from .ordering.pipe_items import circuit_quantities, pipe_items
from .ordering.price_findings import price_findings
from .pipe import check_pipe
from .results import Working
from .water.relations import check_fluid

__all__ = [
    "MOST_BOARDS",
    "AreaQuantities",
    "BoardCount",
    "BoardSize",
    "CircuitQuantities",
    "FilmRoll",
    "FilmSheet",
    "InsulationLayer",
    "ManifoldParts",
    "MaterialArea",
    "MaterialBuildUp",
    "MaterialCircuit",
    "MaterialJoint",
    "MaterialManifold",
    "MaterialOverride",
    "MaterialQuantity",
    "MaterialsInputs",
    "MaterialsResult",
    "Ordering",
    "Price",
    "PriceList",
    "ScreedSupply",
    "calculate",
    "order",
    "workings",
]


MOST_BOARDS = 100_000


def calculate(inputs: MaterialsInputs) -> MaterialsResult:
    """The order; see the records for units.

    Raises ``InputError`` for ids that are not unique or name nothing, outlines and pieces that are none, both or
    neither of area and outline, of line and length of a joint, film no wider than its lap, and overrides of items that
    this order does not have.
    """
    check(inputs)
    return order(inputs)


def order(inputs: MaterialsInputs) -> MaterialsResult:
    """``calculate`` for inputs whose numbers were checked already."""
    faults = FaultList()
    _check_relations(inputs, faults)
    drawn = drawn_circuits(inputs.circuits, faults)
    areas = measured_areas(inputs, drawn, faults)
    _check_boards(inputs, areas, faults)
    faults.raise_if_any()
    take_offs = tuple(area_take_off(area, inputs.ordering, inputs.pipe) for area in areas)
    coils = _coil_plan(inputs)
    circuits = circuit_quantities(inputs, drawn, coils)
    fixings = sum(circuit.fixings_on_straights + circuit.fixings_at_bends for circuit in circuits)
    content = math.fsum(circuit.water_content for circuit in circuits)
    volume = content if inputs.system_volume is None else inputs.system_volume
    items = (
        *pipe_items(inputs, fixings, coils.bought_length, volume),
        *floor_items(inputs, areas, take_offs, drawn),
    )
    ordering = inputs.ordering
    check_ordering(items, ordering.overrides, faults)
    faults.raise_if_any()
    lines = order_lines(items, ordering.overrides, ordering.price_list)
    quantities = tuple(take_off.quantities for take_off in take_offs)
    floor = math.fsum(area.floor_area for area in quantities)
    mass = math.fsum(area.total_screed_mass for area in quantities)
    priced = [line.cost for line in lines if line.cost is not None and line.status == "needed"]
    prices = ordering.price_list
    findings = (
        *coils.findings,
        *material_findings(inputs, lines, quantities),
        *price_findings(prices, {item.item for item in items}, lines),
    )
    return MaterialsResult(
        quantities=lines,
        circuits=circuits,
        areas=quantities,
        coil_plan=replace(coils, findings=(), cautions=()),
        floor_area=floor,
        pipe_length=math.fsum(circuit.length for circuit in circuits),
        screed_volume=math.fsum(area.screed_volume for area in quantities),
        total_screed_mass=mass,
        system_volume=volume,
        currency=None if prices is None else prices.currency,
        total_cost=None if prices is None else math.fsum(priced),
        without_price=() if prices is None else tuple(line.item for line in lines if line.unit_price is None),
        findings=gathered(findings, inputs),
        cautions=order_cautions(mass / floor, glycol=inputs.fluid.kind != "water"),
    )


def _coil_plan(inputs: MaterialsInputs) -> CoilPlanResult:
    ordering = inputs.ordering
    return coil_plan.planned(
        CoilPlanInputs(
            circuits=tuple(CircuitToCut(circuit.id, circuit.length) for circuit in inputs.circuits),
            coil_lengths=ordering.coil_lengths,
            stock=ordering.stock,
            cutting_allowance=ordering.cutting_allowance,
        )
    )


def _check_relations(inputs: MaterialsInputs, faults: FaultList) -> None:
    check_pipe(inputs.pipe, "/pipe", faults)
    check_fluid(inputs.fluid, faults)
    check_prices(inputs.ordering.price_list, faults)
    for pointer, ids in (
        ("/circuits", [circuit.id for circuit in inputs.circuits]),
        ("/areas", [area.id for area in inputs.areas]),
        ("/build_ups", [build_up.id for build_up in inputs.build_ups]),
        ("/manifolds", [manifold.id for manifold in inputs.manifolds]),
    ):
        for number, name in enumerate(ids):
            faults.require(
                ids.index(name) == number,
                f"{pointer}/{number}/id",
                "not_unique",
                "another item has the same id",
            )
    _check_names(inputs, faults)
    for number, joint in enumerate(inputs.joints):
        faults.require(
            (joint.line is None) != (joint.length is None),
            f"/joints/{number}/{'line' if joint.line is None else 'length'}",
            "one_of",
            "give either line or length, exactly one of the two",
        )
    film = inputs.ordering.film
    if film is not None:
        faults.require(
            film.width > 2.0 * film.lap and film.length > 2.0 * film.lap,
            "/ordering/film/lap",
            "too_large",
            "must be less than half of the film's width and length",
            min(film.width, film.length) / 2.0,
        )


def _check_boards(inputs: MaterialsInputs, areas: Sequence[MeasuredArea], faults: FaultList) -> None:
    """Boards are laid one by one, so that their number bounds the work."""
    sizes = [
        (area.floor_area, layer.board or inputs.ordering.board)
        for area in areas
        if area.outline is not None
        for layer in area.build_up.layers
    ]
    boards = math.fsum(floor / (size.length * size.width) for floor, size in sizes)
    faults.require(
        boards <= MOST_BOARDS,
        "/areas",
        "too_many_boards",
        f"take {boards:.0f} boards of insulation, at most {MOST_BOARDS} in one request; ask for fewer areas at once",
        MOST_BOARDS,
    )


def _check_names(inputs: MaterialsInputs, faults: FaultList) -> None:
    """Circuits name areas and manifolds that are there."""
    areas = {area.id for area in inputs.areas}
    manifolds = {manifold.id for manifold in inputs.manifolds}
    for number, circuit in enumerate(inputs.circuits):
        faults.require(
            circuit.area_id is None or circuit.area_id in areas,
            f"/circuits/{number}/area_id",
            "unknown_area",
            "names no area of this request",
        )
        faults.require(
            not manifolds or circuit.manifold in manifolds,
            f"/circuits/{number}/manifold",
            "unknown_manifold",
            "names no manifold of this request",
        )


def workings(inputs: MaterialsInputs, result: MaterialsResult) -> tuple[Working, ...]:
    """From lengths and areas to each line of the order."""
    return material_workings(inputs, result)
