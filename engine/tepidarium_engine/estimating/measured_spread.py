"""Drawn designs over rough ones: low, middle, high, by what is known of the house and by quantity.

Made by ``python -m tests.estimates calibrate`` from the drawn houses in tests/estimates, not by hand.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["DRAWN", "FACTORS", "FLOOR_AREAS"]

DRAWN: Mapping[str, int] = MappingProxyType(
    {
        "area": 365,
        "count": 365,
        "rooms": 365,
    }
)
"""Number of designs."""
FLOOR_AREAS = (7.0, 116.0)
"""Floor of their storeys [m2]: least, greatest."""
FACTORS: Mapping[str, Mapping[str, tuple[float, float, float]]] = MappingProxyType(
    {
        "area": MappingProxyType(
            {
                "pipe_length": (0.846, 1.007, 1.212),
                "ordered pipe": (0.881, 1.067, 1.33),
                "circuit_count": (0.775, 1.067, 1.66),
                "heat_output": (0.854, 1.0, 1.105),
                "supply_temperature": (0.871, 0.997, 1.122),
                "fixings": (0.95, 1.189, 1.433),
                "edge_strip": (0.661, 0.979, 1.203),
                "film": (0.994, 1.157, 1.389),
                "tape": (0.0, 0.597, 0.853),
                "screed": (0.994, 1.001, 1.007),
            }
        ),
        "count": MappingProxyType(
            {
                "pipe_length": (0.833, 1.0, 1.177),
                "ordered pipe": (0.88, 1.058, 1.284),
                "circuit_count": (0.771, 0.977, 1.231),
                "heat_output": (0.901, 1.0, 1.071),
                "supply_temperature": (0.896, 1.0, 1.122),
                "fixings": (0.935, 1.169, 1.412),
                "edge_strip": (0.835, 0.923, 1.056),
                "film": (1.004, 1.154, 1.381),
                "tape": (0.0, 0.597, 0.853),
                "screed": (0.995, 1.001, 1.007),
            }
        ),
        "rooms": MappingProxyType(
            {
                "pipe_length": (0.843, 0.991, 1.176),
                "ordered pipe": (0.878, 1.05, 1.3),
                "circuit_count": (0.792, 0.989, 1.217),
                "heat_output": (0.929, 1.0, 1.08),
                "supply_temperature": (0.894, 1.0, 1.14),
                "fixings": (0.924, 1.167, 1.428),
                "edge_strip": (0.832, 0.917, 1.027),
                "film": (1.003, 1.154, 1.377),
                "tape": (0.0, 0.597, 0.853),
                "screed": (0.995, 1.001, 1.007),
            }
        ),
    }
)
