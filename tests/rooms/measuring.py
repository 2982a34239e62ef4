"""A fixed set of rooms laid and measured, one line of figures a room: to compare two trees, or a tree with itself.

``measure FILE`` writes the lines, ``compare FILE FILE`` prints the second beside the first. Times are of the
processor, and told in terms of bare offset rings timed beside them too, as other work on the machine lengthens both.
"""

from __future__ import annotations

import json
import math
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise
from multiprocessing import get_context
from pathlib import Path
from typing import Any, get_args

import shapely
from tepidarium_engine.plan.laying.laying import Pattern

from .case import RoomCase, turned
from .corpus import CORPUS
from .craft import craft_of
from .hard_rooms import HARD
from .outcome import CHUNK, PROCESSES, Outcome, laid_and_judged
from .varied_rooms import stiff_rooms, varied_rooms

__all__ = ["compared", "fixed_set", "measured"]

Record = dict[str, Any]
FIGURES = (
    ("coverage_half", "low"),
    ("coverage_three_quarters", "low"),
    ("least_distance", "low"),
    ("distance_1", "low"),
    ("mixed_share", "low"),
    ("temperature_spread", "high"),
    ("length_ratio", "low"),
    ("u_turns", "high"),
    ("slight_turns", "high"),
    ("short_straights", "high"),
    ("right_angles", "high"),
    ("milliseconds", "high"),
    ("yardsticks", "high"),
)
"""Names, and at which end the bad values are."""
YARDSTICK_ROUNDS = 10
SAME_LENGTH = 0.005
"""Share by which the pipe of a room may change when its drawing changes by less than a millimetre."""


@dataclass(frozen=True)
class Job:
    """A room of a named set."""

    name: str
    case: RoomCase
    pattern: Pattern
    twin: str = ""
    """Of rooms drawn a little otherwise: the name of the room that they are."""


def fixed_set(count: int, real: Iterable[RoomCase] = ()) -> Iterator[Job]:
    """The corpus and ``real`` rooms, ``count`` at random as counterflow and half as many as serpentine, with stiff pipe
    a third as many, those that take long, and drawings that differ by less than a millimetre."""
    for pattern in get_args(Pattern):
        rooms = (case for case in CORPUS if case.kind != "refused")
        yield from (Job("corpus", case, pattern) for case in rooms)
        yield from (Job("hard", case, pattern) for case in HARD)
    real = list(real)
    yield from (Job("real", case, "counterflow") for case in real)
    yield from (Job("real", case, "serpentine") for case in real[::3])
    yield from (Job("random", case, "counterflow") for case in varied_rooms(count))
    yield from (Job("random", case, "serpentine") for case in varied_rooms(count // 2))
    yield from (Job("stiff", case, "counterflow") for case in stiff_rooms(count // 3))
    yield from _redrawn(count // 10)


def _redrawn(count: int) -> Iterator[Job]:
    for case in varied_rooms(count, 50_000):
        yield Job("redrawn", case, "counterflow", case.name)
        for number, other in enumerate((_jittered(case, 1), _jittered(case, 2), turned(case, 17.0))):
            yield Job("redrawn", replace(other, name=f"{case.name} ({number + 1})"), "counterflow", case.name)


def _jittered(case: RoomCase, seed: int) -> RoomCase:
    """Every corner moved by up to 0.4 mm."""

    def moved(ring: tuple[tuple[float, float], ...], first: int) -> tuple[tuple[float, float], ...]:
        places = []
        for number, (x, y) in enumerate(ring):
            phase = 12.9898 * (number + first) + 78.233 * seed
            u, v = (math.sin(phase) * 43758.5453) % 1.0, (math.cos(phase) * 24634.6345) % 1.0
            angle, away = 2.0 * math.pi * u, 0.0004 * v
            places.append((x + away * math.cos(angle), y + away * math.sin(angle)))
        return tuple(places)

    voids = tuple(moved(ring, 100 * number) for number, ring in enumerate(case.voids, 1))
    return replace(case, outline=moved(case.outline, 0), voids=voids)


def measured(jobs: Sequence[Job], quick: bool = False) -> Iterator[Record]:
    """A record a room, in the order of the jobs."""
    with ProcessPoolExecutor(PROCESSES, get_context("spawn")) as pool:
        yield from pool.map(partial(_record, quick=quick), jobs, chunksize=CHUNK)


def _record(job: Job, quick: bool) -> Record:
    before = _yardstick()
    outcome = laid_and_judged(job.case, job.pattern, quick)
    yardstick = (before + _yardstick()) / 2.0
    return {
        "set": job.name,
        "room": job.case.name,
        "kind": job.case.kind,
        "pattern": job.pattern,
        "twin": job.twin,
        "status": outcome.status,
        "detail": outcome.detail[-300:],
        "rings": job.case.rings_across,
        "stiffness": round(job.case.bend_radius / job.case.pipe_spacing, 3),
        "milliseconds": round(outcome.milliseconds, 1),
        "yardsticks": round(outcome.milliseconds / yardstick, 3),
        **_figures(outcome),
    }


def _yardstick() -> float:
    """Milliseconds of the processor for the bare offset rings of one room: what else runs lengthens these too."""
    started = time.process_time()
    for _ in range(YARDSTICK_ROUNDS):
        area = shapely.box(0.0, 0.0, 7.0, 5.0)
        while not area.is_empty:
            corners = shapely.get_coordinates(area).tolist()
            sum(math.dist(a, b) for a, b in pairwise(corners))
            area = shapely.buffer(area, -0.15, join_style="mitre")
    return 1000.0 * (time.process_time() - started)


def _figures(outcome: Outcome) -> Record:
    laid, check, case = outcome.laid, outcome.check, outcome.case
    if laid is None or check is None or laid.path is None:
        return {}
    measures = check.measures
    craft = craft_of(laid.path, case.room.polygon, case.bend_radius)
    names = (
        "coverage_half",
        "coverage_three_quarters",
        "least_distance",
        "distance_1",
        "length_ratio",
        "length",
    )
    return {
        **{name: getattr(measures, name) for name in names},
        "mixed_share": measures.mixed_share,
        "temperature_spread": measures.temperature_spread,
        "u_turns": measures.bends.u_turn,
        "slight_turns": craft.slight_turns,
        "short_straights": craft.short_straights,
        "right_angles": craft.right_angles,
        "lost": len(laid.lost),
        "engine": laid.engine,
        "variant": laid.variant,
        "spacings": laid.spacings,
    }


def compared(before: Sequence[Record], after: Sequence[Record]) -> Iterator[str]:
    """Lines of text: each set and pattern with counts, and figures of the rooms solved in both."""
    groups = dict.fromkeys((one["set"], one["pattern"]) for one in after)
    for name, pattern in groups:
        mine = [one for one in after if (one["set"], one["pattern"]) == (name, pattern)]
        theirs = {one["room"]: one for one in before if (one["set"], one["pattern"]) == (name, pattern)}
        yield from _group(f"{name}, {pattern}", mine, theirs)
        if name == "redrawn":
            for who, found in (("before", list(theirs.values())), ("after", mine)):
                yield f"  {who}: {_unlike(found)}"


def _group(title: str, mine: Sequence[Record], theirs: dict[str, Record]) -> Iterator[str]:
    pairs = [(theirs[one["room"]], one) for one in mine if one["room"] in theirs]
    solved = [(a, b) for a, b in pairs if a["status"] == b["status"] == "solved"]
    yield f"--- {title}: {len(mine)} rooms, {len(solved)} solved in both"
    for who, found in (("before", [a for a, _ in pairs]), ("after", mine)):
        bad = [one for one in found if one["status"] != "solved"]
        named = "; ".join(f"{one['room']} {one['status']} {one['detail'][-40:]}" for one in bad[:6])
        yield f"  {who}: {len(bad)} not solved. {named}"
        rings = [one for one in found if one["rings"] >= 5 and one.get("mixed_share") is not None]
        if rings and rings[0]["pattern"] == "counterflow":
            share = sum(one["mixed_share"] >= 0.8 for one in rings) / len(rings)
            yield f"    mixed share >= 0.80 in {share:.3f} of {len(rings)} rooms with five rings"
        times = sorted(one["milliseconds"] for one in found)
        if times:
            yield f"    time: sum {sum(times) / 1000.0:.1f} s, p99 {_at(times, 0.99):.0f} ms, most {times[-1]:.0f} ms"
    if not solved:
        return
    ratio = sum(b["yardsticks"] for _, b in solved) / sum(a["yardsticks"] for a, _ in solved)
    yield f"  time ratio {ratio:.3f}"
    yield f"  {'':26}{'5 % bad':>19}{'median':>19}{'mean':>19}{'worst':>19}"
    for figure, bad_end in FIGURES:
        columns = []
        both = [
            sorted((one[figure] for one in side if one.get(figure) is not None), reverse=bad_end == "high")
            for side in ([a for a, _ in solved], [b for _, b in solved])
        ]
        if not all(both):
            continue
        measures: tuple[Callable[[list[float]], float], ...] = (
            lambda values: _at(values, 0.05),
            lambda values: _at(values, 0.5),
            lambda values: sum(values) / len(values),
            lambda values: values[0],
        )
        for value in measures:
            columns.append(f"{value(both[0]):9.4g} {value(both[1]):9.4g}")
        yield f"  {figure:26}" + "".join(columns)


def _at(ordered: Sequence[float], share: float) -> float:
    return ordered[round(share * (len(ordered) - 1))]


def _unlike(found: Sequence[Record]) -> str:
    """How many drawings of a room came to another length."""
    length = {one["room"]: one.get("length") for one in found}
    twins = [one for one in found if one["room"] != one["twin"]]
    unlike = []
    for one in twins:
        own, other = length[one["room"]], length[one["twin"]]
        same = own == other if own is None or other is None else abs(own / other - 1.0) <= SAME_LENGTH
        if not same:
            unlike.append(one["room"])
    return f"{len(unlike)} of {len(twins)} drawings come to another length: {'; '.join(unlike[:8])}"


def read(file: Path) -> list[Record]:
    """Records as ``measure`` wrote them."""
    return [json.loads(line) for line in file.read_text(encoding="utf-8").splitlines()]
