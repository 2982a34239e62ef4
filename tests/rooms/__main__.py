"""What the engine makes of many rooms: ``python -m tests.rooms``
``figures | gallery FOLDER | long | real FILE | measure FILE | compare FILE FILE``.

Not part of the tests, which hold the same rooms to what must not be missed.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import shapely
from tepidarium_engine.errors import InputError
from tepidarium_engine.plan.laying.laying import Pattern

from .case import RoomCase, room
from .corpus import CORPUS
from .figures import report
from .gallery import write_gallery
from .measuring import compared, fixed_set, measured, read
from .outcome import Outcome, outcomes
from .random_rooms import random_rooms

LONG = 20_000
TOLD_EVERY = 250
TRIED_SPACING = (150.0, 16.0)
"""Spacing and pipe for outlines that come without [mm]."""


def main(words: list[str]) -> int:
    """Run a command; the exit code is 1 when a route was invalid or an exception came out."""
    asked = _arguments(words)
    patterns: tuple[Pattern, ...] = (asked.pattern,) if asked.pattern else get_args(Pattern)
    if asked.command == "gallery":
        for file in write_gallery(Path(asked.folder), _picked(asked.kind), patterns):
            print(file)
        return 0
    if asked.command == "measure":
        return _measure(asked)
    if asked.command == "compare":
        for line in compared(read(Path(asked.before)), read(Path(asked.after))):
            print(line)
        return 0
    bad = 0
    for pattern in patterns:
        cases = _cases(asked)
        found = list(_with_progress(outcomes(cases, pattern, asked.quick), len(cases)))
        print(f"--- {pattern}{', quick' if asked.quick else ''}", flush=True)
        for line in report(found, pattern):
            print(line, flush=True)
        if asked.command == "real":
            for outcome in found:
                print(f"  {outcome.case.name}: {outcome.status} {outcome.detail}")
        bad += sum(outcome.status in {"invalid", "raised"} for outcome in found)
    return 1 if bad else 0


def _arguments(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.rooms", description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)
    figures = commands.add_parser("figures", help="the rooms of the corpus, or generated ones")
    figures.add_argument("--random", type=int, default=0, metavar="N", help="N generated rooms instead")
    figures.add_argument("--first", type=int, default=0, metavar="SEED", help="number of the first of them")
    commands.add_parser("long", help=f"{LONG} generated rooms")
    commands.add_parser("real", help="outlines of a file").add_argument("file")
    commands.add_parser("gallery", help="draw the corpus").add_argument("folder")
    measure = commands.add_parser("measure", help="a fixed set of rooms, a line of figures each")
    measure.add_argument("file")
    measure.add_argument("--count", type=int, default=300, metavar="N", help="rooms at random")
    measure.add_argument("--real", metavar="FILE", help="outlines of a file, too")
    measure.add_argument("--set", metavar="NAME", help="only this set of rooms")
    compare = commands.add_parser("compare", help="the figures of one such file beside those of another")
    compare.add_argument("before")
    compare.add_argument("after")
    for command in commands.choices.values():
        command.add_argument("--pattern", choices=get_args(Pattern))
        command.add_argument("--kind", help="only rooms of this kind")
        command.add_argument("--quick", action="store_true", help="without the spacing fit")
    return parser.parse_args(words)


def _measure(asked: argparse.Namespace) -> int:
    real = list(_real(Path(asked.real))) if asked.real else []
    jobs = [
        job
        for job in fixed_set(asked.count, real)
        if asked.set in {None, job.name} and asked.pattern in {None, job.pattern}
    ]
    with Path(asked.file).open("w", encoding="utf-8") as file:
        for record in measured(jobs, asked.quick):
            file.write(json.dumps(record) + "\n")
    return 0


def _with_progress(found: Iterator[Outcome], count: int) -> Iterator[Outcome]:
    """The same outcomes; what went wrong is told at once, the number done every now and then."""
    for done, outcome in enumerate(found, 1):
        if outcome.status in {"invalid", "raised"}:
            print(f"{outcome.status}: {outcome.case.name}: {outcome.detail}", file=sys.stderr, flush=True)
        if done % TOLD_EVERY == 0:
            print(f"{done} of {count}", file=sys.stderr, flush=True)
        yield outcome


def _cases(asked: argparse.Namespace) -> list[RoomCase]:
    if asked.command == "real":
        return list(_real(Path(asked.file)))
    count = LONG if asked.command == "long" else asked.random
    if not count:
        return _picked(asked.kind)
    return list(random_rooms(count, getattr(asked, "first", 0)))


def _picked(kind: str | None) -> list[RoomCase]:
    return [case for case in CORPUS if kind in {None, case.kind}]


def _real(file: Path) -> Iterator[RoomCase]:
    """Outlines from a list of {"building", "room", "outline_wkt"} [m], entered halfway along the longest wall.

    What the geometry's own checks refuse is printed and left out.
    """
    for record in json.loads(file.read_text(encoding="utf-8")):
        area = shapely.from_wkt(record["outline_wkt"])
        rings = [tuple(ring.coords[:-1]) for ring in (area.exterior, *area.interiors)]
        walls = zip(rings[0], rings[0][1:] + rings[0][:1], strict=True)
        (x0, y0), (x1, y1) = max(walls, key=lambda wall: shapely.LineString(wall).length)
        entry = ((x0 + x1) / 2.0, (y0 + y1) / 2.0)
        name = f"{record['building']} {record['room']}"
        case = room(name, record["building"], rings[0], entry, TRIED_SPACING, *rings[1:])
        try:
            case.room  # noqa: B018
        except InputError as refused:
            print(f"  {name}: not an outline: {refused}")
            continue
        yield case


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
