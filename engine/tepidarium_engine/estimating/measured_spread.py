"""Drawn designs over rough ones: low, middle, high, by class of house and quantity.

Made by ``python -m tests.estimates calibrate`` from the drawn houses in tests/estimates, not by hand.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["DRAWN", "FACTORS", "FLOOR_AREAS"]

DRAWN: Mapping[str, int] = MappingProxyType(
    {
        "area few": 148,
        "area many": 237,
        "count few": 94,
        "count many": 291,
        "rooms few": 94,
        "rooms many": 291,
    }
)
"""Number of designs."""
FLOOR_AREAS = (7.0, 119.0)
"""Floor of their storeys [m2]: least, greatest."""
FACTORS: Mapping[str, Mapping[str, tuple[float, float, float]]] = MappingProxyType(
    {
        "area few": MappingProxyType(
            {
                "pipe_length": (0.95, 1.154, 1.33),
                "circuit_count": (1.0, 2.0, 4.0),
                "heat_output": (0.797, 0.991, 1.065),
                "supply_temperature": (0.832, 0.895, 1.075),
                "fixings": (1.114, 1.406, 1.714),
                "edge_strip": (0.98, 1.367, 1.731),
                "film": (1.011, 1.211, 1.519),
                "tape": (0.0, 0.411, 0.921),
                "screed": (0.992, 0.997, 1.003),
            }
        ),
        "area many": MappingProxyType(
            {
                "pipe_length": (0.809, 0.959, 1.147),
                "circuit_count": (0.8, 1.143, 2.0),
                "heat_output": (0.871, 1.003, 1.132),
                "supply_temperature": (0.863, 1.014, 1.187),
                "fixings": (0.914, 1.1, 1.38),
                "edge_strip": (0.692, 1.041, 1.416),
                "film": (1.016, 1.159, 1.358),
                "tape": (0.296, 0.656, 0.854),
                "screed": (0.996, 1.002, 1.007),
            }
        ),
        "count few": MappingProxyType(
            {
                "pipe_length": (0.893, 1.094, 1.297),
                "circuit_count": (0.666, 1.0, 1.5),
                "heat_output": (0.935, 1.0, 1.065),
                "supply_temperature": (0.834, 0.889, 1.015),
                "fixings": (1.058, 1.324, 1.606),
                "edge_strip": (0.872, 0.961, 1.104),
                "film": (0.981, 1.184, 1.4),
                "tape": (0.0, 0.438, 0.958),
                "screed": (0.993, 0.998, 1.005),
            }
        ),
        "count many": MappingProxyType(
            {
                "pipe_length": (0.812, 0.954, 1.133),
                "circuit_count": (0.8, 1.0, 1.25),
                "heat_output": (0.879, 0.989, 1.118),
                "supply_temperature": (0.847, 1.006, 1.175),
                "fixings": (0.923, 1.107, 1.423),
                "edge_strip": (0.834, 0.909, 1.018),
                "film": (1.01, 1.149, 1.378),
                "tape": (0.109, 0.628, 0.853),
                "screed": (0.997, 1.002, 1.007),
            }
        ),
        "rooms few": MappingProxyType(
            {
                "pipe_length": (0.893, 1.094, 1.297),
                "circuit_count": (1.0, 1.0, 1.5),
                "heat_output": (0.935, 1.0, 1.065),
                "supply_temperature": (0.834, 0.889, 1.015),
                "fixings": (1.058, 1.324, 1.606),
                "edge_strip": (0.888, 0.943, 1.068),
                "film": (0.978, 1.18, 1.398),
                "tape": (0.0, 0.438, 0.958),
                "screed": (0.993, 0.998, 1.005),
            }
        ),
        "rooms many": MappingProxyType(
            {
                "pipe_length": (0.81, 0.949, 1.132),
                "circuit_count": (0.8, 1.0, 1.3),
                "heat_output": (0.901, 0.997, 1.119),
                "supply_temperature": (0.847, 1.006, 1.175),
                "fixings": (0.933, 1.099, 1.388),
                "edge_strip": (0.829, 0.91, 1.008),
                "film": (1.009, 1.148, 1.377),
                "tape": (0.109, 0.628, 0.853),
                "screed": (0.997, 1.002, 1.007),
            }
        ),
    }
)
