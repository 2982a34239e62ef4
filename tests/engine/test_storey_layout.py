"""Whole storeys, by hand and by lot, judged by geometry that knows nothing of how they were laid.

Distances and clearances are those asked for; that a circuit is one pipe without kink is EN 1264-4's demand for no
joints in the screed, and plain geometry.
"""

from __future__ import annotations

import pytest
from tepidarium_engine.storey.layout_records import StoreyLayout
from tepidarium_engine.storey.storey_layout import laid_storey

from tests.storeys.case import StoreyCase
from tests.storeys.check import violations
from tests.storeys.corpus import CORPUS
from tests.storeys.random_storeys import random_storey

BY_LOT = 6
"""Random storeys here; ``python -m tests.storeys 0 200`` lays more."""
REFUSED = {
    "narrow door": "tails_doorway",
    "shut off": "tails_no_way",
    "office floor": "tails_manifold",
}
"""Storeys with more than can be laid, and a reason that must be among those told."""
MISSED = {"hall with columns": "no_way_for_tails"}
"""Storeys that an installer would lay and this project does not yet: pieces that touch no outer wall have no way for
their tails. They must be refused with the reason, not drawn wrongly."""


def _sound(case: StoreyCase) -> StoreyLayout:
    task = case.task()
    layout = laid_storey(task)
    assert not list(violations(task, layout))
    return layout


@pytest.mark.parametrize("case", CORPUS, ids=lambda case: case.name)
def test_storeys_by_hand(case: StoreyCase) -> None:
    layout = _sound(case)
    reason = (REFUSED | MISSED).get(case.name)
    if reason is not None:
        assert reason in {one.code for one in layout.unplaced}
    else:
        assert layout.circuits


@pytest.mark.parametrize("seed", range(BY_LOT))
def test_storeys_by_lot(seed: int) -> None:
    _sound(random_storey(seed))


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
