"""Thickness and strength of the screed."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "load_outside_table": Kind(
        VIOLATION,
        "The load is heavier than the tables go, so the thickness shown is too small.",
        "Let a structural engineer size this screed.",
        cause="A heavy load such as a car, an archive or a machine.",
        calculations=("insulation-check", "designs", "curing-plan"),
    ),
    "insulation_too_soft": Kind(
        VIOLATION,
        "The insulation gives way too far under this load, so the screed can crack.",
        "Choose firmer insulation.",
        cause="Impact sound insulation in several layers, or of a soft kind.",
        calculations=("insulation-check", "designs", "curing-plan"),
    ),
    "screed_too_thin": Kind(
        VIOLATION,
        "Too little screed lies over the pipe for its load, so it can crack.",
        "Make the screed thicker.",
        cause="There is little height for the floor.",
        calculations=("insulation-check", "designs", "curing-plan"),
    ),
    "screed_cover_thin": Kind(
        VIOLATION,
        "Less screed lies above the pipe than any heated screed may have, so it can crack.",
        "Most binders need 40 to 45 mm.",
        cause="There is little height for the floor, or the cover was measured from the middle of the pipe.",
        calculations=("floor-section", "heat-output", "supply-temperature", "designs"),
    ),
    "supply_above_screed_limit": Kind(
        VIOLATION,
        "The supply is hotter than the screed can bear, so the programme stops at the screed's limit.",
        "Lower the supply of the design to that limit.",
        cause="The floor needs a hot supply for its heat.",
        calculations=("curing-plan", "designs"),
    ),
    "thickened_for_soft_insulation": Kind(
        NOTE,
        "The insulation is soft, so the screed needs 5 mm more.",
        "They are counted.",
        cause="Impact sound insulation below the pipes.",
        calculations=("insulation-check", "designs", "curing-plan"),
    ),
    "unusual_thickness": Kind(
        NOTE,
        "The screed over the pipe is thinner or thicker than usual: a thin one can crack, and a "
        "thick one reacts slowly, weighs more and dries longer.",
        "Check the thickness.",
        cause="The floor has much height to fill, or very little.",
        calculations=("curing-plan", "designs"),
    ),
    "class_without_gain": Kind(
        NOTE,
        "Cement screed above class F5 may not be laid thinner, as more cement shrinks and curls more.",
        "Class F5 is used.",
        cause="A strong cement screed was chosen to save height.",
        calculations=("curing-plan", "designs"),
    ),
}
