# Generated from api/openapi.json by clients/python/generate_models.py; do not edit.
"""Requests and answers of the service, as structs."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from msgspec import UNSET, Meta, Struct, UnsetType, field

__all__ = [
    "CalculationList",
    "CuringPlanRequest",
    "CuringPlanResponse",
    "DesignsRequest",
    "DesignsResponse",
    "Finding",
    "HeatOutputRequest",
    "HeatOutputResponse",
    "HydraulicsRequest",
    "HydraulicsResponse",
    "Lim",
    "LimitList",
    "LoopLengthRequest",
    "LoopLengthResponse",
    "Pipe",
    "SupplyTemperatureRequest",
    "SupplyTemperatureResponse",
]

OutlineItem: TypeAlias = tuple[float, float]


class Pipe(Struct, kw_only=True):
    outside_diameter: Annotated[float, Meta(description="Outside diameter [m]; at least 0.006; at most 0.05")]
    thermal_conductivity: float = 0.35
    sheath: float | None | UnsetType = UNSET


class Lim(Struct, kw_only=True):
    a: float = 1.0


class Finding(Struct, kw_only=True):
    code: str
    severity: Literal["note", "warning"]
    value: float | None | UnsetType = UNSET


class SupplyTemperatureRequest(Struct, kw_only=True):
    pour_date: str
    workings: bool = False


class SupplyTemperatureResponse(Struct, kw_only=True):
    inputs: SupplyTemperatureRequest
    findings: list[Finding]
    workings: list[Finding] | None | UnsetType = UNSET


class LoopLengthRequest(Struct, kw_only=True):
    pour_date: str
    workings: bool = False


class LoopLengthResponse(Struct, kw_only=True):
    inputs: LoopLengthRequest
    findings: list[Finding]
    workings: list[Finding] | None | UnsetType = UNSET


class HydraulicsRequest(Struct, kw_only=True):
    pour_date: str
    workings: bool = False


class HydraulicsResponse(Struct, kw_only=True):
    inputs: HydraulicsRequest
    findings: list[Finding]
    workings: list[Finding] | None | UnsetType = UNSET


class CuringPlanRequest(Struct, kw_only=True):
    pour_date: str
    workings: bool = False


class CuringPlanResponse(Struct, kw_only=True):
    inputs: CuringPlanRequest
    findings: list[Finding]
    workings: list[Finding] | None | UnsetType = UNSET


class DesignsRequest(Struct, kw_only=True):
    pour_date: str
    workings: bool = False


class DesignsResponse(Struct, kw_only=True):
    inputs: DesignsRequest
    findings: list[Finding]
    workings: list[Finding] | None | UnsetType = UNSET


class CalculationList(Struct, kw_only=True):
    calculations: list[str]


class LimitList(Struct, kw_only=True):
    limits: list[str]


class HeatOutputRequest(Struct, kw_only=True):
    pipe: Pipe
    kind: Literal["a", "b"]
    pour_date: str
    outline: list[OutlineItem]
    limits: Lim | UnsetType = UNSET
    pattern: Literal["counterflow", "serpentine"] = "counterflow"
    rooms: list[Lim] = field(default_factory=list)
    n: int = 3
    workings: bool = False
    until: str | None | UnsetType = UNSET


class HeatOutputResponse(Struct, kw_only=True):
    inputs: HeatOutputRequest
    heat_output: Annotated[float, Meta(description="Heat [W/m2]")]
    findings: list[Finding]
    maybe: float | None
    workings: list[Finding] | None | UnsetType = UNSET
