"""What is said about an import while it is put together."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..results import Finding, Severity
from .drawn_plan import NOWHERE, Source
from .records import ImportedPart

__all__ = ["Report"]

_MATTERS: dict[str, tuple[Severity, str]] = {
    "room_left_out": (
        "warning",
        "These rooms of the file are not in the request, so that their floors and heat are not designed. Mend the "
        "drawing, or enter them by hand.",
    ),
    "floor_area_unlike_file": (
        "warning",
        "The outline has another area than the file states for the room, so that pipe and heat may be wrong. Check the "
        "outline.",
    ),
    "room_size_unlikely": (
        "warning",
        "Half of the rooms have a floor of this area or less, or more, which few houses have. Check the unit of "
        "length, and give it if the file has a wrong one.",
    ),
    "storey_in_parts": (
        "warning",
        "Not all rooms of the storey can be reached from each other, so that its pipes cannot be drawn and lengths are "
        "estimated. Add the doorways that are missing.",
    ),
    "u_value_unlike_layers": (
        "warning",
        "The file gives a U-value that its layers do not have; the layers were taken. Check which of them is right: "
        "the heat loss follows from it.",
    ),
    "floor_insulation_low": (
        "warning",
        "The floor in the file has less insulation than EN 1264-4 asks for; the least that it asks for was put in its "
        "place. Check what will be laid.",
    ),
}
"""By code: severity and message."""
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
        severity, message = _MATTERS[code]
        self.findings.append(
            Finding.at(
                code,
                severity,
                where,
                message,
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
