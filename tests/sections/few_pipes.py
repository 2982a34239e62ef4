"""A few pipes beside each other in an otherwise bare floor, by the finite elements of ``finite_elements``.

Half of the floor is meshed, from the mirror in the middle of the group to where no heat of the pipes arrives.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import skfem
from skfem.models.poisson import mass, unit_load
from tepidarium_engine.floor_section import FloorSectionInputs

from .finite_elements import COEFFICIENT, _conduction, _half_bay, _Patches, _weighted

__all__ = ["heat_of_group", "heat_of_pipes"]

_BARE = 1.5
"""Bare floor beside the outermost pipe [m]."""


class _Shifted(_Patches):
    """Patches of a pipe away from the origin."""

    def __init__(self) -> None:
        super().__init__()
        self.by = 0.0

    def add(self, x: np.ndarray, y: np.ndarray, material: tuple[float, float]) -> None:
        super().add(x + self.by, y, material)


def heat_of_group(
    inputs: FloorSectionInputs, film: float, count: int, fineness: int = 2
) -> tuple[float, float]:
    """Heat up per pipe and kelvin of the water over the room [W/(m.K)], and the highest heat up through the surface
    per kelvin [W/(m2.K)], of an even ``count`` of pipes at the spacing of ``inputs``; below is as warm as the room."""
    assert count % 2 == 0
    centres = [(0.5 + number) * inputs.pipe_spacing for number in range(count // 2)]
    up, highest = heat_of_pipes(inputs, film, centres, _BARE, fineness)
    return up / len(centres), highest


def heat_of_pipes(
    inputs: FloorSectionInputs, film: float, centres: Sequence[float], beyond: float, fineness: int = 2
) -> tuple[float, float]:
    """Heat up of all pipes with their axes at ``centres`` [m] from a mirror, and as much floor ``beyond`` the last [m]:
    per kelvin [W/(m.K)], and the highest through the surface [W/(m2.K)]."""
    ends = [0.0, *((one + other) / 2.0 for one, other in pairwise(centres)), centres[-1] + beyond]
    sides = [centre - start for start, centre in zip(ends[:-1], centres, strict=True)]
    sides += [end - centre for end, centre in zip(ends[1:], centres, strict=True)]
    frame = min(1.5 * inputs.pipe.outside_diameter, *sides)
    patches = _Shifted()
    for centre, start, end in zip(centres, ends[:-1], ends[1:], strict=True):
        patches.by = centre
        _half_bay(patches, inputs, fineness, side=-1.0, width=centre - start, frame=frame)
        _half_bay(patches, inputs, fineness, side=1.0, width=end - centre, frame=frame)
    mesh, conductivity = _mesh(patches)
    basis = skfem.Basis(mesh, skfem.ElementQuad2())
    matrix, load = _weighted(_conduction, basis, conductivity), np.zeros(basis.N)
    middle = mesh.p[:, mesh.facets].mean(axis=1)
    away = [np.hypot(mesh.p[0] - centre, mesh.p[1])[mesh.facets] for centre in centres]
    bores = np.logical_or.reduce([(np.abs(one - inputs.pipe.bore / 2.0) < 1e-7).all(axis=0) for one in away])
    faces = {
        "top": (
            middle[1] > mesh.p[1].max() - 1e-9,
            1.0 / (inputs.covering_resistance + 1.0 / COEFFICIENT),
            0.0,
        ),
        "bottom": (middle[1] < mesh.p[1].min() + 1e-9, 1.0 / inputs.surface_resistance_below, 0.0),
        "bore": (bores, film, 1.0),
    }
    for chosen, coefficient, temperature in faces.values():
        facets = skfem.FacetBasis(mesh, basis.elem, facets=np.flatnonzero(chosen))
        matrix = matrix + coefficient * mass.assemble(facets)
        load = load + coefficient * temperature * unit_load.assemble(facets)
    field = skfem.solve(matrix, load)
    chosen, coefficient, _ = faces["top"]
    surface = skfem.FacetBasis(mesh, basis.elem, facets=np.flatnonzero(chosen))
    nodes = field[basis.nodal_dofs[0]][mesh.p[1] > mesh.p[1].max() - 1e-9]
    return coefficient * float(unit_load.assemble(surface) @ field), coefficient * float(nodes.max())


def _mesh(patches: _Patches) -> tuple[skfem.MeshQuad, np.ndarray]:
    points, cells, materials = patches.joined()
    x, y = points[:, cells]
    turn = (x[1] - x[0]) * (y[3] - y[0]) - (y[1] - y[0]) * (x[3] - x[0])
    turn += (x[3] - x[2]) * (y[1] - y[2]) - (y[3] - y[2]) * (x[1] - x[2])
    cells[:, turn < 0.0] = cells[::-1, turn < 0.0]
    return skfem.MeshQuad(np.ascontiguousarray(points), np.ascontiguousarray(cells)), materials[0]
