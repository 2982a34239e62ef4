"""Circuits as laid or judged, in the words of the answer."""

from __future__ import annotations

import math

from ..outlines.heated_floor import heated_floor
from ..pipes.pipe_path import Arc
from .floor_findings import Route
from .route_records import RouteCircuit, RouteCoverage, RouteQuality, RoutesInputs, path_piece

__all__ = ["route_circuit", "route_coverage"]


def route_circuit(inputs: RoutesInputs, route: Route) -> RouteCircuit:
    """One circuit as it is answered."""
    field, path, measures = route.field, route.path, route.check.measures
    tails = 2.0 * inputs.tail_length
    radii = [piece.radius for piece in path.pieces if isinstance(piece, Arc)]
    return RouteCircuit(
        id=field.id,
        pattern=inputs.pattern if route.laid is not None else "given",
        engine=route.laid.engine if route.laid is not None else None,
        entry=route.laid.entry.place if route.laid is not None else field.entry.place,
        tail_pitch=field.entry.tail_pitch,
        area=field.room.area,
        pipe_spacing=field.pipe_spacing,
        valid=route.check.valid,
        length=path.length,
        tail_length=tails,
        total_length=path.length + tails,
        least_radius=min(radii, default=None),
        bends=measures.bends,
        laid_spacings=route.spacings,
        quality=RouteQuality(
            length_ratio=measures.length_ratio,
            coverage_half=measures.coverage_half,
            coverage_three_quarters=measures.coverage_three_quarters,
            gap_95=measures.gap_95,
            least_distance=measures.least_distance,
            distance_1=measures.distance_1,
            close_share=measures.close_share,
            mixed_share=measures.mixed_share,
            temperature_spread=measures.temperature_spread,
        ),
        path=tuple((x, y) for x, y in path.polyline(inputs.chord_error).tolist()),
        pieces=tuple(map(path_piece, path.pieces)),
    )


def route_coverage(inputs: RoutesInputs, routes: tuple[Route, ...]) -> RouteCoverage:
    """Of the floors of all circuits together, each by its own spacing."""
    floors = [
        float(
            heated_floor(
                route.field.room.polygon,
                route.field.pipe_spacing,
                inputs.wall_clearance,
                route.field.local_walls,
            ).area
        )
        for route in routes
    ]
    measures = [route.check.measures for route in routes]
    total = math.fsum(floors)
    half, three_quarters = (
        math.fsum(floor * share for floor, share in zip(floors, shares, strict=True)) / total
        for shares in (
            [each.coverage_half for each in measures],
            [each.coverage_three_quarters for each in measures],
        )
    )
    bare = math.fsum(each.bare_area for each in measures)
    spots = sorted(
        (spot for each in measures for spot in each.bare_spots),
        key=lambda spot: (-round(spot.area, 9), spot.place),
    )
    return RouteCoverage(total, half, three_quarters, bare, tuple(spots))
