"""Where and why a body is not JSON: line and column, as an editor counts them."""

from __future__ import annotations

import re

import msgspec

from .problems import Problem, problem

__all__ = ["unreadable"]

# What the decoder says: "JSON is malformed: expected ',' or ']' (byte 3)"
_FAULT = re.compile(r"JSON is malformed: (?P<reason>.*) \(byte (?P<place>\d+)\)")
_TEXT_OR_NUMBER = re.compile(rb'"(?:[^"\\]|\\.)*"|-?[0-9][0-9.eE+-]*', re.DOTALL)
_PADDING = b" " * 12
"""So that a fault in the last characters is not taken for a body that ends too early."""


def unreadable(body: bytes) -> Problem:
    """The problem of a body that the decoder cannot read."""
    if not body.strip():
        return problem("unreadable-body", "the body is empty")
    reason, place = _fault(body)
    where = "" if place is None else f" at {_line_and_column(body, place)}"
    return problem("unreadable-body", f"the body is not JSON{where}: {reason}")


def _fault(body: bytes) -> tuple[str, int | None]:
    """What is wrong, and at which byte."""
    try:
        body.decode()
        msgspec.json.decode(body + _PADDING)
    except UnicodeDecodeError as fault:
        return "the text is not UTF-8", fault.start
    except RecursionError:
        return "lists or objects are nested too deeply", None
    except msgspec.ValidationError:
        return "the number is out of range", _first_number_out_of_range(body)
    except msgspec.DecodeError as fault:
        found = _FAULT.fullmatch(str(fault))
        if found is None:
            return "it ends too early", len(body.rstrip())
        # of what follows the end the decoder gives the second character
        return found["reason"], int(found["place"]) - (found["reason"] == "trailing characters")
    return "it cannot be read", None


def _first_number_out_of_range(body: bytes) -> int | None:
    numbers = (match for match in _TEXT_OR_NUMBER.finditer(body) if match[0][:1] != b'"')
    return next((match.start() for match in numbers if abs(float(match[0])) == float("inf")), None)


def _line_and_column(body: bytes, place: int) -> str:
    *earlier, line = body[:place].split(b"\n")
    return f"line {len(earlier) + 1}, column {len(line.decode(errors='replace')) + 1}"
