"""What is the same about a finding wherever it is reported."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["NOTE", "VIOLATION", "WARNING", "Kind", "Severity"]

Severity = Literal["note", "warning", "violation"]
"""note: worth knowing; warning: have a second look; violation: should not be built like this."""
NOTE: tuple[Severity, ...] = ("note",)
WARNING: tuple[Severity, ...] = ("warning",)
VIOLATION: tuple[Severity, ...] = ("violation",)


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of finding: how serious it can be, the worst first, and its words.

    ``meaning`` is what happens and why it matters, ``remedy`` what to do, ``cause`` what it usually comes from.
    ``calculations`` are those that can report it, by name. A ``guard`` watches over the engine's own work: no request
    is known that makes the engine report it.
    """

    severities: tuple[Severity, ...]
    meaning: str
    remedy: str
    cause: str
    calculations: tuple[str, ...]
    guard: bool = False

    @property
    def message(self) -> str:
        """The words of every finding of this kind."""
        return f"{self.meaning} {self.remedy}"
