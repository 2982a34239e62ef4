"""Antifreeze and the expansion vessel."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "freezes": Kind(
        VIOLATION,
        "The fluid freezes above the frost temperature and the pipes burst.",
        "Use more antifreeze, keep the building warm or drain it.",
        cause="Plain water, or too little antifreeze for the place.",
        calculations=("hydraulics", "designs"),
    ),
    "antifreeze_needed": Kind(
        WARNING,
        "Filled loops can freeze and burst.",
        "Use antifreeze for this temperature, keep the building warm, or blow the loops out.",
        cause="The building is not heated while the screed cures in winter.",
        calculations=("curing-plan", "designs"),
    ),
    "frost_margin_small": Kind(
        WARNING,
        "The fluid freezes less than 3 K below the frost temperature, so there is little reserve.",
        "Use more antifreeze.",
        cause="The concentration was chosen without reserve.",
        calculations=("hydraulics", "designs"),
    ),
    "little_glycol": Kind(
        WARNING,
        "With so little glycol many products no longer protect from corrosion and bacteria.",
        "Follow the maker's sheet.",
        cause="The concentration was chosen for mild frost.",
        calculations=("hydraulics", "designs"),
    ),
    "growth_too_small": Kind(
        WARNING,
        "The fluid grows more than the given expansion, so the safety valve may open.",
        "Use the expansion of the fluid.",
        cause="The expansion was taken from a table for water, or for a lower temperature.",
        calculations=("hydraulics", "designs"),
    ),
    "reserve_too_small": Kind(
        WARNING,
        "The vessel keeps so little water in reserve that the system soon loses pressure.",
        "Keep that of EN 12828.",
        cause="The reserve was set below the standard's.",
        calculations=("hydraulics", "designs"),
    ),
    "little_pressure_range": Kind(
        WARNING,
        "The fill pressure leaves no room below the safety valve, so the valve blows when the water "
        "warms up.",
        "Take a larger vessel or a safety valve with a higher pressure.",
        cause="A high building, or a safety valve with a low pressure.",
        calculations=("hydraulics", "designs"),
    ),
    "vessel_beyond_common_sizes": Kind(
        NOTE,
        "The vessel is larger than common sizes.",
        "Have it planned by a specialist, or use several.",
        cause="Much water in the system, or little range of pressure.",
        calculations=("hydraulics", "designs"),
    ),
    "vessel_for_circuits_only": Kind(
        NOTE,
        "The vessel is sized for the floor circuits alone.",
        "Add the water of source, store and mains.",
        cause="The volume of the rest of the system is not given.",
        calculations=("hydraulics", "designs"),
    ),
}
