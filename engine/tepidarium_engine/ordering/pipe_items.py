"""Items of the order that follow from the circuits: pipe, fixings, manifolds and what belongs to the water."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from ..fitting.fixings import fixing_marks
from ..pipe import Pipe
from ..plan.lengths.lengths import fixing_count
from ..water.fluid import fluid_model
from .coil_records import CoilPlanResult
from .drawn_circuits import DrawnPipe
from .material_outcome import CircuitQuantities
from .material_records import MaterialCircuit, MaterialManifold, MaterialsInputs
from .order_lines import CountedItem

__all__ = ["circuit_quantities", "pipe_items", "pipe_words"]

_GLYCOL_DENSITY = {"propylene_glycol": 1036.0, "ethylene_glycol": 1113.0}
"""Of the pure glycols at 20 degC [kg/m3] (CRC Handbook of Chemistry and Physics)."""
_MIXED_AT = 20.0


def pipe_words(pipe: Pipe) -> str:
    return f"{pipe.outside_diameter * 1000:g} x {pipe.wall_thickness * 1000:g} mm"


def circuit_quantities(
    inputs: MaterialsInputs, drawn: Mapping[str, DrawnPipe], coil_plan: CoilPlanResult | None
) -> tuple[CircuitQuantities, ...]:
    """What each circuit takes, in the order of the request; without coil and marks where no coils are planned."""
    coils = () if coil_plan is None else coil_plan.coils
    cuts = {cut.circuit: (coil.coil, cut) for coil in coils for cut in coil.cuts}
    found = []
    for circuit in inputs.circuits:
        coil, cut = cuts.get(circuit.id, (None, None))
        straight, bends = _fixings(circuit, drawn.get(circuit.id), inputs.ordering.fixing_distance)
        found.append(
            CircuitQuantities(
                circuit=circuit.id,
                length=circuit.length,
                coil=coil,
                start_mark=None if cut is None else cut.start_mark,
                end_mark=None if cut is None else cut.end_mark,
                fixings_on_straights=straight,
                fixings_at_bends=bends,
                water_content=circuit.length * inputs.pipe.water_content,
            )
        )
    return tuple(found)


def _fixings(circuit: MaterialCircuit, drawn: DrawnPipe | None, distance: float) -> tuple[int, int]:
    """On straights and at bends; of pipe that is not drawn a lump for the bends."""
    if drawn is not None:
        marks = fixing_marks(drawn.path, distance)
        at_bends = sum(mark.at_bend for mark in marks)
        return len(marks) - at_bends, at_bends
    straight = fixing_count(circuit.length, distance, 0)
    return straight, fixing_count(circuit.length, distance, circuit.right_angle_bends) - straight


def pipe_items(
    inputs: MaterialsInputs,
    fixings: int,
    bought_length: float,
    system_volume: float,
) -> Iterator[CountedItem]:
    pipe, size = inputs.pipe, pipe_words(inputs.pipe)
    yield CountedItem(
        "pipe",
        f"Pipe {size}",
        math.fsum(circuit.length for circuit in inputs.circuits),
        size=f"{pipe.outside_diameter * 1000:g}x{pipe.wall_thickness * 1000:g}",
        order_quantity=bought_length,
    )
    yield CountedItem(
        "fixings", "Fixings (staples)", float(fixings), pack_size=float(inputs.ordering.fixings_per_box)
    )
    yield CountedItem("tail_insulation", "Insulation round tails", inputs.tail_insulation)
    yield from _manifolds(inputs)
    yield from _water(inputs, system_volume)


def _manifolds(inputs: MaterialsInputs) -> Iterator[CountedItem]:
    parts = inputs.ordering.manifold_parts
    ports = Counter(circuit.manifold for circuit in inputs.circuits)
    named = inputs.manifolds or tuple(MaterialManifold(id) for id in ports)
    used = [manifold for manifold in named if ports[manifold.id]]
    for count, manifolds in sorted(Counter(ports[manifold.id] for manifold in used).items()):
        yield CountedItem("manifold", f"Manifold with {count} ports", float(manifolds), size=f"{count}_ports")
    widths = Counter(
        cabinet_width(ports[manifold.id], parts.port_pitch, parts.end_length, parts.cabinet_widths)
        for manifold in used
    )
    for width, count in sorted(widths.items()):
        millimetres = f"{width * 1000:.0f}mm"
        yield CountedItem(
            "manifold_cabinet",
            f"Manifold cabinet, {width * 1000:.0f} mm wide",
            float(count),
            size=millimetres,
        )
    circuits = float(len(inputs.circuits))
    controls = len(inputs.areas) if inputs.room_controls is None else inputs.room_controls
    balancing = sum(manifold.balancing_valve for manifold in used)
    yield CountedItem("valve_kit", "Pair of shut-off valves", float(len(used)))
    yield CountedItem("balancing_valve", "Balancing valve before the manifold", float(balancing))
    yield CountedItem("pipe_connection", f"Compression fitting {pipe_words(inputs.pipe)}", 2.0 * circuits)
    yield CountedItem("bend_support", "Bend support at the manifold", 2.0 * circuits)
    yield CountedItem("actuator", "Actuator", circuits if parts.actuators else 0.0)
    yield CountedItem("room_control", "Room control", float(controls))
    yield CountedItem("mixing_set", "Mixing set with pump and limiter", float(inputs.mixing_set))


def cabinet_width(ports: int, pitch: float, ends: float, widths: Sequence[float]) -> float:
    """The next width [m]; what is needed where no cabinet is so wide."""
    needed = ports * pitch + ends
    return next((width for width in sorted(widths) if width >= needed - 1e-9), needed)


def _water(inputs: MaterialsInputs, system_volume: float) -> Iterator[CountedItem]:
    fluid = inputs.fluid
    if fluid.kind == "water":
        yield CountedItem(
            "inhibitor",
            "Inhibitor",
            inputs.ordering.inhibitor_share * system_volume,
            status="if_wanted",
        )
    else:
        by_volume = fluid.concentration
        if fluid.basis == "mass":
            density = float(fluid_model(fluid).density(_MIXED_AT))
            by_volume = fluid.concentration * density / _GLYCOL_DENSITY[fluid.kind]
        words = fluid.kind.replace("_", " ")
        yield CountedItem(
            "antifreeze", words[0].upper() + words[1:], by_volume * system_volume, size=fluid.kind
        )
    vessel = inputs.expansion_vessel
    if vessel is not None:
        litres = f"{vessel * 1000:g}l"
        yield CountedItem("expansion_vessel", f"Expansion vessel {vessel * 1000:g} l", 1.0, size=litres)
