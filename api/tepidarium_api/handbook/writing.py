"""The text with everything in it that is not written by hand."""

from __future__ import annotations

from pathlib import Path

from .blocks import BLOCKS
from .figures import figure
from .marks import filled
from .pictures import PICTURES

__all__ = ["DEVELOPERS", "TEXT", "text_files", "write_text", "written"]

TEXT = Path(__file__).parent / "text"
DEVELOPERS = Path(__file__).parents[3] / "DEVELOPERS.md"
"""Shows the terms with their sketches, too."""


def text_files() -> list[Path]:
    """The pages that are filled in here; the validation book has a command of its own."""
    return sorted(path for path in TEXT.rglob("*.md") if "validation" not in path.relative_to(TEXT).parts)


def written(path: Path) -> str:
    """A page as it should be."""
    try:
        return filled(path.read_text(encoding="utf-8"), BLOCKS, figure)
    except Exception as failure:
        failure.add_note(f"in {path}")
        raise


def write_text() -> None:
    (TEXT / "pictures").mkdir(exist_ok=True)
    for name, draw in PICTURES.items():
        (TEXT / "pictures" / f"{name}.svg").write_bytes(draw())
    for path in (*text_files(), DEVELOPERS):
        path.write_text(written(path), encoding="utf-8")
