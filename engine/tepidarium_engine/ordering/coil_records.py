"""Records of a coil plan."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..glossary import named
from ..results import Caution, Finding

__all__ = [
    "COMMON_COIL_LENGTHS",
    "CUTTING_ALLOWANCE",
    "CircuitToCut",
    "CoilCut",
    "CoilInStock",
    "CoilOrder",
    "CoilPlanInputs",
    "CoilPlanResult",
    "PlannedCoil",
]

COMMON_COIL_LENGTHS = (50.0, 60.0, 80.0, 100.0, 120.0, 200.0, 240.0, 300.0, 500.0, 600.0)
"""Lengths in which coils are sold [m] (common practice, no source)."""
CUTTING_ALLOWANCE = 0.5
"""Pipe beyond what was measured at each end of a circuit [m]: 0.5 to 1 m (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class CircuitToCut:
    """A circuit of ``length`` [m] from port to port, both tails included."""

    id: str
    length: float = field(metadata=named("circuit_length"))


@dataclass(frozen=True, slots=True)
class CoilInStock:
    """``count`` coils, or rests of coils, of one ``length`` [m] that need not be bought."""

    length: float = field(metadata=named("coil_length"))
    count: int = field(default=1, metadata=named("coil_count"))
    name: str = ""


@dataclass(frozen=True, slots=True)
class CoilPlanInputs:
    """Circuits in the order in which they are laid, and the coils that there are.

    ``coil_lengths`` [m] can be bought, as many as are needed; ``stock`` is used before anything is bought.
    ``cutting_allowance`` [m] is added at each end of a circuit.
    """

    circuits: tuple[CircuitToCut, ...] = field(metadata=named("circuits_to_cut"))
    coil_lengths: tuple[float, ...] = COMMON_COIL_LENGTHS
    stock: tuple[CoilInStock, ...] = field(default=(), metadata=named("coil_stock"))
    cutting_allowance: float = CUTTING_ALLOWANCE


@dataclass(frozen=True, slots=True)
class CoilCut:
    """A piece for one circuit, from metre mark ``start_mark`` to ``end_mark`` [m] of its coil, counted from the end
    that is drawn off first."""

    circuit: str
    length: float = field(metadata=named("cut_length"))
    start_mark: float
    end_mark: float


@dataclass(frozen=True, slots=True)
class PlannedCoil:
    """A coil and its cuts in the order of laying; ``offcut`` [m] is what remains."""

    coil: str
    length: float = field(metadata=named("coil_length"))
    in_stock: bool
    stock_name: str
    cuts: tuple[CoilCut, ...]
    offcut: float


@dataclass(frozen=True, slots=True)
class CoilOrder:
    """``count`` coils of one ``length`` [m] to buy."""

    length: float = field(metadata=named("coil_length"))
    count: int = field(metadata=named("coil_count"))


@dataclass(frozen=True, slots=True)
class CoilPlanResult:
    """Coils in the order in which they are opened.

    ``bought_length`` [m] is the least that was found, ``least_bought_length`` [m] what no plan can go below;
    ``opened_coils``, those of the stock included, are the fewest found for it, ``fewest_coils`` the number that no plan
    buying as little can go below. ``proven``: both agree. ``pipe_length`` [m] is that of the circuits, ``cut_length``
    [m] with allowances, both of those that could be planned; ``not_planned`` are longer than any coil.
    """

    coils: tuple[PlannedCoil, ...]
    to_buy: tuple[CoilOrder, ...]
    pipe_length: float
    cut_length: float = field(metadata=named("all_cuts_length"))
    bought_length: float
    least_bought_length: float
    opened_coils: int
    fewest_coils: int
    proven: bool
    offcut_length: float
    usable_offcut_length: float
    waste_share: float
    not_planned: tuple[str, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
