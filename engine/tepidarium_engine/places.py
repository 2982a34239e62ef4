"""What a field of a record holds of a plan, told by its type: a place, a direction, a text that names places."""

from __future__ import annotations

from typing import Annotated

__all__ = ["FREE", "PLACES", "Direction", "Offset", "PlacedText", "Point"]

Point = tuple[float, float]
"""x and y [m]."""

FREE = "the same wherever the plan lies"
PLACES = "names places as [x, y] in metres"

Direction = Annotated[tuple[float, float], FREE]
"""x and y of a unit vector."""
Offset = Annotated[tuple[float, float], FREE]
"""x and y [m] from a place of the plan."""
PlacedText = Annotated[str, PLACES]
"""A text for people; a place in it is written as [x, y] with two or three decimals."""
