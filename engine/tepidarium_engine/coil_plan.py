"""Which circuits are cut from which coils, so that no circuit has a joint in the screed.

What is at hand is used first. Then the least length is bought, and for it the fewest coils are opened. The
cutting-stock problem is solved with HiGHS over patterns of cuts (Gilmore and Gomory 1961, column generation), with a
proven bound.
"""

from __future__ import annotations

import math
from collections import Counter

from .cautions import COILS
from .checking import check
from .errors import FaultList
from .gathering import gathered
from .ordering.coil_cutting import CutCircuits, cut_circuits
from .ordering.coil_findings import coil_findings
from .ordering.coil_records import (
    CircuitToCut,
    CoilCut,
    CoilInStock,
    CoilOrder,
    CoilPlanInputs,
    CoilPlanResult,
    PlannedCoil,
)
from .results import Working

__all__ = [
    "CircuitToCut",
    "CoilCut",
    "CoilInStock",
    "CoilOrder",
    "CoilPlanInputs",
    "CoilPlanResult",
    "PlannedCoil",
    "calculate",
    "planned",
    "workings",
]

_USABLE_OFFCUT = 10.0
"""Rests of at least this length are kept [m] (common practice, no source)."""
_PRACTICE = "Common practice, no source"
_ARITHMETIC = "Arithmetic"


def calculate(inputs: CoilPlanInputs) -> CoilPlanResult:
    """The cutting plan; lengths in metres.

    A circuit longer than every coil is a finding, not an error. Raises ``InputError`` for a circuit named twice.
    """
    check(inputs)
    return planned(inputs)


def planned(inputs: CoilPlanInputs) -> CoilPlanResult:
    """``calculate`` for inputs whose numbers were checked already."""
    _check_relations(inputs)
    cut = cut_circuits(inputs)
    refused = {circuit.id for circuit in cut.not_planned}
    bought = [coil.length for coil in cut.coils if not coil.in_stock]
    pipe = math.fsum(circuit.length for circuit in inputs.circuits if circuit.id not in refused)
    cuts = math.fsum(piece.length for coil in cut.coils for piece in coil.cuts)
    opened = math.fsum(coil.length for coil in cut.coils)
    return CoilPlanResult(
        coils=cut.coils,
        to_buy=tuple(
            CoilOrder(length, count) for length, count in sorted(Counter(bought).items(), reverse=True)
        ),
        pipe_length=pipe,
        cut_length=cuts,
        bought_length=math.fsum(bought),
        least_bought_length=cut.plan.least_bought / 1000.0,
        opened_coils=len(cut.coils),
        fewest_coils=cut.plan.least_coils + _opened_beforehand(cut),
        proven=cut.plan.proven and not cut.long,
        offcut_length=math.fsum(coil.offcut for coil in cut.coils),
        usable_offcut_length=math.fsum(coil.offcut for coil in cut.coils if coil.offcut >= _USABLE_OFFCUT),
        waste_share=(opened - pipe) / opened if opened else 0.0,
        not_planned=tuple(circuit.id for circuit in cut.not_planned),
        findings=gathered(coil_findings(inputs, cut), inputs),
        cautions=COILS,
    )


def _opened_beforehand(cut: CutCircuits) -> int:
    """Coils at hand that hold only circuits which no coil for sale holds: the plan does not count them."""
    return len(cut.coils) - len(cut.plan.coils)


def _check_relations(inputs: CoilPlanInputs) -> None:
    faults = FaultList()
    ids = [circuit.id for circuit in inputs.circuits]
    for place, name in enumerate(ids):
        faults.require(
            ids.index(name) == place,
            f"/circuits/{place}/id",
            "not_unique",
            f"is also the name of circuit {ids.index(name)}",
        )
    faults.raise_if_any()


def workings(inputs: CoilPlanInputs, result: CoilPlanResult) -> tuple[Working, ...]:
    """From the circuits to what is bought and what is left."""
    count = len(inputs.circuits) - len(result.not_planned)
    rows = (
        ("L", "pipe of the circuits", result.pipe_length, "m", "given", "Input"),
        ("a", "cutting allowance at each end", inputs.cutting_allowance, "m", "given", _PRACTICE),
        ("n", "circuits that are planned", float(count), "1", "no longer than the longest coil", _ARITHMETIC),
        (
            "C",
            "all cuts",
            result.cut_length,
            "m",
            "L + 2 n a, each cut rounded up to a millimetre",
            _ARITHMETIC,
        ),
        ("B", "bought", result.bought_length, "m", "least found", "HiGHS, patterns of cuts"),
        (
            "B_0",
            "no plan buys less",
            result.least_bought_length,
            "m",
            "bound of the linear programme, then the next sum of coil lengths",
            "Gilmore and Gomory 1961",
        ),
        (
            "K",
            "coils opened",
            float(result.opened_coils),
            "1",
            "fewest found for B",
            "HiGHS, patterns of cuts",
        ),
        ("K_0", "no plan that buys B opens fewer", float(result.fewest_coils), "1", "as B_0", "As B_0"),
        ("R", "rests", result.offcut_length, "m", "length of the coils opened - C", _ARITHMETIC),
        (
            "w",
            "waste",
            result.waste_share,
            "1",
            "(length of the coils opened - L) / that length",
            _ARITHMETIC,
        ),
    )
    return tuple(Working(*row) for row in rows)
