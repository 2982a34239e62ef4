"""Heat output over whole arrays: the same formulas as for one floor, in blocks that stay in the cache."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ..elementwise import ROUND_OFF, Array
from ..errors import FaultList, InvariantError
from ..glossary import Number, lookup
from ..pipe import Pipe, check_pipe
from . import characteristic as curve
from .limit_curves import limit_curve

__all__ = ["HeatOutputArrays", "heat_output_array"]

_BLOCK = 16384
"""Points per block: few enough that the intermediate arrays stay near the core, enough to hide the calls."""


@dataclass(frozen=True, slots=True)
class HeatOutputArrays:
    """Results of one shape; the last two are None unless a surface limit was given.

    ``within_standard`` is false where the point lies outside the ranges of EN 1264-2 and EN 1264-3 and its
    value is an approximation: spacing above 0.375 m, covering above 0.15 m2.K/W, pipe above 0.030 m.
    ``within_limit`` is false where the surface passes its limit.
    """

    heat_output: Array
    heat_transmittance: Array
    mean_excess_temperature: Array
    mean_surface_temperature: Array
    within_standard: npt.NDArray[np.bool_]
    limit_heat_output: Array | None
    within_limit: npt.NDArray[np.bool_] | None


def heat_output_array(
    *,
    pipe_spacing: npt.ArrayLike,
    pipe: Pipe,
    screed_cover: npt.ArrayLike,
    supply_temperature: npt.ArrayLike,
    return_temperature: npt.ArrayLike,
    screed_conductivity: npt.ArrayLike = 1.2,
    covering_resistance: npt.ArrayLike = 0.1,
    room_temperature: npt.ArrayLike = 20.0,
    surface_temperature_limit: npt.ArrayLike | None = None,
) -> HeatOutputArrays:
    """Heat output [W/m2] of many floors with one kind of pipe; arguments broadcast against each other.

    Ranges and units are those of ``heat_output.HeatOutputInputs``. The limit curve is
    evaluated only if ``surface_temperature_limit`` [degC] is given. Raises ``InputError`` if any point is
    out of range or impossible, so that no result holds NaN. EN 1264-2, type A.
    """
    given = {
        "pipe_spacing": pipe_spacing,
        "screed_cover": screed_cover,
        "screed_conductivity": screed_conductivity,
        "covering_resistance": covering_resistance,
        "room_temperature": room_temperature,
        "supply_temperature": supply_temperature,
        "return_temperature": return_temperature,
    }
    if surface_temperature_limit is not None:
        given["surface_temperature_limit"] = surface_temperature_limit
    arrays = {name: np.asarray(value, dtype=np.float64) for name, value in given.items()}
    _check(arrays, pipe)
    shape = np.broadcast_shapes(*(array.shape for array in arrays.values()))
    points = {name: _points(array, shape) for name, array in arrays.items()}
    size = int(np.prod(shape))
    rows = np.empty((4 if surface_temperature_limit is None else 5, size))
    for start in range(0, size, _BLOCK):
        part = slice(start, start + _BLOCK)
        block = {name: x if x.ndim == 0 else x[part] for name, x in points.items()}
        for row, values in zip(rows, _block(block, pipe), strict=True):
            row[part] = values
    output, slope, excess, surface, *limit = (row.reshape(shape) for row in rows)
    standard = (
        (arrays["pipe_spacing"] <= curve.WIDEST_SPACING)
        & (arrays["covering_resistance"] <= curve.GREATEST_COVERING)
        & (curve.embedded_diameter(pipe) <= curve.GREATEST_DIAMETER)
    )
    return HeatOutputArrays(
        output,
        slope,
        excess,
        surface,
        np.broadcast_to(standard, shape).copy(),
        limit[0] if limit else None,
        output <= limit[0] * (1.0 + ROUND_OFF) if limit else None,
    )


def _points(array: Array, shape: tuple[int, ...]) -> Array:
    """One value for all points stays one; else one value a point."""
    return array.reshape(()) if array.size == 1 else np.broadcast_to(array, shape).reshape(-1)


def _block(p: Mapping[str, Array], pipe: Pipe) -> tuple[Array, ...]:
    room, spacing, cover = p["room_temperature"], p["pipe_spacing"], p["screed_cover"]
    slope = curve.characteristic(
        spacing,
        pipe,
        cover,
        p["screed_conductivity"],
        p["covering_resistance"],
    ).heat_transmittance
    excess = curve.mean_excess_temperature(p["supply_temperature"], p["return_temperature"], room)
    output = slope * excess
    results = (output, slope, excess, curve.mean_surface_temperature(output, room))
    if "surface_temperature_limit" not in p:
        return results
    permitted = p["surface_temperature_limit"] - room
    return *results, limit_curve(spacing, cover, p["screed_conductivity"], slope, permitted).heat_output


def _check(arrays: Mapping[str, Array], pipe: Pipe) -> None:
    faults = FaultList()
    check_pipe(pipe, "/pipe", faults)
    try:
        np.broadcast_shapes(*(array.shape for array in arrays.values()))
    except ValueError as mismatch:
        faults.add("", "shape", f"the arrays do not broadcast: {mismatch}")
    for name, array in arrays.items():
        entry = lookup(name)
        if not isinstance(entry, Number):
            raise InvariantError(f"{name} must be a number in the glossary")
        if array.size and not (array.min() >= entry.minimum and array.max() <= entry.maximum):
            detail = f"all must be finite and within {entry.minimum:g} to {entry.maximum:g} {entry.unit}"
            faults.add(f"/{name}", "range", detail)
    faults.raise_if_any()

    supply, return_, room = (arrays[f"{name}_temperature"] for name in ("supply", "return", "room"))
    least = max(curve.LEAST_SPACING, curve.embedded_diameter(pipe))
    relations = [
        ("pipe_spacing", arrays["pipe_spacing"] >= least, f"at least {least:g} m between pipes"),
        (
            "screed_cover",
            arrays["screed_cover"] >= curve.LEAST_COVER,
            f"at least {curve.LEAST_COVER:g} m of cover",
        ),
        ("return_temperature", return_ < supply, "a return colder than the supply"),
        ("return_temperature", return_ > room, "a return warmer than the room"),
    ]
    if "surface_temperature_limit" in arrays:
        warmer = arrays["surface_temperature_limit"] > room
        relations.append(("surface_temperature_limit", warmer, "a permitted surface warmer than the room"))
    for name, holds, need in relations:
        faults.require(bool(holds.all()), f"/{name}", "impossible", f"every point needs {need}")
    faults.raise_if_any()
