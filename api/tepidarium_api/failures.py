"""What may be said of an unexpected exception: its type and where it was raised, never its values."""

from __future__ import annotations

import traceback
from pathlib import Path

import msgspec

__all__ = ["Failure", "describe"]

MAXIMUM_FRAMES = 12


class Failure(msgspec.Struct, frozen=True):
    """``frames`` are "module file:line function", innermost last."""

    kind: str
    frames: tuple[str, ...]


def describe(error: BaseException) -> Failure:
    frames = traceback.extract_tb(error.__traceback__)[-MAXIMUM_FRAMES:]
    places = tuple(f"{Path(frame.filename).name}:{frame.lineno} {frame.name}" for frame in frames)
    return Failure(type(error).__name__, places)
