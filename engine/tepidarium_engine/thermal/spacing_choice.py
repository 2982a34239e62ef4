"""Which spacing: the lowest supply temperature at which every floor keeps its surface limit."""

from __future__ import annotations

from dataclasses import dataclass

from .characteristic import mean_surface_temperature
from .dimensioning import supply_excess
from .floor import Floor
from .heated_room import HeatedRoom, Need, room_need
from .limit_curves import SURFACE_EXCESS
from .supply_records import OtherRoom, SpacingOption, SupplyTemperatureInputs

__all__ = [
    "Candidate",
    "candidates",
    "choose",
    "governing_room",
    "option",
    "other_room",
    "spacings",
]


@dataclass(frozen=True, slots=True)
class Candidate:
    """All rooms at one spacing of the governing room."""

    room: HeatedRoom
    need: Need
    supply_temperature: float
    others: tuple[tuple[HeatedRoom, Need], ...]

    @property
    def spacing(self) -> float:
        return self.room.floor.pipe_spacing

    @property
    def within_limits(self) -> bool:
        return self.need.within_limit and all(need.within_limit for _, need in self.others)


def spacings(inputs: SupplyTemperatureInputs) -> tuple[float, ...]:
    """Every spacing asked for [m], each once, closest first."""
    own = () if inputs.pipe_spacing is None else (inputs.pipe_spacing,)
    return tuple(sorted({*own, *(inputs.pipe_spacings or ())}))


def governing_room(inputs: SupplyTemperatureInputs, pipe_spacing: float) -> HeatedRoom:
    """The room of the request at ``pipe_spacing`` [m]."""
    below, limit = inputs.temperature_below, inputs.surface_temperature_limit
    room = inputs.room_temperature
    floor = Floor(
        pipe_spacing,
        inputs.pipe,
        inputs.screed_cover,
        inputs.resistance_below,
        inputs.screed_conductivity,
        inputs.covering_resistance,
    )
    return HeatedRoom(
        floor,
        inputs.required_heat_output,
        room,
        room if below is None else below,
        room + SURFACE_EXCESS if limit is None else limit,
    )


def other_room(other: OtherRoom, governing: HeatedRoom) -> HeatedRoom:
    """A further room; what it leaves out is the governing room's, its surface limit its own room plus 9 K."""
    floor = governing.floor
    room = _given(other.room_temperature, governing.room_temperature)
    return HeatedRoom(
        Floor(
            _given(other.pipe_spacing, floor.pipe_spacing),
            floor.pipe if other.pipe is None else other.pipe,
            _given(other.screed_cover, floor.screed_cover),
            _given(other.resistance_below, floor.resistance_below),
            _given(other.screed_conductivity, floor.screed_conductivity),
            _given(other.covering_resistance, floor.covering_resistance),
        ),
        other.required_heat_output,
        room,
        _given(other.temperature_below, governing.temperature_below),
        _given(other.surface_temperature_limit, room + SURFACE_EXCESS),
    )


def _given(own: float | None, inherited: float) -> float:
    return inherited if own is None else own


def candidates(inputs: SupplyTemperatureInputs) -> tuple[Candidate, ...]:
    """All rooms at each spacing, with the supply that the governing room needs (exact logarithmic mean)."""
    found: list[Candidate] = []
    for spacing in spacings(inputs):
        room = governing_room(inputs, spacing)
        need = room_need(room)
        supply = room.room_temperature + supply_excess(need.mean_excess_temperature, inputs.temperature_drop)
        others = tuple(
            found[0].others[place] if found and other.pipe_spacing is not None else _with_need(other, room)
            for place, other in enumerate(inputs.other_rooms)
        )
        found.append(Candidate(room, need, supply, others))
    return tuple(found)


def _with_need(other: OtherRoom, governing: HeatedRoom) -> tuple[HeatedRoom, Need]:
    room = other_room(other, governing)
    return room, room_need(room)


def choose(options: tuple[Candidate, ...]) -> Candidate:
    """The lowest supply that keeps every surface limit; of equal ones the widest spacing.

    If the limits of other rooms cannot be kept at any spacing, only the governing room's counts; if that
    cannot be kept either, the spacing with the highest limit is taken.
    """
    for permitted in (
        [each for each in options if each.within_limits],
        [each for each in options if each.need.within_limit],
    ):
        if permitted:
            return min(permitted, key=lambda each: (each.supply_temperature, -each.spacing))
    return max(options, key=lambda each: (each.need.limit_heat_output, -each.supply_temperature))


def option(each: Candidate, chosen: Candidate, inputs: SupplyTemperatureInputs) -> SpacingOption:
    """The line of one spacing in the comparison."""
    demand, room = inputs.required_heat_output, inputs.room_temperature
    return SpacingOption(
        pipe_spacing=each.spacing,
        pipe_length_per_area=1.0 / each.spacing,
        heat_transmittance=each.need.heat_transmittance,
        mean_excess_temperature=each.need.mean_excess_temperature,
        supply_temperature=each.supply_temperature,
        return_temperature=each.supply_temperature - inputs.temperature_drop,
        mean_surface_temperature=mean_surface_temperature(demand, room),
        limit_heat_output=each.need.limit_heat_output,
        within_limits=each.within_limits,
        chosen=each is chosen,
        reason=_reason(each, chosen, inputs),
    )


def _reason(each: Candidate, chosen: Candidate, inputs: SupplyTemperatureInputs) -> str:
    pipe = f"{1.0 / each.spacing:.1f} m of pipe per m2"
    beyond = inputs.required_heat_output - each.need.limit_heat_output
    both = zip(inputs.other_rooms, each.others, strict=True)
    over = [other.id for other, (_, need) in both if not need.within_limit]
    if each is not chosen and each.within_limits:
        warmer = each.supply_temperature - chosen.supply_temperature
        return f"Keeps every surface limit with {pipe}, but needs a supply {warmer:.1f} K warmer."
    if each.within_limits:
        return f"Lowest supply temperature that keeps every surface limit, with {pipe}."
    if not each.need.within_limit:
        start = "No spacing keeps the surface limit; this one comes closest: it" if each is chosen else "It"
        may = f"{each.need.limit_heat_output:.1f} W/m2, {beyond:.1f} W/m2 too little"
        return f"{start} may give {may} ({pipe})."
    rooms = ", ".join(over[:5]) + (" and others" if len(over) > 5 else "")
    start = "Lowest supply temperature that keeps this room's limit, but" if each is chosen else "Here"
    return f"{start} the surface limit is passed in: {rooms} ({pipe})."[:400]
