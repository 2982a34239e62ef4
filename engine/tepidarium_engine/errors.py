"""What cannot be computed: one exception that carries every fault with a pointer to its field.

What the engine relies on is checked by ``required``, which also holds under ``python -O``; ``assert`` does not.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Literal, TypeVar

from .places import PlacedText, Point

__all__ = [
    "Change",
    "Fault",
    "FaultList",
    "InputError",
    "InvariantError",
    "UnreadableFileError",
    "faults_at",
    "required",
]

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Change:
    """One operation of a JSON Patch (RFC 6902) on the inputs; what is removed has no ``value``."""

    op: Literal["replace", "remove"]
    path: str
    value: tuple[Point, ...] | None = None


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with an input.

    ``pointer`` is an RFC 6901 JSON pointer into the inputs, ``code`` a stable lower_snake_case word,
    ``limit`` the bound that was missed, in the unit of the field. ``changes``, one after the other, mend this fault and
    all others that say the same of the same record; empty where no answer is ready.
    """

    pointer: str
    code: str
    detail: PlacedText
    limit: float | None = None
    changes: tuple[Change, ...] = ()


class InputError(ValueError):
    """The inputs cannot be computed. ``faults`` holds at least one fault."""

    def __init__(self, *faults: Fault) -> None:
        self.faults = faults
        super().__init__("; ".join(f"{fault.pointer or '/'}: {fault.detail}" for fault in faults))

    def __reduce__(self) -> tuple[type[InputError], tuple[Fault, ...]]:
        return type(self), self.faults


class UnreadableFileError(InputError):
    """A file is not of the format that it was sent as: nothing of it can be taken."""

    @classmethod
    def because(cls, detail: str) -> UnreadableFileError:
        """The whole file is at fault; ``detail`` says why and where."""
        return cls(Fault("", "unreadable_file", detail))


class FaultList:
    """Collects faults so that a caller learns all of them at once."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []

    def add(self, pointer: str, code: str, detail: str, limit: float | None = None) -> None:
        self.faults.append(Fault(pointer, code, detail, limit))

    def require(self, holds: bool, pointer: str, code: str, detail: str, limit: float | None = None) -> bool:
        """Note a fault unless ``holds``; returns ``holds``."""
        if not holds:
            self.add(pointer, code, detail, limit)
        return holds

    def raise_if_any(self) -> None:
        """Raise ``InputError`` if there are faults, each once: two calculations may find the same one."""
        if self.faults:
            raise InputError(*dict.fromkeys(self.faults))


class InvariantError(RuntimeError):
    """Something that the engine has made sure of does not hold: a mistake in the engine, not in the inputs."""


def required(value: _T | None, what: str) -> _T:
    """``value``, which must be there; ``what`` it is says the ``InvariantError`` that is raised where it is not."""
    if value is None:
        raise InvariantError(f"{what} must be known here")
    return value


@contextmanager
def faults_at(places: Mapping[str, str], elsewhere: str = "") -> Iterator[None]:
    """Faults of an inner calculation, reported at the fields of the request that its inputs were made of.

    ``places`` gives by the beginning of an inner pointer what stands for it, the longest beginning first; what lies
    below goes along with a field that keeps its name. All other pointers get ``elsewhere`` in front.
    """
    try:
        yield
    except InputError as error:
        raise InputError(*(_placed_fault(fault, places, elsewhere) for fault in error.faults)) from error


def _placed_fault(fault: Fault, places: Mapping[str, str], elsewhere: str) -> Fault:
    changes = tuple(replace(change, path=_placed(change.path, places, elsewhere)) for change in fault.changes)
    return replace(fault, pointer=_placed(fault.pointer, places, elsewhere), changes=changes)


def _placed(pointer: str, places: Mapping[str, str], elsewhere: str) -> str:
    for inner in sorted(places, key=len, reverse=True):
        if pointer == inner or pointer.startswith(inner + "/"):
            same_name = inner.rpartition("/")[2] == places[inner].rpartition("/")[2]
            return places[inner] + (pointer.removeprefix(inner) if same_name else "")
    return elsewhere + pointer
