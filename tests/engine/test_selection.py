"""Selections for a house against every combination of the choices of its rooms."""

from __future__ import annotations

import itertools
import random
from collections.abc import Sequence

import pytest
from tepidarium_engine.options.selection import Candidate, SelectionTask, best_selection

NODES = 5000


def random_task(seed: int, *, rooms: int, choices: int, manifolds: int, tight: float) -> SelectionTask:
    """Closer choices cost more, take more ports and need less flow; ``tight`` is the share of ports and flow that is
    there of what the cheapest choices take."""
    numbers = random.Random(seed)
    house = tuple(
        tuple(
            Candidate(
                (
                    numbers.choice([0, 0, numbers.randrange(40)]),
                    numbers.randrange(20, 60),
                    numbers.randrange(5, 30),
                ),
                numbers.randrange(manifolds),
                numbers.randrange(1, 4),
                numbers.randrange(5, 30),
            )
            for _ in range(choices)
        )
        for _ in range(rooms)
    )
    ports = tuple(round(tight * 2 * rooms / manifolds) + 1 for _ in range(manifolds))
    return SelectionTask(house, ports, round(tight * 17 * rooms), NODES)


def every_selection(task: SelectionTask) -> list[tuple[int, ...]]:
    return [
        taken for taken in itertools.product(*(range(len(room)) for room in task.rooms)) if fits(task, taken)
    ]


def fits(task: SelectionTask, taken: Sequence[int]) -> bool:
    """Ports and flow, counted here."""
    chosen = [task.rooms[room][number] for room, number in enumerate(taken)]
    for manifold, most in enumerate(task.ports or ()):
        if sum(one.ports for one in chosen if one.manifold == manifold) > most:
            return False
    return task.flow is None or sum(one.flow for one in chosen) <= task.flow


def values(task: SelectionTask, taken: Sequence[int]) -> tuple[int, ...]:
    chosen = [task.rooms[room][number].measures for room, number in enumerate(taken)]
    return tuple(sum(column) for column in zip(*chosen, strict=True))


@pytest.mark.parametrize("tight", [0.7, 0.85, 1.0, 2.0])
@pytest.mark.parametrize("manifolds", [1, 2])
def test_no_combination_of_a_small_house_is_better(manifolds: int, tight: float) -> None:
    coupled = 0
    for seed in range(12):
        task = random_task(seed, rooms=4, choices=5, manifolds=manifolds, tight=tight)
        every = every_selection(task)
        found = best_selection(task)
        assert (found is None) == (not every)
        if found is None:
            continue
        coupled += found.programmes > 0
        assert found.taken in every
        assert values(task, found.taken) == min(values(task, taken) for taken in every)
        assert found.proven(task)
    assert coupled or tight >= 1.0  # the programme was tried, where ports are few


def test_equal_rooms_swap_in_one_way_only() -> None:
    """Two rooms alike, one port too few for both to take their best: every order of solving gives the same."""
    room = (Candidate((10,), 0, 2, 1), Candidate((12,), 0, 1, 1))
    task = SelectionTask((room, room, room), (5,), None, NODES)
    found = best_selection(task)
    assert found is not None
    assert sorted(found.taken) == [0, 0, 1]
    assert {best_selection(task) for _ in range(5)} == {found}


def test_what_is_known_is_never_made_worse() -> None:
    """Without nodes to search, what is known remains, and nothing is said to be proven that is not."""
    for seed in range(8):
        task = random_task(seed, rooms=7, choices=4, manifolds=1, tight=0.75)
        every = every_selection(task)
        if not every:
            continue
        known = every[0]
        hasty = SelectionTask(task.rooms, task.ports, task.flow, 1)
        found = best_selection(hasty, known)
        assert found is not None
        best = min(values(task, taken) for taken in every)
        assert best <= values(task, found.taken) <= values(task, known)
        assert not found.proven(task) or values(task, found.taken) == best


def test_a_bound_is_never_above_the_best() -> None:
    for seed in range(8):
        task = random_task(seed, rooms=6, choices=4, manifolds=2, tight=0.8)
        every = every_selection(task)
        found = best_selection(
            SelectionTask(task.rooms, task.ports, task.flow, 1), every[0] if every else None
        )
        if found is None:
            continue
        best = min(values(task, taken) for taken in every)
        for bound, value in zip(found.bounds, best, strict=False):
            assert bound <= value
            if bound < value:
                break


def test_sixty_four_rooms_are_nearly_proven() -> None:
    """Four manifolds that all rooms share, with few ports: what is not proven lies within 1 % of its bound."""
    task = random_task(1, rooms=64, choices=8, manifolds=4, tight=0.8)
    found = best_selection(SelectionTask(task.rooms, task.ports, None, NODES))
    assert found is not None
    assert found.programmes > 0
    assert task.measure(found.taken, 0) == found.bounds[0]
    assert task.measure(found.taken, 1) <= 1.01 * found.bounds[1]


def test_rooms_with_a_manifold_each_need_no_programme() -> None:
    """Built up by ports, and by the programme when the flow counts: the same value."""
    for seed in range(6):
        free = random_task(seed, rooms=5, choices=4, manifolds=1, tight=0.8)
        task = SelectionTask(free.rooms, free.ports, None, NODES)
        same = SelectionTask(free.rooms, free.ports, 10**6, NODES)
        found, programmed = best_selection(task), best_selection(same)
        assert (found is None) == (programmed is None)
        if found is None or programmed is None:
            continue
        assert found.programmes == 0
        assert values(task, found.taken) == values(task, programmed.taken)
        assert values(task, found.taken) == min(values(task, taken) for taken in every_selection(task))
