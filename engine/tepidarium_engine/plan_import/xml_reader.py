"""XML as a stream of small trees: no document type, no entities, bounded size and depth."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from xml.parsers import expat

from ..errors import UnreadableFileError

__all__ = ["MOST_DEPTH", "MOST_ELEMENTS", "Element", "Wanted", "read_xml"]

MOST_DEPTH = 64
"""Elements inside each other; plans have about 12."""
MOST_ELEMENTS = 2_000_000
"""A file of 10 MB has about 300 000."""


@dataclass(slots=True)
class Element:
    """An element without its namespace; ``line`` of the file counts from 1.

    ``text`` is its own. Of a flat element it is all text inside, the parts separated by spaces.
    """

    name: str
    attributes: Mapping[str, str]
    line: int
    text: str = ""
    children: list[Element] = field(default_factory=list)

    def each(self, name: str) -> Iterator[Element]:
        """The children of this name."""
        return (child for child in self.children if child.name == name)

    def child(self, name: str) -> Element | None:
        """The first child of this name."""
        return next(self.each(name), None)

    def words(self, name: str) -> str:
        """The text of the first child of this name; empty without one."""
        found = self.child(name)
        return "" if found is None else found.text.strip()


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is kept of a document: ``trees`` are handed over whole, ``flat`` elements inside them as their text alone,
    ``skipped`` ones not at all."""

    trees: frozenset[str]
    flat: frozenset[str]
    skipped: frozenset[str]


def read_xml(
    content: bytes,
    wanted: Wanted,
    begin: Callable[[Element], None],
    handle: Callable[[Element], None],
) -> None:
    """Hand the root without its content to ``begin`` and every wanted tree to ``handle``, in the order of the file.

    Raises ``UnreadableFileError`` with line and column for what is not well-formed, for a document type (all entities
    and their expansion need one), and for more than ``MOST_DEPTH`` levels or ``MOST_ELEMENTS`` elements.
    """
    reader = _Reader(wanted, begin, handle)
    try:
        reader.parser.Parse(content, True)
    except expat.ExpatError as fault:
        what = expat.errors.messages.get(fault.code, "cannot be read")
        raise UnreadableFileError.because(
            f"the file is not XML at line {fault.lineno}, column {fault.offset + 1}: {what}"
        ) from fault
    except UnreadableFileError:
        raise
    except (LookupError, ValueError) as fault:  # an encoding that is not known, or has no such bytes
        raise UnreadableFileError.because("the file is in an encoding that is not known") from fault


class _Reader:
    def __init__(
        self, wanted: Wanted, begin: Callable[[Element], None], handle: Callable[[Element], None]
    ) -> None:
        self._wanted, self._begin, self._handle = wanted, begin, handle
        self._open: list[Element] = []
        self._text: list[str] = []
        self._depth = self._count = self._skipped = self._flat = 0
        parser = self.parser = expat.ParserCreate()
        parser.buffer_text = True
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._characters
        parser.StartDoctypeDeclHandler = self._doctype

    def _refuse(self, what: str) -> UnreadableFileError:
        place = f"line {self.parser.CurrentLineNumber}, column {self.parser.CurrentColumnNumber + 1}"
        return UnreadableFileError.because(f"{what} at {place}")

    def _doctype(self, *_: object) -> None:
        raise self._refuse("the file has a document type, which a plan does not need and is not read")

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self._depth += 1
        self._count += 1
        if self._depth > MOST_DEPTH:
            raise self._refuse(f"elements are nested more than {MOST_DEPTH} deep")
        if self._count > MOST_ELEMENTS:
            raise self._refuse(f"the file has more than {MOST_ELEMENTS} elements")
        if self._flat:
            self._flat += 1
            self._text.append(" ")
            return
        if self._skipped:
            self._skipped += 1
            return
        local = name.rpartition(":")[2]
        if self._depth == 1:
            self._begin(Element(local, attributes, self.parser.CurrentLineNumber))
        elif local in self._wanted.skipped:
            self._skipped = 1
        elif self._open or local in self._wanted.trees:
            self._enter(Element(local, attributes, self.parser.CurrentLineNumber))

    def _enter(self, element: Element) -> None:
        if self._open:
            self._take_text()
            self._open[-1].children.append(element)
        self._open.append(element)
        self._text.clear()
        self._flat = int(element.name in self._wanted.flat)

    def _take_text(self) -> None:
        if self._text:
            self._open[-1].text += "".join(self._text)
            self._text.clear()

    def _end(self, _name: str) -> None:
        self._depth -= 1
        if self._flat > 1:
            self._flat -= 1
        elif self._skipped:
            self._skipped -= 1
        elif self._open:
            self._flat = 0
            self._take_text()
            element = self._open.pop()
            if not self._open:
                self._handle(element)

    def _characters(self, text: str) -> None:
        if self._open and not self._skipped:
            self._text.append(text)
