"""How far the edges of heated screed move with temperature."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from types import MappingProxyType

from ..practice.screed import Binder
from .commissioning_outcome import JointMovement
from .commissioning_records import JointSpan

__all__ = ["ALLOWED_MOVEMENT", "EXPANSION", "joint_movements"]

EXPANSION: MappingProxyType[Binder, float] = MappingProxyType(
    {"cement": 12e-6, "calcium_sulphate": 8e-6, "calcium_sulphate_flowing": 16e-6}
)
"""Thermal expansion of screed [1/K]: cement 0.012 mm/(m.K), calcium sulphate 0.008, flowing 0.010 to 0.016 (trade
texts; the upper value)."""
ALLOWED_MOVEMENT = 0.005
"""What an edge strip or joint must take [m] (EN 1264-4: compressible by at least 5 mm)."""


def joint_movements(joints: Sequence[JointSpan], binder: Binder, warming: float) -> Iterator[JointMovement]:
    """Each field moves from its middle, so a joint takes half of the fields on both sides; ``warming`` [K] from the
    pour on. Shrinkage opens joints and is not counted."""
    for joint in joints:
        movement = EXPANSION[binder] * warming * sum(joint.lengths) / 2.0
        yield JointMovement(joint.id, joint.room, movement, ALLOWED_MOVEMENT)
