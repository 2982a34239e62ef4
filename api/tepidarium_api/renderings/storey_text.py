"""The text beside the plan of a storey: schedule of circuits, what is not drawn, legend, data, notes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tepidarium_engine.designs import CircuitDesign, DesignsInputs, DesignsResult, ManifoldDesign
from tepidarium_engine.results import Finding

from .drawing_notes import notes
from .flow import Cell, Row, Sample, heading, paragraph, rule, samples, table
from .legend import crossed_sample, line_sample, pipe_samples, port_sample, sleeve_sample
from .storey_marks import JOINT_KINDS
from .storey_plans import StoreyPlan, circuit_labels, drawn_layout, manifold_numbers, room_title

__all__ = ["storey_text"]

SCHEDULE = (
    Cell("Port", 10.0),
    Cell("Room", 38.0),
    Cell("Length m", 16.0, True),
    Cell("Spacing mm", 19.0, True),
    Cell("Flow l/min", 17.0, True),
    Cell("Valve", 18.0, True),
)
ROOM_NUMBERS = (Cell("No.", 10.0), Cell("Room", 92.0), Cell("Area m²", 16.0, True))
_OF_PRICES = ("price_missing", "price_unused")
_JOINTS = {
    "given": "movement joint",
    "adopted": "movement joint, proposed: agree on it before the pour",
    "due": "movement joint that the screed needs, not laid out",
}


def storey_text(
    inputs: DesignsInputs, result: DesignsResult, plan: StoreyPlan, numbers: Mapping[str, str]
) -> Iterator[Row]:
    """``numbers`` by room of those whose name is not whole on the plan."""
    yield from _schedule(inputs, result, plan)
    yield from _numbered_rooms(plan, numbers)
    yield from _not_drawn(plan)
    yield heading("Legend")
    yield from samples(_legend(plan))
    yield rule()
    yield heading("Data")
    for line in _data(inputs, result, plan):
        yield from paragraph(line)
    yield rule()
    yield from notes(_noted(inputs, result.findings, plan), result.cautions, {})


def _schedule(inputs: DesignsInputs, result: DesignsResult, plan: StoreyPlan) -> Iterator[Row]:
    """Every circuit of the storey by manifold and port; one that is not drawn bears a star."""
    names = {room.id: room_title(room) for _, room in plan.shown}
    spacings = {room.id: room.pipe_spacing for room in result.rooms}
    drawn = {circuit.id for circuit in plan.circuits}
    labels, numbers = circuit_labels(inputs, result), manifold_numbers(inputs, result)
    yield heading("Schedule")
    starred = False
    for manifold in result.manifolds:
        own = [one for one in result.circuits if one.manifold == manifold.id and one.room in names]
        if not own:
            continue
        if len(numbers) > 1:
            for row in paragraph(_manifold_line(manifold, numbers[manifold.id])):
                yield row._replace(tied=True)
        starred = starred or any(one.id not in drawn for one in own)
        yield from table(
            SCHEDULE,
            (
                (
                    labels[one.id] + ("" if one.id in drawn else "*"),
                    names[one.room],
                    f"{one.total_length:.1f}",
                    f"{(spacings[one.room] or 0.0) * 1000.0:.0f}",
                    f"{one.volume_flow * 60_000.0:.2f}",
                    _valve(one),
                )
                for one in own
            ),
        )
    if starred:
        yield from paragraph("* not drawn, length estimated")
    yield rule()


def _numbered_rooms(plan: StoreyPlan, numbers: Mapping[str, str]) -> Iterator[Row]:
    """Rooms whose name has no place on the plan, with the number that stands there for it."""
    if numbers:
        yield heading("Rooms by number")
        yield from table(
            ROOM_NUMBERS,
            (
                (numbers[room.id], room_title(room), f"{plan.areas[number]:.1f}")
                for number, room in plan.shown
                if room.id in numbers
            ),
        )
        yield rule()


def _manifold_line(manifold: ManifoldDesign, number: int) -> str:
    """Its number and id, its flow, and the valve before it where one is due."""
    words = f"{number}: manifold {manifold.id}, {manifold.volume_flow * 60_000.0:.1f} l/min"
    return words + (f", balancing valve kv {manifold.balancing_kv:.2f}" if manifold.balancing_kv else "")


def _valve(circuit: CircuitDesign) -> str:
    """The setting by the valve's table, or without one the coefficient [m3/h] to set."""
    if circuit.valve_setting is None:
        return f"kv {circuit.valve_kv:.2f}"
    return f"{circuit.valve_setting:.2f}"


def _not_drawn(plan: StoreyPlan) -> Iterator[Row]:
    if plan.unplaced:
        yield heading("NOT DRAWN")
        alike: dict[str, list[str]] = {}
        for one in plan.unplaced:
            alike.setdefault(one.message, []).append(one.id)
        for message, names in alike.items():
            yield from paragraph(f"{', '.join(names)}: {message}")
        yield rule()


def _legend(plan: StoreyPlan) -> Iterator[tuple[Sample, str]]:
    patterns = {room.pattern for _, room in plan.shown}
    yield from pipe_samples(patterns)
    yield port_sample, "manifold: number of each port at its pair of pipes, or of the first and the last port"
    states = {joint.state for joint in plan.joints}
    for state, words in _JOINTS.items():
        if state in states:
            yield line_sample(JOINT_KINDS[state]), words
    if any(room.voids for _, room in plan.shown):
        yield crossed_sample, "void: stays free of pipe"
    if plan.sleeves:
        yield sleeve_sample, "sleeve where a pipe passes a movement joint, 300 mm at least"


def _data(inputs: DesignsInputs, result: DesignsResult, plan: StoreyPlan) -> Iterator[str]:
    pipe, limits = inputs.pipe, inputs.limits
    heights = " or ".join(f"{height:g}" for height in sorted({own.height for own in inputs.all_manifolds}))
    yield (
        f"Pipe {_millimetres(pipe.outside_diameter)} x {_millimetres(pipe.wall_thickness)} mm, least bend radius "
        f"{_millimetres(pipe.bend_radius)} mm"
    )
    insulation = inputs.tail_insulation
    if insulation is not None:
        which = "Flow tails" if insulation.insulated_pipes == "flow" else "Tails"
        yield f"{which} in rooms of others insulated, {_millimetres(insulation.thickness)} mm all round"
    yield (
        f"Clearance of the centre line {_millimetres(limits.wall_clearance)} mm, tails "
        f"{_millimetres(min((own.tail_pitch for own in plan.manifolds), default=limits.tail_pitch))} mm apart"
    )
    yield (
        f"Supply {result.supply_temperature:.1f} °C, return {result.return_temperature:.1f} °C, "
        f"{result.volume_flow * 60_000.0:.1f} l/min in the whole house"
    )
    shown = {room.id for _, room in plan.shown}
    drawn = sum(circuit.length for circuit in plan.circuits if circuit.room in shown)
    which = "Pipe on this storey" if plan.room is None else "Pipe of the circuits of this room"
    yield f"{which} {drawn:.1f} m; lengths of the schedule with twice {heights} m at the manifold"
    if drawn_layout(result).drawn_length > drawn + 0.05:
        yield f"All pipe of the house {result.pipe_length:.1f} m"
    for room in result.rooms:
        if room.id in shown and room.peripheral is not None:
            strip = room.peripheral
            spacing = _millimetres(strip.pipe_spacing)
            yield f"{room.name or room.id}: {spacing} mm on {strip.area:.1f} m2 along outside walls"
    yield from _joint_lines(plan)
    yield "Dimensions in m, pipe and spacings in mm. Check dimensions on site."


def _joint_lines(plan: StoreyPlan) -> Iterator[str]:
    """What joints take that are laid out, and what those that are due would take."""
    for laid, words in ((True, "Movement joints"), (False, "Movement joints not laid out yet")):
        own = [joint for joint in plan.joints if (joint.state != "due") is laid]
        if own:
            count = sum(joint.sleeve_count for joint in own)
            yield f"{words} {sum(joint.length for joint in own):.1f} m, {count} sleeves"


def _noted(inputs: DesignsInputs, findings: tuple[Finding, ...], plan: StoreyPlan) -> Iterator[Finding]:
    """What must be decided on this plan; notes and prices stand in the pack, and what is not drawn has a place of its
    own."""
    shown = {room.id for _, room in plan.shown}
    others = {room.name or room.id for room in inputs.rooms if room.id not in shown}
    own = {room.name or room.id for _, room in plan.shown}
    for finding in findings:
        lost = finding.code.startswith("not_drawn_") and finding.severity == "violation"
        places = [place for place in finding.places if _concerned(place.subject, own, others)]
        if places and finding.severity != "note" and not lost and finding.code not in _OF_PRICES:
            yield finding.with_places(places)


def _concerned(subject: str, own: set[str], others: set[str]) -> bool:
    """Whether the subject is of this plan: it names one of its rooms, or none of another."""
    return any(name in subject for name in own) or not any(name in subject for name in others)


def _millimetres(length: float) -> str:
    return f"{length * 1000.0:.4g}"
