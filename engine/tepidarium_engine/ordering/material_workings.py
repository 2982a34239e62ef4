"""The chain from lengths and areas to the lines of an order."""

from __future__ import annotations

import math

from ..results import Working
from .material_outcome import MaterialsResult
from .material_records import MaterialsInputs

__all__ = ["material_workings"]

_ARITHMETIC = "Arithmetic"


def material_workings(inputs: MaterialsInputs, result: MaterialsResult) -> tuple[Working, ...]:
    """Floors one by one, then the lines."""
    rows: list[tuple[str, str, float, str, str, str]] = [
        ("L", "pipe of all circuits", result.pipe_length, "m", "sum of the circuits", "Input"),
        ("A", "all floors", result.floor_area, "m2", "sum of the areas", "Input or geometry"),
        ("d", "outside diameter of the pipe", inputs.pipe.outside_diameter, "m", "given", "Input"),
    ]
    thickness = {build_up.id: build_up.screed_thickness for build_up in inputs.build_ups}
    for number, (area, own) in enumerate(zip(inputs.areas, result.areas, strict=True), start=1):
        t = thickness[area.build_up]
        pipe = math.pi / 4.0 * inputs.pipe.outside_diameter**2 * own.pipe_length
        rows += [
            (
                f"A_{number}",
                f"floor of {area.id}",
                own.floor_area,
                "m2",
                "given or from the outline",
                _ARITHMETIC,
            ),
            (
                f"L_{number}",
                f"pipe in {area.id}",
                own.pipe_length,
                "m",
                "drawn in it, or of its circuits",
                "Geometry",
            ),
            (f"V_p{number}", "volume of that pipe", pipe, "m3", f"pi/4 d^2 L_{number}", _ARITHMETIC),
            (f"t_{number}", "thickness of its screed", t, "m", "given", "Input"),
            (
                f"V_{number}",
                f"screed of {area.id}",
                own.screed_volume,
                "m3",
                f"A_{number} t_{number} - V_p{number}",
                _ARITHMETIC,
            ),
        ]
    for line in result.quantities:
        rows.append((f"q_{line.item}", line.name, line.net_quantity, line.unit, line.rule, line.source))
        rows.append(
            (
                f"o_{line.item}",
                f"{line.name}, to order",
                line.order_quantity,
                line.unit,
                f"q_{line.item} x (1 + {line.waste_share:.3f}), rounded up to whole packs",
                line.source,
            )
        )
    return tuple(Working(*row) for row in rows)
