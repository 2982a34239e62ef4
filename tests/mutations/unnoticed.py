"""Changes that no test can notice, with the reason. The key names file, function and change (``Mutant.key``)."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import chain

from .mutants import Mutant

__all__ = ["REASONS", "reason_of"]

_BY_REASON: Mapping[str, tuple[str, ...]] = {
    "only the start of an iteration that ends at the same root": (
        "water/friction.py colebrook: 0.9 becomes 0.909",
        "water/friction.py colebrook: 1.11 becomes 1.1211",
        "water/friction.py colebrook: 6.9 becomes 6.969",
        "water/network.py open_flows: 1.0 becomes 1.01",
        "water/network.py curve: 2.0 becomes 2.02",
        "section/bay.py _bay: 1.0 becomes 1.01",
        "section/bay.py module: 0.01 becomes 0.0101",
        "section/bay.py module: 5.0 becomes 5.05",
        "section/warm_up.py steady_state: 5.0 becomes 5.05",
    ),
    "an iteration takes more steps or fewer and ends at the same root": (
        "section/bay.py _next_resistance: 1.0 becomes 1.01",
        "section/bay.py _next_resistance: up != before is turned",
        "water/network.py solve_rising: attempt >= _NEWTON_TRIES is turned",
        "water/network.py solve_rising: 2.0 becomes 2.02",
        "section/bay.py _case: 1.0 becomes 1.01",
    ),
    "an end of an arc is computed again and comes out the same": (
        "plan/judging/arc_pairs.py squared: 1.0 becomes 1.01",
    ),
    "ranks kinks: all beyond a right angle stay behind all others": (
        "plan/judging/bend_rules.py broken: 2.0 becomes 2.02",
    ),
    "the cost of looking round: laid pipe comes to a fifth of the bound, heaps to many times": (
        "plan/judging/pipe_stretches.py crowding: 2.0 becomes 2.02",
        "plan/judging/pipe_stretches.py crowding: 2.0 becomes 2.02 (2)",
        "plan/judging/pipe_neighbours.py module: 1000000.0 becomes 1.01e+06",
        "plan/judging/pipe_neighbours.py module: 300000.0 becomes 303000",
        "plan/judging/pipe_neighbours.py module: 4.0 becomes 4.04",
    ),
    "keeps rows of cells apart: any number larger than the count of cells does": (
        "plan/judging/pipe_stretches.py crowding: 1000000.0 becomes 1.01e+06",
    ),
    "how far the search reaches: what it would miss lies within 0.1 mm of its end, where nothing depends on it": (
        "plan/judging/pipe_stretches.py near: 8.0 becomes 8.08",
    ),
    "a place amid a stretch leaves nothing of it at either end": (
        "plan/judging/pipe_stretches.py allowed_shares: 2.0 becomes 2.02",
    ),
    "a quick yes: without it every place is looked at one by one, with the same answer": (
        "plan/judging/route_faults.py _well_inside: len(index) != last - first + 1 is turned",
    ),
    "from where a change of the exchange is counted: any other place gives the same answer": (
        "section/warm_up.py __init__: 1.0 becomes 1.01 (2)",
        "section/warm_up.py __init__: 1.0 becomes 1.01 (3)",
        "section/warm_up.py __init__: 5.0 becomes 5.05",
    ),
    "the least temperature of water moves by a ten-thousandth of a kelvin": (
        "section/water_film.py film_coefficient: 0.01 becomes 0.0101",
    ),
    "scales what absorbs rounding": (
        "envelope/faces.py _check_slabs: 1.0 becomes 1.01",
        "envelope/faces.py _check_slabs: 1.0 becomes 1.01 (2)",
    ),
    "stands for an area after a fault has been noted: the request is refused whatever it is": (
        "envelope/faces.py _faces_of: 1.0 becomes 1.01",
        "envelope/faces.py _given_area: 1.0 becomes 1.01",
    ),
    "fills rows beyond the last, of which nothing is read: any number but 0 does": (
        "section/elimination.py solve_banded: 1.0 becomes 1.01",
    ),
    "a hundredth of the samples or one in ten thousand more: less than they are apart": (
        "plan/judging/route_measures.py measure: 0.01 becomes 0.0101",
    ),
    "either order gives the same point": (
        "section/isolines.py _crossings: (b[0], b[1]) < (a[0], a[1]) is turned",
    ),
    "where a series ends: what is left out is below rounding": (
        "section/steady.py module: 40.0 becomes 40.4",
        "section/steady.py _wave_count: 2.0 becomes 2.02",
        "section/steady.py _wave_count: 2.0 becomes 2.02 (2)",
        "section/steady.py _wave_count: 2.0 becomes 2.02 (3)",
        "section/steady.py _zeta: 30240.0 becomes 30542.4",
    ),
    "how fine a grid is: either answer is within the accuracy that the grid has": (
        "plan/judging/route_faults.py _depth_outside: 0.001 becomes 0.00101",
        "section/plane.py _offsets: 12.0 becomes 12.12",
        "section/plane.py _offsets: 2.0 becomes 2.02",
        "section/plane.py _offsets: 2.0 becomes 2.02 (2)",
        "section/plane.py _offsets: 2.0 becomes 2.02 (3)",
        "section/plane.py _offsets: 2.0 becomes 2.02 (4)",
        "section/plane.py _offsets: 4.0 becomes 4.04",
        "section/plane.py _offsets: 4.0 becomes 4.04 (2)",
        "section/network.py _count: 0.012 becomes 0.01212",
        "section/network.py _injection: 0.5 becomes 0.505",
        "section/network.py network: 2.0 becomes 2.02 (3)",
        "section/network.py _rows: 2.0 becomes 2.02",
        "section/plane.py module: 1.35 becomes 1.3635",
        "section/warm_up.py module: 900.0 becomes 909",
        "plan/judging/pipe_chords.py module: 2.0 becomes 2.02",
        "plan/judging/pipe_neighbours.py module: 0.0002 becomes 0.000202",
        "plan/judging/pipe_neighbours.py module: 0.25 becomes 0.2525",
        "plan/judging/pipe_neighbours.py module: 0.5 becomes 0.505",
        "plan/judging/pipe_neighbours.py module: 1500.0 becomes 1515",
        "plan/judging/route_measures.py module: 0.001 becomes 0.00101",
    ),
}
REASONS: Mapping[str, str] = {key: reason for reason, keys in _BY_REASON.items() for key in keys}
assert len(REASONS) == len(list(chain.from_iterable(_BY_REASON.values()))), "a change is listed twice"
_ROUNDING = "it only absorbs rounding, so that any other number of its size does the same"


def reason_of(mutant: Mutant) -> str | None:
    """Why no test can notice the change; None where one should."""
    return REASONS.get(mutant.key) or (_ROUNDING if mutant.harmless else None)
