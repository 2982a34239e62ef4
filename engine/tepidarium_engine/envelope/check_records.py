"""What an insulation check is given."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named
from ..practice.insulation_requirements import Below
from ..practice.screed import Binder, FlexuralClass
from .records import Ground

__all__ = ["CheckLayer", "InsulationCheckInputs", "LocalLimit", "ScreedSection"]


@dataclass(frozen=True, slots=True)
class CheckLayer:
    """A layer below the pipes, by thickness and conductivity or by its resistance. ``compressibility`` [m] is that
    of impact sound boards and soft insulation; 0 for firm ones."""

    thickness: float | None = field(default=None, metadata=named("layer_thickness"))
    thermal_conductivity: float | None = field(default=None, metadata=named("layer_conductivity"))
    thermal_resistance: float | None = field(default=None, metadata=named("layer_resistance"))
    part: Literal["insulation", "structure"] = "insulation"
    compressibility: float = field(default=0.0, metadata=named("layer_compressibility"))
    name: str = ""


@dataclass(frozen=True, slots=True)
class LocalLimit:
    """What the local rules ask for: a least ``resistance`` [m2.K/W] or a highest ``u_value`` [W/(m2.K)].

    A resistance is meant for the insulation, or for the layers of the whole floor without surface resistances; a
    U-value is always that of the whole floor.
    """

    resistance: float | None = field(default=None, metadata=named("required_layer_resistance"))
    u_value: float | None = field(default=None, metadata=named("limit_u_value"))
    counts: Literal["insulation", "whole_floor"] = "insulation"
    name: str = ""


@dataclass(frozen=True, slots=True)
class ScreedSection:
    """The screed on the insulation. ``screed_cover`` [m] is above the pipe; loads in [N/m2] and [N]."""

    screed_cover: float
    binder: Binder = "cement"
    flexural_class: FlexuralClass = "F4"
    pipe_outside_diameter: float = field(default=0.016, metadata=named("outside_diameter"))
    imposed_load: float = 2000.0
    concentrated_load: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class InsulationCheckInputs:
    """The layers from the pipes downwards and what lies below them.

    ``temperature_below`` [degC] is the design temperature of outside air, needed there, or of an unheated room, if
    known. With ``floor_area`` and ``exposed_perimeter`` of ``ground`` the soil counts for a local U-value
    (ISO 13370). ``board_conductivity`` [W/(m.K)] is of the board that would make up for what is missing.
    """

    below: Below = field(metadata=named("what_lies_below"))
    layers: tuple[CheckLayer, ...] = field(metadata=named("check_layers"))
    temperature_below: float | None = None
    local_limit: LocalLimit | None = None
    ground: Ground | None = None
    board_conductivity: float | None = None
    screed: ScreedSection | None = field(default=None, metadata=named("screed_check"))
