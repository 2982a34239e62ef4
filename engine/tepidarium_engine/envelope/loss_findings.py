"""What should be looked at before a heat loss is built upon."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Caution, Finding
from . import ground as soil
from .balance import SUSPENDED_FACTOR, UNHEATED_FACTOR, Balance
from .faces import Face
from .room_findings import room_findings
from .u_values import LEAST_RATIO, resistance_bounds

__all__ = ["CAUTIONS", "loss_findings"]

CAUTIONS = (
    Caution(
        "local_codes_decide",
        "The national annex of EN 12831-1 sets outside temperatures, room temperatures and air changes; local "
        "codes and the licensed practice of the place decide on the design.",
    ),
    Caution(
        "real_building_decides",
        "A loss is as true as its U-values. Look at the walls and windows that are there: a heating sized for "
        "insulation that was never built leaves people cold and lets pipes freeze.",
    ),
)

_STANDARD = "EN 12831-1:2017"
_SAME_AREA = 1.0
"""Areas of one partition seen from both sides differ by the walls between [m2]."""
_LEAST_OPENINGS = 0.0015
"""Ventilation openings of an underfloor space [m2/m]."""


def loss_findings(balance: Balance) -> tuple[Finding, ...]:
    return (
        *_dimensions(balance),
        *_constructions(balance),
        *_elements(balance),
        *_partitions(balance),
        *_spaces(balance),
        *(finding for index in range(len(balance.rooms)) for finding in room_findings(balance, index)),
    )


def _dimensions(balance: Balance) -> Iterator[Finding]:
    inputs = balance.inputs
    from_outlines = any(
        face.beyond == "outside" and "/walls/" in face.pointer
        for room in balance.rooms
        for face in room.faces
    )
    if from_outlines and inputs.wall_area_ratio == 1.0:
        yield Finding.at(
            "outlines_as_drawn",
            "note",
            "/wall_area_ratio",
            "Outside walls are as long as the outlines. The standard counts outer dimensions: outlines along the "
            "inner faces need the ratio of outer to inner wall area, 1.25 when it is not known.",
            value=inputs.wall_area_ratio,
            limit=1.25,
            source=f"{_STANDARD}, Annex B",
            quantity="wall_area_ratio",
        )
    if inputs.thermal_bridge_supplement < 0.02:
        yield Finding.at(
            "supplement_low",
            "warning",
            "/thermal_bridge_supplement",
            "Less than the standard grants the best new buildings; it needs a calculation of every junction.",
            value=inputs.thermal_bridge_supplement,
            limit=0.02,
            source=f"{_STANDARD}, Annex B",
            quantity="thermal_bridge_supplement",
        )
    yield from _underfloor(balance)
    shallow = all(room.depth_below_ground == 0.0 for room in inputs.rooms)
    if inputs.ground.edge_insulation is not None and not shallow:
        yield Finding.at(
            "edge_insulation_not_counted",
            "note",
            "/ground/edge_insulation",
            "Counts for floors at ground level only, not for those below.",
            source="ISO 13370:2017, floors with edge insulation",
        )


def _underfloor(balance: Balance) -> Iterator[Finding]:
    suspended = [face for room in balance.rooms for face in room.faces if face.beyond == "underfloor_space"]
    if not suspended:
        return
    openings = balance.inputs.underfloor_space.ventilation_openings
    if openings < _LEAST_OPENINGS:
        yield Finding.at(
            "underfloor_ventilation_low",
            "warning",
            "/underfloor_space/ventilation_openings",
            "So little air below a suspended floor that its timber may rot; a space that is closed on purpose needs "
            "insulation and a membrane on the soil.",
            value=openings,
            limit=_LEAST_OPENINGS,
            source="Approved Document C (England), suspended timber floors: 1500 mm2 per metre of wall; from memory",
            quantity="opening_per_length",
        )
    balanced = [face for face in suspended if face.over_balanced_space]
    if balanced:
        yield _underfloor_share(balance, balanced[0])


def _underfloor_share(balance: Balance, face: Face) -> Finding:
    inside, outside = balance.inputs.rooms[face.room].room_temperature, balance.inputs.external_temperature
    across = inside - balance.temperature_beyond(face)
    return Finding.at(
        "underfloor_space_by_balance",
        "note",
        face.pointer,
        "This share of the difference to the outside lies across the suspended floor by the heat balance of the space "
        "below it. The standard takes 0.8 where nothing is known; give it as temperature_factor to be on its side.",
        value=across / (inside - outside) if inside != outside else None,
        limit=SUSPENDED_FACTOR,
        source=f"ISO 13370:2017, suspended floors; {_STANDARD}, Annex B",
        quantity="temperature_share",
    )


def _constructions(balance: Balance) -> Iterator[Finding]:
    for index, construction in enumerate(balance.inputs.constructions):
        if not any(layer.bridge_share > 0.0 for layer in construction.layers):
            continue
        bounds = resistance_bounds(construction.layers, 0.17)
        if bounds.upper > LEAST_RATIO * bounds.lower:
            yield Finding.at(
                "bridges_beyond_method",
                "warning",
                f"/constructions/{index}/layers",
                "The bridges conduct so much better than the layer that the mean of both limits is no longer "
                "reliable; a numerical calculation is needed (metal bridges always do).",
                value=bounds.upper / bounds.lower,
                limit=LEAST_RATIO,
                source="ISO 6946:2017, inhomogeneous layers",
                quantity="resistance_ratio",
            )


def _elements(balance: Balance) -> Iterator[Finding]:
    for room in balance.rooms:
        for face in room.faces:
            described = (face.neighbour, face.neighbour_temperature, face.temperature_factor)
            if face.beyond == "unheated" and described == (None, None, None):
                yield Finding.at(
                    "unheated_space_assumed",
                    "note",
                    face.pointer,
                    "Nothing is said about the unheated space: half of the difference to the outside is taken. The "
                    "standard has 0.4 to 0.8 for rooms by their outside walls, 0.5 for basements, 0.8 for those with "
                    "windows, 0.7 to 1.0 for roof spaces; or describe the space, and its heat balance decides.",
                    value=UNHEATED_FACTOR,
                    source=f"{_STANDARD}, Annex B",
                    quantity="unheated_factor",
                )
            if _edge_insulation_is_wide(balance, face):
                yield Finding.at(
                    "edge_insulation_wide",
                    "note",
                    "/ground/edge_insulation/extent",
                    "Reaches so far that the standard's formula no longer holds; it is counted as insulation below "
                    "the whole floor.",
                    source="ISO 13370:2017, floors with edge insulation",
                )
                return


def _spaces(balance: Balance) -> Iterator[Finding]:
    for index, space in enumerate(balance.inputs.unheated_spaces):
        out = (space.external_transmittance or 0.0) + space.air_change * (space.volume or 0.0)
        if space.temperature is None and space.ground_contact is None and out == 0.0:
            yield Finding.at(
                "space_without_outlet",
                "warning",
                f"/unheated_spaces/{index}/external_transmittance",
                "Nothing leads from this space to the outside, so that it is as warm as the rooms beside it. Give what "
                "its walls, roof and air let through.",
                source=_STANDARD,
            )


def _partitions(balance: Balance) -> Iterator[Finding]:
    """What lies between two rooms has one area, whichever room's outline it follows from."""
    areas: dict[tuple[str, str, bool], float] = {}
    places: dict[tuple[str, str, bool], str] = {}
    for room in balance.rooms:
        for face in room.faces:
            if face.beyond == "room" and face.neighbour is not None and "/elements/" not in face.pointer:
                key = (
                    balance.inputs.rooms[face.room].id,
                    face.neighbour,
                    face.surface in ("floor", "ceiling"),
                )
                areas[key] = areas.get(key, 0.0) + face.area
                places.setdefault(key, face.pointer)
    for (one, other, level), area in areas.items():
        across = areas.get((other, one, level))
        if across is not None and one < other and abs(area - across) > max(_SAME_AREA, 0.2 * area):
            yield Finding.at(
                "partition_areas_differ",
                "warning",
                places[one, other, level],
                f"Between {one} and {other} lies another area when it is measured from the other room; the side that "
                "gives the construction counts.",
                value=area,
                limit=across,
                source="geometry of the outlines",
                quantity="element_area",
            )


def _edge_insulation_is_wide(balance: Balance, face: Face) -> bool:
    ground, edge = balance.ground, balance.inputs.ground.edge_insulation
    if edge is None or ground is None or face.beyond != "ground" or face.surface != "floor":
        return False
    if balance.inputs.rooms[face.room].depth_below_ground > 0.0:
        return False
    limit = soil.whole_floor_limit(
        ground.characteristic_dimension,
        balance.equivalent_thickness(face),
        balance.inputs.ground.thermal_conductivity,
        edge,
    )
    return bool(balance.u_value(face) <= limit)
