"""The quick yes for inputs: it takes what is in order, and nothing in which the full check finds a fault."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from datetime import date
from typing import Any

import msgspec
import pytest
from tepidarium_api.calculations import CALCULATIONS, Calculation
from tepidarium_engine.acceptance import acceptance
from tepidarium_engine.checking import _record_checker
from tepidarium_engine.errors import FaultList

WRONG = (
    None,
    True,
    0,
    -1,
    10**9,
    -1e300,
    1e300,
    math.nan,
    math.inf,
    "",
    "x" * 100_000,
    b"x",
    date(1, 1, 1),
    date(9999, 1, 1),
    (),
    [],
    ("x",),
    ((1.0, math.nan),),
    ((1.0, 2.0, 3.0),),
    (1.0, 1e300),
    (0.1,) * 100_000,
)


def _changed(value: Any) -> Iterator[Any]:
    """The record with one field after the other made wrong, in records below it, too."""
    for item in fields(value):
        own = getattr(value, item.name)
        for wrong in WRONG:
            yield _with(value, item.name, wrong)
        if is_dataclass(own):
            yield from (_with(value, item.name, one) for one in _changed(own))
        elif isinstance(own, tuple) and own and is_dataclass(own[-1]):
            yield from (_with(value, item.name, (*own[:-1], one)) for one in _changed(own[-1]))


def _with(value: Any, name: str, own: Any) -> Any:
    """The copy as it is, whatever its constructor would fill in."""
    copied = replace(value)
    object.__setattr__(copied, name, own)
    return copied


def _faults(value: Any) -> FaultList:
    faults = FaultList()
    _record_checker(type(value))(value, "", faults)
    return faults


@pytest.mark.parametrize("calculation", CALCULATIONS, ids=lambda one: str(one.name))
def test_an_example_is_accepted_and_what_is_wrong_is_not(calculation: Calculation) -> None:
    example = msgspec.convert(calculation.example, calculation.inputs)
    accepts = acceptance(calculation.inputs)
    assert accepts(example)
    refused = 0
    for wrong in _changed(example):
        faulty = bool(_faults(wrong).faults)
        assert not (faulty and accepts(wrong))
        refused += faulty
    assert refused >= len(fields(calculation.inputs))


def test_a_whole_number_in_place_of_a_float_is_left_to_the_full_check() -> None:
    calculation = next(one for one in CALCULATIONS if one.name == "heat-output")
    example = msgspec.convert(calculation.example, calculation.inputs)
    whole = _with(example, "room_temperature", 20)
    assert not acceptance(calculation.inputs)(whole)
    assert not _faults(whole).faults
