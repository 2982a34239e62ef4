"""What a list of materials is made from."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..checking import Point
from ..glossary import named
from ..pipe import USUAL_PIPE, Pipe
from ..plan.asking.route_records import PathPiece
from ..practice.screed import Binder
from ..quick_records import quickly_made
from ..water.inputs import Fluid
from .order_options import BoardSize, Ordering

__all__ = [
    "InsulationLayer",
    "MaterialArea",
    "MaterialBuildUp",
    "MaterialCircuit",
    "MaterialJoint",
    "MaterialManifold",
    "MaterialsInputs",
]


@dataclass(frozen=True, slots=True)
class InsulationLayer:
    """A layer of boards, from below; ``board`` None: the size that the order has for all."""

    thickness: float | None = field(default=None, metadata=named("layer_thickness"))
    board: BoardSize | None = field(default=None, metadata=named("layer_board"))
    name: str = ""


_UNKNOWN_LAYERS = (InsulationLayer(),)


@quickly_made
@dataclass(frozen=True, slots=True)
class MaterialBuildUp:
    """Layers of a floor; ``screed_thickness`` [m] is the whole one, pipe included, ``covering_thickness`` [m] what the
    edge strip must reach through. ``insulation`` None: one layer of boards whose thickness is not known."""

    id: str
    screed_thickness: float
    binder: Binder = "cement"
    insulation: tuple[InsulationLayer, ...] | None = field(default=None, metadata=named("insulation_layers"))
    covering_thickness: float = 0.02

    @property
    def layers(self) -> tuple[InsulationLayer, ...]:
        return _UNKNOWN_LAYERS if self.insulation is None else self.insulation


@quickly_made
@dataclass(frozen=True, slots=True)
class MaterialArea:
    """A heated floor with an ``outline`` (and ``voids``), or an ``area`` [m2].

    ``openings`` are stretches of the outline without edge strip, the doorways. ``wall_length`` [m] is all that gets an
    edge strip; None: outline and voids less openings, or for an area that of a rectangle of 3:2.
    """

    id: str
    build_up: str
    outline: tuple[Point, ...] | None = None
    voids: tuple[tuple[Point, ...], ...] = ()
    area: float | None = None
    openings: tuple[tuple[Point, ...], ...] = field(default=(), metadata=named("wall_openings"))
    wall_length: float | None = field(default=None, metadata=named("given_wall_length"))
    storey: str | None = field(default=None, metadata=named("storey_id"))
    name: str = ""


@quickly_made
@dataclass(frozen=True, slots=True)
class MaterialCircuit:
    """A circuit of ``length`` [m] from port to port. ``pieces`` are its lines and arcs as drawn; without them
    ``area_id`` names the floor in which it lies. ``right_angle_bends`` refines the fixings of one that is not drawn."""

    id: str
    length: float = field(metadata=named("circuit_length"))
    area_id: str | None = None
    manifold: str = field(default="1", metadata=named("manifold_id"))
    storey: str | None = field(default=None, metadata=named("storey_id"))
    pieces: tuple[PathPiece, ...] | None = None
    right_angle_bends: int | None = None


@dataclass(frozen=True, slots=True)
class MaterialJoint:
    """A movement joint by its ``line`` [m] in the plan, or by its ``length`` [m].

    ``due``: the rules ask for it but nobody has decided on it yet. ``sleeves``: pipes that pass it; None: those whose
    drawn pieces cross the line.
    """

    line: tuple[Point, ...] | None = field(default=None, metadata=named("joint_line"))
    length: float | None = field(default=None, metadata=named("joint_length"))
    sleeves: int | None = field(default=None, metadata=named("sleeves_given"))
    due: bool = False
    storey: str | None = field(default=None, metadata=named("storey_id"))


@dataclass(frozen=True, slots=True)
class MaterialManifold:
    """A manifold that circuits name. ``balancing_valve``: one is needed before it."""

    id: str = "1"
    balancing_valve: bool = False


@quickly_made
@dataclass(frozen=True, slots=True)
class MaterialsInputs:
    """Circuits in the order in which they are laid, floors and the layers in them. What is drawn on different
    storeys may lie over each other. Without ``manifolds`` there are those that circuits name.

    ``system_volume`` [m3] None: the circuits' content. ``expansion_vessel`` [m3] is the size of the vessel.
    ``room_controls``: None: one for each area. ``tail_insulation`` [m] in all.
    """

    circuits: tuple[MaterialCircuit, ...] = field(metadata=named("material_circuits"))
    areas: tuple[MaterialArea, ...] = field(metadata=named("material_areas"))
    build_ups: tuple[MaterialBuildUp, ...] = field(metadata=named("material_build_ups"))
    pipe: Pipe = USUAL_PIPE
    joints: tuple[MaterialJoint, ...] = field(default=(), metadata=named("material_joints"))
    manifolds: tuple[MaterialManifold, ...] = field(default=(), metadata=named("material_manifolds"))
    fluid: Fluid = Fluid()
    system_volume: float | None = None
    mixing_set: bool = False
    expansion_vessel: float | None = field(default=None, metadata=named("vessel_size"))
    room_controls: int | None = None
    tail_insulation: float = field(default=0.0, metadata=named("insulated_tail_length"))
    ordering: Ordering = Ordering()
