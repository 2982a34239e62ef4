"""What is said about an import while it is put together."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..results import Finding
from .drawn_plan import NOWHERE, Source
from .records import ImportedPart

__all__ = ["Report"]

_SOURCES = {"floor_insulation_low": "EN 1264-4, Table 1", "floor_area_unlike_file": "Geometry"}


@dataclass
class Report:
    """Parts and findings in the order in which they were noted."""

    taken: list[ImportedPart] = field(default_factory=list)
    guessed: list[ImportedPart] = field(default_factory=list)
    missing: list[ImportedPart] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def took(self, where: str, message: str, source: Source = NOWHERE) -> None:
        self.taken.append(ImportedPart(where, message, source.element, source.line))

    def guess(self, where: str, message: str, source: Source = NOWHERE) -> None:
        self.guessed.append(ImportedPart(where, message, source.element, source.line))

    def miss(self, where: str, message: str, source: Source = NOWHERE) -> None:
        self.missing.append(ImportedPart(where, message, source.element, source.line))

    def find(
        self,
        code: str,
        where: str,
        subject: str = "",
        detail: str = "",
        *,
        value: float | None = None,
        limit: float | None = None,
        quantity: str | None = None,
    ) -> None:
        """Note a finding; ``where`` is a pointer into the answer."""
        self.findings.append(
            Finding.at(
                code,
                where,
                value=value,
                limit=limit,
                limit_is="" if code != "floor_area_unlike_file" else "stated in the file",
                source=_SOURCES.get(code),
                quantity=quantity,
                detail=detail,
                subject=subject,
                where_in="answer",
            )
        )
