"""What is ordered and what it costs."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "circuit_longer_than_coils": Kind(
        VIOLATION,
        "No coil is as long as this circuit with its cutting allowance, so it would get a joint in "
        "the screed.",
        "Divide the circuit or order a longer coil.",
        cause="Short coils, or long circuits.",
        calculations=("coil-plan", "materials", "designs", "design-options"),
    ),
    "joints_due_not_given": Kind(
        WARNING,
        "Movement joints are due that nobody has decided on; their profile and sleeves stand apart "
        "in the list.",
        "Agree on the joints before you order.",
        cause="Large fields, and the joints are not yet decided.",
        calculations=("materials", "designs"),
    ),
    "estimate_beyond_drawn": Kind(
        WARNING,
        "The spread was measured on storeys of other sizes, so the true values may lie outside the ranges.",
        "Have the rooms designed before you order.",
        cause="A very small or a very large storey.",
        calculations=("estimates",),
    ),
    "joints_not_estimated": Kind(
        NOTE,
        "A room is so large that its screed needs movement joints, which an estimate does not count.",
        "Add their profile and sleeves when the rooms are drawn.",
        cause="A large room.",
        calculations=("estimates",),
    ),
    "price_missing": Kind(
        WARNING,
        "The price list lacks items of this order, so the total is too low.",
        "Add their prices under the ids that the material list shows.",
        cause="The price list was made for another order.",
        calculations=("estimates", "materials", "designs"),
    ),
    "price_unused": Kind(
        WARNING,
        "The price list names an item that no order has, so that this price counts nowhere.",
        "Write the id of the item as the material list shows it.",
        cause="A misspelt id, or another way to write a size.",
        calculations=("estimates", "materials", "designs"),
    ),
    "coil_plan_not_proven": Kind(
        NOTE,
        "A better plan of coils may exist, as the best bound is below this one; none was found.",
        "This plan can be used as it is.",
        cause="Many circuits and many lengths of coils.",
        calculations=("coil-plan", "materials", "designs"),
    ),
    "estimated_by_area": Kind(
        NOTE,
        "Boards, film and edge strip are estimated, as the floor has no outline.",
        "Give the outline to have them measured.",
        cause="The area was given without its outline.",
        calculations=("materials", "designs"),
    ),
}
