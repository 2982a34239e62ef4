"""How much of which glycol stands the frost, and how it is flushed out later."""

from __future__ import annotations

from collections.abc import Iterator

from ..water.coefficients import GLYCOLS
from ..water.frost import required_concentration
from ..water.inputs import FluidKind
from .commissioning_outcome import AntifreezeOption

__all__ = ["FLUSHES", "antifreeze_options"]

FLUSHES = 3
"""Times that the system is flushed with clean water when antifreeze is taken out (EN 1264-4 as relayed by an
installer's guide)."""
_KINDS: tuple[FluidKind, ...] = ("propylene_glycol", "ethylene_glycol")


def antifreeze_options(frost_temperature: float, system_volume: float) -> Iterator[AntifreezeOption]:
    """Both glycols for ``frost_temperature`` [degC] in ``system_volume`` [m3]."""
    for kind in _KINDS:
        by_volume = required_concentration(GLYCOLS[kind, "volume"], frost_temperature)
        by_mass = required_concentration(GLYCOLS[kind, "mass"], frost_temperature)
        yield AntifreezeOption(
            fluid=kind,
            concentration_by_volume=by_volume,
            concentration_by_mass=by_mass,
            glycol_volume=None if by_volume is None else by_volume * system_volume,
            flushes=FLUSHES,
            flush_volume=FLUSHES * system_volume,
        )
