"""The chain from the inputs of a section to its result, as far as a hand can follow."""

from __future__ import annotations

from ..conduction.steady import Bay
from ..results import Working
from .bay import Case
from .contract import FloorSectionInputs, FloorSectionResult

__all__ = ["section_workings"]

_CONDUCTION = "steady heat conduction, layers in series"
_SERIES = "Claesson and Hellström 2011, multipoles; carried over to a row of pipes between layers"


def section_workings(
    inputs: FloorSectionInputs, case: Case, result: FloorSectionResult
) -> tuple[Working, ...]:
    """Resistances by hand; the transmittances come from the solved field; temperatures and balance by hand."""
    bay = case.bay
    return (*_resistances(bay), *_transmittances(case), *_flows(inputs, case, result))


def _resistances(bay: Bay) -> tuple[Working, ...]:
    above = sum(d / c for d, c in bay.layers_above) + bay.covering_resistance + bay.surface_resistance
    below = sum(d / c for d, c in bay.layers_below) + bay.surface_resistance_below
    return (
        Working("h_w", "heat transfer from the water", bay.film, "W/(m2.K)", *_FILM),
        Working(
            "R_p",
            "film and wall of the pipe",
            bay.pipe_resistance,
            "m.K/W",
            "1 / (pi * d_i * h_w) + sum of ln(d_out / d_in) / (2 * pi * lambda)",
            "steady heat conduction, rings in series",
        ),
        Working(
            "alpha", "from the surface to the room", 1.0 / bay.surface_resistance, "W/(m2.K)", *_EXCHANGE
        ),
        Working(
            "R_1",
            "from the face of the screed to the room",
            above,
            "m2.K/W",
            "sum of d / lambda above the screed + R_lambda,B + 1 / alpha",
            _CONDUCTION,
        ),
        Working(
            "R_2",
            "from the underside of the screed down",
            below,
            "m2.K/W",
            "sum of d / lambda below the screed + R_s",
            _CONDUCTION,
        ),
    )


_FILM = (
    "Nu * lambda_w / d_i, Nu = 4 laminar, Gnielinski turbulent, linear in Re between 2300 and 4000",
    "Gnielinski 1976 and 1995; given if the request gives it",
)
_EXCHANGE = (
    "10.8, or 8.92 * (theta_F,m - theta_i)^0.1, or as given",
    "EN 1264-2, basic characteristic curve",
)


def _transmittances(case: Case) -> tuple[Working, ...]:
    rows = (
        ("K_w,up", "heat up for each kelvin of the water", case.water.up),
        ("K_w,down", "heat down for each kelvin of the water", case.water.down),
        ("K_u,up", "heat up for each kelvin below", case.below.up),
        ("K_u,down", "heat down for each kelvin below", case.below.down),
    )
    return tuple(
        Working(
            symbol, name, value, "W/(m2.K)", "field of the section with 1 K there and 0 elsewhere", _SERIES
        )
        for symbol, name, value in rows
    )


def _flows(inputs: FloorSectionInputs, case: Case, result: FloorSectionResult) -> tuple[Working, ...]:
    both = "K_w,{0} * (theta_w - theta_i) + K_u,{0} * (theta_u - theta_i)"
    return (
        Working("q", "heat output", result.heat_output, "W/m2", both.format("up"), "superposition"),
        Working(
            "q_u",
            "downward heat loss",
            result.downward_heat_loss,
            "W/m2",
            both.format("down"),
            "superposition",
        ),
        Working("q_w", "heat from the water", result.total_heat_output, "W/m2", "q + q_u", "heat balance"),
        Working(
            "theta_F,m",
            "mean surface temperature",
            result.mean_surface_temperature,
            "degC",
            "theta_i + q / alpha",
            "exchange at the surface",
        ),
        Working(
            "theta_p",
            "mean temperature of the screed at the pipe",
            result.pipe_surface_temperature,
            "degC",
            "theta_w - q_w * T * R_p",
            "heat through the wall of the pipe",
        ),
        Working(
            "theta_F,max",
            "highest surface temperature",
            result.highest_surface_temperature,
            "degC",
            "theta_F,m + sum of the waves of the surface above the pipe",
            _SERIES,
        ),
    )
