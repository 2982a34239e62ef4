"""Numbers, units and cells as the handbook writes them."""

from __future__ import annotations

import re
from collections.abc import Sequence

__all__ = ["cell", "number", "table", "unit"]

_UNITS = {"degC": "°C", "1": "", "s": "s"}


def number(value: float, digits: int = 4) -> str:
    """With so many significant digits and without an exponent, as far as people read it."""
    if value == 0.0:
        return "0"
    if not 1e-6 <= abs(value) < 1e9:
        mantissa, exponent = f"{value:.{digits - 1}e}".split("e")
        return f"{mantissa.rstrip('0').rstrip('.')} × 10^{int(exponent)}".replace("-", "−")
    whole = len(str(int(abs(value)))) if abs(value) >= 1.0 else 0
    leading = 0 if whole else len(re.match(r"0\.(0*)", f"{abs(value):.12f}").group(1))  # type: ignore[union-attr]
    text = f"{value:.{max(digits - whole + leading, 0)}f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text).replace("-", "−")


def unit(name: str) -> str:
    """A unit of the wire as people write it."""
    if name in _UNITS:
        return _UNITS[name]
    return re.sub(r"(?<=[a-zA-Z])-?[23]\b", lambda found: "²³"[int(found.group()[-1]) - 2], name).replace(
        ".", "·"
    )


def cell(text: object) -> str:
    """Text that may stand in a cell of a table."""
    return re.sub(r"([|*_<>\[\]$])", r"\\\1", str(text)).replace("\n", " ")


def table(head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines)
