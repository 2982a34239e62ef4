"""For each finding a request whose answer holds it."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import Annotated, Any

import msgspec
from msgspec import Meta

__all__ = ["FindingExample", "finding_examples"]


class FindingExample(msgspec.Struct, frozen=True, kw_only=True):
    """A request to send with POST, and what its answer reports."""

    codes: Annotated[tuple[str, ...], Meta(description="Codes of findings that the answer holds")]
    path: Annotated[str, Meta(description="Path to send it to, with its query string")]
    media_type: Annotated[str, Meta(description="Media type of the body")]
    body: Annotated[
        dict[str, Any] | str, Meta(description="The body: an object to send as JSON, or the text of a file")
    ]


@cache
def finding_examples() -> dict[str, FindingExample]:
    """By code; codes that guard the engine's own work have none."""
    text = files(__package__).joinpath("assets", "finding_examples.ndjson").read_bytes()
    lines = msgspec.json.Decoder(FindingExample).decode_lines(text)
    return {code: example for example in lines for code in example.codes}
