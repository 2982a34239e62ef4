"""Invented houses as requests of ``designs``, the same for the same number: by area, or with outlines."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

__all__ = ["house", "houses", "write_houses"]

BUILD_UPS = (
    {"id": "tile", "covering_resistance": 0.02, "resistance_below": 2.5, "temperature_below": 8.0},
    {"id": "timber", "covering_resistance": 0.1, "resistance_below": 1.25, "temperature_below": 14.0},
)
WALL = 0.12


def house(number: int, *, outlines: bool) -> dict[str, Any]:
    """Two to five rooms; those with outlines lie in a row, every third one with a corner cut out."""
    chance = random.Random(f"{number} {outlines}")
    rooms, x = [], 0.0
    for place in range(chance.randint(2, 5)):
        width, depth = round(chance.uniform(2.2, 5.5), 2), round(chance.uniform(2.2, 5.5), 2)
        room: dict[str, Any] = {"id": f"room {place + 1}", "build_up": chance.choice(BUILD_UPS)["id"]}
        area = width * depth
        if outlines:
            cut = 1.0 if chance.random() < 1 / 3 else 0.0
            corners = [(0.0, 0.0), (width, 0.0), (width, depth - cut), (width - cut, depth - cut)]
            corners = corners[: 4 if cut else 3] + [(width - cut, depth), (0.0, depth)][not cut :]
            room["outline"] = [[round(x + a, 2), b] for a, b in corners]
            x = round(x + width + WALL, 2)
            area -= cut * cut
        else:
            room |= {"area": round(area, 2), "tail_length": round(chance.uniform(1.0, 9.0), 1)}
        room["heat_demand"] = round(area * chance.uniform(25.0, 55.0), 1)
        rooms.append(room)
    return {"rooms": rooms, "build_ups": list(BUILD_UPS)}


def houses(by_area: int, with_outlines: int) -> Iterator[dict[str, Any]]:
    """Houses with outlines among those by area; every 50th cannot be computed."""
    every = by_area // with_outlines + 1 if with_outlines else 0
    for number in range(by_area + with_outlines):
        drawn = bool(every) and number % every == 0 and number // every < with_outlines
        one = house(number, outlines=drawn)
        if number % 50 == 49:
            one["rooms"][0]["heat_demand"] = 1e9
        yield {"key": f"house {number}", **one} if number % 2 else one


def write_houses(path: Path, by_area: int, with_outlines: int) -> None:
    with path.open("w") as file:
        for one in houses(by_area, with_outlines):
            file.write(json.dumps(one) + "\n")
