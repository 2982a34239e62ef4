"""Draws the houses of the calibration, one after the other, into a file that can be continued."""

from __future__ import annotations

import json
import signal
import time
from collections import defaultdict
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import shapely
from tepidarium_engine import __version__, designs
from tepidarium_engine.designs import DesignsResult
from tepidarium_engine.errors import InputError
from tepidarium_engine.ordering.item_rules import ITEM_RULES

from tests.estimates.houses import GivenRoom, House, generated, given

__all__ = ["draw", "drawn_values", "kind_of", "read", "rooms_of"]

LONGEST = 60
"""For one house [s of processor]; one that takes longer is left out and counted."""


def rooms_of(path: Path) -> list[GivenRoom]:
    """Rooms of 4 to 90 m2 from a list of outlines in WKT [m]."""
    found = []
    for number, row in enumerate(json.loads(path.read_text())):
        shape = shapely.from_wkt(row["outline_wkt"])
        if 4.0 <= shape.area <= 90.0:
            points = tuple((x, y) for x, y in shapely.get_coordinates(shape.exterior).tolist()[:-1])
            found.append(GivenRoom(f"given {number}", points))
    return found


def draw(path: Path, count: int, rooms: Sequence[GivenRoom]) -> None:
    """Draw ``count`` generated houses and the given rooms; those that stand in the file already are left out."""
    done = {row["name"] for row in read(path)}
    with path.open("a") as file:
        for house in _houses(count, rooms):
            if house.name not in done:
                file.write(json.dumps(_drawn(house)) + "\n")
                file.flush()


def _houses(count: int, rooms: Sequence[GivenRoom]) -> Iterator[House]:
    """Given rooms lie among generated ones, so that the first of the file are of both."""
    left = list(rooms)
    for seed in range(count):
        yield generated(seed)
        if left and seed % max(count // (len(rooms) or 1), 1) == 0:
            house = given(left.pop(0))
            if house is not None:
                yield house


def read(path: Path) -> list[dict[str, Any]]:
    """Whole lines; one that was cut off is not read."""
    if not path.exists():
        return []
    lines = path.read_text().splitlines(keepends=True)
    return [json.loads(line) for line in lines if line.endswith("\n") and line.strip()]


def _drawn(house: House) -> dict[str, Any]:
    def too_long(*_: object) -> None:
        raise TimeoutError

    signal.signal(signal.SIGVTALRM, too_long)
    signal.setitimer(signal.ITIMER_VIRTUAL, LONGEST)
    started = time.process_time()
    try:
        result = designs.calculate(house.design)
    except InputError as refusal:
        return {"name": house.name, "refused": sorted({fault.code for fault in refusal.faults})}
    except TimeoutError:
        return {"name": house.name, "refused": ["too_long"]}
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)
    row = {"name": house.name, "engine_version": __version__, "took": round(time.process_time() - started, 2)}
    if result.layout is None or result.layout.unplaced:
        return row | {"refused": ["unplaced"]}
    return row | {"told": house.told, "drawn": drawn_values(result)}


def drawn_values(result: DesignsResult) -> dict[str, float]:
    """What an estimate of the house should have said; items of the order by their kind."""
    values: dict[str, float] = {
        "pipe_length": result.pipe_length,
        "circuit_count": float(len(result.circuits)),
        "manifold_count": float(len(result.manifolds)),
        "heat_output": result.heat_given,
        "supply_temperature": result.supply_temperature,
    }
    items: dict[str, float] = defaultdict(float)
    for line in result.materials.quantities if result.materials else ():
        if line.status == "needed":
            items[kind_of(line.item)] += line.net_quantity
            items[f"ordered {kind_of(line.item)}"] += line.order_quantity
    return {name: round(value, 4) for name, value in (values | items).items()}


def kind_of(item: str) -> str:
    """The kind of an item by its id."""
    return max((kind for kind in ITEM_RULES if item.startswith(kind)), key=len)
