"""The column beside the drawing of a storey: schedule of circuits, what is not drawn, notes, title block."""

from __future__ import annotations

from collections.abc import Iterator

from tepidarium_engine import __version__ as engine_version
from tepidarium_engine.designs import (
    CircuitDesign,
    DesignLayout,
    DesignsInputs,
    DesignsResult,
    ManifoldDesign,
)
from tepidarium_engine.results import Finding

from .column_pen import LINE, Pen, Sample, legend, millimetres, notes, sample, title_block
from .sheet import Sheet
from .sheet_column import crossed
from .storey_plans import circuit_labels, manifold_numbers
from .svg import element

__all__ = ["column_height", "schedule_column"]

OTHER_LINES = 40
"""Kept for legend, notes and title block beside the schedule."""
NAME_LENGTH = 24
"""Characters of a room's name in the schedule."""
HEADINGS = {
    0.0: "Port",
    9.0: "Room",
    -62.0: "Length m",
    -79.0: "Spacing mm",
    -97.0: "Flow l/min",
    -116.0: "Valve",
}


def column_height(result: DesignsResult) -> float:
    """What the column needs [mm]."""
    missing = 0 if result.layout is None else len(result.layout.unplaced)
    return LINE * (len(result.circuits) + 2 * len(result.manifolds) + 2 * missing + OTHER_LINES)


def schedule_column(
    sheet: Sheet, inputs: DesignsInputs, result: DesignsResult, layout: DesignLayout
) -> Iterator[str]:
    _, top, _ = sheet.column
    end, block = title_block(sheet, _title_lines(sheet, inputs, result, layout))
    pen = Pen(sheet, top, end)
    _schedule(pen, inputs, result, layout)
    _not_drawn(pen, layout)
    legend(pen, _legend_rows(inputs, result, layout))
    notes(pen, _noted(result.findings), result.cautions, {})
    yield from pen.drawn
    yield from block


def _schedule(pen: Pen, inputs: DesignsInputs, result: DesignsResult, layout: DesignLayout) -> None:
    """Every circuit by manifold and port; one that is not drawn bears a star."""
    names = {room.id: room.name or room.id for room in inputs.rooms}
    spacings = {room.id: room.pipe_spacing for room in result.rooms if room.pipe_spacing is not None}
    drawn = {circuit.id for circuit in layout.drawn_circuits}
    labels, numbers = circuit_labels(inputs, result), manifold_numbers(inputs, result)
    pen.heading("Schedule")
    pen.row(HEADINGS, "strong")
    for manifold in result.manifolds:
        if len(numbers) > 1:
            pen.row({0.0: _manifold_line(inputs, manifold, numbers[manifold.id])}, "strong")
        for circuit in result.circuits:
            if circuit.manifold != manifold.id:
                continue
            star = "" if circuit.id in drawn else "*"
            name = names[circuit.room]
            pen.row(
                {
                    0.0: f"{labels[circuit.id]}{star}",
                    9.0: name if len(name) <= NAME_LENGTH else f"{name[: NAME_LENGTH - 1]}.",
                    -62.0: f"{circuit.total_length:.1f}",
                    -79.0: millimetres(spacings[circuit.room]),
                    -97.0: f"{circuit.volume_flow * 60_000.0:.2f}",
                    -116.0: _valve(circuit),
                }
            )
    if len(drawn) < len(result.circuits):
        pen.line("* not drawn, length estimated")
    pen.rule()


def _manifold_line(inputs: DesignsInputs, manifold: ManifoldDesign, number: int) -> str:
    """Its number and id, the storey it stands on, its flow, and the valve before it where one is due."""
    storeys = {storey.id: storey.name or storey.id for storey in inputs.storeys}
    rooms = {room.id: room.storey for room in inputs.rooms}
    storey = storeys.get(rooms[manifold.room_ids[0]] or "")
    words = f"{number}: manifold {manifold.id}" + (f", {storey}" if storey else "")
    words += f", {manifold.volume_flow * 60_000.0:.1f} l/min"
    return words + (f", balancing valve kv {manifold.balancing_kv:.2f}" if manifold.balancing_kv else "")


def _valve(circuit: CircuitDesign) -> str:
    """The setting by the valve's table, or without one the coefficient [m3/h] to set."""
    if circuit.valve_setting is None:
        return f"kv {circuit.valve_kv:.2f}"
    return f"{circuit.valve_setting:.2f}"


def _not_drawn(pen: Pen, layout: DesignLayout) -> None:
    if not layout.unplaced:
        return
    pen.heading("NOT DRAWN")
    for one in layout.unplaced:
        for words in pen.wrapped(f"{one.id}: {one.message}"):
            pen.line(words)
    pen.rule()


def _legend_rows(
    inputs: DesignsInputs, result: DesignsResult, layout: DesignLayout
) -> list[tuple[Sample, str]]:
    rows: list[tuple[Sample, str]] = [
        (sample("flow"), "flow: first half of the pipe, arrows filled"),
        (sample("return"), "return: second half, arrows open"),
        (_numbered, "circuit by its port on the manifold"),
    ]
    states = {joint.state for joint in result.joints}
    if states - {"due"}:
        rows.append((sample("joint"), "movement joint"))
    if "due" in states:
        rows.append((sample("due"), "movement joint that the screed needs, not laid out"))
    if any(room.voids for room in inputs.rooms):
        rows.append((crossed, "void: stays free of pipe"))
    if layout.sleeves:
        rows.append((_sleeve, "sleeve where a pipe passes a movement joint, 300 mm at least"))
    return rows


def _numbered(x: float, y: float) -> str:
    return element("circle", class_="mark", cx=x + 6.5, cy=y, r=1.5)


def _sleeve(x: float, y: float) -> str:
    return element("rect", class_="sleeve", x=x + 3.5, y=y - 0.7, width=6.0, height=1.4)


def _noted(findings: tuple[Finding, ...]) -> list[Finding]:
    """What concerns the drawing; what is not drawn has a place of its own."""
    return [
        finding
        for finding in findings
        if finding.code != "no_dates"
        and not (finding.code.startswith("not_drawn_") and finding.severity == "violation")
    ]


def _insulation(inputs: DesignsInputs) -> list[str]:
    insulation = inputs.tail_insulation
    if insulation is None:
        return []
    which = "Flow tails" if insulation.insulated_pipes == "flow" else "Tails"
    return [f"{which} in rooms of others insulated, {millimetres(insulation.thickness)} mm all round"]


def _joint_lines(result: DesignsResult) -> list[str]:
    """What joints take that are laid out, and what those that are due would take."""
    lines = []
    if result.movement_joint_length:
        lines.append(f"Movement joints {result.movement_joint_length:.1f} m, {result.sleeve_count} sleeves")
    if result.due_joint_length:
        lines.append(
            f"Movement joints not laid out yet {result.due_joint_length:.1f} m, {result.due_sleeve_count} sleeves"
        )
    return lines


def _title_lines(
    sheet: Sheet, inputs: DesignsInputs, result: DesignsResult, layout: DesignLayout
) -> list[str]:
    pipe, limits = inputs.pipe, inputs.limits
    heights = [f"{height:g}" for height in sorted({manifold.height for manifold in inputs.all_manifolds})]
    return [
        f"Pipe {millimetres(pipe.outside_diameter)} x {millimetres(pipe.wall_thickness)} mm, least bend radius "
        f"{millimetres(pipe.bend_radius)} mm",
        *_insulation(inputs),
        f"Clearance of the centre line {millimetres(limits.wall_clearance)} mm, tails "
        f"{millimetres(limits.tail_pitch)} mm apart",
        f"Supply {result.supply_temperature:.1f} °C, return {result.return_temperature:.1f} °C, "
        f"{result.volume_flow * 60_000.0:.1f} l/min in all",
        f"Pipe drawn {layout.drawn_length:.1f} m; lengths of the schedule with twice "
        f"{' or '.join(heights)} m at the manifold",
        f"All pipe {result.pipe_length:.1f} m",
        *_joint_lines(result),
        f"Scale 1:{sheet.scale} on {sheet.paper}; dimensions in m, pipe in mm",
        f"Check dimensions on site. Engine {engine_version}",
    ]
