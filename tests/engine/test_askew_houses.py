"""Old houses: no corner of their rooms is square, and tails lie along walls that are askew.

Oracle: shapely's own predicate of lines that cross themselves.
"""

from __future__ import annotations

import shapely
from tepidarium_engine import designs
from tepidarium_engine.designs import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignsInputs,
    Manifold,
    PlanDoorway,
)

HALL = ((0.0, 0.0), (2.1, 0.07), (2.35, 8.1), (0.12, 8.0))
PARLOUR = ((-5.3, 0.2), (-0.5, -0.05), (-0.4, 4.3), (-5.2, 4.15))


def test_tails_along_askew_walls_do_not_cross_themselves() -> None:
    """A way that changes to a track beside its own must not take a full turn before its manifold to get there."""
    result = designs.calculate(
        DesignsInputs(
            (
                DesignRoom("hall", "floor", 860.0, outline=HALL, room_temperature=18.0, pipe_spacing=0.2),
                DesignRoom("parlour", "floor", 990.0, outline=PARLOUR, pipe_spacing=0.1),
            ),
            (BuildUp("floor", resistance_below=3.0, temperature_below=9.0, covering_resistance=0.02),),
            manifold=Manifold(position=(1.3, 0.043)),
            doorways=(PlanDoorway(("hall", "parlour"), (-0.22, 3.2), 1.0),),
            limits=DesignLimits(maximum_circuit_length=90.0),
        )
    )
    assert result.layout is not None
    assert not result.layout.unplaced
    for circuit in result.layout.drawn_circuits:
        corners = [piece.start for piece in circuit.pieces] + [circuit.pieces[-1].end]
        assert shapely.is_simple(shapely.LineString(corners))
