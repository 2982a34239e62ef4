"""What should be looked at before a heat loss is built upon."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..results import Finding
from . import ground as soil
from .balance import SUSPENDED_FACTOR, UNHEATED_FACTOR, Balance
from .faces import Face
from .records import EdgeInsulation
from .room_findings import room_findings
from .u_values import LEAST_RATIO, resistance_bounds

__all__ = ["loss_findings"]


_STANDARD = "EN 12831-1:2017"
_SAME_AREA = 1.0
"""Areas of one partition seen from both sides differ by the walls between [m2]."""
_LEAST_OPENINGS = 0.0015
"""Ventilation openings of an underfloor space [m2/m]."""


def loss_findings(balance: Balance, demands: Sequence[float]) -> tuple[Finding, ...]:
    """``demands`` are the rooms' heat demands [W]."""
    return (
        *_dimensions(balance),
        *_constructions(balance),
        *_elements(balance),
        *_partitions(balance),
        *_spaces(balance),
        *(
            finding
            for index, demand in enumerate(demands)
            for finding in room_findings(balance, index, demand)
        ),
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
            "/wall_area_ratio",
            value=inputs.wall_area_ratio,
            limit=1.25,
            source=f"{_STANDARD}, Annex B",
            quantity="wall_area_ratio",
        )
    if inputs.thermal_bridge_supplement < 0.02:
        yield Finding.at(
            "supplement_low",
            "/thermal_bridge_supplement",
            value=inputs.thermal_bridge_supplement,
            limit=0.02,
            source=f"{_STANDARD}, Annex B",
            quantity="thermal_bridge_supplement",
        )
    mean = inputs.annual_mean_temperature
    if mean is not None and mean < inputs.external_temperature:
        yield Finding.at(
            "annual_mean_below_design_day",
            "/annual_mean_temperature",
            value=mean,
            limit=inputs.external_temperature,
            source=f"{_STANDARD}, external design temperature and annual mean",
            quantity="annual_mean_temperature",
        )
    yield from _underfloor(balance)
    shallow = all(room.depth_below_ground == 0.0 for room in inputs.rooms)
    if inputs.ground.edge_insulation is not None and not shallow:
        yield Finding.at(
            "edge_insulation_not_counted",
            "/ground/edge_insulation",
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
            "/underfloor_space/ventilation_openings",
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
        face.pointer,
        value=across / (inside - outside) if inside != outside else None,
        source=f"ISO 13370:2017, suspended floors; {_STANDARD}, Annex B",
        quantity="temperature_share",
        limit=SUSPENDED_FACTOR,
        limit_is="by the standard",
    )


def _constructions(balance: Balance) -> Iterator[Finding]:
    for index, construction in enumerate(balance.inputs.constructions):
        if not any(layer.bridge_share > 0.0 for layer in construction.layers):
            continue
        bounds = resistance_bounds(construction.layers, 0.17)
        if bounds.upper > LEAST_RATIO * bounds.lower:
            yield Finding.at(
                "bridges_beyond_method",
                f"/constructions/{index}/layers",
                value=bounds.upper / bounds.lower,
                limit=LEAST_RATIO,
                source="ISO 6946:2017, inhomogeneous layers",
                quantity="resistance_ratio",
            )


def _elements(balance: Balance) -> Iterator[Finding]:
    edge = balance.inputs.ground.edge_insulation
    for room in balance.rooms:
        for face in room.faces:
            if face.beyond == "unheated" and not face.described:
                yield Finding.at(
                    "unheated_space_assumed",
                    face.pointer,
                    value=UNHEATED_FACTOR,
                    source=f"{_STANDARD}, Annex B",
                    quantity="unheated_factor",
                    detail="The standard has 0.4 to 0.8 for rooms by their outside walls, 0.5 for basements, 0.8 with "
                    "windows, 0.7 to 1.0 for roof spaces",
                )
            if edge and face.beyond == "ground" and _edge_insulation_is_wide(balance, face, edge):
                yield Finding.at(
                    "edge_insulation_wide",
                    "/ground/edge_insulation/extent",
                    source="ISO 13370:2017, floors with edge insulation",
                )
                return


def _spaces(balance: Balance) -> Iterator[Finding]:
    for index, space in enumerate(balance.inputs.unheated_spaces):
        out = (space.external_transmittance or 0.0) + space.air_change * (space.volume or 0.0)
        if space.temperature is None and space.ground_contact is None and out == 0.0:
            yield Finding.at(
                "space_without_outlet",
                f"/unheated_spaces/{index}/external_transmittance",
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
                places[one, other, level],
                source="geometry of the outlines",
                value=area,
                limit=across,
                limit_is="from the other room",
                quantity="element_area",
                detail=f"Between {one} and {other}",
            )


def _edge_insulation_is_wide(balance: Balance, face: Face, edge: EdgeInsulation) -> bool:
    """Of a ``face`` on the ground."""
    ground = balance.ground
    if ground is None or face.surface != "floor":
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
