"""Findings as they are answered: one for each matter, with all its places, in the order in which to deal with them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from .findings import COVERED_BY, rank
from .results import Finding, FindingPlace, Severity

__all__ = ["gathered", "subject_of"]

_SEVERITIES: dict[Severity, int] = {"violation": 0, "warning": 1, "note": 2}
"""Worst first."""


def gathered(found: Iterable[Finding], inputs: object) -> tuple[Finding, ...]:
    """One finding for each code: severity, message and source of the worst, every place once, the worst first.

    What ``COVERED_BY`` names is said once. Findings come by severity, then in the order of ``findings``. A place
    without a subject gets the name of what its pointer into ``inputs`` leads through.
    """
    by_code: dict[str, list[Finding]] = {}
    for finding in found:
        by_code.setdefault(finding.code, []).append(finding)
    matters = {code: _one(matter, inputs) for code, matter in by_code.items()}
    told = (_uncovered(matter, matters) for matter in matters.values())
    kept = [matter for matter in told if matter is not None]
    return tuple(sorted(kept, key=lambda one: (_SEVERITIES[one.severity], rank(one.code), one.code)))


def _one(matter: Sequence[Finding], inputs: object) -> Finding:
    if len(matter) == 1 and len(matter[0].places) == 1:
        return matter[0].with_places([_named(matter[0].places[0], inputs)])
    worst = min(matter, key=lambda finding: _SEVERITIES[finding.severity])
    ordered = sorted(
        ((finding, place) for finding in matter for place in finding.places),
        key=lambda pair: (_SEVERITIES[pair[0].severity], -round(pair[1].excess, 9)),
    )
    once: dict[tuple[object, ...], FindingPlace] = {}
    for _, place in ordered:
        once.setdefault((place.where_in, place.where, place.subject, place.point), place)
    return worst.with_places([_named(place, inputs) for place in once.values()])


def _uncovered(matter: Finding, others: Mapping[str, Finding]) -> Finding | None:
    """A matter at those places that no other one says more of; None where there are none."""
    stronger = [others[code] for code in COVERED_BY.get(matter.code, ()) if code in others]
    if not stronger:
        return matter
    covered = {
        place.subject
        for other in stronger
        if _SEVERITIES[other.severity] <= _SEVERITIES[matter.severity]
        for place in other.places
    }
    places = [place for place in matter.places if place.subject not in covered]
    return matter.with_places(places) if places else None


def _named(place: FindingPlace, inputs: object) -> FindingPlace:
    if place.subject or place.where_in == "answer":
        return place
    subject = subject_of(inputs, place.where)
    return place.called(subject) if subject else place


def subject_of(inputs: object, pointer: str) -> str:
    """What people call the thing that a pointer into ``inputs`` leads to: the names of the records on its way, or
    their numbers in their list, such as ``Kitchen, wall 2``; empty where the pointer leads through no list."""
    words: list[str] = []
    here = inputs
    listed = ""
    for step in pointer.split("/")[1:]:
        if step.isdigit():
            here = here[int(step)] if isinstance(here, tuple) and int(step) < len(here) else None
            called = getattr(here, "name", "") or getattr(here, "id", "")
            words.append(called or f"{listed.replace('_', ' ').removesuffix('s')} {int(step) + 1}")
        else:
            here, listed = getattr(here, step, None), step
    return ", ".join(words)
