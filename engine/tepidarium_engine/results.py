"""Records that every result carries beside its numbers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from operator import is_
from typing import Literal, Self

from .findings import FINDINGS, Severity
from .glossary import Number, lookup, named
from .places import PlacedText, Point
from .quick_records import quickly_made
from .trade_units import value_and_limit

__all__ = ["Caution", "Document", "Finding", "FindingPlace", "Severity", "Working"]

Document = Literal["request", "answer"]
"""request: the inputs, as sent or, where left out, as filled in under ``inputs`` of the answer."""


@quickly_made
@dataclass(frozen=True, slots=True)
class FindingPlace:
    """One place that a finding holds for.

    ``where`` is a JSON pointer (RFC 6901) into the document ``where_in``. ``subject`` is the room, circuit or other
    thing concerned as people call it, empty for the request as a whole. ``value`` and ``limit`` are in the unit of
    the finding. ``message`` says the same in the units of the trade, with what holds for this place only. ``point``
    [m] is where in the plan, if there is such a place.
    """

    where: str
    where_in: Document
    subject: str
    message: PlacedText
    value: float | None
    limit: float | None
    point: Point | None

    def called(self, subject: str) -> FindingPlace:
        """The same place with a name for what is concerned."""
        return FindingPlace(
            self.where, self.where_in, subject, self.message, self.value, self.limit, self.point
        )

    @property
    def excess(self) -> float:
        """How far the value lies from its limit, as a share of the limit; 0 without one."""
        if self.value is None or self.limit is None:
            return 0.0
        return abs(self.value - self.limit) / max(abs(self.limit), 1e-9)


@quickly_made
@dataclass(frozen=True, slots=True)
class Finding:
    """One matter that can be computed but should be looked at before it is built, with every place it holds for.

    ``message`` holds for all places: what happens, why it matters, what to do. ``where``, ``where_in``, ``value`` and
    ``limit`` are those of the first place, which is the worst. ``quantity`` is the field name of the glossary that
    says what value and limit are of, ``unit`` their SI unit; both None where there are no numbers.
    """

    code: str
    severity: Severity
    where: str
    where_in: Document
    message: str
    value: float | None
    limit: float | None
    quantity: str | None
    unit: str | None
    source: str | None
    places: tuple[FindingPlace, ...] = field(metadata=named("finding_places"))

    @classmethod
    def at(
        cls,
        code: str,
        where: str,
        *,
        severity: Severity | None = None,
        value: float | None = None,
        limit: float | None = None,
        source: str | None = None,
        point: Point | None = None,
        quantity: str | None = None,
        limit_is: str = "",
        detail: str = "",
        subject: str = "",
        where_in: Document = "request",
    ) -> Self:
        """A finding at one place, in the words of its kind.

        ``severity`` is given for kinds that can have several; ``limit_is`` says what the limit is where it is no
        bound, such as "asked for"; ``detail`` holds for this place only. Without a ``subject`` the name of the room or
        other record that ``where`` leads through is taken when findings are gathered.
        """
        if quantity is None and (value, limit) != (None, None):
            raise TypeError(f"{code}: a number needs the quantity that it is of")
        kind = FINDINGS[code]
        if severity is None:
            (severity,) = kind.severities
        numbers = "" if quantity is None else value_and_limit(quantity, value, limit, limit_is)
        words = f"{numbers}. {detail}" if numbers and detail else numbers or detail
        place = FindingPlace(where, where_in, subject, words, value, limit, point)
        unit = None if quantity is None else _unit(quantity)
        return cls(
            code,
            severity,
            where,
            where_in,
            kind.message,
            value,
            limit,
            quantity,
            unit,
            source,
            places=(place,),
        )

    @property
    def point(self) -> Point | None:
        """Where in the plan the first place is [m]."""
        return self.places[0].point

    def with_places(self, places: Sequence[FindingPlace]) -> Finding:
        """The same matter at other places, the worst first."""
        if len(places) == len(self.places) and all(map(is_, places, self.places)):
            return self
        first = places[0]
        return Finding(
            self.code,
            self.severity,
            first.where,
            first.where_in,
            self.message,
            first.value,
            first.limit,
            self.quantity,
            self.unit,
            self.source,
            tuple(places),
        )

    def moved(self, move: Callable[[FindingPlace], FindingPlace]) -> Finding:
        """The same matter with each place changed."""
        return self.with_places([move(place) for place in self.places])

    def inside(self, pointer: str, subject: str = "") -> Finding:
        """The same matter where the request is the part of a larger one that ``pointer`` leads to."""
        return self.moved(
            lambda place: replace(place, where=pointer + place.where, subject=subject or place.subject)
        )


@cache
def _unit(quantity: str) -> str:
    entry = lookup(quantity)
    if not isinstance(entry, Number):
        raise TypeError(f"{quantity} is no number")
    return entry.unit


@dataclass(frozen=True, slots=True)
class Caution:
    """A word on people's safety. Local codes and licensed practice decide."""

    code: str
    message: str


@quickly_made
@dataclass(frozen=True, slots=True)
class Working:
    """One intermediate value: enough, with its neighbours, to redo the calculation by hand."""

    symbol: str
    name: str
    value: float
    unit: str
    formula: str
    source: str
