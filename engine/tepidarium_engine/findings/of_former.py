"""A former answer for the same house."""

from __future__ import annotations

from .kind import NOTE, WARNING, Kind

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    "former_of_another_house": Kind(
        WARNING,
        "The former design has no room of this house by its id, so nothing is compared or kept.",
        "Send the former answer for this house.",
        cause="The answer of another project was sent, or the rooms have new ids.",
        calculations=("designs",),
    ),
    "former_not_kept": Kind(
        WARNING,
        "With the former decisions this house would break limits, so it is designed anew by the rules.",
        "Look at every room of the comparison before you lay pipe.",
        cause="The house or its limits have changed so much that what was decided holds no more.",
        calculations=("designs",),
    ),
    "former_version_differs": Kind(
        NOTE,
        "Another version of the engine made the former design, so figures may differ for that reason too.",
        "Send its inputs alone to see your change only.",
        cause="The service was updated since the former design.",
        calculations=("designs",),
    ),
    "supply_kept": Kind(
        NOTE,
        "The supply stays as it was, although the rooms now ask for less.",
        "Design without the former answer to get the coldest supply.",
        cause="The room that set the supply needs less heat than before.",
        calculations=("designs",),
    ),
}
