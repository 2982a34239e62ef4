"""Files that are plans, but in a format that is not read: what they are, and what to do."""

from __future__ import annotations

from ..errors import UnreadableFileError

__all__ = ["refuse_other_formats"]

_BEGINNINGS = (
    (b"ISO-10303-21", "IFC or another STEP file"),
    (b"AC10", "a DWG drawing"),
    (b"%PDF-", "a PDF"),
    (b"PK\x03\x04", "a ZIP archive"),
    (b"\xd0\xcf\x11\xe0", "a file of a building model in the maker's own format"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
)
"""First bytes of a file -> what it is: ISO 10303-21, ISO 32000-1 7.5.2, ISO/IEC 15948 5.2; the others by memory."""


def refuse_other_formats(content: bytes) -> None:
    """Raise ``UnreadableFileError`` for a file that is surely of another format."""
    start = content[:64].removeprefix(b"\xef\xbb\xbf").lstrip()
    for beginning, name in _BEGINNINGS:
        if start.startswith(beginning):
            raise UnreadableFileError.because(f"the file is {name}: save the plan as gbXML or DXF")
