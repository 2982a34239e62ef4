"""The chain of values behind an insulation check, to be redone by hand."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Working
from .check_records import InsulationCheckInputs
from .required_resistance import FloorBelow, RuleRequirement, plain_layer
from .u_values import layer_resistance

__all__ = ["check_workings"]

_LAYERS = "ISO 6946:2017"
_FORMULAS = {
    "en_1264_4": "table, by what lies below",
    "local_resistance": "as stated, less R_str when the whole floor is meant",
    "local_u_value": "1/U - R_s - R_str; with the soil the R_ins at which U_floor is the limit",
}


def check_workings(
    inputs: InsulationCheckInputs, floor: FloorBelow, rules: tuple[RuleRequirement, ...]
) -> Iterator[Working]:
    """Layers, sums, U-value, then what each rule asks for."""
    for index, layer in enumerate(inputs.layers):
        name = f"{layer.name or f'layer {index + 1}'} ({layer.part})"
        resistance = layer_resistance(plain_layer(layer))
        yield Working("R_k", name, resistance, "m2.K/W", "given, or thickness / conductivity", _LAYERS)
    sums = (
        ("R_ins", "insulation", floor.insulation, "sum of the insulation's R_k", _LAYERS),
        ("R_str", "structure", floor.structure, "sum of the structure's R_k", _LAYERS),
        (
            "R_s",
            "both surfaces",
            floor.surfaces,
            "0.17 + 0.17 to a room, 0.04 to outside or counted soil, 0 to other soil",
            f"{_LAYERS}, conventional surface resistances",
        ),
    )
    for symbol, name, value, formula, source in sums:
        yield Working(symbol, name, value, "m2.K/W", formula, source)
    if floor.dimension is not None:
        yield Working("B'", "characteristic dimension", floor.dimension, "m", "A / (0.5 P)", "ISO 13370:2017")
    yield Working(
        "U_floor",
        "U-value of the layers given",
        floor.u_value(floor.insulation),
        "W/(m2.K)",
        "1 / (R_s + R_ins + R_str), or with the soil after ISO 13370",
        _LAYERS if floor.dimension is None else "ISO 13370:2017, slab-on-ground floors",
    )
    for rule in rules:
        yield Working(
            "R_rule", rule.rule, rule.required_resistance, "m2.K/W", _FORMULAS[rule.rule], rule.source
        )
