"""What the people who live there should know (common practice, no source)."""

from __future__ import annotations

from tepidarium_engine.designs import DesignsInputs, DesignsResult

from .parts import Chapter, Fields, Listed

__all__ = ["user_instructions"]


def user_instructions(inputs: DesignsInputs, result: DesignsResult) -> Chapter:
    """How to use, look after and not damage the floor."""
    coverings = ", ".join(dict.fromkeys(own.covering.replace("_", " ") for own in inputs.build_ups))
    vessel = result.expansion_vessel
    rows = [
        ("Supply on the coldest day", f"{result.supply_temperature:.0f} °C"),
        ("Floor covering", coverings),
        (
            "Warmest floor that is allowed",
            "; ".join(
                f"{room.name or room.id} {room.surface_temperature_limit:.0f} °C" for room in result.rooms
            ),
        ),
    ]
    if vessel.fill_pressure is not None:
        rows.append(("Pressure when the system is cold", f"{vessel.fill_pressure * 1e-5:.1f} bar"))
    return Chapter(
        "Instructions for the people who live here", (Fields("", tuple(rows)), Listed("", _DAILY, True))
    )


_DAILY = (
    (
        "Heat",
        "The floor reacts slowly: a change takes hours. Leave the room controls at one value.",
    ),
    (
        "Night",
        "Lowering the temperature at night saves little in a well insulated house. Two degrees are enough.",
    ),
    (
        "Furniture",
        "Leave air below furniture. Thick rugs and closed plinths hold the heat back.",
    ),
    (
        "Covering",
        "A new covering must suit heated floors. Ask for its thermal resistance: it decides the supply.",
    ),
    ("Drilling", "Do not drill, nail or screw into the floor. The drawings show the pipes; keep them."),
    (
        "Pressure",
        "Look at the gauge twice a year. If the pressure falls again and again, call the installer.",
    ),
    (
        "Valves",
        "The flows at the manifold are set. Do not turn them; the record of balancing holds their values.",
    ),
    (
        "Frost",
        "Do not switch the heating off in winter, unless the record says that antifreeze was filled in.",
    ),
    (
        "Leak",
        "If water comes out, switch the pump off, close the valves at the manifold and call the installer.",
    ),
    ("Changes", "Show this pack to everyone who works on the floor, the heating or the covering."),
)
