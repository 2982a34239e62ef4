"""Random houses by area."""

from __future__ import annotations

import random

from tepidarium_engine.designs import BuildUp, DesignLimits, DesignRoom, DesignsInputs, HeatSource

__all__ = ["house"]

BUILD_UPS = (
    BuildUp("tile", 2.8, 8.0, covering_resistance=0.02),
    BuildUp("timber", 2.8, 8.0, covering="timber", covering_resistance=0.09),
    BuildUp("carpet", 2.8, 8.0, covering="carpet", covering_resistance=0.14),
)


def house(seed: int, rooms: int, **limits: object) -> DesignsInputs:
    """Rooms by area with demands of 25 to 75 W/m2, one of them a bathroom."""
    numbers = random.Random(seed)
    found = []
    for place in range(rooms):
        area = round(numbers.uniform(4.0, 28.0), 1)
        bath = place == 1 and rooms > 2
        found.append(
            DesignRoom(
                f"r{place}",
                "tile" if bath else numbers.choice(BUILD_UPS).id,
                heat_demand=round(area * numbers.uniform(25.0, 75.0)),
                area=area,
                use="bathroom" if bath else "occupied",
                room_temperature=24.0 if bath else 20.0,
                tail_length=round(numbers.uniform(1.0, 9.0), 1),
            )
        )
    return DesignsInputs(
        tuple(found),
        BUILD_UPS,
        source=HeatSource(maximum_supply_temperature=50.0),
        limits=DesignLimits(**{"pipe_spacings": (0.1, 0.15, 0.2, 0.3), **limits}),  # type: ignore[arg-type]
        ordering=None,
        commissioning=None,
    )
