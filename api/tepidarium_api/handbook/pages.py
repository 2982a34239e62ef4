"""The pages: the text as HTML with search, made by Sphinx without any network."""

from __future__ import annotations

import hashlib
import shutil
import tempfile
from pathlib import Path

from .writing import TEXT

__all__ = ["PAGES", "make_pages", "stamp"]

PAGES = Path(__file__).parent / "pages"
_SITE = Path(__file__).parent / "site"
_STAMP = "text.sha256"
_NOT_SHIPPED = ("*.map", "objects.inv", ".buildinfo", ".nojekyll", "*.woff*", "_sources")
"""What no reader asks for."""


def make_pages(into: Path = PAGES) -> None:
    """Write all pages anew. Raises ``RuntimeError`` where a link leads nowhere."""
    from sphinx.application import Sphinx  # noqa: PLC0415 - only who makes the pages has it

    with tempfile.TemporaryDirectory() as folder:
        made = Path(folder) / "html"
        app = Sphinx(TEXT, _SITE, made, Path(folder) / "read", "html", warningiserror=True, status=None)
        app.build(force_all=True)
        if app.statuscode:
            raise RuntimeError("the handbook has faults; they are listed above")
        for pattern in _NOT_SHIPPED:
            for path in sorted(made.rglob(pattern)):
                shutil.rmtree(path) if path.is_dir() else path.unlink()
        shutil.rmtree(into, ignore_errors=True)
        shutil.copytree(made, into)
    (into / _STAMP).write_text(stamp() + "\n", encoding="utf-8")


def stamp() -> str:
    """A digest of everything that the pages are made of."""
    digest = hashlib.sha256()
    sources = [path for folder in (TEXT, _SITE) for path in folder.rglob("*") if path.is_file()]
    for path in sorted(source for source in sources if "__pycache__" not in source.parts):
        digest.update(path.relative_to(TEXT.parent).as_posix().encode() + path.read_bytes())
    return digest.hexdigest()
