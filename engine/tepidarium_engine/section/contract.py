"""What the section's calculation takes and gives."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..glossary import named
from ..pipe import Pipe
from ..results import Caution, Finding
from .records import (
    ColdEdge,
    ComparedSection,
    EdgeResult,
    ProfilePoint,
    SectionLayer,
    SurfaceExchange,
    WarmUp,
    WarmUpResult,
)

__all__ = ["FloorSectionInputs", "FloorSectionResult"]


@dataclass(frozen=True, slots=True)
class FloorSectionInputs:
    """A periodic bay: pipes at equal distances in one layer of screed, layers above and below right across.

    ``screed_thickness`` defaults to cover and pipe, so that the pipe lies on what is below; ``temperature_below`` to
    the room temperature. ``layers_above`` lie between screed and covering; the covering itself counts by its
    resistance. The film in the pipe follows from ``water_velocity`` unless ``film_coefficient`` is given.
    ``compared_spacings`` and ``compared_water_temperatures`` ask for the same floor, steady, at every one of these
    spacings with every one of these waters; where only one of them is given the other stays as it is.
    """

    pipe_spacing: float
    pipe: Pipe
    screed_cover: float
    layers_below: tuple[SectionLayer, ...]
    water_temperature: float
    screed_conductivity: float = 1.2
    screed_thickness: float | None = field(default=None, metadata=named("section_screed_thickness"))
    screed_heat_capacity: float = 2.1e6
    layers_above: tuple[SectionLayer, ...] = ()
    covering_resistance: float = 0.1
    surface_resistance_below: float = 0.17
    room_temperature: float = 20.0
    temperature_below: float | None = None
    surface_exchange: SurfaceExchange = "constant"
    surface_coefficient: float | None = None
    water_velocity: float = 0.3
    film_coefficient: float | None = None
    cold_edge: ColdEdge | None = None
    warm_up: WarmUp | None = None
    compared_spacings: tuple[float, ...] = ()
    compared_water_temperatures: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        if self.temperature_below is None:
            object.__setattr__(self, "temperature_below", self.room_temperature)


@dataclass(frozen=True, slots=True)
class FloorSectionResult:
    """Steady heat flows [W/m2] and temperatures [degC] of a bay among its like, its outermost bay if it has a cold
    edge, and its course in time if asked for. ``heat_transmittance`` is what the room gets more for each kelvin of
    the water. ``surface_profile`` runs from above the pipe to midway to the next. ``comparison`` goes spacing by
    spacing through the waters of the request, and is empty without any."""

    heat_output: float
    downward_heat_loss: float
    total_heat_output: float
    heat_transmittance: float
    mean_surface_temperature: float
    highest_surface_temperature: float
    lowest_surface_temperature: float
    pipe_surface_temperature: float
    below_covering_temperature: float
    highest_below_covering_temperature: float
    screed_underside_temperature: float
    surface_coefficient: float
    film_coefficient: float
    pipe_resistance: float
    surface_profile: tuple[ProfilePoint, ...]
    edge_bay: EdgeResult | None
    warm_up: WarmUpResult | None = field(metadata=named("warm_up_result"))
    comparison: tuple[ComparedSection, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
