"""What the client offers to the outside, and what it does not drag in."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import subprocess
import sys

import pytest
import tepidarium_client

SURFACE = {
    "Answer",
    "ApiError",
    "AsyncClient",
    "Client",
    "Designed",
    "FieldError",
    "InvalidInput",
    "LocalServiceError",
    "Operation",
    "ServerError",
    "TepidariumError",
    "Throttled",
    "TimedOut",
    "TransportError",
    "Unavailable",
    "__version__",
    "codes",
    "former_design",
    "local_service",
    "models",
}
OPERATIONS = {
    "heat_loss",
    "insulation_check",
    "heat_output",
    "floor_section",
    "floor_section_drawing",
    "supply_temperature",
    "loop_length",
    "manifold_position",
    "routes",
    "routes_drawing",
    "hydraulics",
    "curing_plan",
    "curing_plan_calendar",
    "moisture_reading",
    "moisture_reading_document",
    "moisture_reading_schedule",
    "moisture_reading_workbook",
    "coil_plan",
    "materials",
    "estimates",
    "laying_sheets",
    "commissioning",
    "design_options_document",
    "design_sensitivity_document",
    "heating_season_document",
    "designs",
    "designs_calendar",
    "designs_drawing",
    "routes_cad_drawing",
    "routes_document",
    "curing_plan_document",
    "curing_plan_schedule",
    "heat_loss_document",
    "heat_loss_schedule",
    "hydraulics_document",
    "hydraulics_schedule",
    "coil_plan_document",
    "coil_plan_schedule",
    "coil_plan_workbook",
    "materials_document",
    "materials_schedule",
    "materials_workbook",
    "laying_sheets_document",
    "laying_sheets_schedule",
    "laying_sheets_workbook",
    "commissioning_document",
    "commissioning_workbook",
    "designs_cad_drawing",
    "designs_document",
    "designs_schedule",
    "designs_workbook",
    "designs_files",
    "design_options",
    "design_options_drawing",
    "design_sensitivity_drawing",
    "heating_season_drawing",
    "design_sensitivity",
    "heating_season",
    "calculations",
    "findings",
    "limits",
    "plan_imports",
    "ready",
}


def test_surface() -> None:
    assert set(tepidarium_client.__all__) == SURFACE
    assert len(tepidarium_client.__all__) == len(SURFACE)
    public = {name for name in vars(tepidarium_client) if not name.startswith("_")}
    assert public - {"annotations"} == SURFACE - {"__version__"}


@pytest.mark.parametrize("client", [tepidarium_client.Client, tepidarium_client.AsyncClient])
def test_operations_are_the_same_on_both_clients(client: type) -> None:
    offered = {name for name in dir(client) if not name.startswith("_")}
    assert offered == OPERATIONS | {
        "answer",
        "plan_answer",
        "designs_many",
        "close" if client is tepidarium_client.Client else "aclose",
    }


@pytest.mark.parametrize("name", sorted(SURFACE - {"__version__"}))
def test_everything_is_documented(name: str) -> None:
    assert inspect.getdoc(getattr(tepidarium_client, name))


@pytest.mark.parametrize("name", sorted(OPERATIONS))
def test_every_operation_is_documented(name: str) -> None:
    assert inspect.getdoc(getattr(tepidarium_client.Client, name))


def test_every_module_names_what_it_exports() -> None:
    for module in pkgutil.walk_packages(tepidarium_client.__path__, "tepidarium_client."):
        loaded = importlib.import_module(module.name)
        assert set(loaded.__all__) <= set(vars(loaded))


def test_needs_nothing_but_httpx_and_msgspec() -> None:
    script = (
        "import sys, tepidarium_client, tepidarium_client._cli; "
        "print(*sorted(set(sys.modules) & {'numpy', 'scipy', 'shapely', 'litestar', 'tepidarium_engine', "
        "'tepidarium_api'}))"
    )
    found = subprocess.run([sys.executable, "-c", script], check=True, capture_output=True, text=True)
    assert found.stdout.strip() == ""
