"""Whole storeys, invented by hand, judged by geometry that knows nothing of how they were laid.

Distances and clearances are those asked for; that a circuit is one pipe without kink is EN 1264-4's demand for no
joints in the screed, and plain geometry.
"""

from __future__ import annotations

import math

import pytest
from tepidarium_engine.plan.pipes.pipe_path import Arc, Line, PipePath
from tepidarium_engine.storey.layout_records import StoreyLayout
from tepidarium_engine.storey.storey_judge import fault_of
from tepidarium_engine.storey.storey_layout import laid_storey

from tests.storeys.case import StoreyCase
from tests.storeys.check import violations
from tests.storeys.corpus import CORPUS

REFUSED = {
    "narrow door": {"tails_doorway", "incomplete"},
    "shut off": {"tails_no_way"},
    "office floor": {"tails_manifold"},
}
"""Storeys with more than can be laid, and all the reasons that are to be told; of the others every circuit is laid."""


def _sound(case: StoreyCase) -> StoreyLayout:
    task = case.task()
    layout = laid_storey(task)
    assert not list(violations(task, layout))
    return layout


@pytest.mark.parametrize("case", CORPUS, ids=lambda case: case.name)
def test_storeys_by_hand(case: StoreyCase) -> None:
    layout = _sound(case)
    assert {one.code for one in layout.unplaced} == REFUSED.get(case.name, set())


def test_the_judge_finds_what_is_wrong() -> None:
    """A check that cannot fail proves nothing: the same storey with narrower rules must displease it."""
    from dataclasses import replace  # noqa: PLC0415

    task = CORPUS[0].task()
    layout = laid_storey(task)
    for change, told in (
        ({"bend_radius": 0.12}, "bend of"),
        ({"wall_clearance": 0.2}, "too near to walls"),
        ({"tail_pitch": 0.12}, "apart"),
    ):
        found = list(violations(replace(task, **change), layout))  # type: ignore[arg-type]
        assert any(told in fault for fault in found)


def test_a_pipe_that_comes_back_too_near_to_itself_is_told() -> None:
    """Legs 50 mm apart, joined by a wide loop at the far end: no bend is tight, nothing crosses."""
    near, bend = 0.05, 0.1

    def arc(centre: tuple[float, float], start: float, sweep: float) -> Arc:
        return Arc(centre, bend, start, sweep)

    up, down = Line((0.0, 0.0), (0.0, 1.0)), Line((near, 1.0), (near, 0.0))
    turn = math.acos((near / 2.0 + bend) / (2.0 * bend))
    swing = [
        arc((-bend, 1.0), 0.0, turn),
        arc((near / 2.0, 1.0 + 2.0 * bend * math.sin(turn)), math.pi + turn, -(math.pi + 2.0 * turn)),
        arc((near + bend, 1.0), math.pi - turn, turn),
    ]
    path = PipePath.of([up, *swing, down])
    assert max(max(joint.gap, joint.kink) for joint in path.joints()) < 1e-9
    assert fault_of(path, bend, near - 0.005) is None
    told = fault_of(path, bend, near + 0.005)
    assert told is not None and told[0] == "near_itself"
    assert told[1][0] == pytest.approx(near / 2.0, abs=near)
