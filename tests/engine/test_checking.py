"""The check of inputs: every fault at once, with its pointer and limit; and the glossary behind it."""

from __future__ import annotations

import math
from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tepidarium_engine.checking import check
from tepidarium_engine.designs import BuildUp, DesignRoom, DesignsInputs
from tepidarium_engine.errors import Fault, InputError
from tepidarium_engine.glossary import GLOSSARY, Items, Number, Text
from tepidarium_engine.pipe import Pipe

PIPE = Pipe(0.016, 0.002)
HOUSE = DesignsInputs(
    rooms=(DesignRoom("a", "floor", 500.0, area=10.0),), build_ups=(BuildUp("floor", 2.0, 10.0),)
)


def _faults(value: Any) -> dict[str, Fault]:
    with pytest.raises(InputError) as refusal:
        check(value)
    return {fault.pointer: fault for fault in refusal.value.faults}


def test_all_faults_are_told_at_once() -> None:
    faults = _faults(Pipe(16.0, math.nan, "x"))  # type: ignore[arg-type]
    assert set(faults) == {"/outside_diameter", "/wall_thickness", "/thermal_conductivity"}
    assert faults["/outside_diameter"].limit == 0.032


@pytest.mark.parametrize("bad", ["1", True, None, math.inf, -math.inf, math.nan, [], {}])
def test_only_finite_numbers_are_numbers(bad: Any) -> None:
    assert "/wall_thickness" in _faults(replace(PIPE, wall_thickness=bad))


@given(st.floats(allow_nan=False))
def test_a_number_passes_exactly_within_its_bounds(value: float) -> None:
    entry = GLOSSARY["wall_thickness"]
    assert isinstance(entry, Number)
    pipe = replace(PIPE, wall_thickness=value)
    if entry.minimum <= value <= entry.maximum:
        check(pipe)
    else:
        assert _faults(pipe)["/wall_thickness"].code in ("too_small", "too_large", "type")


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"rooms": ()}, "/rooms"),
        ({"rooms": "abc"}, "/rooms"),
        ({"rooms": (replace(HOUSE.rooms[0], id=""),)}, "/rooms/0/id"),
        ({"rooms": (replace(HOUSE.rooms[0], use="castle"),)}, "/rooms/0/use"),
        ({"rooms": (replace(HOUSE.rooms[0], entry=(0.0,)),)}, "/rooms/0/entry"),
        (
            {"rooms": (replace(HOUSE.rooms[0], outline=((0.0, 0.0), (1.0, math.nan), (1.0, 1.0))),)},
            "/rooms/0/outline/1/1",
        ),
        ({"rooms": (replace(HOUSE.rooms[0], voids=(((0.0, 0.0),),)),)}, "/rooms/0/voids/0"),
        ({"pipe": "pipe"}, "/pipe"),
    ],
)
def test_faults_point_into_nested_records(change: dict[str, Any], pointer: str) -> None:
    check(HOUSE)
    assert pointer in _faults(replace(HOUSE, **change))


def test_the_glossary_bounds_everything() -> None:
    for name, entry in GLOSSARY.items():
        assert entry.description, name
        if isinstance(entry, Number):
            assert math.isfinite(entry.minimum), name
            assert entry.minimum < entry.maximum < math.inf, name
            assert entry.unit, name
        elif isinstance(entry, Items):
            assert 0 <= entry.minimum <= entry.maximum <= 10_000, name
            assert entry.of is None or entry.of in GLOSSARY, name
        elif isinstance(entry, Text):
            assert 0 <= entry.minimum_length <= entry.maximum_length <= 10_000, name


def test_errors_survive_the_way_between_processes() -> None:
    import pickle  # noqa: PLC0415

    error = InputError(Fault("/a", "code", "text", 1.0), Fault("/b", "code", "text"))
    again = pickle.loads(pickle.dumps(error))
    assert again.faults == error.faults
    assert str(again) == str(error)
    assert [item.name for item in fields(Fault)] == ["pointer", "code", "detail", "limit", "changes"]
