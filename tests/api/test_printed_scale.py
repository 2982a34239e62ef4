"""Drawings measured with a ruler: pages of the PDF rendered by PDFium, lengths read off their pixels, against the plan
that was sent."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache
from itertools import product
from pathlib import Path
from typing import Any

import msgspec
import numpy as np
import pypdf
import pytest
from tepidarium_api.documents.typesetting import printed
from tepidarium_api.renderings.route_drawing import route_sheets
from tepidarium_api.renderings.storey_drawing import storey_sheets
from tepidarium_engine.designs import DesignsInputs, DesignsResult, DrawingSheet
from tepidarium_engine.designs import calculate as design
from tepidarium_engine.routes import RoutesInputs
from tepidarium_engine.routes import calculate as route

pytestmark = pytest.mark.long

MILLIMETRE = 300.0 / 25.4
"""Pixels in a millimetre of paper."""
EXACT = 0.1
"""[mm] on paper: little more than a pixel."""
WALL, BLACK = 0x99, 60
BAND = 12
"""Pixels of grey that are a wall."""
ASIDE = 0.35
"""Share of a plan at which it is measured: no doorway and no words are there."""
PAPERS, SCALES = ("A4", "A3", "A1"), (20, 50, 100)
ALL = list(product(PAPERS, SCALES))
LANDSCAPE = {"A4": (297, 210), "A3": (420, 297), "A1": (841, 594)}
"""ISO 216 [mm]."""
ROOM = ((0.0, 0.0), (2.4, 0.0), (2.4, 1.8), (0.0, 1.8))
TILED = {("A4", 20), ("A4", 50), ("A3", 20)}
"""What a storey of 7.20 m x 6.00 m is too large for, with its dimensions and names."""
HOUSE = Path(__file__).parents[2] / "examples" / "two-storeys.json"


def pages(content: bytes) -> list[tuple[Any, str]]:
    """Grey values and text of each page that has a plan."""
    import pypdfium2  # noqa: PLC0415 - only the long checks have it

    texts = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages]
    images = (page.render(scale=300.0 / 72.0, grayscale=True) for page in pypdfium2.PdfDocument(content))
    drawn = [(image.to_numpy().squeeze(), text) for image, text in zip(images, texts, strict=True)]
    return [page for page in drawn if "m Scale 1:" in " ".join(page[1].split())]


def inner_edges(line: Any) -> tuple[float, float] | None:
    """Along a line of pixels across the plan: where the floor begins behind the first wall, and ends before the last,
    in the middle of the black lines that lie there."""
    ends = []
    for values in (line, line[::-1]):
        grey = np.abs(values.astype(int) - WALL) <= 6
        run = np.flatnonzero(np.convolve(grey, np.ones(BAND), "valid") > BAND - 0.5)
        if not len(run):
            return None
        black = run[0] + np.flatnonzero(values[run[0] : run[0] + 40] < BLACK)
        if not len(black):
            return None
        around = np.arange(black[0] - 2, black[0] + 8)
        weights = np.clip(WALL - values[around].astype(float), 0.0, None)
        ends.append(float((around * weights).sum() / weights.sum()) + 0.5)
    return ends[0], len(line) - ends[1]


def scale_bar(image: Any) -> float:
    """Length [mm] of its four parts: black and white in turn, each as long as the first."""
    for line in image[: int(image.shape[0] * 0.4) : -2]:
        edges = np.flatnonzero(np.diff((line < BLACK).astype(int)))
        runs = np.diff(edges)
        for first in range(len(runs) - 2):
            black, white, again = runs[first : first + 3]
            if black > 9.0 * MILLIMETRE and abs(black - again) < 3 and abs(black - white) < 8:
                return float(2.0 * (edges[first + 2] - edges[first])) / MILLIMETRE
    raise AssertionError("no scale bar")


def written_length(text: str) -> float:
    """The last number at the scale bar [m]."""
    found = re.search(r"0\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)\s+m\s+Scale 1:", text)
    assert found
    return float(found[4])


@cache
def house() -> tuple[DesignsInputs, DesignsResult]:
    inputs = replace(msgspec.json.decode(HOUSE.read_bytes(), type=DesignsInputs), laying_sheets=True)
    return inputs, design(inputs)


@cache
def room() -> tuple[RoutesInputs, Any]:
    inputs = RoutesInputs(ROOM, 0.15, entry=(1.2, 0.0))
    return inputs, route(inputs)


def floor_ends(image: Any, axis: int) -> tuple[float, float]:
    """Both ends of the floor in pixels, across the plan ``ASIDE`` of its middle; ``axis`` 0: downwards."""
    grey = ((image >= WALL - 6) & (image <= WALL + 6)).sum(axis=axis)
    long = np.lib.stride_tricks.sliding_window_view(grey, BAND).min(axis=1)  # no edge of a line is as wide
    walls = np.flatnonzero(long > long.max() / 2.0)
    at = round(float(walls[0] + ASIDE * (walls[-1] - walls[0])))
    edges = inner_edges(image[:, at] if axis == 0 else image[at])
    assert edges
    return edges


@pytest.mark.parametrize(("paper", "scale"), ALL)
def test_a_room_measures_right(paper: Any, scale: Any) -> None:
    """Its width and depth, the clearance between wall and pipe, the scale bar, the sheet."""
    inputs, result = room()
    sheet = DrawingSheet(paper=paper, scale=scale)
    image, text = pages(printed(route_sheets(replace(inputs, drawing=sheet), result)))[0]
    size = sorted(side / MILLIMETRE for side in image.shape)
    assert size == pytest.approx(sorted(LANDSCAPE[paper]), abs=EXACT)
    assert f"1:{scale} on {paper}" in text
    assert scale_bar(image) * scale / 1000.0 == pytest.approx(
        written_length(text), abs=EXACT * scale / 1000.0
    )
    for axis, wanted in ((1, 2.4), (0, 1.8)):
        start, end = floor_ends(image, axis)
        assert (end - start) / MILLIMETRE == pytest.approx(wanted * 1000.0 / scale, abs=EXACT)
    top, bottom = floor_ends(image, 0)
    start, _ = floor_ends(image, 1)
    inside = image[int((top + bottom) / 2.0), int(start) + 4 :]
    pipe = np.flatnonzero(inside < 120)
    pipe = pipe[pipe < pipe[0] + 12] + int(start) + 4.5
    assert (pipe.mean() - start) / MILLIMETRE == pytest.approx(0.075 * 1000.0 / scale, abs=EXACT)


@pytest.mark.parametrize(("paper", "scale"), ALL)
def test_a_storey_measures_right(paper: Any, scale: Any) -> None:
    """Each sheet by its scale bar, and what lies whole on one by its outlines, too."""
    inputs, result = house()
    storey = inputs.storeys[0].id
    chosen = replace(inputs, drawing=DrawingSheet(paper=paper, scale=scale, storey=storey))
    drawn = pages(printed(storey_sheets(chosen, result)))
    assert (len(drawn) > 1) == ((paper, scale) in TILED)
    for image, text in drawn:
        assert scale_bar(image) * scale / 1000.0 == pytest.approx(
            written_length(text), abs=EXACT * scale / 1000.0
        )
        if len(drawn) == 1:
            for axis, wanted in ((1, 7.2), (0, 6.0)):
                start, end = floor_ends(image, axis)
                assert (end - start) / MILLIMETRE == pytest.approx(wanted * 1000.0 / scale, abs=EXACT)
