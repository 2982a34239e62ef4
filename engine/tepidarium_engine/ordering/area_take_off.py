"""What each floor takes: boards, film, tape, edge strip and screed."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from ..pipe import Pipe
from ..plan.outlines.room_frame import RoomFrame, room_frame
from .board_laying import BoardLaying, lay_boards
from .film_laying import FilmLaying, lay_film
from .material_outcome import AreaQuantities, BoardCount, FilmSheet
from .material_records import InsulationLayer
from .measured_areas import MeasuredArea
from .order_options import BoardSize, FilmRoll, Ordering

__all__ = ["AreaTakeOff", "LayerTakeOff", "area_take_off"]

_ABOVE_FLOOR = 0.01
"""Edge strip above the finished floor, cut off afterwards [m] (common practice, no source)."""


class LayerTakeOff(NamedTuple):
    """A layer of one area: ``boards`` of this ``size``, None where there is no outline to lay them over, and what the
    last one is needed for [m]."""

    layer: InsulationLayer
    size: BoardSize
    boards: int | None
    last: tuple[float, ...]
    area: float


class AreaTakeOff(NamedTuple):
    quantities: AreaQuantities
    layers: tuple[LayerTakeOff, ...]


def area_take_off(measured: MeasuredArea, ordering: Ordering, pipe: Pipe) -> AreaTakeOff:
    """The quantities of one floor, before waste."""
    build_up, outline, layers = measured.build_up, measured.outline, measured.build_up.layers
    frame = None if outline is None else room_frame(outline.placed)
    layings = [
        None if frame is None else _boards(measured, frame, layer.board or ordering.board, number)
        for number, layer in enumerate(layers)
    ]
    film = None
    if ordering.film is not None and frame is not None:
        film = _film(measured, frame, ordering.film)
    volume = max(measured.floor_area * build_up.screed_thickness - _pipe_volume(measured, pipe), 0.0)
    quantities = AreaQuantities(
        area_id=measured.area.id,
        floor_area=measured.floor_area,
        measured=outline is not None,
        pipe_length=measured.pipe_length,
        wall_length=measured.wall_length,
        edge_strip_height=_strip_height(measured),
        boards=tuple(
            BoardCount(
                layer.thickness,
                None if laying is None else laying.boards,
                None if laying is None else laying.cut_off,
            )
            for layer, laying in zip(layers, layings, strict=True)
        ),
        film_area=_film_area(measured, film, ordering.film),
        film_sheets=() if film is None or frame is None else _sheets(film, frame),
        film_lap=film.lap if film is not None and film.lap > 0.0 else None,
        tape_length=_tape_length(measured, film, ordering.film),
        screed_volume=volume,
        total_screed_mass=volume * ordering.screed_supply.density,
    )
    return AreaTakeOff(
        quantities,
        tuple(
            LayerTakeOff(
                layer,
                layer.board or ordering.board,
                None if laying is None else laying.boards,
                () if laying is None else laying.last,
                measured.floor_area,
            )
            for layer, laying in zip(layers, layings, strict=True)
        ),
    )


def _boards(measured: MeasuredArea, frame: RoomFrame, size: BoardSize, number: int) -> BoardLaying:
    floor = frame.to_local(measured.polygon)
    return lay_boards(floor, size.length, size.width, shifted=number % 2 == 1)


def _film(measured: MeasuredArea, frame: RoomFrame, roll: FilmRoll) -> FilmLaying:
    upturn = measured.build_up.screed_thickness if roll.upturn is None else roll.upturn
    return lay_film(frame.to_local(measured.polygon), roll.width, roll.length, roll.lap, upturn)


def _pipe_volume(measured: MeasuredArea, pipe: Pipe) -> float:
    return math.pi / 4.0 * pipe.outside_diameter**2 * measured.pipe_length


def _strip_height(measured: MeasuredArea) -> float:
    """From the top layer's underside to above the finished floor: in floors of several layers the strip is set up
    before the top one is laid (EN 1264-4, value from memory)."""
    build_up, layers = measured.build_up, measured.build_up.layers
    top = layers[-1].thickness if layers else None
    return (top or 0.0) + build_up.screed_thickness + build_up.covering_thickness + _ABOVE_FLOOR


def _film_area(measured: MeasuredArea, film: FilmLaying | None, roll: FilmRoll | None) -> float:
    if roll is None:
        return 0.0
    if film is not None:
        return film.film_area
    upturn = measured.build_up.screed_thickness if roll.upturn is None else roll.upturn
    return (measured.floor_area + measured.wall_length * upturn) * roll.width / (roll.width - roll.lap)


def _tape_length(measured: MeasuredArea, film: FilmLaying | None, roll: FilmRoll | None) -> float:
    """Laps; under flowing screed the film is made tight along the walls, too."""
    if roll is None:
        return 0.0
    laps = film.lap_length if film is not None else measured.floor_area / (roll.width - roll.lap)
    flowing = measured.build_up.binder == "calcium_sulphate_flowing"
    return laps + (measured.wall_length if flowing else 0.0)


def _sheets(film: FilmLaying, frame: RoomFrame) -> tuple[FilmSheet, ...]:
    """Centre lines in the frame of the request."""
    found = []
    for piece in film.pieces:
        width, length = piece.high - piece.low, piece.right - piece.left
        x, y = (piece.left + piece.right) / 2.0, (piece.low + piece.high) / 2.0
        ends = [(piece.left, y), (piece.right, y)] if film.along else [(x, piece.low), (x, piece.high)]
        (ax, ay), (bx, by) = frame.outer_points(np.array(ends)).tolist()
        found.append(FilmSheet((ax, ay), (bx, by), width if film.along else length))
    return tuple(found)
