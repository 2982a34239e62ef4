"""The section of a floor by finite elements: an independent solution, with a round pipe in its true place.

Biquadratic quadrilaterals (scikit-fem) on a mesh that follows the pipe: rings through its wall, rays from its outside
to a frame round it, rectangles in the rest. Nothing here is the project's own but the record of inputs.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import skfem
from scipy.sparse.linalg import splu
from skfem.models.poisson import mass, unit_load
from tepidarium_engine.floor_section import FloorSectionInputs
from tepidarium_engine.section.records import SectionLayer

__all__ = ["Heat", "converged", "course", "elements"]

COEFFICIENT = 10.8
WALL_CAPACITY = 2.1e6

Material = tuple[float, float]
"""Conductivity [W/(m.K)] and heat capacity [J/(m3.K)]."""


@dataclass(frozen=True)
class Heat:
    """Heat up and down [W/m2] and through the edge [W/m], surface temperatures [degC], number of unknowns, and how
    far the last refinement moved the heat flows, as a share of the water's."""

    up: float
    down: float
    edge: float
    mean: float
    highest: float
    lowest: float
    unknowns: int
    moved: float = math.inf


def converged(inputs: FloorSectionInputs, film: float, target: float = 2e-4) -> Heat:
    """Finer and finer until neither heat flow moves by more than ``target`` of the heat from the water."""
    before = elements(inputs, film, 1)
    for fineness in (2, 3, 4, 6, 8):
        now = elements(inputs, film, fineness)
        moved = max(abs(now.up - before.up), abs(now.down - before.down)) / (abs(now.up) + abs(now.down))
        if moved <= target:
            return replace(now, moved=moved)
        before = now
    raise AssertionError(f"the elements still move by {moved:.1e}")


def elements(inputs: FloorSectionInputs, film: float, fineness: int, order: int = 2) -> Heat:
    """One mesh: half a bay between mirrors at the axis and midway to the next pipe, or all of the bay at the edge."""
    mesh, conductivity, edges, _ = _mesh(inputs, fineness)
    element = skfem.ElementQuad2() if order == 2 else skfem.ElementQuad1()
    basis = skfem.Basis(mesh, element)
    matrix = _weighted(_conduction, basis, conductivity)
    load = np.zeros(matrix.shape[0])
    room = inputs.room_temperature
    top, bottom, bore = (
        skfem.FacetBasis(mesh, element, facets=edges[name]) for name in ("top", "bottom", "bore")
    )
    above = 1.0 / (inputs.covering_resistance + 1.0 / COEFFICIENT)
    below = 1.0 / inputs.surface_resistance_below
    assert inputs.temperature_below is not None
    exchanges = [
        (top, above, room),
        (bottom, below, inputs.temperature_below),
        (bore, film, inputs.water_temperature),
    ]
    width, edge = inputs.pipe_spacing / 2.0, inputs.cold_edge
    if edge is not None:
        width += edge.distance
        exchanges.append(
            (skfem.FacetBasis(mesh, element, facets=edges["edge"]), 1.0 / edge.resistance, edge.temperature)
        )
    for facets, coefficient, temperature in exchanges:
        matrix = matrix + coefficient * mass.assemble(facets)
        load = load + coefficient * temperature * unit_load.assemble(facets)
    solution = skfem.solve(matrix, load)
    flows = [
        coefficient * float(unit_load.assemble(facets) @ (solution - temperature))
        for facets, coefficient, temperature in exchanges
    ]
    nodes = solution[basis.nodal_dofs[0]]
    surface = room + (nodes[mesh.p[1] > mesh.p[1].max() - 1e-9] - room) * above / COEFFICIENT
    up, down = flows[0] / width, flows[1] / width
    return Heat(
        up=up,
        down=down,
        edge=flows[3] if edge is not None else 0.0,
        mean=room + up / COEFFICIENT,
        highest=float(surface.max()),
        lowest=float(surface.min()),
        unknowns=matrix.shape[0],
    )


@skfem.BilinearForm
def _conduction(u: Any, v: Any, w: Any) -> Any:
    return w["weight"] * (u.grad[0] * v.grad[0] + u.grad[1] * v.grad[1])


@skfem.BilinearForm
def _product(u: Any, v: Any, w: Any) -> Any:
    return w["weight"] * u * v


def _weighted(form: Any, basis: skfem.Basis, by_cell: np.ndarray) -> Any:
    """The form with a factor for each cell."""
    spread = basis.with_element(skfem.ElementQuad0())
    field = spread.zeros()
    field[spread.element_dofs[0]] = by_cell
    return form.assemble(basis, weight=spread.interpolate(field))


def _graded(start: float, stop: float, first: float, count: int) -> np.ndarray:
    """About ``count`` steps from ``start`` that begin with about ``first`` and grow evenly."""
    length = stop - start
    if first * count >= length:
        return np.linspace(start, stop, max(math.ceil(length / first), 1) + 1)
    low, high = 1.0, 10.0
    for _ in range(60):
        ratio = (low + high) / 2.0
        low, high = (ratio, high) if first * (ratio**count - 1.0) / (ratio - 1.0) < length else (low, ratio)
    steps = ratio ** np.arange(count)
    return start + length * np.concatenate(([0.0], np.cumsum(steps))) / steps.sum()


class _Patches:
    """Quadrilateral patches, whose common nodes are joined at the end."""

    def __init__(self) -> None:
        self.points: list[np.ndarray] = []
        self.cells: list[np.ndarray] = []
        self.materials: list[np.ndarray] = []
        self.count = 0

    def add(self, x: np.ndarray, y: np.ndarray, material: Material) -> None:
        rows, columns = x.shape
        index = self.count + np.arange(rows * columns).reshape(rows, columns)
        quads = np.stack(
            [index[:-1, :-1].ravel(), index[1:, :-1].ravel(), index[1:, 1:].ravel(), index[:-1, 1:].ravel()]
        )
        self.points.append(np.stack([x.ravel(), y.ravel()]))
        self.cells.append(quads)
        self.materials.append(np.repeat(np.array([material]).T, quads.shape[1], axis=1))
        self.count += rows * columns

    def block(self, xs: np.ndarray, ys: np.ndarray, material: Material) -> None:
        self.add(*np.meshgrid(xs, ys), material)

    def joined(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        points, cells = np.concatenate(self.points, axis=1), np.concatenate(self.cells, axis=1)
        keys = np.round(points / 1e-8).astype(np.int64)
        _, first, place = np.unique(keys, axis=1, return_index=True, return_inverse=True)
        return points[:, first], place.ravel()[cells], np.concatenate(self.materials, axis=1)


def _mesh(
    inputs: FloorSectionInputs, fineness: int
) -> tuple[skfem.MeshQuad, np.ndarray, dict[str, np.ndarray], np.ndarray]:
    half = inputs.pipe_spacing / 2.0
    edge = inputs.cold_edge
    frame = min(half, half if edge is None else edge.distance, 1.5 * inputs.pipe.outside_diameter)
    patches = _Patches()
    _half_bay(patches, inputs, fineness, side=1.0, width=half, frame=frame)
    if edge is not None:
        _half_bay(patches, inputs, fineness, side=-1.0, width=edge.distance, frame=frame)
    points, cells, materials = patches.joined()
    x, y = points[:, cells]
    turn = (x[1] - x[0]) * (y[3] - y[0]) - (y[1] - y[0]) * (x[3] - x[0])
    turn += (x[3] - x[2]) * (y[1] - y[2]) - (y[3] - y[2]) * (x[1] - x[2])
    cells[:, turn < 0.0] = cells[::-1, turn < 0.0]
    mesh = skfem.MeshQuad(np.ascontiguousarray(points), np.ascontiguousarray(cells))
    middle, ends = mesh.p[:, mesh.facets].mean(axis=1), np.hypot(*mesh.p)[mesh.facets]
    facets = {
        "top": middle[1] > points[1].max() - 1e-9,
        "bottom": middle[1] < points[1].min() + 1e-9,
        "bore": (np.abs(ends - inputs.pipe.bore / 2.0) < 1e-7).all(axis=0),
        "edge": middle[0] < points[0].min() + 1e-9,
    }
    places = {name: np.flatnonzero(chosen) for name, chosen in facets.items()}
    return mesh, materials[0], places, materials[1]


def _half_bay(
    patches: _Patches, inputs: FloorSectionInputs, fineness: int, *, side: float, width: float, frame: float
) -> None:
    """From the axis to ``width`` on the right (``side`` 1) or left (-1)."""
    pipe = inputs.pipe
    outer = pipe.outside_diameter / 2.0
    thickness = inputs.screed_thickness or inputs.screed_cover + 2.0 * outer
    above, below = inputs.screed_cover + outer, thickness - inputs.screed_cover - outer
    upper, lower = min(above, 3.0 * outer), min(below, 3.0 * outer)
    fine = outer / (5.0 * fineness)
    across = _graded(0.0, frame, fine, 4 * fineness + 4)
    upwards = np.concatenate(
        (-_graded(0.0, lower, fine, 3 * fineness + 3)[::-1], _graded(0.0, upper, fine, 4 * fineness + 4)[1:])
    )
    _round_pipe(patches, inputs, fineness, side, (across, upwards))
    outside = (
        _graded(frame, width, max(fine, across[-1] - across[-2]), 6 * fineness + 4) if width > frame else None
    )
    columns = across if outside is None else np.concatenate((across, outside[1:]))
    screed = (inputs.screed_conductivity, inputs.screed_heat_capacity)
    if outside is not None:
        patches.block(side * outside, upwards, screed)
    columns = side * columns
    if above > upper + 1e-12:
        patches.block(columns, _graded(upper, above, upwards[-1] - upwards[-2], 5 * fineness + 3), screed)
    if below > lower + 1e-12:
        patches.block(columns, -_graded(lower, below, fine, 5 * fineness + 3)[::-1], screed)
    for layer in inputs.layers_above:
        grades = np.linspace(0.0, layer.thickness, 3 * fineness + 1)
        patches.block(columns, above + grades, _material(layer))
        above += layer.thickness
    for layer in inputs.layers_below:
        grades = _graded(
            0.0, layer.thickness, min(layer.thickness / (3 * fineness), 4.0 * fine), 6 * fineness
        )
        patches.block(columns, -below - grades[::-1], _material(layer))
        below += layer.thickness


def _material(layer: SectionLayer) -> Material:
    return layer.thermal_conductivity, layer.volumetric_heat_capacity


def _round_pipe(
    patches: _Patches,
    inputs: FloorSectionInputs,
    fineness: int,
    side: float,
    frame: tuple[np.ndarray, np.ndarray],
) -> None:
    """Rings of the wall, and rays from the pipe's outside to the frame."""
    (across, upwards), pipe = frame, inputs.pipe
    outer, sides = pipe.outside_diameter / 2.0, len(upwards) - 2
    ends = np.concatenate(
        (
            np.stack([across, np.full(len(across), upwards[-1])]),
            np.stack([np.full(sides, across[-1]), upwards[-2:0:-1]]),
            np.stack([across[::-1], np.full(len(across), upwards[0])]),
        ),
        axis=1,
    )
    angles = np.arctan2(ends[0], ends[1])
    circle = np.stack([side * np.sin(angles), np.cos(angles)])
    ends[0] *= side
    share = _graded(0.0, 1.0, 0.08 / fineness, 5 * fineness + 3)[:, None]
    start, reach = outer * circle[:, None], (ends - outer * circle)[:, None]
    screed = (inputs.screed_conductivity, inputs.screed_heat_capacity)
    patches.add(*(start + reach * share), screed)
    radii = np.linspace(pipe.bore / 2.0, outer, 2 * fineness + 1)[:, None]
    patches.add(*(circle[:, None] * radii), (pipe.thermal_conductivity, WALL_CAPACITY))


def course(inputs: FloorSectionInputs, film: float, step: float, count: int) -> np.ndarray:
    """Heat up [W/m2] after each step [s] from a floor at the room's temperature, the water held from then on.

    Half steps backwards at first, then Crank and Nicolson (Rannacher 1984).
    """
    mesh, conductivity, edges, capacity = _mesh(inputs, 1)
    basis = skfem.Basis(mesh, skfem.ElementQuad2())
    stiffness = _weighted(_conduction, basis, conductivity)
    heat = _weighted(_product, basis, capacity)
    above = 1.0 / (inputs.covering_resistance + 1.0 / COEFFICIENT)
    below = 1.0 / inputs.surface_resistance_below
    assert inputs.temperature_below is not None
    load = np.zeros(stiffness.shape[0])
    for name, coefficient, temperature in (
        ("top", above, inputs.room_temperature),
        ("bottom", below, inputs.temperature_below),
        ("bore", film, inputs.water_temperature),
    ):
        facets = skfem.FacetBasis(mesh, basis.elem, facets=edges[name])
        stiffness = stiffness + coefficient * mass.assemble(facets)
        load = load + coefficient * temperature * unit_load.assemble(facets)
    at_top = unit_load.assemble(skfem.FacetBasis(mesh, basis.elem, facets=edges["top"]))
    backwards = splu((heat / (step / 2.0) + stiffness).tocsc())
    central = splu((heat / step + stiffness / 2.0).tocsc())
    field = np.full(len(load), inputs.room_temperature)
    flows = []
    for number in range(count):
        if number < 2:
            for _ in range(2):
                field = backwards.solve(heat @ field / (step / 2.0) + load)
        else:
            field = central.solve(heat @ field / step - stiffness @ field / 2.0 + load)
        flows.append(above * (at_top @ field / (inputs.pipe_spacing / 2.0) - inputs.room_temperature))
    return np.array(flows)
