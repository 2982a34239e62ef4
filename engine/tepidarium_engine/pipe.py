"""The pipe."""

from __future__ import annotations

import math
from dataclasses import dataclass

from .errors import FaultList

__all__ = ["USUAL_PIPE", "Pipe", "check_pipe"]


@dataclass(frozen=True, slots=True)
class Pipe:
    """A round pipe, bare or in a sheath.

    The defaults of the conductivity (0.35 W/(m.K), PE-X) and of the roughness (0.007 mm, plastic) are those of
    EN 1264-2, annex on materials, and of common design practice.
    """

    outside_diameter: float
    wall_thickness: float
    thermal_conductivity: float = 0.35
    sheath_diameter: float | None = None
    sheath_conductivity: float | None = None
    roughness: float = 7e-6
    minimum_bend_radius: float | None = None

    @property
    def bore(self) -> float:
        """Inside diameter [m]."""
        return self.outside_diameter - 2.0 * self.wall_thickness

    @property
    def water_content(self) -> float:
        """Volume of water per length [m3/m]."""
        return math.pi / 4.0 * self.bore**2

    @property
    def bend_radius(self) -> float:
        """Least bend radius of the centre line [m]: the one given, or five outside diameters (common practice,
        no source; the maker's sheet decides)."""
        return 5.0 * self.outside_diameter if self.minimum_bend_radius is None else self.minimum_bend_radius


USUAL_PIPE = Pipe(outside_diameter=0.016, wall_thickness=0.002)
"""16 x 2 mm, the commonest floor-heating pipe (common practice, no source)."""


def check_pipe(pipe: Pipe, pointer: str, faults: FaultList) -> None:
    """Relations inside a pipe that make it impossible."""
    faults.require(
        pipe.bore >= 0.003,
        f"{pointer}/wall_thickness",
        "no_bore",
        "the walls of the pipe leave a bore of less than 3 mm",
        (pipe.outside_diameter - 0.003) / 2.0,
    )
    missing = "sheath_diameter" if pipe.sheath_diameter is None else "sheath_conductivity"
    both = (pipe.sheath_diameter is None) == (pipe.sheath_conductivity is None)
    faults.require(both, f"{pointer}/{missing}", "incomplete", "a sheath needs diameter and conductivity")
    if pipe.sheath_diameter is not None:
        faults.require(
            pipe.sheath_diameter > pipe.outside_diameter,
            f"{pointer}/sheath_diameter",
            "sheath_inside_pipe",
            "the sheath must be wider than the pipe",
            pipe.outside_diameter,
        )
