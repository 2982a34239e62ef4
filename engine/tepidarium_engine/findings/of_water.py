"""Flow and pressure."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "primary_below_supply": Kind(
        VIOLATION,
        "The source is colder than the supply, so the floor does not get its heat.",
        "Raise the source or lower the supply.",
        cause="The temperature of the source was left at a low value.",
        calculations=("hydraulics", "designs"),
    ),
    "pressure_drop_too_high": Kind(
        VIOLATION,
        "Pressure drop is too high even with the valve fully open, so the circuit gets too little water.",
        "Shorten or divide the circuit, or take a wider pipe.",
        cause="Long circuits, a narrow pipe or a small temperature drop.",
        calculations=("hydraulics", "designs"),
    ),
    "velocity_too_high": Kind(
        VIOLATION,
        "Water is so fast that the circuit may be heard.",
        "Shorten or divide the circuit, or take a wider pipe.",
        cause="A narrow pipe, or a small temperature drop and much heat.",
        calculations=("hydraulics", "designs"),
    ),
    "cannot_be_balanced": Kind(
        VIOLATION,
        "The valve cannot be set low enough, so this circuit takes water from the others.",
        "Join it with another circuit, or choose a finer valve.",
        cause="A very short circuit beside long ones.",
        calculations=("hydraulics", "designs"),
    ),
    "too_many_circuits": Kind(
        WARNING,
        "The manifold has more circuits than usual, so it may be hard to get and to balance.",
        "Consider a second manifold.",
        cause="Many rooms at one manifold.",
        calculations=("hydraulics", "designs"),
    ),
    "pressure_drop_high": Kind(
        WARNING,
        "Pressure drop is high even with the valve fully open, so all other circuits must be throttled.",
        "Shorten or divide the circuit.",
        cause="Long circuits, a narrow pipe or a small temperature drop.",
        calculations=("hydraulics", "designs"),
    ),
    "velocity_high": Kind(
        WARNING,
        "Water is fast for a floor circuit, and pressure drop rises.",
        "Shorten or divide the circuit.",
        cause="A narrow pipe, or a small temperature drop and much heat.",
        calculations=("hydraulics", "designs"),
    ),
    "below_meter_range": Kind(
        WARNING,
        "Flow is below the meter's lowest mark, so it cannot be read there.",
        "Set it by the valve, or serve the room together with another one.",
        cause="A small room with little demand, or a large temperature drop.",
        calculations=("hydraulics", "designs"),
    ),
    "above_meter_range": Kind(
        WARNING,
        "Flow is above the flow meter's highest mark, so it cannot be set by the meter.",
        "Divide the circuit, or take a meter with a wider range.",
        cause="Much heat in one circuit, or a small temperature drop.",
        calculations=("hydraulics", "designs"),
    ),
    "valve_may_be_heard": Kind(
        WARNING,
        "The balancing valve takes so much pressure that it may be heard.",
        "Make the circuits of this manifold more alike, or choose a pump with less pressure.",
        cause="Circuits of very different length, or a strong pump.",
        calculations=("hydraulics", "designs"),
    ),
    "primary_close_to_supply": Kind(
        WARNING,
        "The source is hardly warmer than the supply, so a thermostatic mixing valve controls poorly.",
        "Raise the source by a few kelvin, or leave out the mixing.",
        cause="A heat pump or a low boiler temperature together with a mixing valve.",
        calculations=("hydraulics", "designs"),
    ),
    "balancing_valve_due": Kind(
        NOTE,
        "A manifold needs less pressure than the one that decides the pump, so it takes water from "
        "the others.",
        "Set a balancing valve before it.",
        cause="Several manifolds of different size behind one pump.",
        calculations=("designs",),
    ),
    "transitional_flow": Kind(
        NOTE,
        "Flow is in the transition range, so its pressure drop is uncertain.",
        "Set these circuits by the flow meter.",
        cause="Little water flows in the pipe.",
        calculations=("hydraulics", "designs"),
    ),
    "velocity_low": Kind(
        NOTE,
        "Water is too slow to carry air to the manifold.",
        "Flush and vent these circuits one by one.",
        cause="A small room, or a large temperature drop.",
        calculations=("hydraulics", "designs"),
    ),
    "unusual_temperature_drop": Kind(
        NOTE,
        "Water cools by less or more than the usual 3 to 10 K.",
        "Check that the room's control can hold it.",
        cause="The temperature drop was chosen freely.",
        calculations=("hydraulics", "designs"),
    ),
}
