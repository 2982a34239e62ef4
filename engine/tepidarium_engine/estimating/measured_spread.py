"""Drawn designs over rough ones: low, middle, high, by what is known of the house and by quantity.

Made by ``python -m tests.estimates calibrate`` from the drawn houses in tests/estimates, not by hand.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["DRAWN", "FACTORS", "FLOOR_AREAS"]

DRAWN: Mapping[str, int] = MappingProxyType(
    {
        "area": 373,
        "count": 373,
        "rooms": 373,
    }
)
"""Number of designs."""
FLOOR_AREAS = (7.0, 118.0)
"""Floor of their storeys [m2]: least, greatest."""
FACTORS: Mapping[str, Mapping[str, tuple[float, float, float]]] = MappingProxyType(
    {
        "area": MappingProxyType(
            {
                "pipe_length": (0.83, 1.011, 1.283),
                "ordered pipe": (0.862, 1.07, 1.385),
                "circuit_count": (0.734, 1.062, 1.978),
                "heat_output": (0.833, 1.0, 1.145),
                "supply_temperature": (0.836, 0.998, 1.161),
                "fixings": (0.906, 1.19, 1.449),
                "edge_strip": (0.596, 0.979, 1.221),
                "film": (0.99, 1.156, 1.409),
                "tape": (0.0, 0.605, 0.946),
                "screed": (0.992, 1.0, 1.007),
            }
        ),
        "count": MappingProxyType(
            {
                "pipe_length": (0.823, 1.002, 1.197),
                "ordered pipe": (0.859, 1.059, 1.299),
                "circuit_count": (0.736, 0.975, 1.243),
                "heat_output": (0.883, 1.0, 1.124),
                "supply_temperature": (0.886, 1.0, 1.179),
                "fixings": (0.887, 1.17, 1.482),
                "edge_strip": (0.823, 0.923, 1.086),
                "film": (0.996, 1.151, 1.4),
                "tape": (0.0, 0.605, 0.946),
                "screed": (0.994, 1.001, 1.008),
            }
        ),
        "rooms": MappingProxyType(
            {
                "pipe_length": (0.823, 0.992, 1.187),
                "ordered pipe": (0.863, 1.051, 1.339),
                "circuit_count": (0.781, 0.987, 1.233),
                "heat_output": (0.911, 1.0, 1.121),
                "supply_temperature": (0.872, 1.0, 1.19),
                "fixings": (0.867, 1.169, 1.474),
                "edge_strip": (0.825, 0.917, 1.054),
                "film": (0.996, 1.15, 1.398),
                "tape": (0.0, 0.605, 0.946),
                "screed": (0.994, 1.001, 1.008),
            }
        ),
    }
)
