"""Insulation below a heated floor against EN 1264-4 and local rules, and the screed on it (DIN 18560-2)."""

from __future__ import annotations

from dataclasses import dataclass, field

from .cautions import INSULATION
from .checking import check
from .elementwise import ROUND_OFF
from .envelope.check_findings import check_findings
from .envelope.check_records import CheckLayer, InsulationCheckInputs, LocalLimit, ScreedSection
from .envelope.check_workings import check_workings
from .envelope.records import EdgeInsulation, Ground
from .envelope.required_resistance import (
    Rule,
    RuleRequirement,
    floor_below,
    plain_layer,
    requirements,
)
from .envelope.u_values import check_layer
from .errors import FaultList
from .gathering import gathered
from .glossary import named
from .practice.screed import (
    LOAD_COLUMNS,
    compressibility_limit,
    least_cover,
    load_column,
    nominal_thickness,
)
from .results import Caution, Finding, Working

__all__ = [
    "CheckLayer",
    "EdgeInsulation",
    "Ground",
    "InsulationCheckInputs",
    "InsulationCheckResult",
    "LocalLimit",
    "RuleRequirement",
    "ScreedResult",
    "ScreedSection",
    "calculate",
    "workings",
]


@dataclass(frozen=True, slots=True)
class ScreedResult:
    """The screed against its rules [m]: ``nominal_thickness`` by load, ``minimum_screed_cover`` by the rule that asks
    for most, ``minimum_thickness`` with the pipe. ``compressibility`` is that of all layers together."""

    nominal_thickness: float
    minimum_screed_cover: float
    minimum_thickness: float
    compressibility: float
    compressibility_limit: float
    adequate: bool = field(metadata=named("screed_adequate"))


@dataclass(frozen=True, slots=True)
class InsulationCheckResult:
    """Resistances [m2.K/W] are those of the insulation alone; every rule is turned into such a one.

    ``missing_thickness`` [m] is of the given board, null without one. ``floor_u_value`` [W/(m2.K)] is that of all
    layers given, which need not be the whole floor.
    """

    required_resistance: float
    actual_resistance: float
    adequate: bool
    governing_rule: Rule
    missing_resistance: float
    missing_thickness: float | None
    floor_u_value: float
    rules: tuple[RuleRequirement, ...]
    screed: ScreedResult | None = field(metadata=named("screed_result"))
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]


def calculate(inputs: InsulationCheckInputs) -> InsulationCheckResult:
    """Whether the insulation is enough, by which rule, and what is missing.

    Raises ``InputError`` for a layer without thickness or conductivity, outside air without its temperature, and a
    local limit that is neither a resistance nor a U-value.
    """
    check(inputs)
    _check_relations(inputs)
    floor = floor_below(inputs)
    rules = requirements(inputs, floor)
    governing = max(rules, key=lambda rule: rule.required_resistance)
    missing = max(0.0, governing.required_resistance - floor.insulation)
    adequate = missing <= ROUND_OFF
    board = inputs.board_conductivity
    screed = _screed(inputs)
    return InsulationCheckResult(
        required_resistance=governing.required_resistance,
        actual_resistance=floor.insulation,
        adequate=adequate,
        governing_rule=governing.rule,
        missing_resistance=0.0 if adequate else missing,
        missing_thickness=None if board is None else 0.0 if adequate else missing * board,
        floor_u_value=floor.u_value(floor.insulation),
        rules=rules,
        screed=screed,
        findings=gathered(
            check_findings(inputs, floor, governing, None if screed is None else screed.minimum_screed_cover),
            inputs,
        ),
        cautions=INSULATION,
    )


def _check_relations(inputs: InsulationCheckInputs) -> None:
    faults = FaultList()
    for index, layer in enumerate(inputs.layers):
        check_layer(plain_layer(layer), f"/layers/{index}", faults)
    faults.require(
        inputs.below != "outside" or inputs.temperature_below is not None,
        "/temperature_below",
        "missing",
        "give the design temperature of the outside air: the requirement depends on it",
    )
    faults.require(
        inputs.ground is None or inputs.below == "ground",
        "/ground",
        "contradiction",
        f"the floor does not lie on ground but on {inputs.below}",
    )
    limit = inputs.local_limit
    if limit is not None:
        given = (limit.resistance is not None) + (limit.u_value is not None)
        faults.require(
            given == 1, "/local_limit/resistance", "one_of", "give a resistance or a U-value, one of the two"
        )
    faults.raise_if_any()


def _screed(inputs: InsulationCheckInputs) -> ScreedResult | None:
    """Cover and firmness (DIN 18560-2); beyond the last load column as in it, with a finding."""
    screed = inputs.screed
    if screed is None:
        return None
    column = load_column(screed.imposed_load, screed.concentrated_load)
    within = len(LOAD_COLUMNS) - 1 if column is None else column
    compressibility = sum(layer.compressibility for layer in inputs.layers)
    nominal = nominal_thickness(screed.binder, screed.flexural_class, within, compressibility)
    least, limit = least_cover(screed.binder, screed.flexural_class, nominal), compressibility_limit(within)
    firm = compressibility <= limit + ROUND_OFF
    return ScreedResult(
        nominal_thickness=nominal,
        minimum_screed_cover=least,
        minimum_thickness=least + screed.pipe_outside_diameter,
        compressibility=compressibility,
        compressibility_limit=limit,
        adequate=column is not None and firm and screed.screed_cover >= least - ROUND_OFF,
    )


def workings(inputs: InsulationCheckInputs, result: InsulationCheckResult) -> tuple[Working, ...]:
    """From the layers to what is missing."""
    chain = check_workings(inputs, floor_below(inputs), result.rules)
    rows = (
        ("R_req", "required resistance", result.required_resistance, "m2.K/W", "largest of the rules"),
        ("R_miss", "missing resistance", result.missing_resistance, "m2.K/W", "max(0, R_req - R_ins)"),
        ("s_miss", "missing thickness of the board", result.missing_thickness, "m", "R_miss lambda_board"),
    )
    last = (
        Working(symbol, name, value, unit, formula, "Arithmetic")
        for symbol, name, value, unit, formula in rows
        if value is not None
    )
    return (*chain, *last, *_screed_workings(result))


def _screed_workings(result: InsulationCheckResult) -> tuple[Working, ...]:
    screed = result.screed
    if screed is None:
        return ()
    source = "DIN 18560-2, heated floating screeds"
    rows = (
        ("c", "compressibility", screed.compressibility, "sum of the layers"),
        (
            "h_N",
            "nominal thickness",
            screed.nominal_thickness,
            "table by class and load; 5 mm more if c > 5 mm",
        ),
        ("s_u,min", "least cover", screed.minimum_screed_cover, "max(h_N, rule of heated screeds, 0.030)"),
        ("h_min", "least whole thickness", screed.minimum_thickness, "s_u,min + d_pipe"),
    )
    return tuple(Working(symbol, name, value, "m", formula, source) for symbol, name, value, formula in rows)
