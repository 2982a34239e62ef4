"""What a house could be instead, with what each option costs beside the next."""

from __future__ import annotations

from tepidarium_engine.design_options import (
    DesignOptionsInputs,
    DesignOptionsResult,
    calculate,
    workings,
)

from ..documents.part_documents import options_pdf
from ..renderings.options_drawing import options_drawing
from ._base import PDF, SVG, Calculation
from ._house_by_area import HOUSE_BY_AREA

__all__ = ["DESIGN_OPTIONS"]

DESIGN_OPTIONS = Calculation(
    name="design-options",
    operation_id="design_options",
    summary="What a house could be instead: supply temperature, pipe, pump power and heat weighed, with proof",
    description=(
        "Takes a request of designs and looks at every supply temperature at which a spacing of a room becomes "
        "possible. On each it finds the best house as a whole: a spacing, a number of circuits, a manifold and, where "
        "they are given, one of the `coverings`, `patterns` and `strips` for each room, within the ports of the "
        "manifolds and the `pump_stages`. Heat counts first, then material or flow. The options that no other one "
        "beats are answered from the warmest supply to the coldest, each with what it takes beside the one before. "
        "`by_rule` is the house as designs does it.\n\nA strip is closer pipe along outside walls, in the circuits of "
        "its room: EN 1264-2 lets it be 35 degC warm. Patterns give the same heat by area and differ in how even the "
        "floor is: in a serpentine the water cools across the room, and `maximum_surface_range` says by how much the "
        "floor may.\n\nMaterial is metres of pipe, or money where `prices` are given; with `coils` among them the "
        "pipe is bought in whole coils, cut without joints. With a `heat_pump` each option has its electricity of a "
        "year, and with prices what it costs over the years. Take the efficiency by supply temperature from the "
        "source's data sheet: seasonal values after EN 14825, else lines of a test after EN 14511 at one outside "
        "temperature; the heat of a year, or the hours in which the whole demand would come to it. The pump's "
        "electricity is not part of it.\n\nThe options follow from areas and estimated tails; nothing is drawn. To "
        "have one drawn, send its `supply_temperature` as that of the source, and `pipe_spacing`, `manifold`, "
        "`pattern` and `peripheral` of its rooms, to designs. `proven` says that no other choice on this supply is "
        "better of its kind; where a search ends before, `gap` is how much better one could be. Searches are bounded "
        "by a number of `nodes` and not by time, so that the same request has the same answer. Ask for "
        "`image/svg+xml` to get the options as a plot with their table, for `application/pdf` to get that with what "
        "each costs beside its neighbour and the choices of each room."
    ),
    inputs=DesignOptionsInputs,
    result=DesignOptionsResult,
    calculate=calculate,
    workings=workings,
    renderings={SVG: options_drawing, PDF: options_pdf},
    heavy=True,
    example={
        "design": HOUSE_BY_AREA,
        "strips": [
            {"room": "parlour", "strip": {"pipe_spacing": 0.1, "length": 6.0}},
            {"room": "study", "strip": {"pipe_spacing": 0.1, "length": 4.0}},
        ],
        "prices": {"pipe": 2.4, "circuit": 55.0, "currency": "EUR"},
        "heat_pump": {
            "efficiency": [
                {"supply_temperature": 30.0, "coefficient_of_performance": 4.9},
                {"supply_temperature": 35.0, "coefficient_of_performance": 4.4},
                {"supply_temperature": 45.0, "coefficient_of_performance": 3.5},
                {"supply_temperature": 55.0, "coefficient_of_performance": 2.8},
            ],
            "heating_energy": 6200.0,
            "electricity_price": 0.31,
            "years": 15.0,
        },
    },
)
