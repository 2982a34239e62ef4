"""One measured ratio and the bound that it should keep."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Ratio"]


@dataclass(frozen=True, slots=True)
class Ratio:
    """``value`` is of two measurements made side by side; it should be at least or at most ``bound``."""

    name: str
    value: float
    bound: float
    at_least: bool

    @property
    def kept(self) -> bool:
        return self.value >= self.bound if self.at_least else self.value <= self.bound

    def line(self) -> str:
        relation = ">=" if self.at_least else "<="
        verdict = "kept" if self.kept else "MISSED"
        return f"{self.name:<44} {self.value:8.3f}   {relation} {self.bound:g}   {verdict}"
