"""A former answer as it was sent, or as its request comes to when it is designed again; what is reported about it."""

from __future__ import annotations

import types
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Union, get_args, get_origin, get_type_hints

from ..errors import faults_at
from ..results import Finding
from .former_records import FormerDesign
from .house_records import HouseToDesign
from .keeping import former_rooms
from .outcome import DesignsResult
from .records import DesignsInputs
from .whole_design import WholeDesign

__all__ = ["former_findings", "former_of"]

_KEPT = 0.05
"""A supply that is kept is reported when it is so much warmer than rooms ask for [K]."""


def former_of(
    former: FormerDesign, version: str, designed: Callable[[DesignsInputs], DesignsResult]
) -> FormerDesign:
    """The former answer; where it has no rooms or no supply, its request as it is ``designed`` by this engine."""
    if former.rooms and former.supply_temperature is not None:
        return former
    asked = {item.name: getattr(former.inputs, item.name) for item in fields(HouseToDesign)}
    with faults_at({}, "/former/inputs"):
        result = designed(DesignsInputs(**asked))
    hints = get_type_hints(FormerDesign)
    read = {
        item.name: _read(hints[item.name], getattr(result, item.name))
        for item in fields(FormerDesign)
        if item.name not in ("inputs", "engine_version")
    }
    made = replace(former, engine_version=version)
    return replace(made, **read)  # type: ignore[arg-type]


def _read(hint: object, value: object) -> object:
    """Of a value of the answer what a former answer is read for."""
    if get_origin(hint) in (Union, types.UnionType):
        hint = next(arm for arm in get_args(hint) if arm is not type(None))
    if value is None:
        return None
    if get_origin(hint) is tuple and isinstance(value, tuple) and get_args(hint)[1:] == (...,):
        return tuple(_read(get_args(hint)[0], item) for item in value)
    if not (isinstance(hint, type) and is_dataclass(hint)):
        return value
    hints = get_type_hints(hint)
    return hint(**{item.name: _read(hints[item.name], getattr(value, item.name)) for item in fields(hint)})


def former_findings(
    former: FormerDesign, version: str, design: WholeDesign, *, kept: bool
) -> Iterator[Finding]:
    """Whether the former answer is of this house and this engine, and whether it could be kept."""
    if not former_rooms(design.inputs, former):
        yield Finding.at("former_of_another_house", "/former/rooms")
        return
    if former.engine_version not in ("", version):
        yield Finding.at("former_version_differs", "/former/engine_version")
    if not kept:
        yield Finding.at("former_not_kept", "/former")
    supply = design.solved.supply
    if (
        kept
        and supply.temperature > supply.wanted + _KEPT
        and design.inputs.source.supply_temperature is None
    ):
        yield Finding.at(
            "supply_kept",
            "/former/supply_temperature",
            value=supply.temperature,
            limit=supply.wanted,
            quantity="supply_temperature",
            limit_is="asked for now",
        )
