"""The engine against general libraries and bare operations on the same data, in one run.

Each pair is measured alternately and the medians are compared, so that a neighbour's load falls on both.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import closing
from http.client import HTTPConnection
from pathlib import Path

import msgspec
import numpy as np
import shapely
from fluids.vectorized import Churchill_1977
from tepidarium_client import local_service
from tepidarium_engine import designs
from tepidarium_engine.heat_output import heat_output_array
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.plan.outlines.polygons import room_polygon
from tepidarium_engine.water.friction import churchill

from .ratio import Ratio, medians

__all__ = ["ratios"]

HOUSE = Path(__file__).parents[2] / "examples" / "house.json"
POINTS = 1_000_000


def ratios() -> Iterator[Ratio]:
    """All pairs; the names say what stands above the line and what below."""
    yield _heat_output()
    yield _friction()
    yield _house_over_http()
    yield from _geometry()


def _heat_output() -> Ratio:
    random = np.random.default_rng(1)
    spacing = random.uniform(0.05, 0.375, POINTS)
    covering = random.uniform(0.0, 0.15, POINTS)
    supply = random.uniform(30.0, 50.0, POINTS)
    powers = np.empty(POINTS)

    def three_powers() -> None:
        for _ in range(3):
            np.power(spacing, covering, out=powers)

    def ours() -> None:
        heat_output_array(
            pipe_spacing=spacing,
            pipe=Pipe(0.017, 0.002),
            screed_cover=0.045,
            supply_temperature=supply,
            return_temperature=supply - 5.0,
            covering_resistance=covering,
        )

    own, bare = medians(7, ours, three_powers)
    return Ratio("heat output of 1e6 points / three numpy.power", own / bare, 6.0, False)


def _friction() -> Ratio:
    reynolds = np.geomspace(100.0, 1e5, POINTS // 10)
    roughness = np.full(reynolds.shape, 5.8e-4)
    assert np.allclose(
        churchill(reynolds, roughness), Churchill_1977(reynolds, roughness), rtol=1e-9, atol=0.0
    )
    theirs, own = medians(
        5, lambda: Churchill_1977(reynolds, roughness), lambda: churchill(reynolds, roughness)
    )
    return Ratio("fluids.vectorized Churchill / ours", theirs / own, 5.0, True)


def _house_over_http() -> Ratio:
    body = HOUSE.read_bytes()
    inputs = msgspec.convert(json.loads(body), designs.DesignsInputs, strict=True)
    headers = {"Content-Type": "application/json"}
    with local_service() as url, closing(HTTPConnection(url.removeprefix("http://"))) as connection:

        def over_http() -> None:
            connection.request("POST", "/v1/designs", body, headers)
            answer = connection.getresponse()
            answer.read()
            assert answer.status == 200

        for _ in range(10):  # each process once, and the caches
            over_http()
        served, computed = medians(60, over_http, lambda: designs.calculate(inputs))
    print(f"{'example house in the engine':<44} {computed * 1000:8.1f} ms (should be under 50)")
    return Ratio("example house over HTTP / in the engine", served / computed, 1.1, False)


def _geometry() -> Iterator[Ratio]:
    angles = np.arange(256) * (2.0 * np.pi / 256.0)
    ring = [(5.0 * float(np.cos(angle)), 5.0 * float(np.sin(angle))) for angle in angles]
    shapes = {
        "rectangle": [(0.0, 0.0), (5.0, 0.0), (5.0, 4.0), (0.0, 4.0)],
        "256 corners": ring,
    }
    for name, outline in shapes.items():
        bare, ours = medians(
            200, lambda o=outline: shapely.is_valid(shapely.Polygon(o)), lambda o=outline: room_polygon(o)
        )
        yield Ratio(f"checked room of {name} / polygon and is_valid", ours / bare, 6.0, False)
