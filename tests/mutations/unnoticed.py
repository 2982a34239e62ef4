"""Changes that no test can notice, with the reason. The key names file, function and change (``Mutant.key``)."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import chain

from .mutants import Mutant

__all__ = ["REASONS", "reason_of"]

_BY_REASON: Mapping[str, tuple[str, ...]] = {
    "an end of an arc is computed again and comes out the same": (
        "plan/judging/arc_pairs.py squared: 1.0 becomes 1.01",
    ),
    "the cost of looking round: laid pipe comes to a fifth of the bound, heaps to many times": (
        "plan/judging/pipe_neighbours.py module: 1000000.0 becomes 1.01e+06",
        "plan/judging/pipe_neighbours.py module: 300000.0 becomes 303000",
        "plan/judging/pipe_neighbours.py module: 4.0 becomes 4.04",
    ),
    "a place amid a stretch leaves nothing of it at either end": (
        "plan/judging/pipe_stretches.py allowed_shares: 2.0 becomes 2.02",
    ),
    "where a search begins or gives way to another one: what it finds is the same": (
        "water/manifold.py module: 0.55 becomes 0.5555",
        "water/network.py module: 20.0 becomes 20.2",
    ),
    "where a series ends: what is left out is below rounding": (
        "conduction/steady.py module: 40.0 becomes 40.4",
        "conduction/steady.py _wave_count: 2.0 becomes 2.02",
        "conduction/steady.py _wave_count: 2.0 becomes 2.02 (2)",
        "conduction/steady.py _wave_count: 2.0 becomes 2.02 (3)",
    ),
    "how fine a grid is: either answer is within the accuracy that the grid has": (
        "plan/judging/route_faults.py _depth_outside: 0.001 becomes 0.00101",
        "conduction/plane.py _offsets: 12.0 becomes 12.12",
        "conduction/plane.py _offsets: 2.0 becomes 2.02 (2)",
        "conduction/plane.py _offsets: 2.0 becomes 2.02 (3)",
        "conduction/plane.py _offsets: 2.0 becomes 2.02 (4)",
        "conduction/plane.py _offsets: 4.0 becomes 4.04",
        "conduction/plane.py _offsets: 4.0 becomes 4.04 (2)",
        "conduction/plane.py module: 1.35 becomes 1.3635",
        "conduction/warm_up.py module: 900.0 becomes 909",
        "plan/judging/route_measures.py module: 0.001 becomes 0.00101",
    ),
}
REASONS: Mapping[str, str] = {key: reason for reason, keys in _BY_REASON.items() for key in keys}
assert len(REASONS) == len(list(chain.from_iterable(_BY_REASON.values()))), "a change is listed twice"
_ROUNDING = "it only absorbs rounding, so that any other number of its size does the same"


def reason_of(mutant: Mutant) -> str | None:
    """Why no test can notice the change; None where one should."""
    return REASONS.get(mutant.key) or (_ROUNDING if mutant.harmless else None)
