"""The rules of the order: for each kind of item its unit, waste, pack, how it is counted and where that comes from."""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple

__all__ = ["ITEM_RULES", "ItemRule"]

_PRACTICE = "Common practice, no source"
_GEOMETRY = "Geometry of the drawing; waste by common practice, no source"
_ARITHMETIC = "Arithmetic"


class ItemRule(NamedTuple):
    """``waste_share`` [1] is added to the quantity; ``pack_size`` in the item's unit, None: any quantity."""

    unit: str
    waste_share: float
    pack_size: float | None
    rule: str
    source: str


ITEM_RULES = MappingProxyType(
    {
        "pipe": ItemRule(
            "m",
            0.0,
            None,
            "sum of the circuits; ordered as the coil plan says, with its cuts and rests",
            "Drawn lengths, or those given; coil plan",
        ),
        "fixings": ItemRule(
            "1",
            0.05,
            300.0,
            "drawn pipe: one at each end of a bend and at the crown of a U-turn, between them none further apart than "
            "the fixing distance; pipe that is not drawn: one every fixing distance, and 2 a right-angled bend or a "
            "fifth more",
            "EN 1264-4:2001, fixing of pipes (at most 500 mm); bends and waste by common practice",
        ),
        "insulation": ItemRule(
            "m2",
            0.05,
            None,
            "boards laid over the outlines in courses, the rest of one beginning the next; pieces of the last board of "
            "each area are cut from as few boards as they fit into",
            _GEOMETRY,
        ),
        "insulation_by_area": ItemRule("m2", 0.05, None, "floor area", _PRACTICE),
        "edge_strip": ItemRule(
            "m",
            0.05,
            50.0,
            "walls and voids without the doorways",
            "EN 1264-4, edge strip at all upright building parts; waste by common practice",
        ),
        "film": ItemRule(
            "m2",
            0.03,
            None,
            "sheets over the outline with laps, turned up at the edges; without outline (floor area + walls x "
            "upturn) x width / (width - lap)",
            "EN 1264-4 and DIN 18560-2: laps of at least 80 mm; waste by common practice",
        ),
        "tape": ItemRule(
            "m",
            0.10,
            50.0,
            "along all laps of the film; flowing screed: along the walls, too",
            "DIN 18560-2: tight film under flowing screed; waste by common practice",
        ),
        "joint_profile": ItemRule(
            "m",
            0.05,
            2.0,
            "length of the movement joints",
            "EN 1264-4, movement joints; waste by common practice",
        ),
        "sleeve": ItemRule(
            "1",
            0.0,
            None,
            "one on each pipe that passes a movement joint, 300 mm long",
            "EN 1264-4, pipes through movement joints; 300 mm by common practice",
        ),
        "screed": ItemRule(
            "m3",
            0.05,
            None,
            "floor area x thickness - volume of the pipe in it; flowing and ready-mixed screed: and what stays in the "
            "pump",
            "Arithmetic; waste by common practice",
        ),
        "screed_bag": ItemRule("1", 0.05, 1.0, "volume of screed / yield of a bag", _PRACTICE),
        "mixer_load": ItemRule("1", 0.05, 1.0, "volume of screed / load of the mixer", _PRACTICE),
        "cement": ItemRule(
            "kg", 0.05, 25.0, "volume of screed x cement content", "Common practice, 1:4 by mass; no source"
        ),
        "sand": ItemRule("kg", 0.05, None, "volume of screed x sand content", "Common practice, no source"),
        "screed_additive": ItemRule(
            "kg",
            0.05,
            10.0,
            "mass of cement x share of additive",
            "Value from memory; the maker's sheet decides",
        ),
        "antifreeze": ItemRule(
            "m3",
            0.05,
            0.02,
            "volume of the system x concentration by volume",
            "Arithmetic; by mass with the densities of the mixture and of the pure glycol",
        ),
        "inhibitor": ItemRule(
            "m3",
            0.0,
            0.001,
            "1 % of the volume of the system, only where local practice or the maker of the source asks for it",
            "Common practice, no source; VDI 2035 does without additives where it can",
        ),
        "manifold": ItemRule(
            "1", 0.0, None, "one for each manifold, with a port for each circuit", _ARITHMETIC
        ),
        "manifold_cabinet": ItemRule(
            "1", 0.0, None, "the next width that holds ports x pitch and the parts at both ends", _PRACTICE
        ),
        "valve_kit": ItemRule("1", 0.0, None, "a pair of shut-off valves for each manifold", _PRACTICE),
        "balancing_valve": ItemRule(
            "1",
            0.0,
            None,
            "before each manifold that needs less pressure than another",
            "Balance of the manifolds",
        ),
        "pipe_connection": ItemRule("1", 0.0, None, "2 for each circuit", _ARITHMETIC),
        "bend_support": ItemRule(
            "1",
            0.0,
            None,
            "2 for each circuit, where pipe bends from the floor up to the manifold",
            _PRACTICE,
        ),
        "actuator": ItemRule("1", 0.0, None, "one for each circuit", _ARITHMETIC),
        "room_control": ItemRule(
            "1", 0.0, None, "one for each heated room", "EN 1264-4, control by rooms; local energy law"
        ),
        "mixing_set": ItemRule(
            "1", 0.0, None, "one with pump and limiter, where the source is warmer", _ARITHMETIC
        ),
        "expansion_vessel": ItemRule("1", 0.0, None, "the next common size", "EN 12828, annex D"),
        "tail_insulation": ItemRule("m", 0.05, 2.0, "pipe of tails that is insulated", _GEOMETRY),
    }
)
"""By kind of item; sizes are part of an item's own name."""
