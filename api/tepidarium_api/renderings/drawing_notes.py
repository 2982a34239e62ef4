"""The notes of a drawing: findings with their places, and what cautions begin with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from tepidarium_engine.results import Caution, Finding

from .flow import Row, heading, paragraph

__all__ = ["beginning", "finding_text", "named_places", "notes"]

ENOUGH = 30
"""A caution is shortened to the sentences that hold so many characters."""


def notes(
    findings: Iterable[Finding], cautions: Sequence[Caution], marks: Mapping[str, str]
) -> Iterator[Row]:
    """Every finding with the mark of its code, and every place by its name; then the cautions."""
    yield heading("Notes")
    found = False
    for finding in findings:
        found = True
        yield from paragraph(finding_text(finding), marks.get(finding.code, "-"))
    if not found:
        yield from paragraph("No violation and no warning.")
    for caution in cautions:
        yield from paragraph(beginning(caution.message), "!")


def finding_text(finding: Finding) -> str:
    """What, why and what to do, with its places."""
    places = "; ".join(named_places(finding))
    return f"{finding.severity.capitalize()}: {finding.message}" + (f" ({places})" if places else "")


def named_places(finding: Finding) -> list[str]:
    """Each place with what there is to say about it. Places that have the same to say are named together."""
    names: dict[str, list[str]] = {}
    for place in finding.places:
        named = names.setdefault(place.message, [])
        if place.subject and place.subject not in named:
            named.append(place.subject)
    lines = (": ".join(filter(None, (", ".join(own), message))) for message, own in names.items())
    return list(filter(None, lines))


def beginning(message: str) -> str:
    """The first sentences, until there is something to go by."""
    sentences = message.rstrip(".").split(". ")
    count = next(
        (n for n in range(1, len(sentences)) if len(". ".join(sentences[:n])) >= ENOUGH), len(sentences)
    )
    return ". ".join(sentences[:count]) + "."
