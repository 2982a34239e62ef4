"""What a house could be instead: the trade-off of supply temperature, material, pump power and heat.

Every room may lie at each of its spacings, in more circuits, on each manifold of its storey and under other
coverings. For each supply temperature at which one of these becomes possible, the best house is found as a whole,
with a proven bound; those that no other house beats are the options. Heat after EN 1264-2 and EN 1264-3, as in designs.
"""

from __future__ import annotations

from .building.option_records import (
    BesideNeighbour,
    CoilPrice,
    CoveringOption,
    DesignOption,
    DesignOptionsInputs,
    DesignOptionsResult,
    EfficiencyPoint,
    EnergyOfYear,
    HeatPump,
    ManifoldPorts,
    OptionPrices,
    OptionRoom,
    PatternOption,
    PumpStage,
    StripOption,
)
from .building.solving import first_division
from .cautions import FLOOR, LENGTHS, once, water_cautions
from .checking import check
from .errors import faults_at
from .gathering import gathered
from .options.asked_options import check_options, house_by_area
from .options.front import FrontSearch
from .options.front_result import front_result
from .options.house_options import evaluated, front_of
from .options.option_findings import option_findings
from .options.option_workings import option_workings
from .options.room_variants import room_variants
from .own_place import at_own_place, lower_left
from .results import Working

__all__ = [
    "BesideNeighbour",
    "CoilPrice",
    "CoveringOption",
    "DesignOption",
    "DesignOptionsInputs",
    "DesignOptionsResult",
    "EfficiencyPoint",
    "EnergyOfYear",
    "HeatPump",
    "ManifoldPorts",
    "OptionPrices",
    "OptionRoom",
    "PatternOption",
    "PumpStage",
    "StripOption",
    "calculate",
    "workings",
]


def calculate(inputs: DesignOptionsInputs) -> DesignOptionsResult:
    """The options of a house; see the records for units.

    Raises ``InputError`` as ``designs.calculate``, with pointers below ``/design``, and for supplies that the source
    does not give, an efficiency that rises with the supply, coverings of rooms that are not there.
    """
    check(inputs)
    check_options(inputs)
    origin = lower_left(room.outline or () for room in inputs.design.rooms)
    return at_own_place(inputs, origin, _calculated, "/design/rooms")


def _calculated(inputs: DesignOptionsInputs) -> DesignOptionsResult:
    house = house_by_area(inputs.design)
    search = FrontSearch(inputs, house, room_variants(inputs, house))
    with faults_at({}, "/design"):
        division = first_division(house)
        found = search.options(division)
        by_rule = search.by_rule(division)
    ruled = evaluated(search, by_rule)
    front = front_of([evaluated(search, option) for option in found], ruled, inputs.maximum_options)
    return front_result(
        search,
        front,
        ruled,
        gathered(option_findings(search, front), inputs),
        once((*FLOOR, *LENGTHS, *water_cautions(glycol=inputs.design.fluid.kind != "water"))),
    )


def workings(inputs: DesignOptionsInputs, result: DesignOptionsResult) -> tuple[Working, ...]:
    """What each option takes beside the house by the rule of designs, and how its energy follows."""
    return option_workings(inputs, result)
