"""Ranges for a quotation."""

from __future__ import annotations

from tepidarium_engine.estimates import EstimatesInputs, EstimatesResult, calculate, workings

from ._base import Calculation

__all__ = ["ESTIMATES"]


def _effort(inputs: EstimatesInputs) -> float:
    """An outline counts as the rectangle about it; what a price may be meant for is looked for in all items."""
    area = sum((inputs.floor_area or 0.0, *(room.area for room in inputs.rooms)))
    corners = inputs.outline or ()
    if corners:
        along, across = zip(*corners, strict=True)
        area += (max(along) - min(along)) * (max(across) - min(across))
    rooms = len(inputs.rooms) or min(area / 14.0, 64.0)
    prices = inputs.ordering.price_list
    unused = 0 if prices is None else len(prices.prices)
    return 6e-4 + 1e-5 * rooms + 2e-7 * area + 6e-6 * len(corners) + 4e-5 * unused


ESTIMATES = Calculation(
    name="estimates",
    operation_id="estimates",
    summary="Low, likely and high values for a quotation, from a few words about a house",
    description=(
        "Takes the heated floor as `floor_area`, `outline` or `rooms` and what a customer knows of the house, and "
        "answers ranges: pipe, circuits, manifolds, heat output, supply temperature, and what to order, priced with a "
        "price list. Each range says what it rests on. The likely value follows from the physics of a design and rules "
        "of the trade; low and high from how far drawn designs of generated and real rooms lie from it, so that nine "
        "in ten lie inside. Nothing is drawn: have the rooms designed before you order."
    ),
    inputs=EstimatesInputs,
    result=EstimatesResult,
    calculate=calculate,
    workings=workings,
    effort=_effort,
    readable=True,
    example={
        "rooms": [
            {"name": "Parlour", "area": 27.5},
            {"name": "Kitchen", "area": 14.2},
            {"name": "Bedroom", "area": 13.8},
            {"name": "Study", "area": 9.6},
            {"name": "Washroom", "area": 6.4, "use": "bathroom"},
        ],
        "building_standard": "renovated",
        "outside_design_temperature": -10.0,
        "covering": "timber",
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
        "ordering": {
            "price_list": {
                "currency": "EUR",
                "prices": [
                    {"item": "pipe_16x2", "unit_price": 1.15},
                    {"item": "fixings", "unit_price": 0.06},
                    {"item": "insulation_1000x500", "unit_price": 8.9},
                ],
            }
        },
    },
)
