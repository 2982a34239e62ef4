"""What a house could be instead, how it reacts and what its year comes to: a chapter of tables each, and its plot."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tepidarium_engine.design_options import DesignOption, DesignOptionsResult, OptionPrices
from tepidarium_engine.design_sensitivity import DesignSensitivityResult, FindingTolerance, RoomSensitivity
from tepidarium_engine.designs import DesignsInputs, DesignsResult
from tepidarium_engine.heating_season import HeatingSeasonResult

from ..renderings.framed import SIZE
from ..renderings.options_drawing import material_name, options_sheet
from ..renderings.season_drawing import season_sheet
from ..renderings.sensitivity_drawing import changes_in_words, sensitivity_sheet
from .parts import Chapter, Column, Fields, Listed, Table, page_data

__all__ = [
    "beside_parts",
    "beside_tables",
    "options_parts",
    "season_parts",
    "sensitivity_parts",
]

_PERCENT, _MM, _L_MIN = 100.0, 1e3, 6e4
_MOST_BINS = 10
"""Columns of a table of bins."""


def beside_parts(inputs: DesignsInputs, result: DesignsResult) -> Iterator[dict[str, Any]]:
    """Pages of what was asked for beside a design."""
    if result.options is not None:
        yield from options_parts(result.options, _prices(inputs))
    if result.sensitivity is not None:
        yield from sensitivity_parts(result.sensitivity)
    if result.season is not None:
        yield from season_parts(result.season)


def beside_tables(inputs: DesignsInputs, result: DesignsResult) -> Iterator[Table]:
    """The same for a workbook."""
    if result.options is not None:
        yield _option_table(result.options, _prices(inputs)).titled("Options")
    if result.sensitivity is not None:
        yield _change_table(result.sensitivity).titled("Sensitivity")
        yield _tolerance_table(result.sensitivity).titled("Tolerances")
    if result.season is not None:
        yield _bin_table(result.season).titled("Heating curve")
        yield _control_table(result.season).titled("Room controls")


def _prices(inputs: DesignsInputs) -> OptionPrices | None:
    return None if inputs.objective is None else inputs.objective.prices


def options_parts(
    result: DesignOptionsResult, prices: OptionPrices | None
) -> tuple[dict[str, Any], dict[str, Any]]:
    chapter = Chapter(
        "What the house could be instead", (_option_table(result, prices), _choice_table(result))
    )
    return page_data(chapter), _plot(options_sheet(result, prices))


def sensitivity_parts(result: DesignSensitivityResult) -> tuple[dict[str, Any], dict[str, Any]]:
    chapter = Chapter(
        "How the design reacts",
        (_tolerance_table(result), _change_table(result), *map(_effect_table, result.rooms)),
    )
    return page_data(chapter), _plot(sensitivity_sheet(result))


def season_parts(result: HeatingSeasonResult) -> tuple[dict[str, Any], dict[str, Any]]:
    curve = result.curve
    controls = Fields(
        "To set at the controls",
        (
            (
                "Supply",
                f"{curve.design_supply_temperature:.1f} °C at {curve.design_outside_temperature:g} °C outside",
            ),
            ("Slope and exponent", f"{curve.slope:.2f} and {curve.exponent:g}"),
            ("For a room at", f"{curve.basis_temperature:g} °C"),
        ),
    )
    note = Listed("", (("-", "A real year needs less heat: gains from sun and people are not counted."),))
    chapter = Chapter("Heating curve and year", (controls, _bin_table(result), _control_table(result), note))
    return page_data(chapter), _plot(season_sheet(result))


def _plot(svg: bytes) -> dict[str, Any]:
    """A page with a plot and its table."""
    width, height = SIZE
    return {"kind": "sheet", "svg": svg.decode(), "width": width, "height": height}


def _option_table(result: DesignOptionsResult, prices: OptionPrices | None) -> Table:
    """The options, then the house by the rule."""
    columns = [
        Column("No.", width=0.7),
        Column("Supply °C", 1),
        Column("Pipe m", 0),
        Column("Circuits", 0, 1.1),
        Column("Missing W", 0, 1.1),
        Column("Pump W", 1),
    ]
    priced = result.by_rule.material_cost is not None
    if priced:
        columns.append(Column(material_name(result, prices).replace("m", "M", 1), 0, 1.2))
    if result.by_rule.energy is not None:
        columns.append(Column("Electricity kWh a year", 0, 1.3))
    columns.append(Column("Beside the one before", width=4.0))
    rows = tuple(
        tuple(_option_row(option, priced=priced, energy=result.by_rule.energy is not None))
        for option in (*result.options, result.by_rule)
    )
    return Table("Options by area, from the warmest supply to the coldest", tuple(columns), rows)


def _option_row(option: DesignOption, *, priced: bool, energy: bool) -> Iterator[str | float | None]:
    yield str(option.number) if option.number else "rule"
    yield option.supply_temperature
    yield option.pipe_length
    yield option.circuit_count
    yield option.heat_missing
    yield option.pump.hydraulic_power
    if priced:
        yield option.material_cost
    if energy:
        yield None if option.energy is None else option.energy.electricity
    yield "" if option.beside is None else option.beside.message


def _choice_table(result: DesignOptionsResult) -> Table:
    """Spacing and circuits of each room in each option."""
    every = (*result.options, result.by_rule)
    columns = (
        Column("Room", width=2.5),
        *(Column(str(option.number) if option.number else "rule", width=1.0) for option in every),
    )
    rows = tuple(
        (
            rooms[0].name or rooms[0].id,
            *(f"{room.pipe_spacing * _MM:.0f} / {room.circuit_count}" for room in rooms),
        )
        for rooms in zip(*(option.rooms for option in every), strict=True)
    )
    return Table("Spacing in mm / circuits of each room, by option", columns, rows)


def _change_table(result: DesignSensitivityResult) -> Table:
    columns = (
        Column("Change", width=4.0),
        Column("Missing heat W", 0, 1.2),
        Column("Supply K", 1),
        Column("Pipe m", 0),
        Column("Circuits", 0),
        Column("Pump W", 2),
    )
    rows = (
        (
            line.message,
            line.missing_difference,
            line.supply_difference,
            line.pipe_difference,
            line.circuit_difference,
            line.power_difference,
        )
        for line in result.lines
    )
    return Table("One change at a time, by area, beside the design", columns, tuple(rows))


def _effect_table(room: RoomSensitivity) -> Table:
    columns = (
        Column("Change", width=4.0),
        Column("Missing heat W", 0, 1.2),
        Column("Supply K", 1),
        Column("Spacing mm", 0, 1.1),
        Column("Pipe m", 0),
        Column("Circuits", 0),
    )
    rows = (
        (
            effect.message,
            effect.missing_difference,
            effect.supply_difference,
            effect.pipe_spacing * _MM,
            effect.pipe_difference,
            effect.circuit_difference,
        )
        for effect in room.effects
    )
    return Table(f"What that does to {room.name or room.id}", columns, tuple(rows))


def _tolerance_table(result: DesignSensitivityResult) -> Table:
    """How much more heat all rooms, and each alone, may need."""
    columns = (
        Column("Room", width=2.0),
        Column("Until a finding changes %", 1, 1.2),
        Column("What changes then", width=4.0),
        Column("On the warmest supply %", 0, 1.2),
        Column("Ended by", width=1.0),
    )
    whole, *rooms = result.finding_tolerances
    rows = (
        (
            own.name or own.room,
            *_tolerance_cells(own),
            heat.tolerance_at_most * _PERCENT,
            heat.limited_by,
        )
        for own, heat in zip(rooms, result.tolerances, strict=True)
    )
    together = ("All together", *_tolerance_cells(whole), None, "")
    return Table("How much more heat may be needed", columns, (together, *rows))


def _tolerance_cells(own: FindingTolerance) -> tuple[float | None, str]:
    if own.tolerable_rise is None:
        return None, "nothing up to twice the heat"
    words = "; ".join(changes_in_words(own))
    return int(1000.0 * own.tolerable_rise) / 10.0, words or "no house can be computed beyond"


def _bin_table(result: HeatingSeasonResult) -> Table:
    columns = (
        Column("Outside °C", 0),
        Column("Hours", 0),
        Column("Supply °C", 1),
        Column("Return °C", 1),
        Column("Heat kWh", 0),
        Column("Flow l/min", 1),
        Column("Pump W", 1),
        Column("Electricity kWh", 0, 1.2),
    )
    rows = (
        (
            own.outside_temperature,
            own.hours,
            own.supply_temperature,
            own.return_temperature,
            own.heat,
            own.volume_flow * _L_MIN,
            own.pump_power,
            own.electricity,
        )
        for own in result.bins
    )
    return Table("The year in bins of outside temperature", columns, tuple(rows))


def _control_table(result: HeatingSeasonResult) -> Table:
    """How long the control of each room is open in the bins that are heated; of many, in some of them."""
    heated = [own for own in result.bins if own.supply_temperature is not None]
    shown = heated[:: max(1, -(-len(heated) // _MOST_BINS))]
    columns = (
        Column("Room", width=2.5),
        *(Column(f"{own.outside_temperature:g} °C", 0) for own in shown),
        Column("Mean", 0),
        Column("Heat kWh", 0),
        Column("Lacking kWh", 0, 1.1),
    )
    rows: Iterator[tuple[str | float, ...]] = (
        (
            room.name or room.id,
            *(own.duties[place] * _PERCENT for own in shown),
            room.mean_duty * _PERCENT,
            room.heat,
            room.heat_lacking,
        )
        for place, room in enumerate(result.rooms)
    )
    return Table("Share of the time in % that the control of each room is open", columns, tuple(rows))
