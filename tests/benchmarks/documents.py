"""The documents of the house of ten rooms, with its design given, against a page that the same typesetter sets."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import msgspec
from tepidarium_api.documents.design_files import design_cad, design_workbook
from tepidarium_api.documents.pack import handover_pack
from tepidarium_api.documents.typesetting import printed
from tepidarium_api.renderings.storey_drawing import storey_drawing, storey_sheets
from tepidarium_engine.designs import DesignsInputs, calculate

from .ratio import Ratio, medians

__all__ = ["ratios"]

HOUSE = Path(__file__).parents[2] / "examples" / "house.json"


def ratios() -> Iterator[Ratio]:
    """Seconds are printed beside; 1 s for the pack and 0.1 s for the drawing are the aims on an idle machine."""
    inputs = replace(msgspec.convert(json.loads(HOUSE.read_text()), DesignsInputs), laying_sheets=True)
    result = calculate(inputs)
    sheets = storey_sheets(inputs, result)
    makers = {
        "pack": lambda: handover_pack(inputs, result),
        "drawing": lambda: storey_drawing(inputs, result),
        "CAD drawing": lambda: design_cad(inputs, result),
        "workbook": lambda: design_workbook(inputs, result),
        "page": lambda: printed(sheets[:1]),
    }
    spent = dict(zip(makers, medians(5, *makers.values()), strict=True))
    for name, seconds in spent.items():
        print(f"{name:<44} {seconds:8.3f} s")
    yield Ratio("handover pack of 46 pages / one drawn page", spent["pack"] / spent["page"], 46.0, False)
    yield Ratio("drawing as SVG / as a printed page", spent["drawing"] / spent["page"], 4.0, False)
