"""Items of the order that follow from the floors: insulation, film, tape, edge strip, joints and screed."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

import shapely
from shapely import LineString

from ..plan.outlines.overlays import intersection
from ..practice.screed import BINDER_NAMES, Binder
from .area_take_off import AreaTakeOff, LayerTakeOff
from .board_laying import boards_together
from .drawn_circuits import DrawnPipe
from .item_rules import ITEM_RULES
from .material_outcome import QuantityStatus
from .material_records import MaterialJoint, MaterialsInputs
from .measured_areas import MeasuredArea
from .order_lines import CountedItem
from .order_options import BoardSize, ScreedSupply

__all__ = ["floor_items"]

_FORMS = {"cement": "site_mixed", "calcium_sulphate": "bags", "calcium_sulphate_flowing": "ready_mixed"}
_STRIP_HEIGHTS = (0.08, 0.10, 0.12, 0.13, 0.15, 0.16, 0.18, 0.20, 0.25, 0.30)
"""Common heights of edge strip [m] (common practice, no source)."""


def floor_items(
    inputs: MaterialsInputs,
    areas: Sequence[MeasuredArea],
    take_offs: Sequence[AreaTakeOff],
    drawn: Mapping[str, DrawnPipe],
) -> Iterator[CountedItem]:
    """In the order in which they come to the site."""
    yield from _insulation([layer for take_off in take_offs for layer in take_off.layers])
    yield from _edge_strip(take_offs)
    yield from _film(inputs, take_offs)
    yield from _joints(inputs, drawn)
    yield from _screed(inputs.ordering.screed_supply, areas, take_offs)


def _insulation(layers: Sequence[LayerTakeOff]) -> Iterator[CountedItem]:
    """One item for each thickness, size and name; the last boards of several areas are cut from one where it is long
    enough; boards of areas without outline are reckoned with the rule's waste."""
    groups: dict[tuple[float | None, BoardSize, str], list[LayerTakeOff]] = {}
    for layer in layers:
        groups.setdefault((layer.layer.thickness, layer.size, layer.layer.name), []).append(layer)
    seen: Counter[str] = Counter()
    for (thickness, size, name), own in groups.items():
        board = size.length * size.width
        area = math.fsum(layer.area for layer in own)
        rough = math.fsum(layer.area for layer in own if layer.boards is None)
        laid = [layer for layer in own if layer.boards]
        count = sum(layer.boards or 0 for layer in laid)
        boards = boards_together(count, [layer.last for layer in laid], size.length)
        boards += math.ceil(rough * (1.0 + ITEM_RULES["insulation_by_area"].waste_share) / board - 1e-9)
        thick = "" if thickness is None else f"{thickness * 1000:g}mm_"
        words = "" if thickness is None else f" {thickness * 1000:g} mm"
        item = f"{thick}{size.length * 1000:g}x{size.width * 1000:g}"
        seen[item] += 1
        yield CountedItem(
            "insulation",
            f"{name or 'Insulation'}{words}, {size.length * 1000:g} x {size.width * 1000:g} mm",
            area,
            size=item if seen[item] == 1 else f"{item}_{seen[item]}",
            waste_share=boards * board / area - 1.0,
            pack_size=board,
            rule_kind="insulation_by_area" if rough else "insulation",
        )


def _edge_strip(take_offs: Sequence[AreaTakeOff]) -> Iterator[CountedItem]:
    """One item for each common height."""
    lengths: dict[float, float] = {}
    for take_off in take_offs:
        least = take_off.quantities.edge_strip_height
        height = next((height for height in _STRIP_HEIGHTS if height >= least - 1e-9), least)
        lengths[height] = lengths.get(height, 0.0) + take_off.quantities.wall_length
    for height, length in sorted(lengths.items()):
        millimetres = f"{height * 1000:.0f}mm"
        yield CountedItem("edge_strip", f"Edge strip, {height * 1000:.0f} mm high", length, size=millimetres)


def _film(inputs: MaterialsInputs, take_offs: Sequence[AreaTakeOff]) -> Iterator[CountedItem]:
    roll = inputs.ordering.film
    if roll is None:
        return
    area = math.fsum(take_off.quantities.film_area for take_off in take_offs)
    tape = math.fsum(take_off.quantities.tape_length for take_off in take_offs)
    yield CountedItem(
        "film",
        f"Polyethylene film 0.15 mm, roll {roll.width:g} x {roll.length:g} m",
        area,
        pack_size=roll.width * roll.length,
    )
    yield CountedItem("tape", "Tape for film", tape, pack_size=inputs.ordering.tape_roll)


def _joints(inputs: MaterialsInputs, drawn: Mapping[str, DrawnPipe]) -> Iterator[CountedItem]:
    """Joints that were decided on, and apart from them those that are due but were not given."""
    for due in (False, True):
        joints = [joint for joint in inputs.joints if joint.due == due]
        length = math.fsum(_joint_length(joint) for joint in joints)
        sleeves = sum(_sleeves(joint, drawn) for joint in joints)
        status: QuantityStatus = "due" if due else "needed"
        words = ", due but not decided" if due else ""
        yield CountedItem(
            "joint_profile",
            f"Movement joint profile{words}",
            length,
            status=status,
            pack_size=inputs.ordering.joint_profile_length,
        )
        yield CountedItem(
            "sleeve",
            f"Sleeve {inputs.ordering.sleeve_length * 1000:.0f} mm on pipe through joints{words}",
            float(sleeves),
            status=status,
        )


def _joint_length(joint: MaterialJoint) -> float:
    return joint.length or 0.0 if joint.line is None else float(LineString(joint.line).length)


def _sleeves(joint: MaterialJoint, drawn: Mapping[str, DrawnPipe]) -> int:
    if joint.sleeves is not None or joint.line is None:
        return joint.sleeves or 0
    line = LineString(joint.line)
    pipes = [pipe.line for pipe in drawn.values() if pipe.storey == joint.storey]
    met = [intersection(pipe, line) for pipe in pipes if shapely.intersects(pipe, line)]
    return sum(len(shapely.get_parts(parts)) for parts in met)


def _screed(
    supply: ScreedSupply, areas: Sequence[MeasuredArea], take_offs: Sequence[AreaTakeOff]
) -> Iterator[CountedItem]:
    volumes: dict[Binder, float] = {}
    for measured, take_off in zip(areas, take_offs, strict=True):
        binder = measured.build_up.binder
        volumes[binder] = volumes.get(binder, 0.0) + take_off.quantities.screed_volume
    forms = {binder: supply.form or _FORMS[binder] for binder in volumes}
    for binder, volume in volumes.items():
        words, rest = BINDER_NAMES[binder], supply.pump_rest if forms[binder] == "ready_mixed" else 0.0
        yield CountedItem("screed", words[0].upper() + words[1:], volume, size=binder, extra=rest)
    for binder, volume in volumes.items():
        if forms[binder] == "bags":
            bags = volume / supply.bag_yield
            name = f"Bags of {supply.bag_mass:g} kg for {BINDER_NAMES[binder]}"
            yield CountedItem("screed_bag", name, bags, size=binder)
    yield from _site_mix(
        supply, math.fsum(volume for binder, volume in volumes.items() if forms[binder] == "site_mixed")
    )


def _site_mix(supply: ScreedSupply, volume: float) -> Iterator[CountedItem]:
    cement, load = volume * supply.cement_content, supply.mixer_load
    yield CountedItem("mixer_load", f"Mixer loads of {load * 1000:.0f} l", volume / load)
    yield CountedItem("cement", "Cement", cement)
    yield CountedItem("sand", "Screed sand 0 to 8 mm", volume * supply.sand_content)
    yield CountedItem("screed_additive", "Additive for heated screed", cement * supply.additive_share)
