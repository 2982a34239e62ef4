"""Drawn designs over rough ones: low, middle, high, by class of house and quantity.

Made by ``python -m tests.estimates calibrate`` from the drawn houses in tests/estimates, not by hand.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["DRAWN", "FACTORS", "FLOOR_AREAS"]

DRAWN: Mapping[str, int] = MappingProxyType(
    {
        "area few": 143,
        "area many": 222,
        "count few": 91,
        "count many": 274,
        "rooms few": 91,
        "rooms many": 274,
    }
)
"""Number of designs."""
FLOOR_AREAS = (7.0, 116.0)
"""Floor of their storeys [m2]: least, greatest."""
FACTORS: Mapping[str, Mapping[str, tuple[float, float, float]]] = MappingProxyType(
    {
        "area few": MappingProxyType(
            {
                "pipe_length": (0.95, 1.199, 1.341),
                "circuit_count": (1.0, 2.0, 3.0),
                "heat_output": (0.801, 0.995, 1.069),
                "supply_temperature": (0.832, 0.896, 1.09),
                "fixings": (1.143, 1.438, 1.714),
                "edge_strip": (0.98, 1.366, 1.731),
                "film": (1.011, 1.203, 1.448),
                "tape": (0.0, 0.411, 0.921),
                "screed": (0.989, 0.996, 1.003),
            }
        ),
        "area many": MappingProxyType(
            {
                "pipe_length": (0.794, 0.93, 1.196),
                "circuit_count": (0.777, 1.091, 1.75),
                "heat_output": (0.869, 1.003, 1.126),
                "supply_temperature": (0.873, 1.02, 1.19),
                "fixings": (0.871, 1.074, 1.384),
                "edge_strip": (0.692, 1.05, 1.403),
                "film": (1.016, 1.16, 1.348),
                "tape": (0.296, 0.653, 0.853),
                "screed": (0.994, 1.003, 1.008),
            }
        ),
        "count few": MappingProxyType(
            {
                "pipe_length": (0.888, 1.168, 1.324),
                "circuit_count": (0.666, 1.0, 1.5),
                "heat_output": (0.953, 1.0, 1.075),
                "supply_temperature": (0.834, 0.891, 1.082),
                "fixings": (1.086, 1.39, 1.63),
                "edge_strip": (0.872, 0.958, 1.104),
                "film": (0.981, 1.171, 1.4),
                "tape": (0.0, 0.438, 0.958),
                "screed": (0.99, 0.996, 1.007),
            }
        ),
        "count many": MappingProxyType(
            {
                "pipe_length": (0.791, 0.943, 1.165),
                "circuit_count": (0.8, 1.0, 1.223),
                "heat_output": (0.874, 0.986, 1.118),
                "supply_temperature": (0.852, 1.008, 1.185),
                "fixings": (0.874, 1.099, 1.435),
                "edge_strip": (0.83, 0.909, 1.021),
                "film": (1.01, 1.149, 1.378),
                "tape": (0.0, 0.626, 0.852),
                "screed": (0.995, 1.002, 1.008),
            }
        ),
        "rooms few": MappingProxyType(
            {
                "pipe_length": (0.888, 1.171, 1.324),
                "circuit_count": (1.0, 1.0, 1.5),
                "heat_output": (0.953, 1.0, 1.075),
                "supply_temperature": (0.834, 0.891, 1.082),
                "fixings": (1.086, 1.394, 1.63),
                "edge_strip": (0.888, 0.942, 1.068),
                "film": (0.978, 1.167, 1.398),
                "tape": (0.0, 0.438, 0.958),
                "screed": (0.99, 0.996, 1.007),
            }
        ),
        "rooms many": MappingProxyType(
            {
                "pipe_length": (0.792, 0.931, 1.152),
                "circuit_count": (0.8, 1.0, 1.286),
                "heat_output": (0.91, 0.993, 1.119),
                "supply_temperature": (0.852, 1.008, 1.185),
                "fixings": (0.876, 1.084, 1.403),
                "edge_strip": (0.826, 0.909, 1.01),
                "film": (1.008, 1.148, 1.377),
                "tape": (0.0, 0.626, 0.852),
                "screed": (0.995, 1.003, 1.008),
            }
        ),
    }
)
