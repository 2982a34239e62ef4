"""From drawn houses to the spread of estimates, and how many of those that the calibration never saw lie inside."""

from __future__ import annotations

import gzip
import json
import math
import zlib
from collections import defaultdict
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

import msgspec
from tepidarium_engine.errors import FaultList
from tepidarium_engine.estimates import EstimatesInputs, EstimatesResult, calculate
from tepidarium_engine.estimating.assumptions import known_house
from tepidarium_engine.estimating.rough_design import rough_designs
from tepidarium_engine.estimating.rough_order import SPREAD_OF, Counts, rough_items
from tepidarium_engine.estimating.spread import SUPPLY_FROM
from tepidarium_engine.ordering.item_rules import ITEM_RULES

__all__ = ["RECORD", "calibrate", "held_out", "hits", "read_record", "table", "told", "write_record"]

HERE = Path(__file__).parent
RECORD = HERE / "drawn.json.gz"
MODULE = HERE.parents[1] / "engine/tepidarium_engine/estimating/measured_spread.py"
KNOWN = ("rooms", "count", "area")
OUTSIDE = 0.0125
"""Share of the calibrating houses that may lie below the range, and above it: much less than 5 % each, as houses that
were not seen vary more, and drawings change with the engine."""
QUANTITIES = ("pipe_length", "circuit_count", "manifold_count", "heat_output", "supply_temperature")
MEASURED = (
    "pipe_length",
    "ordered pipe",
    "circuit_count",
    "heat_output",
    "supply_temperature",
    "fixings",
    "edge_strip",
    "film",
)
MORE_MEASURED = ("tape", "screed")

Row = dict[str, Any]


def read_record() -> list[Row]:
    """The drawn houses that the spread of this version was measured on."""
    return list(json.loads(gzip.decompress(RECORD.read_bytes())))


def write_record(rows: Iterable[Row]) -> None:
    kept = [{key: row[key] for key in ("name", "told", "drawn")} for row in rows if "drawn" in row]
    text = json.dumps(kept, separators=(",", ":")).encode()
    RECORD.write_bytes(gzip.compress(text, mtime=0))


def held_out(row: Row) -> bool:
    """One house in three is never calibrated with, chosen by its name."""
    return zlib.crc32(row["name"].encode()) % 3 == 0


def told(row: Row, known: str) -> EstimatesInputs:
    """The request of a customer who knows the rooms, or how many they are, or the floor area alone."""
    request = dict(row["told"])
    rooms = request.pop("rooms")
    if known == "rooms":
        request["rooms"] = rooms
    else:
        request["floor_area"] = math.fsum(room["area"] for room in rooms)
    if known == "count":
        request["room_count"] = len(rooms)
    return msgspec.convert(request, EstimatesInputs, strict=True)


def calibrate(rows: Sequence[Row]) -> None:
    """Write the module with the factors of every class, from the rows that are not held out."""
    ratios: dict[str, dict[str, list[float]]] = defaultdict(lambda: defaultdict(list))
    areas = []
    for row in rows:
        if held_out(row):
            continue
        for known in KNOWN:
            kind, rough = _rough(told(row, known))
            for name, value in rough.items():
                drawn = row["drawn"].get(name, 0.0) - (SUPPLY_FROM if name == "supply_temperature" else 0.0)
                ratios[kind][name].append(drawn / value)
        areas.append(sum(room["area"] for room in row["told"]["rooms"]) / row["told"]["storey_count"])
    MODULE.write_text(_module(ratios, areas))


def _rough(inputs: EstimatesInputs) -> tuple[str, dict[str, float]]:
    house = known_house(inputs, FaultList())
    (rough,) = rough_designs(inputs, house, ((inputs.heat_demand or 0.0) / house.floor_area,))
    items: dict[str, float] = defaultdict(float)
    counts = Counts(max(round(rough.circuit_count), inputs.storey_count), inputs.storey_count)
    for item in rough_items(inputs, house, rough, counts):
        if item.kind in (*MEASURED, *MORE_MEASURED):
            items[item.kind] += item.quantity
    return house.known, {
        "pipe_length": rough.pipe_length,
        "ordered pipe": rough.pipe_length,
        "circuit_count": rough.circuit_count,
        "heat_output": rough.heat_output,
        "supply_temperature": rough.supply_temperature - SUPPLY_FROM,
        **items,
    }


def _factors(ratios: Sequence[float]) -> tuple[float, float, float]:
    """The values below and above which ``OUTSIDE`` of the houses lie, rounded outwards, and the middle one."""
    ordered = sorted(ratios)
    skipped = math.floor(OUTSIDE * (len(ordered) + 1) - 1.0)
    low, high = ordered[max(skipped, 0)], ordered[-1 - max(skipped, 0)]
    middle = ordered[len(ordered) // 2]
    return math.floor(low * 1e3) / 1e3, round(middle, 3), math.ceil(high * 1e3) / 1e3


def _module(ratios: dict[str, dict[str, list[float]]], areas: Sequence[float]) -> str:
    lines = [
        '"""Drawn designs over rough ones: low, middle, high, by what is known of the house and by quantity.',
        "",
        "Made by ``python -m tests.estimates calibrate`` from the drawn houses in tests/estimates, not by hand.",
        '"""',
        "",
        "from __future__ import annotations",
        "",
        "from collections.abc import Mapping",
        "from types import MappingProxyType",
        "",
        '__all__ = ["DRAWN", "FACTORS", "FLOOR_AREAS"]',
        "",
        "DRAWN: Mapping[str, int] = MappingProxyType(",
        "    {",
        *(f'        "{kind}": {len(own["pipe_length"])},' for kind, own in sorted(ratios.items())),
        "    }",
        ")",
        '"""Number of designs."""',
        f"FLOOR_AREAS = ({math.floor(min(areas))}.0, {math.ceil(max(areas))}.0)",
        '"""Floor of their storeys [m2]: least, greatest."""',
        "FACTORS: Mapping[str, Mapping[str, tuple[float, float, float]]] = MappingProxyType(",
        "    {",
    ]
    for kind, own in sorted(ratios.items()):
        lines.append(f'        "{kind}": MappingProxyType(')
        lines.append("            {")
        lines += [f'                "{name}": {_factors(own[name])},' for name in (*MEASURED, *MORE_MEASURED)]
        lines += ["            }", "        ),"]
    return "\n".join([*lines, "    }", ")", ""])


def hits(rows: Iterable[Row]) -> dict[tuple[str, str], tuple[int, int]]:
    """By what is known and quantity: how many drawn values lie inside their range, of how many. ``materials`` counts
    the lines of the order together."""
    found: dict[tuple[str, str], tuple[int, int]] = defaultdict(lambda: (0, 0))
    for row in rows:
        for known in KNOWN:
            result = calculate(told(row, known))
            for name, inside in _inside(result, row["drawn"]):
                count, whole = found[known, name]
                found[known, name] = (count + inside, whole + 1)
    return dict(found)


def _inside(result: EstimatesResult, drawn: dict[str, float]) -> Iterable[tuple[str, bool]]:
    for name in QUANTITIES:
        one = getattr(result, name)
        yield name, one.low - 1e-6 <= drawn[name] <= one.high + 1e-6
    ordered: dict[str, list[float]] = defaultdict(lambda: [0.0, 0.0])
    for line in result.materials:
        kind = max((each for each in ITEM_RULES if line.item.startswith(each)), key=len)
        ordered[kind][0] += line.quantity.low
        ordered[kind][1] += line.quantity.high
    for kind, (low, high) in ordered.items():
        value = drawn.get(f"ordered {kind}")
        if value is not None and SPREAD_OF.get(kind):
            yield "materials", low * (1.0 - 1e-6) <= value <= high * (1.0 + 1e-6)
            yield f"materials: {kind}", low * (1.0 - 1e-6) <= value <= high * (1.0 + 1e-6)


def table(found: dict[tuple[str, str], tuple[int, int]]) -> str:
    """Shares of hits as a table for people."""
    words = {"rooms": "rooms are listed", "count": "rooms are counted", "area": "floor area alone"}
    lines = [
        "| inside the range | " + " | ".join(words[known] for known in KNOWN) + " |",
        "|---|---|---|---|",
    ]
    for name in (*QUANTITIES, "materials"):
        shares = (100.0 * found[known, name][0] / found[known, name][1] for known in KNOWN)
        cells = " | ".join(f"{share:.0f} %" for share in shares)
        lines.append(
            f"| {'lines of the order' if name == 'materials' else name.replace('_', ' ')} | {cells} |"
        )
    return "\n".join(lines)
