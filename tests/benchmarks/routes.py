"""The route engine against the bare offset rings of the same rooms: what the geometry alone costs.

Times are of the processor, in turns and the median of a few, as another program on the machine lengthens both.
The bounds are 150 ms for 20 m2, 250 ms for 35 m2, 25 ms in quick mode and 1.5 s for the worst room, on a
machine where the bare rings of a rectangle of 35 m2 at 150 mm take 0.2 ms.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any

import shapely
from tepidarium_engine.checking import Point
from tepidarium_engine.plan.laying.laying import lay
from tepidarium_engine.plan.pipes.pipe_path import PipePath

from tests.rooms.case import Ring, RoomCase, room
from tests.rooms.corpus import CORPUS
from tests.rooms.outcome import judged

from .ratio import Ratio

__all__ = ["ratios"]

PIPE = (150.0, 16.0)
ROUNDS = 5
BARE_ROUNDS = 20
"""Rings are bare so often in one measurement: once is too short for the clock."""
EVERY = 9
"""Each so many rooms of the corpus are laid."""
SMALL, LARGE = 400.0, 9_600.0
"""Areas of rooms in squares of the spacing; one circuit takes 10 000 at most."""

_Shape = tuple[str, Ring, tuple[Ring, ...]]


def _shapes(width: float, depth: float) -> tuple[_Shape, ...]:
    """A rectangle, an L, a room with an island and an oblique one, all of about the same area [m]."""
    w, d = width, depth
    rectangle = ((0.0, 0.0), (w, 0.0), (w, d), (0.0, d))
    legs = (
        (0.0, 0.0),
        (1.12 * w, 0.0),
        (1.12 * w, 0.66 * d),
        (0.56 * w, 0.66 * d),
        (0.56 * w, 1.13 * d),
        (0.0, 1.13 * d),
    )
    island = ((0.4 * w, 0.44 * d), (0.62 * w, 0.44 * d), (0.62 * w, 0.62 * d), (0.4 * w, 0.62 * d))
    oblique = ((0.0, 0.0), (1.08 * w, 0.1 * d), (0.98 * w, 1.07 * d), (0.1 * w, 0.98 * d))
    return (
        ("rectangle", rectangle, ()),
        ("L", legs, ()),
        ("island", rectangle, (island,)),
        ("oblique", oblique, ()),
    )


def _rooms(width: float, depth: float) -> list[RoomCase]:
    """With the entry in the first wall, a fifth of the way along it."""
    cases = []
    for name, outline, voids in _shapes(width, depth):
        x, y = outline[1]
        cases.append(room(name, "benchmark", outline, (0.2 * x, 0.2 * y), PIPE, *voids))
    return cases


ROOMS_20 = _rooms(5.0, 4.0)
ROOMS_35 = _rooms(7.0, 5.0)


def ratios() -> Iterator[Ratio]:
    """Whole solves with the validator included, the validator alone, and how a solve grows with the floor."""
    yield _solves("route in 20 m2", ROOMS_20, False, 1000.0)
    yield _solves("route in 35 m2", ROOMS_35, False, 1250.0)
    yield _solves("quick route in 20 m2", ROOMS_20, True, 170.0)
    yield _validator()
    yield _growth()
    yield _worst()


def _medians(rounds: int, *works: Callable[[], Any]) -> list[float]:
    """Milliseconds of the processor."""
    times: list[list[float]] = [[] for _ in works]
    for _ in range(rounds):
        for work, spent in zip(works, times, strict=True):
            started = time.process_time()
            work()
            spent.append(1000.0 * (time.process_time() - started))
    return [statistics.median(spent) for spent in times]


def _laid(case: RoomCase, quick: bool = False) -> tuple[PipePath, Point]:
    """The pipe and the place of its entry."""
    laid = lay(case.room, case.task(quick=quick))
    assert laid.path is not None, laid.refusal
    return laid.path, laid.entry.place


def _bare_rings(case: RoomCase) -> None:
    """Mitred offsets inwards by the clearance and then by one spacing after the other."""
    area, distance = case.room.polygon, case.wall_clearance
    while not area.is_empty:
        area = shapely.buffer(area, -distance, join_style="mitre", mitre_limit=2.5)
        distance = case.pipe_spacing


def _times(case: RoomCase, work: Callable[[], Any], rounds: int = ROUNDS) -> tuple[float, float]:
    """Of the work and of the bare rings [ms]."""

    def bare() -> None:
        for _ in range(BARE_ROUNDS):
            _bare_rings(case)

    work()
    spent, rings = _medians(rounds, work, bare)
    return spent, rings / BARE_ROUNDS


def _printed(name: str, spent: float, rings: float) -> None:
    print(f"{name:<44} {spent:8.1f} ms, bare rings {rings:.3f} ms, {spent / rings:.0f} times")


def _solves(name: str, cases: Sequence[RoomCase], quick: bool, bound: float) -> Ratio:
    """The median room; all are printed."""
    shares = []
    for case in cases:
        spent, rings = _times(case, partial(_laid, case, quick))
        _printed(f"{name}, {case.name}", spent, rings)
        shares.append(spent / rings)
    return Ratio(f"{name} / bare rings", statistics.median(shares), bound, at_least=False)


def _validator() -> Ratio:
    shares = []
    for case in ROOMS_35:
        path, entry = _laid(case)
        spent, rings = _times(case, partial(judged, path, entry, case))
        _printed(f"validator in 35 m2, {case.name}", spent, rings)
        shares.append(spent / rings)
    return Ratio("validator in 35 m2 / bare rings", statistics.median(shares), 100.0, at_least=False)


def _growth() -> Ratio:
    """Of the time over that of the area: 1 is growth in step with A / T2."""
    spents = []
    for squares in (SMALL, LARGE):
        side = (squares * (PIPE[0] / 1000.0) ** 2 / 1.3) ** 0.5
        case = _rooms(1.3 * side, side)[0]
        spent, rings = _times(case, partial(_laid, case), rounds=3)
        _printed(f"route in {squares:.0f} squares of the spacing", spent, rings)
        spents.append(spent)
    grown = spents[1] / spents[0] / (LARGE / SMALL)
    return Ratio("growth of a solve / growth of the floor", grown, 1.0, at_least=False)


def _worst() -> Ratio:
    """Each room is laid once; the bare rings are those of the rectangle of 35 m2."""
    spents = []
    for case in CORPUS[::EVERY]:
        task = case.task()
        started = time.process_time()
        lay(case.room, task)
        spents.append((1000.0 * (time.process_time() - started), case.name))
    _, rings = _times(ROOMS_35[0], lambda: None)
    worst, name = max(spents)
    median = statistics.median(spent for spent, _ in spents)
    print(
        f"{f'{len(spents)} rooms of the corpus':<44} {median:8.1f} ms median, {worst:.1f} ms worst ({name})"
    )
    return Ratio("worst room of the corpus / bare rings", worst / rings, 7500.0, at_least=False)
