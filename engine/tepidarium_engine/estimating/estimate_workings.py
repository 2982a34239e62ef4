"""The chain from floor area to likely values."""

from __future__ import annotations

from collections.abc import Iterator

from ..errors import FaultList
from ..plan.lengths.lengths import circuit_length_rule
from ..results import Working
from .assumptions import known_house
from .estimate_records import EstimatesInputs, EstimatesResult
from .rough_design import rough_designs
from .spread import FACTORS, SUPPLY_FROM

__all__ = ["estimate_workings"]

_PRACTICE = "Common practice, no source"
_MEASURED = "Measured on drawn designs"
_STANDARD = "EN 1264-2, EN 1264-3"
_GOVERNING = "that of the room that needs most"
_CIRCUITS = "A_room m / (L_max - 2 l_t) + 0.5 of each room, at least 1"
_SYMBOLS = {"pipe_length": "L", "circuit_count": "n", "heat_output": "Q", "supply_temperature": "t_V"}


def estimate_workings(inputs: EstimatesInputs, result: EstimatesResult) -> tuple[Working, ...]:
    """At the likely demand; the factors are those of the house's class."""
    house = known_house(inputs, FaultList())
    demand = result.specific_heat_demand
    (rough,) = rough_designs(inputs, house, (demand.likely,))
    rule = circuit_length_rule(inputs.pipe)
    formulas = (
        ("A", "heated floor area", house.floor_area, "m2", "given or from the outline", "Input"),
        ("q", "specific heat demand", demand.likely, "W/m2", demand.basis, _PRACTICE),
        ("t_V", "rough supply temperature", rough.supply_temperature, "degC", _GOVERNING, _STANDARD),
        (
            "m",
            "pipe in the floor",
            rough.pipe_per_area,
            "m/m2",
            "1 / spacing, each part of the floor at its own",
            _STANDARD,
        ),
        ("l_t", "one way to a room", rough.tail_length, "m", "0.5 + 0.5 root of a storey's floor", _PRACTICE),
        ("L_max", "usual circuit length", rule.usual, "m", "by diameter", rule.source),
        ("n", "rough number of circuits", rough.circuit_count, "1", _CIRCUITS, "Arithmetic"),
        ("L", "rough pipe length", rough.pipe_length, "m", "A m + 2 n l_t", "Arithmetic"),
    )
    return tuple(Working(*row) for row in (*formulas, *_factor_rows(result.house_class)))


def _factor_rows(kind: str) -> Iterator[tuple[str, str, float, str, str, str]]:
    for name, symbol in _SYMBOLS.items():
        of = f", of what is over {SUPPLY_FROM:g} degC" if name == "supply_temperature" else ""
        for level, factor in zip(("low", "likely", "high"), FACTORS[kind][name], strict=True):
            yield f"f_{symbol},{level}", f"drawn over rough{of}", factor, "1", f"class: {kind}", _MEASURED
