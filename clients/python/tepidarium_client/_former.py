"""A former answer as it goes into the next request of designs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec

from . import _models as models

__all__ = ["former_design"]


def former_design(answer: msgspec.Struct | Mapping[str, Any]) -> dict[str, Any]:
    """What the service reads of a former answer of designs, for ``former`` of the next request: all else, such as
    drawn pipe and sheets, is left out, as it may be larger than a request may be. A request in place of an answer is
    designed again by the service."""
    sent = msgspec.to_builtins(answer)
    if "inputs" not in sent:
        return {"inputs": {name: value for name, value in sent.items() if name != "workings"}}
    try:
        read = msgspec.convert(sent, models.FormerDesignInput)
    except msgspec.ValidationError:  # the service says which field is at fault
        return dict(sent)
    found: dict[str, Any] = msgspec.to_builtins(read)
    return found
