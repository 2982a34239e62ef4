"""Both sides of each threshold of a finding, with the limit that it reports and where the figure is from.

A row changes one field of a sound request: at ``quiet`` the finding is not there (or, with ``before``, has that lesser
severity), at ``loud`` it is. Both lie as near to the threshold as a reader would write them. Where a result crosses the
threshold, the field's value is worked out here from figures of other sources.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

__all__ = ["ELSEWHERE", "THRESHOLDS", "Threshold", "changed"]


@dataclass(frozen=True)
class Threshold:
    """``limit`` is None where the finding reports none, and a pair (limit, tolerance) where it is a computed one."""

    calculation: str
    base: dict[str, Any]
    pointer: str
    quiet: Any
    loud: Any
    code: str
    limit: float | tuple[float, float] | None
    severity: str
    source: str
    before: str | None = None

    @property
    def name(self) -> str:
        return f"{self.calculation} {self.pointer} {self.loud}: {self.code}"


def changed(base: dict[str, Any], pointer: str, value: Any) -> dict[str, Any]:
    """The request with one field changed; what lies on the way is copied."""
    name, _, rest = pointer[1:].partition("/")
    if not rest:
        return {**base, name: value}
    below = base.get(name, {})
    if isinstance(below, list):
        number, _, inner = rest.partition("/")
        items = list(below)
        items[int(number)] = changed(items[int(number)], f"/{inner}", value)
        return {**base, name: items}
    return {**base, name: changed(below, f"/{rest}", value)}


PIPE = {"outside_diameter": 0.016, "wall_thickness": 0.002}
_RECORD = dict[str, Any]


def _of(calculation: str, base: _RECORD, *rows: tuple[Any, ...]) -> list[Threshold]:
    return [Threshold(calculation, base, *row) for row in rows]


# -- one floor ---------------------------------------------------------------------------------------------------

FLOOR: _RECORD = {
    "pipe_spacing": 0.15,
    "pipe": {"outside_diameter": 0.017, "wall_thickness": 0.002},
    "screed_cover": 0.045,
    "resistance_below": 1.5,
    "supply_temperature": 40.0,
    "return_temperature": 35.0,
}
_MEAN = 5.0 / math.log(20.0 / 15.0)
_SLOPE = 3.3923
"""K_H of this floor, worked by hand from EN 1264-2, Tables A.1 to A.3."""
_WARM_BELOW = 20.0 + _SLOPE * _MEAN * (1.0 / 10.8 + 0.1 + 0.045 / 1.2)
"""Where nothing flows downwards: theta_i + R_o q (EN 1264-2, downward heat flow)."""
BARE: _RECORD = {**FLOOR, "covering_resistance": 0.0, "return_temperature": 36.4}
"""Limit by hand from EN 1264-2, Tables A.4 and A.6: 94.59 W/m2 at a mean excess of 16.91 K."""
POOR: _RECORD = {
    **FLOOR,
    "pipe": PIPE,
    "resistance_below": 0.3,
    "temperature_below": -10.0,
    "supply_temperature": 38.0,
    "return_temperature": 33.0,
}
THICK: _RECORD = {**FLOOR, "screed_conductivity": 0.5, "pipe_spacing": 0.375}
JUMP: _RECORD = {**FLOOR, "screed_conductivity": 1.0, "pipe_spacing": 0.30}
HOT: _RECORD = {**FLOOR, "supply_temperature": 58.0, "return_temperature": 50.0}
_SURFACE = "EN 1264-2, highest surface temperatures"
_INSULATION = "EN 1264-4, Table 1"
_COVER = "DIN 18560-2, least cover of heated screeds"

HEAT_OUTPUT = [
    *_of(
        "heat-output",
        FLOOR,
        (
            "/pipe_spacing",
            0.375,
            0.376,
            "spacing_beyond_tables",
            0.375,
            "warning",
            "EN 1264-2, Tables A.2 to A.6",
        ),
        ("/pipe_spacing", 0.05, 0.0499, "outside_standard", 0.05, "warning", "EN 1264-2, Tables A.2 to A.6"),
        (
            "/screed_cover",
            0.010,
            0.0099,
            "outside_standard",
            0.010,
            "warning",
            "EN 1264-2, range of the cover",
        ),
        (
            "/pipe/outside_diameter",
            0.030,
            0.0301,
            "diameter_beyond_method",
            0.030,
            "warning",
            "EN 1264-2, range of D",
        ),
        (
            "/covering_resistance",
            0.15,
            0.151,
            "covering_too_insulating",
            0.15,
            "violation",
            "EN 1264-2, Table A.1",
        ),
        ("/screed_cover", 0.030, 0.0299, "screed_cover_thin", 0.030, "violation", _COVER),
        (
            "/screed_cover",
            0.012,
            0.0119,
            "limit_table_edge",
            0.01,
            "warning",
            "EN 1264-2, Table A.4, first column",
        ),
        ("/resistance_below", 0.75, 0.7499, "insulation_below_minimum", 0.75, "violation", _INSULATION),
        ("/surface_temperature_limit", 29.0, 29.1, "surface_limit_above_occupied", 29.0, "note", _SURFACE),
        (
            "/surface_temperature_limit",
            35.0,
            35.1,
            "surface_limit_above_standard",
            35.0,
            "violation",
            _SURFACE,
        ),
        ("/room_temperature", 20.0, 20.1, "surface_limit_above_29", 29.0, "note", _SURFACE),
        ("/room_temperature", 24.0, 23.9, "surface_limit_above_29", 29.0, "note", _SURFACE + ", bathrooms"),
        ("/supply_temperature", 55.0, 55.1, "water_too_hot_for_screed", 55.0, "warning", "DIN 18560-2"),
        (
            "/return_temperature",
            20.51,
            20.5,
            "return_close_to_room",
            20.5,
            "warning",
            "common practice, no source",
        ),
        (
            "/temperature_below",
            _WARM_BELOW - 0.1,
            _WARM_BELOW + 0.1,
            "heat_from_below",
            0.0,
            "note",
            "EN 1264-2",
        ),
    ),
    *_of(
        "heat-output",
        {**FLOOR, "room_temperature": 24.0},
        ("/surface_temperature_limit", 33.0, 33.1, "surface_limit_above_occupied", 33.0, "note", _SURFACE),
    ),
    *_of(
        "heat-output",
        HOT,
        # a logarithmic mean of 35 K between 38 K and 32.15 K
        (
            "/return_temperature",
            52.0,
            52.3,
            "water_too_hot_for_screed",
            55.0,
            "violation",
            "DIN 18560-2",
            "warning",
        ),
    ),
    *_of(
        "heat-output",
        BARE,
        # 37.45 and 36.4 degC have a logarithmic mean excess of 16.92 K
        (
            "/supply_temperature",
            37.35,
            37.5,
            "surface_limit_exceeded",
            (94.59, 0.02),
            "violation",
            "EN 1264-2",
        ),
    ),
    *_of(
        "heat-output",
        THICK,
        (
            "/screed_cover",
            0.0649,
            0.0648,
            "limit_table_edge",
            0.173,
            "warning",
            "EN 1264-2, Table A.5, first column",
        ),
    ),
    *_of(
        "heat-output",
        JUMP,  # Tables A.4 and A.5 jump from 72.4 to 60.9 W/m2 there; a twentieth around 0.0792
        (
            "/screed_cover",
            0.08317,
            0.08315,
            "limit_tables_change",
            None,
            "note",
            "EN 1264-2, Tables A.4 and A.5",
        ),
        (
            "/screed_cover",
            0.07523,
            0.07525,
            "limit_tables_change",
            None,
            "note",
            "EN 1264-2, Tables A.4 and A.5",
        ),
    ),
    *(
        Threshold(
            "heat-output",
            {**FLOOR, "resistance_below": resistance},
            "/temperature_below",
            at,
            at - 0.01,
            "insulation_below_minimum",
            least,
            "violation",
            _INSULATION,
        )
        for at, resistance, least in ((10.0, 1.0, 1.25), (0.0, 1.3, 1.5), (-5.0, 1.6, 2.0))
    ),
    *_of(
        "heat-output",
        POOR,  # finite elements: 0.26 W/m2 at 0.1 m2.K/W, -23.35 W/m2 at 0.05
        ("/resistance_below", 0.101, 0.098, "floor_cools_room", 0.0, "violation", "heat conduction"),
    ),
]

# -- floors on one supply ----------------------------------------------------------------------------------------

SUPPLY: _RECORD = {
    "pipe_spacing": 0.15,
    "pipe": {"outside_diameter": 0.017, "wall_thickness": 0.002},
    "screed_cover": 0.045,
    "resistance_below": 1.5,
    "required_heat_output": 50.0,
    "other_rooms": [{"id": "other", "required_heat_output": 40.0, "area": 10.0}],
}
_SUPPLY_EXCESS = 5.0 / (1.0 - math.exp(-5.0 * _SLOPE / 50.0))
_LEAST_DROP = _SLOPE * 0.5 / math.log(_SUPPLY_EXCESS / (_SUPPLY_EXCESS - 0.5))
"""Heat [W/m2] that leaves a drop of 0.5 K on this supply, by the logarithmic mean."""

SUPPLY_TEMPERATURE = [
    *_of(
        "supply-temperature",
        SUPPLY,
        ("/temperature_drop", 5.0, 5.1, "drop_above_standard", 5.0, "warning", "EN 1264-3, governing room"),
        ("/covering_resistance", 0.10, 0.099, "covering_below_design_value", 0.10, "note", "EN 1264-3"),
        (
            "/other_rooms/0/required_heat_output",
            50.0,
            50.1,
            "not_the_governing_room",
            50.0,
            "warning",
            "EN 1264-3, governing room",
        ),
        (
            "/other_rooms/0/required_heat_output",
            _LEAST_DROP - 0.01,
            _LEAST_DROP + 0.01,
            "demand_not_reached",
            None,
            "violation",
            "a drop of 0.5 K: common practice, no source",
        ),
    ),
    *_of(
        "supply-temperature",
        {**SUPPLY, "covering_resistance": 0.05},
        (
            "/room_temperature",
            24.0,
            23.9,
            "covering_below_design_value",
            0.10,
            "note",
            "EN 1264-3, bathrooms",
        ),
    ),
    *_of(
        "supply-temperature",
        changed(SUPPLY, "/other_rooms/0/required_heat_output", 60.0),
        (
            "/other_rooms/0/room_temperature",
            24.0,
            23.9,
            "not_the_governing_room",
            50.0,
            "warning",
            "EN 1264-3: bathrooms, 24 degC, are left out",
        ),
    ),
]

# -- screed ------------------------------------------------------------------------------------------------------

SCREED: _RECORD = {
    "binder": "cement",
    "thickness": 0.062,
    "pour_date": "2025-07-01",
    "maximum_supply_temperature": 37.0,
    "covering": "ceramic",
    "lowest_air_temperature": 12.0,
}
FLOWING: _RECORD = {
    **SCREED,
    "binder": "calcium_sulphate_flowing",
    "flexural_class": "F7",
    "thickness": 0.055,
}
MAKER: _RECORD = {
    **SCREED,
    "rule_set": "maker",
    "maker_rules": {"earliest_heating_days": 21, "curing_days": 3, "start_days": 3, "hold_days": 4},
}
STEPS: _RECORD = changed({**MAKER, "maximum_supply_temperature": 50.0}, "/maker_rules/temperature_step", 5.0)
_START = "EN 1264-4, initial heating"
_DIN = "DIN 18560-2, floating screeds"

CURING_PLAN = [
    *_of(
        "curing-plan",
        SCREED,
        ("/thickness", 0.061, 0.0609, "screed_too_thin", 0.045, "violation", f"{_DIN}: 45 mm over the pipe"),
        ("/thickness", 0.065, 0.0651, "unusual_thickness", 0.065, "note", "common practice, no source"),
        ("/imposed_load", 5000.0, 5001.0, "load_outside_table", 5000.0, "violation", _DIN),
        ("/concentrated_load", 4000.0, 4001.0, "load_outside_table", 4000.0, "violation", _DIN),
        (
            "/insulation_compressibility",
            0.005,
            0.0051,
            "thickened_for_soft_insulation",
            0.005,
            "note",
            _DIN,
        ),
        ("/insulation_compressibility", 0.010, 0.0101, "insulation_too_soft", 0.010, "violation", _DIN),
        ("/lowest_air_temperature", 5.0, 4.9, "too_cold_to_cure", 5.0, "violation", "EN 1264-4, curing"),
        ("/lowest_air_temperature", 0.0, -0.1, "antifreeze_needed", 0.0, "warning", "water freezes"),
        (
            "/maximum_supply_temperature",
            55.0,
            55.1,
            "supply_above_screed_limit",
            55.0,
            "violation",
            "DIN 18560-2, temperature at the pipes",
        ),
        (
            "/maximum_supply_temperature",
            37.0,
            37.1,
            "rise_over_more_than_a_day",
            12.0,
            "note",
            "0.5 K/h for a day",
        ),
        ("/start_temperature", 25.0, 25.1, "start_outside_standard", 25.0, "note", _START),
        ("/start_temperature", 20.0, 19.9, "start_outside_standard", 20.0, "note", _START),
        (
            "/start_temperature",
            30.0,
            30.1,
            "start_outside_standard",
            25.0,
            "warning",
            "common practice",
            "note",
        ),
        ("/planned_heating_date", "2025-07-22", "2025-07-21", "heating_too_early", 21.0, "violation", _START),
        # 3 days to cure and 62 + 12 days to dry, the day of the test on top (BS 8203 and BS 8204 series)
        (
            "/planned_covering_date",
            "2025-09-17",
            "2025-09-16",
            "covering_too_early",
            78.0,
            "warning",
            "BS 8203",
        ),
        (
            "/covering",
            "carpet",
            "timber",
            "covering_limits_surface",
            27.0,
            "note",
            "common practice, no source",
        ),
        ("/covering", "natural_stone", "resilient", "covering_limits_surface", 27.0, "note", "BS 8203"),
        ("/flexural_class", "F5", "F7", "class_without_gain", None, "note", _DIN),
    ),
    *_of(
        "curing-plan",
        FLOWING,
        ("/thickness", 0.051, 0.0509, "screed_too_thin", 0.035, "violation", f"{_DIN}: 35 mm over the pipe"),
        ("/planned_heating_date", "2025-07-08", "2025-07-07", "heating_too_early", 7.0, "violation", _START),
    ),
    *_of(
        "curing-plan",
        {**FLOWING, "pipe_outside_diameter": 0.012},
        ("/thickness", 0.050, 0.0499, "unusual_thickness", 0.050, "note", "common practice, no source"),
    ),
    *_of(
        "curing-plan",
        {**SCREED, "thickness": 0.09, "imposed_load": 4000.0},
        ("/insulation_compressibility", 0.003, 0.0031, "insulation_too_soft", 0.003, "violation", _DIN),
    ),
    *_of(
        "curing-plan",
        MAKER,
        (
            "/maker_rules/earliest_heating_days",
            21,
            20,
            "heating_earlier_than_standard",
            21.0,
            "violation",
            _START,
        ),
        ("/maker_rules/curing_days", 3, 2, "shorter_than_standard", 3.0, "warning", "EN 1264-4, curing"),
        ("/maker_rules/start_days", 3, 2, "shorter_than_standard", 3.0, "note", _START),
        ("/maker_rules/hold_days", 4, 3, "shorter_than_standard", 4.0, "note", _START),
    ),
    *_of(
        "curing-plan",
        STEPS,
        (
            "/maker_rules/temperature_step",
            12.0,
            12.1,
            "rise_over_more_than_a_day",
            12.0,
            "note",
            "0.5 K/h for a day",
        ),
    ),
    *_of(
        "curing-plan",
        {key: value for key, value in SCREED.items() if key != "lowest_air_temperature"},
        (
            "/pour_date",
            "2025-10-31",
            "2025-11-01",
            "pour_in_cold_season",
            None,
            "note",
            "common practice, no source",
        ),
    ),
]

# -- insulation --------------------------------------------------------------------------------------------------

CHECK: _RECORD = {
    "below": "ground",
    "layers": [
        {"thickness": 0.06, "thermal_conductivity": 0.04, "compressibility": 0.003},
        {"thickness": 0.2, "thermal_conductivity": 2.3, "part": "structure"},
    ],
    "ground": {"groundwater_depth": 8.0},
    "screed": {"screed_cover": 0.05, "imposed_load": 2000.0},
}
OUTSIDE: _RECORD = {
    "below": "outside",
    "temperature_below": -10.0,
    "layers": [{"thickness": 0.2, "thermal_conductivity": 0.04}],
}
INSULATION_CHECK = [
    *_of(
        "insulation-check",
        CHECK,
        ("/layers/0/thickness", 0.05, 0.0499, "insulation_below_requirement", 1.25, "violation", _INSULATION),
        ("/ground/groundwater_depth", 5.01, 5.0, "groundwater_near", 5.0, "warning", "EN 1264-4, by memory"),
        (
            "/layers/0/thermal_conductivity",
            0.1,
            0.101,
            "hardly_insulation",
            0.1,
            "warning",
            "common practice",
        ),
        ("/layers/0/compressibility", 0.005, 0.0051, "thickened_for_soft_insulation", 0.005, "note", _DIN),
        ("/layers/0/compressibility", 0.010, 0.0101, "insulation_too_soft", 0.010, "violation", _DIN),
        ("/screed/screed_cover", 0.045, 0.0449, "screed_too_thin", 0.045, "violation", _COVER),
        ("/screed/imposed_load", 5000.0, 5001.0, "load_outside_table", 5000.0, "violation", _DIN),
        ("/screed/concentrated_load", 4000.0, 4001.0, "load_outside_table", 4000.0, "violation", _DIN),
    ),
    *_of(
        "insulation-check",
        OUTSIDE,
        ("/temperature_below", -15.0, -15.1, "colder_than_table", -15.0, "warning", _INSULATION),
    ),
]

# -- heat loss ---------------------------------------------------------------------------------------------------

ROOM: _RECORD = {
    "external_temperature": -10.0,
    "annual_mean_temperature": 9.0,
    "rooms": [
        {
            "id": "room",
            "area": 20.0,
            "room_height": 2.5,
            "elements": [{"surface": "window", "area": 5.0, "u_value": 1.0}],
        }
    ],
}
_STANDARD = "EN 12831-1:2017, Annex B"
SUSPENDED: _RECORD = {
    **ROOM,
    "ground": {"floor_area": 80.0, "exposed_perimeter": 36.0},
    "underfloor_space": {"ventilation_openings": 0.002},
    "rooms": [
        {
            "id": "room",
            "area": 20.0,
            "elements": [{"surface": "floor", "area": 20.0, "u_value": 0.3, "beyond": "underfloor_space"}],
        }
    ],
}
_WINDOW = (100.0 * 20.0 - 1224.0 * 0.5 * 50.0 * 30.0 / 3600.0) / ((1.0 + 0.1) * 30.0)
"""Window [m2] with which 20 m2 lose 2000 W over 30 K: 25 m3/h of air at 1224 J/(m3.K), the rest at 1.1 W/(m2.K)."""
SQUARE = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]]
OUTLINED: _RECORD = {
    "external_temperature": -10.0,
    "annual_mean_temperature": 9.0,
    "wall_area_ratio": 1.25,
    "constructions": [{"id": "wall", "u_value": 0.3}],
    "rooms": [
        {
            "id": "room",
            "outline": SQUARE,
            "walls": [{"edge": edge, "construction": "wall"} for edge in range(4)],
            "floors": [{"construction": "wall", "beyond": "adiabatic"}],
            "ceilings": [{"construction": "wall", "beyond": "adiabatic"}],
        }
    ],
}


def _outlined(name: str, depth: float, other: str, edge: int, construction: str | None) -> _RECORD:
    """A room of 4 m by ``depth`` [m] with one wall to another room."""
    walls = [{"edge": number, "construction": "wall"} for number in range(4) if number != edge]
    between = {"edge": edge, "beyond": "room", "neighbour": other}
    return {
        **OUTLINED["rooms"][0],
        "id": name,
        "outline": [[0.0, 0.0], [4.0, 0.0], [4.0, depth], [0.0, depth]],
        "walls": [*walls, between if construction is None else {**between, "construction": construction}],
    }


def _beside(depth: float) -> list[_RECORD]:
    """The wall between is 4 m long in one room and ``depth`` [m] in the other, 2.5 m high."""
    return [_outlined("a", 4.0, "b", 1, "wall"), _outlined("b", depth, "a", 3, None)]


BRIDGED: _RECORD = {
    **ROOM,
    "constructions": [
        {
            "id": "bridged",
            "layers": [
                {
                    "thickness": 0.2,
                    "thermal_conductivity": 0.035,
                    "bridge_share": 0.1,
                    "bridge_conductivity": 0.13,
                }
            ],
        }
    ],
}


def _bound_ratio(bridge: float) -> float:
    """Upper over lower bound of the layer's resistance with both surfaces, 0.17 m2.K/W together (ISO 6946:2017)."""
    beside, through = 0.2 / 0.035, 0.2 / bridge
    upper = 1.0 / (0.9 / (0.17 + beside) + 0.1 / (0.17 + through))
    return upper / (0.17 + 1.0 / (0.9 / beside + 0.1 / through))


def _where(ratio: float) -> float:
    """Conductivity of the bridge [W/(m.K)] at which the bounds have this ratio, by halving."""
    low, high = 0.05, 5.0
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (middle, high) if _bound_ratio(middle) < ratio else (low, middle)
    return low


HEAT_LOSS = [
    *_of(
        "heat-loss",
        ROOM,
        ("/thermal_bridge_supplement", 0.02, 0.019, "supplement_low", 0.02, "warning", _STANDARD),
        (
            "/annual_mean_temperature",
            -10.0,
            -10.1,
            "annual_mean_below_design_day",
            -10.0,
            "warning",
            _STANDARD,
        ),
        (
            "/rooms/0/room_height",
            4.0,
            4.01,
            "high_room",
            4.0,
            "warning",
            "EN 12831-1:2017, rooms of large height",
        ),
        ("/rooms/0/air_change", 0.5, 0.49, "air_change_low", 0.5, "warning", _STANDARD),
        (
            "/rooms/0/elements/0/area",
            _WINDOW - 0.05,
            _WINDOW + 0.05,
            "more_than_a_floor_gives",
            100.0,
            "warning",
            "EN 1264-2, basic characteristic curve at 9 K",
        ),
        ("/external_temperature", 19.9, 20.0, "no_heat_needed", 0.0, "warning", "no difference, no loss"),
        (
            "/rooms/0/elements/0/beyond",
            "outside",
            "unheated",
            "unheated_space_assumed",
            None,
            "note",
            _STANDARD,
        ),
    ),
    *_of(
        "heat-loss",
        changed(ROOM, "/rooms/0/air_flow", 0.01),
        ("/rooms/0/supply_air_temperature", 20.0, 20.1, "heated_by_air", 20.0, "note", "EN 12831-1:2017"),
    ),
    *_of(
        "heat-loss",
        SUSPENDED,
        (
            "/underfloor_space/ventilation_openings",
            0.0015,
            0.0014,
            "underfloor_ventilation_low",
            0.0015,
            "warning",
            "Approved Document C (England), by memory",
        ),
    ),
    *_of(
        "heat-loss",
        OUTLINED,
        ("/wall_area_ratio", 1.01, 1.0, "outlines_as_drawn", 1.25, "note", _STANDARD),
        (
            "/rooms/0/depth_below_ground",
            2.5,
            2.6,
            "deep_storey",
            2.5,
            "note",
            "ISO 13370:2017, heated basements",
        ),
    ),
    *_of(
        "heat-loss",
        OUTLINED,
        # a fifth of 10 m2
        (
            "/rooms",
            _beside(3.21),
            _beside(3.19),
            "partition_areas_differ",
            2.5 * 3.19,
            "warning",
            "rule of this calculation",
        ),
    ),
    *_of(
        "heat-loss",
        BRIDGED,
        (
            "/constructions/0/layers/0/bridge_conductivity",
            _where(1.495),
            _where(1.505),
            "bridges_beyond_method",
            1.5,
            "warning",
            "ISO 6946:2017, inhomogeneous layers",
        ),
    ),
]

# -- the water side ----------------------------------------------------------------------------------------------

BORE = math.pi / 4.0 * 0.012**2
DENSITY, HEAT_CAPACITY, VISCOSITY = 994.08, 4179.0, 0.7191e-3
"""Of water at 35 degC and 2 bar (IAPWS-IF97, as CoolProp and iapws agree)."""


def _flow(velocity: float) -> float:
    """Mass flow [kg/s] in the bore of 12 mm."""
    return velocity * BORE * DENSITY


LITRE_A_MINUTE = DENSITY * 1e-3 / 60.0
WATER: _RECORD = {
    "pipe": PIPE,
    "circuits": [{"id": "one", "length": 60.0, "mass_flow": _flow(0.4)}],
    "expansion": {"additional_volume": 0.05},
}
SHORT: _RECORD = changed(WATER, "/circuits/0/length", 10.0)
TWO: _RECORD = {
    **WATER,
    "circuits": [
        {"id": "long", "length": 90.0, "mass_flow": _flow(0.4)},
        {"id": "short", "length": 20.0, "mass_flow": 2.0 * LITRE_A_MINUTE},
    ],
}
GLYCOL: _RECORD = {**WATER, "fluid": {"kind": "propylene_glycol", "basis": "volume", "concentration": 0.3}}
_PRACTICE = "common practice, no source"


def _reynolds(reynolds: float) -> float:
    """Mass flow [kg/s]: Re = 4 m / (pi D mu)."""
    return reynolds * math.pi * 0.012 * VISCOSITY / 4.0


HYDRAULICS = [
    *_of(
        "hydraulics",
        WATER,
        ("/circuits/0/mass_flow", _flow(0.2513), _flow(0.2487), "velocity_low", 0.25, "note", "JGJ 142"),
        ("/circuits/0/length", 100.0, 100.1, "long_circuit", 100.0, "warning", "NF DTU 65.14, 16 mm pipe"),
        ("/circuits/0/length", 120.0, 120.1, "too_long_circuit", 120.0, "violation", "JGJ 142, clause 3"),
        ("/circuits/0/temperature_drop", 10.0, 10.1, "unusual_temperature_drop", 10.0, "note", "JGJ 142"),
        ("/circuits/0/temperature_drop", 3.0, 2.9, "unusual_temperature_drop", 3.0, "note", _PRACTICE),
        ("/supply_temperature", 55.0, 55.1, "supply_above_limit", 55.0, "violation", "DIN 18560-2"),
        ("/primary_temperature", 40.5, 40.4, "primary_close_to_supply", 40.5, "warning", _PRACTICE),
        ("/primary_temperature", 37.5, 37.4, "primary_below_supply", 37.5, "violation", "energy balance"),
        ("/expansion/additional_volume", 0.001, 0.0, "vessel_for_circuits_only", None, "note", "EN 12828"),
    ),
    *_of(
        "hydraulics",
        SHORT,
        ("/circuits/0/mass_flow", _flow(0.597), _flow(0.603), "velocity_high", 0.6, "warning", _PRACTICE),
        (
            "/circuits/0/mass_flow",
            _flow(0.995),
            _flow(1.005),
            "velocity_too_high",
            1.0,
            "violation",
            _PRACTICE,
        ),
        (
            "/circuits/0/mass_flow",
            _reynolds(1990.0),
            _reynolds(2010.0),
            "transitional_flow",
            4000.0,
            "note",
            "Churchill",
        ),
        (
            "/circuits/0/mass_flow",
            _reynolds(4020.0),
            _reynolds(3980.0),
            "transitional_flow",
            4000.0,
            "note",
            "Churchill",
        ),
        (
            "/circuits/0/mass_flow",
            0.503 * LITRE_A_MINUTE,
            0.497 * LITRE_A_MINUTE,
            "below_meter_range",
            0.5e-3 / 60.0,
            "warning",
            _PRACTICE,
        ),
        (
            "/circuits/0/mass_flow",
            4.98 * LITRE_A_MINUTE,
            5.02 * LITRE_A_MINUTE,
            "above_meter_range",
            5.0e-3 / 60.0,
            "warning",
            _PRACTICE,
        ),
    ),
    *_of(
        "hydraulics",
        # 3 l/min in 16 x 2 pipe lose 280.92 Pa/m (Churchill, by the library fluids), an open valve of kv 10 little
        {
            **changed(WATER, "/circuits/0/mass_flow", 3.0 * LITRE_A_MINUTE),
            "bend_allowance": 0.0,
            "valve_kv_open": 10.0,
            "limits": {"advised_length": 200.0, "maximum_length": 200.0},
        },
        (
            "/circuits/0/length",
            (20_000.0 - 32.4) / 280.92 - 0.1,
            (20_000.0 - 32.4) / 280.92 + 0.1,
            "pressure_drop_high",
            20_000.0,
            "warning",
            _PRACTICE,
        ),
        (
            "/circuits/0/length",
            (30_000.0 - 32.4) / 280.92 - 0.2,
            (30_000.0 - 32.4) / 280.92 + 0.2,
            "pressure_drop_too_high",
            30_000.0,
            "violation",
            _PRACTICE,
        ),
    ),
    *_of(
        "hydraulics",
        # The short circuit loses 139.88 Pa/m at 2 l/min, the long one 280.92 Pa/m at 3 l/min; both without bends. An
        # open valve of kv 1.1 takes 1e5 (0.18 / 1.1)^2 Pa of the long one's 3 l/min.
        {
            **TWO,
            "bend_allowance": 0.0,
            "circuits": [
                {"id": "long", "length": 90.0, "mass_flow": 3.0 * LITRE_A_MINUTE},
                {"id": "short", "length": 20.0, "mass_flow": 2.0 * LITRE_A_MINUTE},
            ],
        },
        (
            "/circuits/1/length",
            (90.0 * 280.92 + 1e5 * (0.18 / 1.1) ** 2 - 25_000.0) / 139.88 + 0.5,
            (90.0 * 280.92 + 1e5 * (0.18 / 1.1) ** 2 - 25_000.0) / 139.88 - 0.5,
            "valve_may_be_heard",
            25_000.0,
            "warning",
            _PRACTICE,
        ),
    ),
    *_of(
        "hydraulics",
        # the same two: the valve of the short one takes 25 163 Pa at 0.12 m3/h, a kv of 0.2392
        {
            **WATER,
            "bend_allowance": 0.0,
            "circuits": [
                {"id": "long", "length": 90.0, "mass_flow": 3.0 * LITRE_A_MINUTE},
                {"id": "short", "length": 20.0, "mass_flow": 2.0 * LITRE_A_MINUTE},
            ],
            "valve_table": [{"setting": 1.0, "kv": 0.2}, {"setting": 2.0, "kv": 1.1}],
        },
        ("/valve_table/0/kv", 0.2385, 0.24, "cannot_be_balanced", 0.24, "violation", "the valve's own table"),
    ),
    *_of(
        "hydraulics",
        # filled to 0.3 bar above the gas of 1 bar; the final pressure lies 0.5 bar below the safety valve
        {
            **WATER,
            "expansion": {"additional_volume": 0.05, "precharge_pressure": 100_000.0, "water_reserve": 0.0},
        },
        (
            "/expansion/safety_valve_pressure",
            181_000.0,
            180_000.0,
            "little_pressure_range",
            130_000.0,
            "warning",
            "EN 12828, annex D",
        ),
    ),
    *_of(
        "hydraulics",
        {**WATER, "circuits": [{**WATER["circuits"][0], "id": str(number)} for number in range(12)]},
        ("/limits/maximum_circuits", 12, 11, "too_many_circuits", 11.0, "warning", _PRACTICE),
    ),
    *_of(
        "hydraulics",
        GLYCOL,
        ("/fluid/concentration", 0.2, 0.199, "little_glycol", 0.2, "warning", "common practice, by memory"),
        # 30 % by volume freeze at -13.11 degC (ASHRAE as fitted in CoolProp)
        ("/frost_temperature", -13.0, -13.2, "freezes", -13.2, "violation", "freezing point"),
        ("/frost_temperature", -10.1, -10.12, "frost_margin_small", -13.12, "warning", _PRACTICE),
    ),
    *_of(
        "hydraulics",
        # water grows by 1.679 % from 10 to 60 degC; with 0.5 % in reserve and 1 bar to 2.5 bar: 5.084 % of the system
        {**WATER, "expansion": {"precharge_pressure": 100_000.0, "maximum_temperature": 60.0}},
        ("/expansion/additional_volume", 9.75, 9.9, "vessel_beyond_common_sizes", 0.5, "note", _PRACTICE),
    ),
    *_of(
        "hydraulics",
        {**WATER, "expansion": {"additional_volume": 0.05, "maximum_temperature": 60.0}},
        (
            "/expansion/expansion_ratio",
            0.0166,
            0.0163,
            "growth_too_small",
            (0.01679, 1e-5),
            "warning",
            "IAPWS",
        ),
    ),
    *_of(
        "hydraulics",
        {**WATER, "expansion": {"additional_volume": 0.5, "maximum_temperature": 60.0}},
        (
            "/expansion/water_reserve",
            0.003,
            0.0029,
            "reserve_too_small",
            0.003,
            "warning",
            "EN 12828, annex D",
        ),
    ),
]

# -- sections ----------------------------------------------------------------------------------------------------

SECTION: _RECORD = {
    "pipe_spacing": 0.15,
    "pipe": PIPE,
    "screed_cover": 0.045,
    "layers_below": [{"thickness": 0.06, "thermal_conductivity": 0.04}],
    "water_temperature": 35.0,
}
FLOOR_SECTION = _of(
    "floor-section",
    SECTION,
    ("/screed_cover", 0.030, 0.0299, "screed_cover_thin", 0.030, "violation", _COVER),
    ("/covering_resistance", 0.15, 0.151, "covering_too_insulating", 0.15, "warning", "EN 1264-3"),
    ("/layers_below/0/thickness", 0.0301, 0.0299, "insulation_below_minimum", 0.75, "violation", _INSULATION),
    ("/water_temperature", 55.0, 55.1, "water_too_hot_for_screed", 55.0, "violation", "DIN 18560-2"),
    ("/water_temperature", 20.1, 19.9, "surface_below_room", 20.0, "warning", "ISO 11855-2, floor cooling"),
)

# -- pipe --------------------------------------------------------------------------------------------------------

LOOPS: _RECORD = {"area": 12.0, "pipe_spacing": 0.15, "tail_length": 3.0, "pipe": PIPE}
ROUTE: _RECORD = {"outline": SQUARE, "entry": [1.0, 0.0], "pipe_spacing": 0.2, "pipe": PIPE}
LENGTHS = [
    *_of(
        "loop-length",
        LOOPS,
        ("/pipe_spacing", 0.3, 0.301, "unusual_spacing", 0.3, "note", _PRACTICE),
        ("/pipe_spacing", 0.05, 0.049, "unusual_spacing", 0.05, "note", _PRACTICE),
        ("/pipe_spacing", 0.16, 0.159, "u_turn_too_tight", 0.16, "note", "twice five outside diameters"),
        ("/wall_clearance", 0.058, 0.0579, "close_to_wall", 0.05, "violation", "EN 1264-4"),
        ("/fixing_distance", 0.5, 0.501, "fixings_far_apart", 0.5, "warning", "EN 1264-4:2001"),
        # 94 m in the field and 6 m of tails
        ("/area", 14.1, 14.11, "divided", 100.0, "note", "NF DTU 65.14, 16 mm pipe"),
    ),
    *_of(
        "loop-length",
        {**LOOPS, "maximum_circuit_length": 150.0},
        ("/area", 14.1, 14.12, "long_circuit", 100.0, "warning", "NF DTU 65.14, 16 mm pipe"),
        ("/area", 17.1, 17.12, "too_long_circuit", 120.0, "violation", "JGJ 142, clause 3"),
    ),
    *(
        Threshold(
            "loop-length",
            {
                **LOOPS,
                "pipe": {"outside_diameter": diameter, "wall_thickness": 0.0015},
                "maximum_circuit_length": 180.0,
            },
            "/area",
            (usual - 6.0) * 0.15,
            (usual - 5.8) * 0.15,
            "long_circuit" if upper > usual else "too_long_circuit",
            usual,
            "warning" if upper > usual else "violation",
            "usual lengths by diameter: NF DTU 65.14, JGJ 142 and common practice",
        )
        for diameter, usual, upper in (
            (0.011, 50.0, 60.0),
            (0.014, 80.0, 100.0),
            (0.018, 120.0, 120.0),
            (0.02, 120.0, 150.0),
        )
    ),
    *_of(
        "loop-length",
        {**LOOPS, "area": None, "outline": [[0.0, 0.0], [3.0, 0.0], [3.0, 0.31], [0.0, 0.31]]},
        ("/wall_clearance", 0.079, 0.081, "narrow_room", 0.15, "warning", "width less both clearances"),
    ),
    *_of(
        "routes",
        ROUTE,
        ("/pipe_spacing", 0.3, 0.301, "unusual_spacing", 0.3, "note", _PRACTICE),
        ("/pipe_spacing", 0.16, 0.159, "bend_wider_than_half_spacing", (0.0795, 1e-9), "note", "geometry"),
        ("/wall_clearance", 0.058, 0.0579, "close_to_wall", 0.05, "violation", "EN 1264-4"),
    ),
    *_of(
        "routes",
        {**ROUTE, "peripheral": {"edges": [1], "width": 0.9, "pipe_spacing": 0.15}},
        (
            "/peripheral/width",
            1.0,
            1.01,
            "wide_peripheral_area",
            1.0,
            "warning",
            "EN 1264-1, peripheral area",
        ),
    ),
]

# -- the whole house ---------------------------------------------------------------------------------------------

HOUSE: _RECORD = {
    "rooms": [{"id": "room", "area": 12.0, "heat_demand": 840.0, "build_up": "floor", "tail_length": 4.0}],
    "build_ups": [{"id": "floor", "resistance_below": 1.5, "temperature_below": 20.0}],
    "pipe": {"outside_diameter": 0.017, "wall_thickness": 0.002},
    "limits": {"pipe_spacings": [0.15]},
    "source": {"maximum_supply_temperature": 50.0},
}
_HOUSE_MEAN = 70.0 / _SLOPE
_HOUSE_SUPPLY = 20.0 + 5.0 / (1.0 - math.exp(-5.0 / _HOUSE_MEAN))
"""Supply [degC] for 70 W/m2 with a drop of 5 K, by the logarithmic mean."""


def _output(supply: float, drop: float) -> float:
    """Heat [W] of the room's floor on a supply [degC] with a drop [K]."""
    return 12.0 * _SLOPE * drop / math.log((supply - 20.0) / (supply - 20.0 - drop))


DESIGNS = [
    *_of(
        "designs",
        HOUSE,
        ("/source/temperature_drop", 5.0, 5.1, "design_drop_large", 5.0, "note", "EN 1264-3, governing room"),
        (
            "/source/supply_temperature",
            _HOUSE_SUPPLY + 0.02,
            _HOUSE_SUPPLY - 0.02,
            "supply_too_cold",
            (_HOUSE_SUPPLY, 0.01),
            "violation",
            "EN 1264-3, supply temperature",
        ),
        (
            "/source/supply_temperature",
            _HOUSE_SUPPLY + 0.02,
            _HOUSE_SUPPLY - 0.02,
            "heat_missing",
            840.0,
            "violation",
            "EN 1264-2, characteristic curve",
        ),
    ),
    *_of(
        "designs",
        # with the largest drop of 10 K the floor gives a twentieth more than is asked
        changed(HOUSE, "/source/supply_temperature", 43.0),
        (
            "/rooms/0/heat_demand",
            _output(43.0, 10.0) / 1.05 + 1.0,
            _output(43.0, 10.0) / 1.05 - 1.0,
            "more_heat_than_needed",
            None,
            "note",
            "a twentieth: rule of this calculation",
        ),
    ),
    *_of(
        "designs",
        HOUSE,
        ("/rooms/0/heat_demand", 12.0, 11.9, "demand_small", 12.0, "warning", _PRACTICE),
    ),
    *_of(
        "designs",
        changed(HOUSE, "/rooms/0/heat_demand", 500.0),
        ("/rooms/0/tail_length", 4.0, None, "tail_assumed", None, "warning", _PRACTICE),
    ),
]

THRESHOLDS = [
    *HEAT_OUTPUT,
    *SUPPLY_TEMPERATURE,
    *CURING_PLAN,
    *INSULATION_CHECK,
    *HEAT_LOSS,
    *HYDRAULICS,
    *FLOOR_SECTION,
    *LENGTHS,
    *DESIGNS,
]

ELSEWHERE = {
    "design_not_settled": "tests/engine/test_designs_of_storeys.py",
    "drying_decides": "told as soon as drying outlasts the heating: tests/engine/test_curing_plan.py",
    "edge_below_room": "by finite elements: tests/engine/test_finding_thresholds.py",
    "edge_insulation_not_counted": "told of any insulation of a floor below ground",
    "edge_insulation_wide": "where the formula of ISO 13370 fails: tests/engine/test_heat_loss.py",
    "estimated_heat_short": "tests/engine/test_estimates.py",
    "gain_from_neighbours": "told of any gain: tests/engine/test_heat_loss.py",
    "balancing_valve_due": "tests/engine/test_designs_of_storeys.py",
    "much_heat_downwards": "by finite elements: tests/engine/test_finding_thresholds.py",
    "no_dates": "told without a screed",
    "output_not_reached": "tests/engine/test_floor_section_in_time.py",
    "remedies_untried": "tests/engine/test_designs_advice.py",
    "room_left_out_of_supply": "tests/engine/test_designs.py",
    "room_without_circuits": "tests/engine/test_designs_advice.py",
    "section_gives_less": "tests/engine/test_heat_output_methods.py",
    "soil_not_counted": "told without the soil",
    "source_too_small": "by finite elements: tests/engine/test_finding_thresholds.py",
    "space_without_outlet": "told of a space without any way out: tests/engine/test_heat_loss.py",
    "surface_above_occupied_limit": "by finite elements: tests/engine/test_finding_thresholds.py",
    "surface_above_peripheral_limit": "by finite elements: tests/engine/test_finding_thresholds.py",
    "surface_uneven": "by finite elements: tests/engine/test_finding_thresholds.py",
    "tails_give_too_much": "tests/engine/test_designs_advice.py",
    "tails_heat": "told of all tails",
    "tails_too_warm": "tests of storeys",
    "two_methods": "tests/engine/test_heat_output_methods.py",
    "underfloor_space_by_balance": "told of all suspended floors",
}
"""Findings without a row: where they are tested, or that they have no threshold."""
