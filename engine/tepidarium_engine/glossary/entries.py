"""The kinds of glossary entry: what a field name means, its unit and the range that can be computed."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Day", "Entry", "Items", "Number", "Text", "Word", "named"]


@dataclass(frozen=True, slots=True)
class Number:
    """A quantity. The range is that of physics and computation, not of a standard."""

    unit: str
    minimum: float
    maximum: float
    description: str

    @property
    def written_unit(self) -> str:
        """The unit as people write it; empty for a pure number."""
        return {"1": "", "degC": "°C"}.get(self.unit, self.unit)


@dataclass(frozen=True, slots=True)
class Text:
    description: str
    maximum_length: int = 120
    minimum_length: int = 0


@dataclass(frozen=True, slots=True)
class Items:
    """A list. ``of`` names the glossary entry of its members when they are plain numbers, words or dates."""

    description: str
    minimum: int
    maximum: int
    of: str | None = None


@dataclass(frozen=True, slots=True)
class Day:
    """A calendar date between the first day of two years."""

    description: str
    first_year: int = 1990
    last_year: int = 2199


@dataclass(frozen=True, slots=True)
class Word:
    """A choice, a yes-or-no or a nested record: it needs a description but no range."""

    description: str


Entry = Number | Text | Items | Day | Word


def named(entry: str) -> dict[str, str]:
    """Metadata of a dataclass field whose meaning stands in the glossary under another name than its own."""
    return {"glossary": entry}
