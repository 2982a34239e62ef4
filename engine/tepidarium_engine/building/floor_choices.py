"""What a floor gives at each spacing, with a strip of closer pipe or without (EN 1264-2)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from ..thermal.floor import Floor, floor_characteristic, floor_limit
from .room_strips import StripSpacing

__all__ = ["FloorChoice", "StripFloor", "floor_choices"]

_SAME = 1e-9


class StripFloor(NamedTuple):
    """Closer pipe on a ``share`` of a room's floor at ``pipe_spacing`` [m]; its output over the mean of the floor, and
    that of the rest."""

    pipe_spacing: float
    share: float
    output_ratio: float
    rest_ratio: float


@dataclass(frozen=True)
class FloorChoice:
    """The floor of a room at one spacing. With a ``strip`` of closer pipe the slope and the limit are means by area."""

    floor: Floor
    heat_transmittance: float
    limit_heat_output: float
    strip: StripFloor | None = None

    @property
    def pipe_spacing(self) -> float:
        return self.floor.pipe_spacing

    def rest_output(self, heat_output: float) -> float:
        """Output [W/m2] beside the strip, where the floor gives ``heat_output`` on average."""
        return heat_output if self.strip is None else heat_output * self.strip.rest_ratio

    def strip_length(self, served_area: float) -> float:
        """Pipe [m] that the strip takes more on ``served_area`` [m2] than the rest would on its floor."""
        if self.strip is None:
            return 0.0
        return served_area * self.strip.share * (1.0 / self.strip.pipe_spacing - 1.0 / self.pipe_spacing)


@lru_cache(maxsize=1024)
def floor_choices(
    floor: Floor, spacings: tuple[float, ...], surface_excess: float, strip: StripSpacing | None
) -> tuple[FloorChoice, ...]:
    """What a floor gives at each spacing, whatever its own; rooms of a house and rounds of its design ask for the same
    ones again."""
    plain = (_floor_choice(replace(floor, pipe_spacing=spacing), surface_excess) for spacing in spacings)
    return tuple(choice if strip is None else _with_strip(choice, strip) for choice in plain)


def _with_strip(choice: FloorChoice, strip: StripSpacing) -> FloorChoice:
    """The same water under both parts: outputs add by area, and the part that is first at its limit ends both."""
    if strip.pipe_spacing >= choice.pipe_spacing * (1.0 - _SAME):
        return choice
    close = _floor_choice(replace(choice.floor, pipe_spacing=strip.pipe_spacing), strip.surface_excess)
    slope = strip.share * close.heat_transmittance + (1.0 - strip.share) * choice.heat_transmittance
    excess = min(part.limit_heat_output / part.heat_transmittance for part in (choice, close))
    ratios = close.heat_transmittance / slope, choice.heat_transmittance / slope
    return FloorChoice(
        choice.floor, slope, slope * excess, StripFloor(strip.pipe_spacing, strip.share, *ratios)
    )


def _floor_choice(floor: Floor, surface_excess: float) -> FloorChoice:
    slope = floor_characteristic(floor).heat_transmittance
    return FloorChoice(floor, slope, floor_limit(floor, slope, surface_excess).heat_output)
