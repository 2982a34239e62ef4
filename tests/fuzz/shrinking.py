"""A failing request made as small as it fails: members and items left out, numbers rounded."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from typing import Any

from tests.fuzz.case import Case, outcome

__all__ = ["smallest"]

_PATIENCE = 90.0
"""For one request [s of processor]."""


def smallest(case: Case, fault: str) -> Case:
    """The smallest request found that fails in the same way."""
    until = time.process_time() + _PATIENCE
    changed = True
    while changed:
        changed = False
        for body in _smaller(case.body):
            if time.process_time() > until:
                return case
            trial = replace(case, body=body)
            if outcome(trial).fault == fault:
                case, changed = trial, True
                break
    return case


def _smaller(value: Any) -> Iterator[Any]:
    """The value with one thing less, the largest steps first."""
    if isinstance(value, dict):
        yield from ({other: item for other, item in value.items() if other != name} for name in value)
        for name, item in value.items():
            yield from ({**value, name: less} for less in _smaller(item))
    elif isinstance(value, list):
        for size in sorted({len(value) // 2, 1} - {0}, reverse=True):
            yield from (value[:start] + value[start + size :] for start in range(0, len(value), size))
        for number, item in enumerate(value):
            yield from ([*value[:number], less, *value[number + 1 :]] for less in _smaller(item))
    elif isinstance(value, float):
        rounded = (round(value, digits) for digits in range(5))
        yield from islice((shorter for shorter in rounded if shorter != value), 1)
