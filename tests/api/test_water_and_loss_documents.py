"""Flows of a manifold and heat loss of rooms as CSV and PDF, read again and compared with the answers."""

from __future__ import annotations

import csv
import io
from typing import Any

import msgspec
import pypdf
import pytest
from tepidarium_api.calculations import CSV, PDF, Calculation
from tepidarium_api.calculations.heat_loss import HEAT_LOSS
from tepidarium_api.calculations.hydraulics import HYDRAULICS


def made(calculation: Calculation, media_type: str, **changes: Any) -> tuple[Any, bytes]:
    inputs = msgspec.convert({**calculation.example, **changes}, calculation.inputs)
    result = calculation.calculate(inputs)
    return result, calculation.renderings[media_type](inputs, result)


def rows(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content.decode("utf-8-sig"))))


def words(content: bytes) -> str:
    reader = pypdf.PdfReader(io.BytesIO(content))
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


def test_flows_as_csv() -> None:
    result, content = made(HYDRAULICS, CSV)
    assert [row["Circuit"] for row in rows(content)] == [circuit.id for circuit in result.circuits]
    for row, circuit in zip(rows(content), result.circuits, strict=True):
        assert float(row["Flow l/min"]) == pytest.approx(circuit.volume_flow * 60e3, abs=0.005)
        assert float(row["Pressure kPa"]) == pytest.approx(circuit.total_pressure_drop / 1e3, abs=0.005)
        assert float(row["At valve kPa"]) == pytest.approx(circuit.valve_pressure_drop / 1e3, abs=0.005)
        assert (row["Remark"] == "valve stays open") == (circuit.id == result.index_circuit)


def test_flows_as_pdf() -> None:
    result, content = made(HYDRAULICS, PDF)
    text = words(content)
    assert f"{result.pump.pressure / 1e3:.1f} kPa ({result.pump.head:.2f} m)" in text
    assert f"{result.expansion_vessel.nominal_volume * 1e3:.0f} l, precharge" in text
    assert "Flow from the source" in text
    assert all(circuit.id in text for circuit in result.circuits)
    assert all(caution.message in text for caution in result.cautions)


def test_flows_without_mixing_and_with_a_vessel_that_no_maker_has() -> None:
    huge = {"additional_volume": 100.0, "maximum_temperature": 60.0, "static_height": 4.0}
    result, content = made(HYDRAULICS, PDF, primary_temperature=None, expansion=huge)
    assert result.expansion_vessel.nominal_volume is None
    assert "none found, precharge" in words(content)
    assert "Flow from the source" not in words(content)


def test_losses_as_csv_add_up() -> None:
    result, content = made(HEAT_LOSS, CSV)
    assert sum(float(row["Heat demand W"]) for row in rows(content)) == pytest.approx(
        result.heat_demand, abs=1.0
    )
    for row in rows(content):
        parts = float(row["Through elements W"]) + float(row["By air W"])
        assert parts == pytest.approx(float(row["Heat loss W"]), abs=1.0)
        assert float(row["Demand W/m²"]) * float(row["Area m²"]) == pytest.approx(
            float(row["Heat demand W"]), rel=5e-3
        )


def test_losses_as_pdf_name_every_element() -> None:
    result, content = made(HEAT_LOSS, PDF)
    text = words(content)
    for room in result.rooms:
        assert room.name in text
        for element in room.elements:
            assert f"{element.area:.2f} {element.u_value:.3f} {element.temperature_beyond:.1f}" in text
    assert "unheated garage" in text
    assert "Temperature of garage" in text
