"""A refused room names the smallest change that helps: it is read from the text, made, and asked again."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from tepidarium_engine.checking import Point
from tepidarium_engine.errors import Fault, InputError
from tepidarium_engine.plan.asking.route_remedies import with_remedy
from tepidarium_engine.plan.laying.laying import Pattern
from tepidarium_engine.routes import RoutesInputs, calculate

from tests.rooms.refused_rooms import KINDS, refused_room

HELPED = 0.75
"""Share of refused rooms for which a change is named: about nine in ten are; the others need two changes at once, or
more trials than a refusal may take."""
PLACE = re.compile(r"\[(-?\d+\.\d+), (-?\d+\.\d+)\]")


def places(words: str) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in PLACE.findall(words))


def number(words: str) -> float:
    return float(re.findall(r"\d+(?:\.\d+)?", words)[0])


def wider(room: RoutesInputs, words: str) -> RoutesInputs:
    (left, y), (right, _) = room.doorway or ((0.0, 0.0), (0.0, 0.0))
    more = number(words) / 2.0
    return replace(room, doorway=((left - more, y), (right + more, y)))


CHANGES: tuple[tuple[str, Callable[[RoutesInputs, str], RoutesInputs]], ...] = (
    ("a pipe spacing of", lambda room, words: replace(room, pipe_spacing=number(words) / 1000.0)),
    ("a wall clearance of", lambda room, words: replace(room, wall_clearance=number(words) / 1000.0)),
    ("a tail pitch of", lambda room, words: replace(room, tail_pitch=number(words) / 1000.0)),
    (
        "a pipe that may be bent to",
        lambda room, words: replace(
            room, pipe=replace(room.pipe, minimum_bend_radius=number(words) / 1000.0)
        ),
    ),
    ("a doorway", wider),
    ("the doorway", lambda room, words: replace(room, doorway=places(words))),
    ("the entry", lambda room, words: replace(room, entry=places(words)[0])),
    ("the second entry", lambda room, words: replace(room, second_entry=places(words)[0])),
    ("the movement joint", lambda room, words: replace(room, movement_joints=(places(words),))),
    ("circuits of up to", lambda room, words: replace(room, maximum_circuit_length=number(words))),
    ("", lambda room, words: replace(room, circuits=int(number(words)))),
)
"""How the words begin, and what they ask for; counts of circuits come last."""


def refusal(room: RoutesInputs) -> str:
    with pytest.raises(InputError) as caught:
        calculate(room)
    return caught.value.faults[0].detail


def changed(room: RoutesInputs, detail: str) -> RoutesInputs | None:
    """The request as the text advises; None where it names no change that was tried."""
    _, advised, words = detail.partition(": it can be laid with ")
    if not advised:
        return None
    return next(change(room, words) for begins, change in CHANGES if words.startswith(begins))


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_advised_is_then_accepted(kind: str) -> None:
    room = changed(refused_room(kind, 3), refusal(refused_room(kind, 3)))
    assert room is not None
    assert calculate(room).circuits


def test_without_a_change_that_helps_none_is_made_up() -> None:
    """In a slot 50 mm wide no pipe turns."""
    slot = RoutesInputs(((0.0, 0.0), (3.0, 0.0), (3.0, 0.05), (0.0, 0.05)), 0.15, entry=(1.5, 0.0))
    assert changed(slot, refusal(slot)) is None


@pytest.mark.parametrize(
    ("pattern", "corners", "tried"), [("serpentine", 8, 2), ("serpentine", 60, 0), ("counterflow", 60, 2)]
)
def test_a_serpentine_round_many_corners_is_not_laid_again_and_again(
    pattern: Pattern, corners: int, tried: int
) -> None:
    """Each trial takes seconds there; how many are made is bounded by the floor and its corners."""
    circle = [2.0 * math.pi * number / corners for number in range(corners)]
    outline = tuple((1.5 * math.cos(angle), 1.5 * math.sin(angle)) for angle in circle)
    room = RoutesInputs(outline, 0.15, entry=outline[0], pattern=pattern)
    asked: list[RoutesInputs] = []

    fault = Fault("/wall_clearance", "no_route_wall_clearance", "the pipe comes too near to the wall")
    error = InputError(fault)

    def refused(inputs: RoutesInputs) -> Fault:
        asked.append(inputs)
        return fault

    assert with_remedy(error, room, refused) is error
    assert min(len(asked), 2) == tried


@pytest.mark.long
def test_most_refused_rooms_get_a_change_that_helps() -> None:
    rooms = [refused_room(kind, number) for kind in KINDS for number in range(20, 25)]
    asked = [changed(room, refusal(room)) for room in rooms]
    again = [room for room in asked if room is not None]
    assert all(calculate(room).circuits for room in again)
    assert len(again) >= HELPED * len(rooms), len(again)
