"""The section of a floor against finite elements of equal accuracy, its course in time, and its memory."""

from __future__ import annotations

import statistics
import time
import tracemalloc
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from tepidarium_engine.floor_section import FloorSectionInputs, calculate, picture
from tepidarium_engine.section.records import ColdEdge, SectionLayer, WarmUp

from tests.sections.cases import FILM, USUAL
from tests.sections.finite_elements import converged, elements

from .ratio import Ratio

__all__ = ["ratios"]

ACCURACY = 0.005


def ratios() -> Iterator[Ratio]:
    """The usual floor; then the most work that the limits let through."""
    exact = converged(USUAL, FILM).up
    assert abs(calculate(USUAL).heat_output / exact - 1.0) <= ACCURACY
    # Bilinear elements on the coarsest mesh: about the least that keeps the same accuracy.
    assert abs(elements(USUAL, FILM, 1, order=1).up / exact - 1.0) <= ACCURACY
    own, other = _medians(9, lambda: calculate(USUAL), lambda: elements(USUAL, FILM, 1, order=1))
    _print("steady section of a usual floor", own, "under 5")
    yield Ratio("finite elements of 0.5 % / steady section", other / own, 5.0, True)
    together, apart = _medians(5, lambda: calculate(_compared()), _each_by_itself)
    _print("72 sections of one request", together, "never slow")
    yield Ratio("sections of one request / each by itself", together / apart, 1.0, False)
    warm = replace(USUAL, warm_up=WarmUp(48.0 * 3600.0))
    curve = replace(warm, surface_exchange="basic_curve")
    constant, by_curve = _medians(5, lambda: calculate(warm), lambda: calculate(curve))
    _print("48 h of warm-up, constant exchange", constant, "under 50")
    _print("48 h of warm-up, basic curve", by_curve, "under 50")
    (spent,) = _medians(3, lambda: calculate(_most_cells()))
    _print("cold edge with the most cells", spent, "never slow")
    yield Ratio("memory for the most cells [MB]", _memory(_most_cells()), 200.0, False)


SPACINGS, WATERS = (0.075, 0.10, 0.15, 0.20, 0.25, 0.30), tuple(28.0 + 2.0 * step for step in range(12))


def _compared() -> FloorSectionInputs:
    return replace(USUAL, compared_spacings=SPACINGS, compared_water_temperatures=WATERS)


def _each_by_itself() -> None:
    for spacing in SPACINGS:
        for water in WATERS:
            calculate(replace(USUAL, pipe_spacing=spacing, water_temperature=water))


def _most_cells() -> FloorSectionInputs:
    """Twelve layers and the widest bay at the edge."""
    layers = tuple(SectionLayer(0.12, 0.5) for _ in range(6))
    return replace(
        USUAL,
        pipe_spacing=0.6,
        pipe=replace(USUAL.pipe, outside_diameter=0.010, wall_thickness=0.001),
        screed_cover=0.15,
        screed_thickness=0.3,
        layers_above=layers,
        layers_below=layers,
        cold_edge=ColdEdge(1.0, -10.0, 1.0),
    )


def _memory(inputs: FloorSectionInputs) -> float:
    """Greatest memory [MB] of a calculation and its picture beyond what was taken before."""
    tracemalloc.start()
    calculate(inputs)
    picture(inputs)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    return peak / 1e6


def _medians(rounds: int, *works: Callable[[], Any]) -> list[float]:
    times: list[list[float]] = [[] for _ in works]
    for _ in range(rounds):
        for work, spent in zip(works, times, strict=True):
            started = time.perf_counter()
            work()
            spent.append(time.perf_counter() - started)
    return [statistics.median(spent) for spent in times]


def _print(name: str, seconds: float, aim: str) -> None:
    print(f"{name:<44} {seconds * 1000:8.1f} ms ({aim})", flush=True)
