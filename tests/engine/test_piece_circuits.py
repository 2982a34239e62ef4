"""How often a room in pieces is laid, counted: a room far from its manifold whose circuits may only be short."""

from __future__ import annotations

from collections import Counter

import pytest
from tepidarium_engine.storey.model.layout_records import StoreyTask
from tepidarium_engine.storey.rooms import field_circuits, piece_circuits
from tepidarium_engine.storey.storey_layout import StoreyMemory, laid_storey

from tests.storeys.case import Door, Room, StoreyCase, rect

LIMIT = 30.0


@pytest.fixture
def task() -> StoreyTask:
    """Tails take half of what each circuit may have."""
    rooms = {
        "hall": Room(rect(0.0, 0.0, 8.0, 1.4), 0.25, count=0),
        "bath": Room(rect(7.2, 1.52, 10.8, 3.52), 0.15),
    }
    doors = (Door("hall", "bath", (7.6, 1.46), 0.8),)
    case = StoreyCase("far bath", rooms, doors, "hall", (0.0, 0.7), maximum_circuit_length=LIMIT)
    return case.task()


@pytest.fixture
def pieces(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """By set of pieces that all can be laid, how many there are."""
    numbers: list[int] = []
    laid = piece_circuits._laid

    def counted(
        own: piece_circuits.OwnFloor, routed: piece_circuits._Routed, refused: Counter[int]
    ) -> object:
        found = laid(own, routed, refused)
        numbers.extend([] if found is None else [len(found)])
        return found

    monkeypatch.setattr(piece_circuits, "_laid", counted)
    return numbers


def test_pieces_are_not_laid_while_their_pipes_must_come_out_too_long(
    task: StoreyTask, pieces: list[int]
) -> None:
    layout = laid_storey(task)
    lengths = [circuit.path.length for circuit in layout.circuits]
    assert max(lengths) <= LIMIT
    assert not layout.unplaced
    assert set(pieces) == {len(lengths)}
    assert layout.rounds > 1  # fewer circuits were asked for before


def test_pieces_that_are_remembered_are_not_laid_again(
    task: StoreyTask, pieces: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    memory = StoreyMemory()
    first = laid_storey(task, memory)
    pieces.clear()
    memory.layouts.clear()
    monkeypatch.setattr(field_circuits, "lay", None)
    assert laid_storey(task, memory) == first
    assert pieces == []


def test_a_room_that_was_laid_often_is_laid_once_more_in_one_way(
    task: StoreyTask, pieces: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(piece_circuits, "_MOST_LAID", 0)
    layout = laid_storey(task)
    assert not layout.unplaced
    assert max(circuit.path.length for circuit in layout.circuits) <= 1.1 * LIMIT
    assert pieces.count(len(layout.circuits)) == 1


def test_a_room_for_which_few_fields_are_left_is_cut_in_fewer_ways(
    task: StoreyTask, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where no lengths are even enough."""
    for name in ("_EVEN_ENOUGH", "_QUICK_SPREAD"):
        monkeypatch.setattr(piece_circuits, name, 0.0)
    free, bound = StoreyMemory(), StoreyMemory(most_fields=6)
    assert not laid_storey(task, free).unplaced
    assert not laid_storey(task, bound).unplaced
    assert bound.laid <= free.laid / 2
