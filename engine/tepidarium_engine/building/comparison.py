"""What has changed from a former design to this one: what was asked, what was decided, and what it comes to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from ..results import Finding
from .compared_designs import Compared
from .comparison_records import DesignComparison, FindingChange, FindingChangeKind
from .decision_changes import house_decisions, laid_otherwise, room_decisions
from .figure_changes import figure_changes
from .former_records import FormerFinding
from .request_changes import request_changes

__all__ = ["compared"]


def compared(by: Compared) -> DesignComparison:
    """The comparison as it is answered."""
    asked = tuple(request_changes(by.former.inputs, by.inputs))
    taken = tuple(own for own in asked if own.where.endswith("/entry"))
    decisions = (
        *house_decisions(by),
        *taken,
        *(own for each in by.rooms for own in room_decisions(by, *each)),
    )
    changed_rooms = {room for room, _ in laid_otherwise(by)}
    return DesignComparison(
        former_version=by.former.engine_version,
        kept=by.kept,
        asked=asked,
        decisions=decisions,
        figures=tuple(figure_changes(by)),
        findings=tuple(_findings(by.former.findings, by.result.findings)),
        unchanged_rooms=tuple(room.id for _, _, room in by.rooms if room.id not in changed_rooms),
    )


def _findings(before: Iterable[FormerFinding], after: Iterable[Finding]) -> Iterator[FindingChange]:
    """What is new or another, in the order of the answer, then what is gone."""
    known: Mapping[str, FormerFinding] = {finding.code: finding for finding in before}
    codes = set()
    for place, finding in enumerate(after):
        codes.add(finding.code)
        was, where = known.get(finding.code), f"/findings/{place}"
        now = _subjects(finding)
        if was is None:
            yield FindingChange(
                finding.code, "new", None, finding.severity, where, tuple(sorted(now)), finding.message
            )
            continue
        others = tuple(sorted(now ^ _subjects(was)))
        if was.severity != finding.severity or others:
            kind: FindingChangeKind = "severity" if was.severity != finding.severity else "places"
            yield FindingChange(
                finding.code, kind, was.severity, finding.severity, where, others, finding.message
            )
    for was in known.values():
        if was.code not in codes:
            subjects = tuple(sorted(_subjects(was)))
            yield FindingChange(was.code, "gone", was.severity, None, "", subjects, was.message)


def _subjects(finding: Finding | FormerFinding) -> set[str]:
    return {place.subject for place in finding.places if place.subject}
