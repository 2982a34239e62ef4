"""How well storeys are laid: ``python -m tests.storeys.measure [group[=first,count] ...] [draw=FOLDER]``.

Groups: ``corpus`` (those by hand), ``random``, ``corridors``, ``buildings`` (feet and inches, places of manifolds
found). For each group it prints what became of the circuits, bare floor, tails, lengths, time and faults.
"""

from __future__ import annotations

import signal
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import tepidarium_engine.building.drawn_house as drawing_house
from shapely import LineString
from tepidarium_engine import designs
from tepidarium_engine.designs import DesignsInputs
from tepidarium_engine.storey.model.layout_records import StoreyLayout, StoreyTask
from tepidarium_engine.storey.storey_layout import laid_storey

from tests.storeys.bare import BareRoom, bare_floor
from tests.storeys.buildings import building, building_with_inner_hall, floor_area
from tests.storeys.check import violations
from tests.storeys.corpus import CORPUS
from tests.storeys.corridor_storeys import corridor_storey
from tests.storeys.picture import drawing, picture
from tests.storeys.random_storeys import random_storey

__all__ = ["Measured", "last_drawing", "main"]

LONGEST = 60.0
"""For one storey [s of processor]; one that takes longer counts as a fault."""
HALL = 2
"""Circuits of others that pass a room that counts as a hall."""
SIZES = {"corpus": len(CORPUS), "random": 200, "corridors": 100, "buildings": 100, "inner": 60}
DESIGNS = {"buildings": building, "inner": building_with_inner_hall}
"""Groups that are designed as a whole; ``inner``: with halls that need little heat."""


@dataclass
class Measured:
    """A laid storey and its figures."""

    name: str
    task: StoreyTask
    layout: StoreyLayout
    seconds: float
    area: float
    heated: frozenset[int]
    """Rooms that are to be heated, by tails alone, too."""

    @property
    def bare(self) -> list[BareRoom]:
        return [room for room in bare_floor(self.task, self.layout) if room.room in self.heated]

    @property
    def halls(self) -> set[int]:
        """Rooms that several circuits of others pass."""
        passing: Counter[int] = Counter()
        for circuit in self.layout.circuits:
            line = LineString(circuit.path.polyline(1e-3))
            passing.update(
                index
                for index, room in enumerate(self.task.plan.rooms)
                if index != circuit.room and line.intersection(room).length > 1.0
            )
        return {index for index, count in passing.items() if count >= HALL}

    @property
    def spreads(self) -> list[float]:
        """(Longest - shortest) / mean of rooms with several circuits."""
        found = []
        for index, room in enumerate(self.task.rooms):
            lengths = [one.path.length for one in self.layout.circuits if one.room == index]
            if len(lengths) > 1 and not room.joints:
                found.append((max(lengths) - min(lengths)) * len(lengths) / sum(lengths))
        return found

    @property
    def faults(self) -> list[str]:
        return list(violations(self.task, self.layout))


@dataclass
class Tally:
    storeys: int = 0
    drawn: int = 0
    unplaced: Counter[str] = field(default_factory=Counter)
    bare: float = 0.0
    floor: float = 0.0
    hall_bare: list[float] = field(default_factory=list)
    tails: list[float] = field(default_factory=list)
    spreads: list[float] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)
    faulty: int = 0
    whole: list[bool] = field(default_factory=list)
    longest_tail: list[float] = field(default_factory=list)
    overlong: int = 0

    def add(self, one: Measured) -> Iterator[str]:
        self.storeys += 1
        self.drawn += len(one.layout.circuits)
        self.unplaced.update(each.code for each in one.layout.unplaced)
        self.seconds.append(one.seconds)
        self.spreads += one.spreads
        missing = {each.room for each in one.layout.unplaced}
        bare, halls = one.bare, one.halls
        self.bare += sum(room.floor.area for room in bare if room.room not in missing)
        self.floor += sum(room.area for room in bare if room.room not in missing)
        shares = [room.share for room in bare if room.room in halls]
        self.hall_bare += shares
        pipe = sum(circuit.path.length for circuit in one.layout.circuits)
        if pipe:
            self.tails.append(sum(circuit.tail_length for circuit in one.layout.circuits) / pipe)
            self.longest_tail += [
                circuit.tail_length / circuit.path.length for circuit in one.layout.circuits
            ]
        self.overlong += sum(
            circuit.path.length > one.task.rooms[circuit.room].maximum_circuit_length + 1e-6
            for circuit in one.layout.circuits
        )
        if one.area <= 230.0:
            self.whole.append(not one.layout.unplaced)
        faults = one.faults
        self.faulty += bool(faults)
        refused = ", ".join(f"{each.id} {each.code}" for each in one.layout.unplaced) or "none"
        worst = max(shares, default=0.0)
        yield (
            f"{one.name}: {len(one.layout.circuits)} circuits, {one.seconds:.2f} s, bare halls up to "
            f"{100.0 * worst:.1f} %, refused: {refused}"
        )
        for each in one.layout.unplaced:
            yield f"    {each.id}: {each.message}"
        yield from (f"    FAULT {fault}" for fault in faults)

    def told(self) -> Iterator[str]:
        asked = self.drawn + self.unplaced.total()
        yield f"circuits drawn {self.drawn} of {asked}; unplaced {100.0 * self.unplaced.total() / max(1, asked):.2f} %"
        yield "  reasons: " + (
            ", ".join(f"{code} {count}" for code, count in self.unplaced.most_common()) or "none"
        )
        yield f"all drawn in {sum(self.whole)} of {len(self.whole)} storeys up to 230 m2"
        bare = 100.0 * self.bare / max(1e-9, self.floor)
        yield f"bare floor {bare:.2f} % of all; halls: {_spread(self.hall_bare, 100.0)} %"
        over = sum(share > 0.06 for share in self.hall_bare)
        yield f"  halls with more than 6 % bare: {over} of {len(self.hall_bare)}"
        yield f"share of tails by storey: {_spread(self.tails, 100.0)} %; circuits over 35 %: " + str(
            sum(share > 0.35 for share in self.longest_tail)
        )
        even = [sum(spread <= limit for spread in self.spreads) for limit in (0.03, 0.08)]
        yield (
            f"length spread: {_spread(self.spreads, 100.0)} %; within 3 % {even[0]}, within 8 % {even[1]} of "
            f"{len(self.spreads)}; circuits over their length {self.overlong}"
        )
        yield f"time: {_spread(self.seconds, 1.0)} s, in all {sum(self.seconds):.1f} s; over 20 s: " + str(
            sum(each > 20.0 for each in self.seconds)
        )
        yield f"storeys with faults: {self.faulty} of {self.storeys}"


def _spread(values: Sequence[float], factor: float) -> str:
    if not values:
        return "none"
    numbers = np.percentile(np.array(values) * factor, [50.0, 95.0, 100.0])
    return "median {:.2f}, 95 % {:.2f}, most {:.2f}".format(*numbers)


def _task_case(case: object) -> Iterator[Measured]:
    started = time.process_time()
    task = case.task()  # type: ignore[attr-defined]
    layout = laid_storey(task)
    area = sum(room.area for room in task.plan.rooms)
    heated = frozenset(index for index, room in enumerate(task.rooms) if room.count != 0)
    yield Measured(case.name, task, layout, time.process_time() - started, area, heated)  # type: ignore[attr-defined]


def last_drawing(inputs: DesignsInputs) -> tuple[StoreyTask, StoreyLayout]:
    """That of the design, of one part, under names of its own: others are drawn before it, and for remedies."""
    seen: list[tuple[StoreyTask, StoreyLayout]] = []
    whole = drawing_house.laid_storey

    def kept(task: StoreyTask, *rest: object, **named: object) -> StoreyLayout:
        layout = whole(task, *rest, **named)  # type: ignore[arg-type]
        seen.append((task, layout))
        return layout

    drawing_house.laid_storey = kept  # type: ignore[assignment]
    try:
        result = designs.calculate(inputs)
    finally:
        drawing_house.laid_storey = whole
    assert result.layout is not None
    lengths = sorted(round(one.length, 6) for one in result.layout.drawn_circuits)
    return next(
        (task, layout)
        for task, layout in seen
        if sorted(round(one.path.length, 6) for one in layout.circuits) == lengths
    )


def _design_case(name: str, inputs: DesignsInputs) -> Iterator[Measured]:
    """Its time is that of the whole design."""
    started = time.process_time()
    task, layout = last_drawing(inputs)
    seconds, heated = time.process_time() - started, frozenset(range(len(task.rooms)))
    yield Measured(name, task, layout, seconds, floor_area(inputs), heated)


def _cases(group: str, first: int, count: int) -> Iterator[tuple[str, Callable[[], Iterator[Measured]]]]:
    numbers = range(first, first + count)
    if group == "corpus":
        for case in CORPUS[first : first + count]:
            yield case.name, lambda case=case: _task_case(case)
    elif group in DESIGNS:
        for seed in numbers:
            yield f"{group} {seed}", lambda seed=seed: _design_case(f"{group} {seed}", DESIGNS[group](seed))
    else:
        drawn = random_storey if group == "random" else corridor_storey
        for seed in numbers:
            yield f"{group} {seed}", lambda seed=seed: _task_case(drawn(seed))


def _too_long(*_: object) -> None:
    raise TimeoutError(f"not done in {LONGEST:.0f} s")


def main(words: list[str]) -> None:
    folders = [Path(word.removeprefix("draw=")) for word in words if word.startswith("draw=")]
    quiet = "quiet" in words
    asked = [word for word in words if not word.startswith("draw=") and word != "quiet"] or list(SIZES)
    signal.signal(signal.SIGVTALRM, _too_long)
    for word in asked:
        group, _, span = word.partition("=")
        first, count = (int(number) for number in span.split(",")) if span else (0, SIZES[group])
        tally = Tally()
        for name, laid in _cases(group, first, count):
            signal.setitimer(signal.ITIMER_VIRTUAL, LONGEST)
            try:
                for one in laid():
                    signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)
                    lines = list(tally.add(one))
                    if not quiet:
                        print("\n".join(lines), flush=True)
                    for folder in folders:
                        drawn = drawing(one.name, one.task, one.layout, lines[1:4])
                        (folder / f"{name.replace(' ', '-')}.png").write_bytes(picture(drawn))
            except Exception as error:
                tally.faulty += 1
                tally.storeys += 1
                print(f"{name}: {type(error).__name__} {error}", flush=True)
            finally:
                signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)
        print(f"== {group}, {tally.storeys} storeys", *tally.told(), sep="\n", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
