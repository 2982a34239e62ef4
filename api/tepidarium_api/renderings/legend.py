"""Samples of what a drawing shows, for its legend; each 13 mm wide."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from .drawn_room import crossed
from .flow import Sample
from .marks import Area, Box, Disc, Line, Mark, Paper, Words, boxed

__all__ = [
    "crossed_sample",
    "line_sample",
    "number_sample",
    "pipe_samples",
    "port_sample",
    "ring_sample",
    "sleeve_sample",
]

_UNTIL = {
    "counterflow": "until the pipe turns in the middle of the field",
    "serpentine": "serpentine: the first half of the pipe",
}


def line_sample(kind: str) -> Sample:
    """A line of the kind."""
    return lambda place: [Line(kind, (place, (place[0] + 13.0, place[1])))]


def pipe_samples(patterns: Collection[str]) -> Iterator[tuple[Sample, str]]:
    """Flow and return, and where one becomes the other."""
    words = "; ".join(text for pattern, text in _UNTIL.items() if pattern in patterns)
    yield _arrowed("flow"), f"flow{', ' if words else ''}{words}"
    yield _arrowed("return"), "return, from there"


def _arrowed(kind: str) -> Sample:
    def draw(place: Paper) -> Iterator[Mark]:
        x, y = place
        yield Line(kind, (place, (x + 13.0, y)))
        yield Area(f"{kind}-arrow", (((x + 7.3, y), (x + 5.0, y + 0.9), (x + 5.0, y - 0.9)),))

    return draw


def crossed_sample(place: Paper) -> Iterator[Mark]:
    """A void."""
    x, y = place
    box = Box(x + 4.0, y - 1.3, x + 9.0, y + 1.3)
    yield boxed("void", box)
    yield from crossed(box.corners)


def port_sample(place: Paper) -> Iterator[Mark]:
    x, y = place
    yield boxed("manifold", Box(x + 3.0, y - 1.4, x + 10.0, y + 1.4))
    yield Words((x + 6.5, y + 0.7), "1  2", 1.4, "middle", True)


def number_sample(place: Paper) -> Iterator[Mark]:
    x, y = place
    yield Disc("number", (x + 6.5, y), 1.6)
    yield Words((x + 6.5, y + 0.7), "1", 1.4, "middle", True)


def sleeve_sample(place: Paper) -> Iterator[Mark]:
    x, y = place
    yield Line("flow", (place, (x + 13.0, y)))
    yield boxed("sleeve", Box(x + 4.0, y - 0.7, x + 9.0, y + 0.7))


def ring_sample(place: Paper) -> Iterator[Mark]:
    yield Disc("bare", (place[0] + 6.5, place[1]), 1.3)
