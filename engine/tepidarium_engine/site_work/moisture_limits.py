"""Moisture at which a screed may be covered, as the rules of several countries say it."""

from __future__ import annotations

from types import MappingProxyType
from typing import Literal, NamedTuple

from ..practice.coverings import Covering
from ..practice.screed import Binder

__all__ = ["CARBIDE_RULES", "CarbideRule", "MoistureRule", "humidity_limit"]

MoistureRule = Literal["trade_associations", "DIN_18560_1", "SIA_253"]


class CarbideRule(NamedTuple):
    """Limits by the carbide method [kg/kg]: cement and calcium sulphate, each without and with floor heating."""

    cement: tuple[float, float]
    calcium_sulphate: tuple[float, float]
    source: str

    def limit(self, binder: Binder, heated: bool) -> float:
        pair = self.cement if binder == "cement" else self.calcium_sulphate
        return pair[heated]


CARBIDE_RULES: MappingProxyType[MoistureRule, CarbideRule] = MappingProxyType(
    {
        "trade_associations": CarbideRule(
            (0.020, 0.018), (0.005, 0.003), "Interface guides of the German heating and covering trades"
        ),
        "DIN_18560_1": CarbideRule((0.020, 0.018), (0.005, 0.005), "DIN 18560-1, newer editions"),
        "SIA_253": CarbideRule((0.023, 0.015), (0.005, 0.003), "SIA 253 (Switzerland)"),
    }
)


def humidity_limit(covering: Covering) -> tuple[float, str]:
    """Highest equilibrium relative humidity [1] and its source."""
    return (0.65, "BS 8201, timber") if covering == "timber" else (0.75, "BS 8203")
