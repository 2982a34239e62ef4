"""The handover pack of a house: everything that is needed from the order to the key, as one PDF."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain

from tepidarium_engine import __version__ as engine_version
from tepidarium_engine.designs import DesignsInputs, DesignsResult, workings
from tepidarium_engine.laying_sheets import LayingRoom
from tepidarium_engine.results import Caution, Finding
from tepidarium_engine.water.inputs import Fluid

from ..renderings.drawing_notes import named_places
from ..renderings.marks import isolated
from ..renderings.storey_drawing import storey_sheets, with_project
from .beside_chapters import beside_parts
from .comparison_tables import comparison_chapter
from .dates import PlanOf, dates_chapter
from .design_tables import (
    chosen_floor_table,
    circuit_table,
    pressure_table,
    remedy_table,
    room_table,
    strip_table,
)
from .laying_pages import laying_chapter
from .order_tables import coil_chapter, order_chapter
from .parts import Chapter, Fields, Listed, page_data
from .record_forms import record_chapters
from .typesetting import drawing_page, pdf_of
from .user_instructions import user_instructions

__all__ = ["cautions_chapter", "decisions_chapter", "handover_pack", "laying_chapters"]

_SEVERITIES = {"violation": "Do not build", "warning": "Look again", "note": "Note"}
_METHODS = (
    ("Heat output, surface temperature", "EN 1264-2, EN 1264-3"),
    ("Installation, insulation, screed, leak test, first heating", "EN 1264-4"),
    ("Heat demand of the rooms", "given, or EN 12831-1 where elements were given"),
    ("Expansion vessel and safety", "EN 12828"),
)
FEW_PLACES = 3
"""So many places of a finding stand in its sentence."""
_OWN_SOURCES = ("input", "arithmetic", "geometry")
"""What no reader has to look up."""


def handover_pack(inputs: DesignsInputs, result: DesignsResult) -> bytes:
    """The pack as ``application/pdf``. What was left out of the request is left out of it: without ``doorways`` the
    drawings and laying sheets, without ``screed`` the dates, and plots of what was not asked for beside the design."""
    sheets = [] if result.layout is None else storey_sheets(inputs, result)
    parts = [
        *map(page_data, _chapters_before(inputs, result)),
        *beside_parts(inputs, result),
        *map(drawing_page, sheets),
        *map(page_data, _chapters_after(inputs, result)),
    ]
    return pdf_of({"title": "Floor heating: handover pack", "cover": _cover(inputs), "parts": parts})


def _cover(inputs: DesignsInputs) -> dict[str, list[str]]:
    wanted = with_project(inputs)
    lines = [
        wanted.project or "Project: ______________________",
        *(
            f"{label} {words}"
            for label, words in (
                ("Revision", wanted.revision),
                ("By", wanted.author),
                ("Date", wanted.drawn_on.isoformat() if wanted.drawn_on else ""),
            )
            if words
        ),
    ]
    small = [
        "This pack is an aid for people who know the trade. Local codes, the makers' approvals and licensed practice "
        "decide.",
        f"Computed by engine version {engine_version}. The same request gives the same figures.",
    ]
    return {"lines": list(map(isolated, lines)), "small": small}


def _chapters_before(inputs: DesignsInputs, result: DesignsResult) -> Iterator[Chapter]:
    decisions, remedies = decisions_chapter(result.findings, "What to decide first"), remedy_table(result)
    yield Chapter(decisions.title, (*decisions.parts, remedies)) if remedies.rows else decisions
    if result.comparison is not None:
        yield comparison_chapter(result.comparison)
    yield _basis(inputs, result)
    own = (chosen_floor_table(result), strip_table(result))
    tables = (room_table(result), *(table for table in own if table.rows))
    yield Chapter("Schedules", (*tables, circuit_table(inputs, result), pressure_table(inputs, result)))


def _chapters_after(inputs: DesignsInputs, result: DesignsResult) -> Iterator[Chapter]:
    yield from laying_chapters(inputs, result)
    if result.materials is not None:
        yield order_chapter(result.materials)
        yield coil_chapter(result.materials.coil_plan)
    if result.curing_plans:
        names = {build_up.id: build_up.name or build_up.id for build_up in inputs.build_ups}
        yield dates_chapter([PlanOf(names[own.build_up], own.plan) for own in result.curing_plans])
    if result.commissioning is not None:
        yield from record_chapters(result.commissioning)
    yield user_instructions(inputs, result)
    yield cautions_chapter(result.cautions)


def laying_chapters(inputs: DesignsInputs, result: DesignsResult) -> Iterator[Chapter]:
    """One laying sheet for each circuit that is drawn."""
    if result.layout is None:
        return
    storeys = {room.id: room.storey for room in inputs.rooms}
    rooms = [
        LayingRoom(room.id, room.outline, room.voids, room.storey, room.name)
        for room in inputs.rooms
        if room.outline is not None
    ]
    drawn = {circuit.id: circuit.pieces for circuit in result.layout.drawn_circuits}
    for sheet in result.laying_sheets:
        storey = storeys[sheet.room]
        yield laying_chapter(sheet, [room for room in rooms if room.storey == storey], drawn[sheet.circuit])


def decisions_chapter(findings: Iterable[Finding], title: str) -> Chapter:
    """Findings in the order in which to deal with them."""
    items = tuple(
        (_SEVERITIES[finding.severity], *_lines(finding, named_places(finding))) for finding in findings
    )
    if not items:
        return Chapter(title, (Listed("", (("-", "There is nothing to decide."),)),))
    return Chapter(title, (Listed("", items, True),))


def _lines(finding: Finding, places: list[str]) -> tuple[str, ...]:
    """What there is to decide with its source; many places on lines of their own."""
    if len(places) > FEW_PLACES:
        return finding.message + _source(finding), *places
    return (finding.message + (f" ({'; '.join(places)})" if places else "") + _source(finding),)


def _source(finding: Finding) -> str:
    return f" [{finding.source}]" if finding.source else ""


def _fluid(fluid: Fluid) -> str:
    mixed = f", {fluid.concentration * 100.0:.3g} % by {fluid.basis}" if fluid.concentration else ""
    return fluid.kind.replace("_", " ") + mixed


def cautions_chapter(cautions: Iterable[Caution]) -> Chapter:
    return Chapter("Cautions", (Listed("", tuple(("!", caution.message) for caution in cautions)),))


def _basis(inputs: DesignsInputs, result: DesignsResult) -> Chapter:
    """What the design assumes, and where its rules come from."""
    pipe, source = inputs.pipe, inputs.source
    vessel = result.expansion_vessel
    rows = [
        ("Pipe", f"{pipe.outside_diameter * 1e3:g} x {pipe.wall_thickness * 1e3:g} mm"),
        ("Supply and return", f"{result.supply_temperature:.1f} °C and {result.return_temperature:.1f} °C"),
        ("Highest supply of the source", f"{source.maximum_supply_temperature:.1f} °C"),
        ("Heat needed and given", f"{result.heat_demand:.0f} W and {result.heat_given:.0f} W"),
        ("Heat missing", f"{result.heat_missing:.0f} W"),
        ("Flow in all", f"{result.volume_flow * 6e4:.1f} l/min"),
        ("Pump", f"{result.pump.volume_flow * 6e4:.1f} l/min at {result.pump.pressure * 1e-3:.1f} kPa"),
        ("Content of the system", f"{result.system_volume * 1e3:.0f} l"),
        (
            "Expansion vessel",
            "none found" if vessel.nominal_volume is None else f"{vessel.nominal_volume * 1e3:.0f} l",
        ),
        ("Precharge", f"{vessel.precharge_pressure * 1e-5:.2f} bar"),
        ("Fluid", _fluid(inputs.fluid)),
        ("Pipe in all", f"{result.pipe_length:.1f} m"),
    ]
    if result.objective is not None:
        asked = result.objective.least.replace("_", " ")
        rows.append((f"Sought: least {asked}", f"Beside the rule: {result.objective.beside_rule.message}"))
    layers = (
        (
            f"Floor {own.name or own.id}",
            f"{own.covering.replace('_', ' ')}, {own.covering_resistance:.3f} m²K/W; {own.screed_cover * 1e3:.0f} mm "
            f"of screed over the pipe; {own.resistance_below:.2f} m²K/W below it, {own.temperature_below:.0f} °C there",
        )
        for own in inputs.build_ups
    )
    found = chain(
        (step.source for step in workings(inputs, result)), (finding.source for finding in result.findings)
    )
    sources = {words.lower(): words for words in reversed(list(filter(None, found)))}
    named = tuple(("-", words) for key, words in reversed(sources.items()) if key not in _OWN_SOURCES)
    return Chapter(
        "Basis of design",
        (
            Fields("Figures", tuple(rows)),
            Fields("Floors", tuple(layers)),
            Fields("Methods", _METHODS),
            Listed("Sources of the figures", named),
        ),
    )
