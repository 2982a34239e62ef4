"""One room laid and looked at again from outside."""

from __future__ import annotations

import time
import traceback
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from multiprocessing import get_context

from tepidarium_engine.checking import Point
from tepidarium_engine.plan.judging.route_check import RouteCheck, check_route
from tepidarium_engine.plan.laying.laying import Laid, Pattern, lay
from tepidarium_engine.plan.pipes.pipe_path import PipePath

from .case import RoomCase

__all__ = ["Outcome", "judged", "laid_and_judged", "outcomes"]

PROCESSES = 2
CHUNK = 8


@dataclass(frozen=True)
class Outcome:
    """``status``: "solved", "refused", "invalid" (a route came back that the validator does not pass) or "raised".

    ``detail`` is the code of the refusal, the codes of the faults, or the exception. ``milliseconds`` of
    the processor's time are of the whole solve, the validator's part included.
    """

    case: RoomCase
    status: str
    detail: str
    milliseconds: float
    laid: Laid | None = None
    check: RouteCheck | None = None


def laid_and_judged(case: RoomCase, pattern: Pattern = "counterflow", quick: bool = False) -> Outcome:
    """Lay the room and judge the route once more, in the frame of the drawing."""
    started = time.process_time()
    try:
        laid = lay(case.room, case.task(pattern, quick))
        milliseconds = 1000.0 * (time.process_time() - started)
        faults = () if laid.path is None else judged(laid.path, laid.entry.place, case).faults
    except Exception:  # whatever it is, it is what we are after
        milliseconds = 1000.0 * (time.process_time() - started)
        return Outcome(case, "raised", traceback.format_exc(limit=-3), milliseconds)
    if laid.check is None or laid.path is None:
        code = laid.refusal.code if laid.refusal else "without a reason"
        return Outcome(case, "refused", code, milliseconds, laid)
    told = sorted({fault.code for fault in (*faults, *laid.check.faults)})
    return Outcome(case, "invalid" if told else "solved", ", ".join(told), milliseconds, laid, laid.check)


def judged(path: PipePath, entry: Point, case: RoomCase) -> RouteCheck:
    """The validator's word on a pipe in the case's room."""
    return check_route(
        path,
        case.room,
        pipe_spacing=case.pipe_spacing,
        wall_clearance=case.wall_clearance,
        bend_radius=case.bend_radius,
        entry=entry,
        tail_pitch=case.tail_pitch,
    )


def outcomes(
    cases: Iterable[RoomCase], pattern: Pattern = "counterflow", quick: bool = False
) -> Iterator[Outcome]:
    """The outcomes in the order of the cases, from two processes at once."""
    with ProcessPoolExecutor(PROCESSES, get_context("spawn")) as pool:
        yield from pool.map(partial(laid_and_judged, pattern=pattern, quick=quick), cases, chunksize=CHUNK)
