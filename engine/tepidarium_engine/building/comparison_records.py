"""What has changed from a former design to this one."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..glossary import named
from ..places import PlacedText
from ..results import Document, Severity

__all__ = ["DesignChange", "DesignComparison", "FindingChange", "FindingChangeKind"]


FindingChangeKind = Literal["new", "gone", "severity", "places"]


@dataclass(frozen=True, slots=True)
class DesignChange:
    """One thing that is another than it was. ``where`` is a JSON pointer into the document ``where_in``, to what it is
    now; to the list that it stood in where it is gone. ``value_before`` and ``value_after`` are in the SI
    ``unit`` of the ``quantity``, None where it is no number or was not there; ``text_before`` and ``text_after`` say
    the same in the units of the trade. ``because``: why it changed, where nobody asked for it."""

    what: str = field(metadata=named("changed_thing"))
    subject: str
    where: str
    where_in: Document
    quantity: str | None
    unit: str | None
    value_before: float | None
    value_after: float | None
    text_before: PlacedText
    text_after: PlacedText
    because: str


@dataclass(frozen=True, slots=True)
class FindingChange:
    """A finding that is new, gone, of another severity, or holds for other places. ``where`` leads to it in
    ``findings`` of this answer; empty where it is gone. ``subjects`` are the rooms and circuits that it is new or gone
    for."""

    code: str
    change: FindingChangeKind = field(metadata=named("finding_change"))
    former_severity: Severity | None
    severity: Severity | None = field(metadata=named("severity_now"))
    where: str
    subjects: tuple[str, ...]
    message: PlacedText


@dataclass(frozen=True, slots=True)
class DesignComparison:
    """This design beside the former one, of the engine version ``former_version``.

    ``asked``: what the request asks for that is another. ``decisions``, ``figures`` and ``findings`` follow.
    ``unchanged_rooms``: ids of the rooms that keep spacing, manifold, ports and every pipe. ``kept``: whether the
    former decisions were kept where they hold; False: they would break limits, or no house could be computed with them.
    """

    former_version: str
    kept: bool = field(metadata=named("decisions_kept"))
    asked: tuple[DesignChange, ...] = field(metadata=named("asked_changes"))
    decisions: tuple[DesignChange, ...] = field(metadata=named("decision_changes"))
    figures: tuple[DesignChange, ...] = field(metadata=named("figure_changes"))
    findings: tuple[FindingChange, ...] = field(metadata=named("finding_changes"))
    unchanged_rooms: tuple[str, ...]
