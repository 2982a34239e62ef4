"""Leak test, filling, flushing and moisture."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "test_pressure_above_rating": Kind(
        VIOLATION,
        "The test pressure is above the rating of pipe, fittings or manifold: parts can burst.",
        "Lower it or isolate the weaker part.",
        cause="The fittings or the manifold have a lower rating than the pipe.",
        calculations=("commissioning", "designs"),
    ),
    "test_pressure_below_operation": Kind(
        VIOLATION,
        "The test pressure is below the highest pressure in operation, so the test proves nothing.",
        "Raise it.",
        cause="The test pressure was chosen by habit, and the system runs at a higher pressure.",
        calculations=("commissioning", "designs"),
    ),
    "air_test": Kind(
        WARNING,
        "Compressed air stores so much energy that a fitting which lets go can kill.",
        "Test with water unless frost forbids it, and only with a written safe system of work.",
        cause="The test is planned with compressed air, often because of frost.",
        calculations=("commissioning", "designs"),
    ),
    "test_pressure_outside_standard": Kind(
        WARNING,
        "The test pressure lies outside the range of the standard and may not be accepted.",
        "Agree on it before you test.",
        cause="The test pressure was taken from another rule.",
        calculations=("commissioning", "designs"),
    ),
    "water_freezes": Kind(
        WARNING,
        "Circuits with plain water burst at the frost temperature.",
        "Heat the building, fill with antifreeze or blow the circuits out one by one.",
        cause="The building is not heated in winter.",
        calculations=("commissioning", "designs"),
    ),
    "no_glycol_stands_it": Kind(
        WARNING,
        "No published mixture of this glycol stands the frost temperature.",
        "Drain the circuits or heat the building.",
        cause="A very low frost temperature.",
        calculations=("commissioning", "designs"),
    ),
    "glycol_below_protection": Kind(
        NOTE,
        "So little glycol stands the frost, but many products no longer protect from corrosion at "
        "this concentration.",
        "See the maker's sheet.",
        cause="A mild frost temperature.",
        calculations=("commissioning", "designs"),
    ),
    "water_too_hard": Kind(
        WARNING,
        "The water is harder than this system may be filled with, so lime settles in the heat source.",
        "Soften or demineralise it.",
        cause="Hard water of the region, a small source or a large volume of water.",
        calculations=("commissioning", "designs"),
    ),
    "source_output_unknown": Kind(
        NOTE,
        "Without the output of the heat source the limit of hardness is not known.",
        "Give it: floor heating often holds more water per kilowatt than the limits allow for hard water.",
        cause="The output of the heat source is not given.",
        calculations=("commissioning", "designs"),
    ),
    "flushing_needs_pump": Kind(
        NOTE,
        "The circuit needs more pressure at the flushing velocity than a usual water supply gives.",
        "Flush it with a pump.",
        cause="A long circuit or a narrow pipe.",
        calculations=("commissioning", "designs"),
    ),
    "joint_moves_far": Kind(
        WARNING,
        "The joint moves further than an edge strip of usual thickness takes, so the screed may crack.",
        "Take a wider joint or part the field.",
        cause="A long field, or a large rise of temperature.",
        calculations=("commissioning", "designs"),
    ),
    "too_moist": Kind(
        VIOLATION,
        "The screed is too moist for the covering, which would lift, warp or grow mould.",
        "Wait, ventilate evenly and measure again.",
        cause="The screed has not dried for long enough.",
        calculations=("moisture-reading",),
    ),
    "too_few_test_points": Kind(
        WARNING,
        "The floor was measured at fewer points than its size needs, so wet places may be missed.",
        "Measure the others before you cover it.",
        cause="A large floor with few marked places.",
        calculations=("moisture-reading",),
    ),
    "heating_not_off": Kind(
        WARNING,
        "A floor that was heated until now shows too little moisture.",
        "Leave the heating off for 4 days and measure again.",
        cause="The floor was heated until the measurement.",
        calculations=("moisture-reading",),
    ),
    "moisture_close_to_limit": Kind(
        NOTE,
        "The reading is so close to the limit that the instrument may decide.",
        "Measure once more.",
        cause="The screed has dried just long enough.",
        calculations=("moisture-reading",),
    ),
}
