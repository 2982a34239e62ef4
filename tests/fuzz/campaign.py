"""Many requests one after the other, and what became of them."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterable

from tests.fuzz.case import Case, outcome
from tests.fuzz.rooms import room_case
from tests.fuzz.shrinking import smallest
from tests.fuzz.storeys import storey_case

__all__ = ["KINDS", "Campaign"]

KINDS: dict[str, Callable[[int], Case]] = {"rooms": room_case, "storeys": storey_case}


class Campaign:
    """``tell`` gets a line for each fault, with the smallest body that fails alike, and for each slow request."""

    SLOW = 5.0
    """[s] of processor."""

    def __init__(self, kind: str, tell: Callable[[str], None]) -> None:
        self.kind, self.tell = kind, tell
        self.answered = 0
        self.slow = 0
        self.faults: dict[str, str] = {}
        self.codes: Counter[str] = Counter()
        self.times: dict[str, float] = {}

    def run(self, seeds: Iterable[int]) -> None:
        for seed in seeds:
            self._try(KINDS[self.kind](seed))

    def _try(self, case: Case) -> None:
        found = outcome(case)
        self.times[case.name] = found.took
        self.answered += found.answered
        self.codes.update(set(found.codes))
        if found.took > self.SLOW:
            self.slow += 1
            self.tell(f"{case.name}: {case.calculation} took {found.took:.1f} s")
        if found.fault:
            known = found.fault in self.faults.values()
            self.faults[case.name] = found.fault
            self.tell(f"{case.name}: {case.calculation}: {found.fault}")
            if not known:  # one body for each kind of fault will do
                self.tell(f"{found.trace}smallest: {json.dumps(smallest(case, found.fault).body)}")
