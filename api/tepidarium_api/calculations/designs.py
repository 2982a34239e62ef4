"""The whole house in one request."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import TypeVar

from tepidarium_engine.designs import DesignsInputs, DesignsResult, as_designed, calculate, workings

from ..documents.design_files import (
    DESIGN_FILES,
    design_cad,
    design_schedule,
    design_workbook,
    with_laying_sheets,
)
from ..documents.pack import handover_pack
from ..renderings.calendar import house_calendar
from ..renderings.storey_drawing import storey_drawing
from ._base import CALENDAR, CSV, DXF, PDF, SVG, WORKBOOK, Calculation

__all__ = ["DESIGNS"]


def _without_former(inputs: DesignsInputs) -> DesignsInputs:
    """An answer does not repeat the one before it: it can be sent as ``former`` in turn."""
    return replace(inputs, former=None)


_Form = TypeVar("_Form")
_Make = Callable[[DesignsInputs, DesignsResult], bytes]


def _shown(make: _Make, inputs: DesignsInputs, result: DesignsResult) -> bytes:
    return make(as_designed(inputs, result), result)


def _of_the_house(forms: Mapping[_Form, _Make]) -> dict[_Form, _Make]:
    """What is made of an answer shows the house as it was designed, with what was chosen for its rooms. Worker
    processes are sent calculations, so these are no closures."""
    return {form: partial(_shown, make) for form, make in forms.items()}


DESIGNS = Calculation(
    name="designs",
    operation_id="designs",
    summary="The whole house: spacings, supply temperature, circuits, flows, balancing and dates",
    description=(
        "Takes the rooms with outline or area and heat demand, their build-ups, the source's limits, the manifold "
        "and the screed. The governing room sets the lowest common supply temperature; every other room gets the "
        "widest of the permitted spacings that gives its heat on that supply, of those that can be laid with this "
        "pipe. Rooms are divided into circuits until length and pressure hold, and the flows of all circuits are "
        "solved together. The tails are estimated from the manifold's position unless `tail_length` is given. With "
        "`doorways` every pipe is drawn from its port through the doorways into its field and back, and the "
        "lengths are those of the drawing; ask for `image/svg+xml` or `image/vnd.dxf` to get it to scale with the "
        "schedule beside it (without doorways there is nothing to draw, and the answer is a problem with the "
        "pointer `/doorways`; a storey of one room with its manifold needs none). `drawing` says on which sheets "
        "and to which scale, and what their title block holds. `application/pdf` is the handover pack: decisions, "
        "schedules, drawings, laying sheets, order, dates, records and instructions; `application/zip` holds "
        "`result.json` and every document, from one calculation.\n\n"
        "A manifold without `position` on a storey that is drawn gets the place with the least pipe in all tails "
        "among its `allowed_places`, as in manifold-position, from which everything can be drawn. More of its kind "
        "are added where one has too few ports or too long ways; `placed_manifolds` give the `position` to send to "
        "keep it, `sitings` the pipe that it takes. With both, the position is compared to the best place allowed.\n\n"
        "A house may have several `storeys` and `manifolds`, one or more on each storey: rooms name their storey, "
        "and either their manifold or get the one with the shortest ways that has the ports. All are on one supply "
        "and one pump; each manifold is balanced by itself, and the answer gives the setting of a balancing valve "
        "before it. `movement_joints` of a room divide it: circuits keep to the fields between them, and only "
        "tails cross, in sleeves that are drawn and counted. Further joints that the rules ask for are findings, "
        'with their length and sleeves in `due_joint_length` and `due_sleeve_count`; with `"movement_joints": '
        '"proposed"` they are adopted: laid out, drawn, sleeved and counted. `joints` lists all of them.\n\n'
        "Tails that are drawn heat the rooms they cross. That heat is subtracted from the demand of those rooms, "
        "and the water reaches its own field cooler; `tail_insulation` reduces it. Spacings, supply temperature, "
        "flows, lengths and the heat of tails are solved in rounds until no heat changes by more than 1 W: "
        "`convergence` gives the number of rounds and the last change; a finding says when eight rounds were not "
        "enough. A room that tails heat enough, and that they leave nowhere bare, gets no circuit of its own: it "
        "has no `circuit_ids`, and null for all that goes with circuits. Where they leave more than 6 % of its "
        "floor bare, it keeps its circuits, and is as warm as that makes it: a finding says so. Where a floor cannot "
        "give the heat of its room, the answer says how much is "
        "missing and which changes would help, each tried on the whole design; those that give all the heat come "
        "first.\n\n"
        "With an `objective` the house that has least of it is sought by area, as in design-options, and designed "
        "completely: `material` (metres, or money with `prices`), `pump_power`, `cost_of_use` (with prices and a "
        "`heat_pump`), or `supply_temperature`, which is the rule's own. `coverings`, `patterns`, `strips`, "
        "`temperature_drops` and `pump_stages` are weighed where they are given. A floor whose covering was chosen "
        "stands in `chosen_floors` with its rooms; dates, checks, order and documents are those of that floor, and "
        "findings about it point there. It is answered where it is better than "
        "the house by the rule, lacks no more heat and breaks no further limit; `objective` of the answer says "
        "what it takes beside that house, and the proven gap; `options` of it are what the house could be instead, "
        "by area, as in design-options.\n\n"
        "`sensitivity` and `season` ask besides how the design that is answered reacts to changes, by area, and what "
        "its year comes to, as in design-sensitivity and heating-season. The handover pack then has the options, the "
        "changes and the heating curve as plots with their tables; `application/zip` has them as drawings, too.\n\n"
        "With a `former` answer for the house what it decided stays wherever that still holds: the supply while no "
        "room asks for more, the spacing of a room while it gives the heat, the number of circuits of a room that "
        "is as it was, manifolds where they were found. `comparison` says what is asked for otherwise, which "
        "decisions have changed and why, what that comes to, and which findings are new or gone. Send the answer "
        "as it is, or of it what a request has room for: `inputs`, `engine_version`, the plain figures, `pump`, "
        "`rooms`, `circuits`, `placed_manifolds` of `layout`, `curing_plans`, `materials`, `findings` and "
        "`chosen_floors`; all else "
        "is ignored. With `inputs` alone the former request is designed again. Drawn pipe counts as the same where "
        "the lengths of its field and in all are the same to the millimetre. The answer does not repeat `former`."
    ),
    inputs=DesignsInputs,
    result=DesignsResult,
    calculate=calculate,
    workings=workings,
    renderings=_of_the_house(
        {
            SVG: storey_drawing,
            DXF: design_cad,
            PDF: handover_pack,
            WORKBOOK: design_workbook,
            CSV: design_schedule,
            CALENDAR: house_calendar,
        }
    ),
    rendered_inputs=with_laying_sheets,
    answered_inputs=_without_former,
    files=_of_the_house(DESIGN_FILES),
    heavy=True,
    spreads=True,
    example={
        "rooms": [
            {
                "id": "parlour",
                "name": "Parlour",
                "outline": [[0.0, 0.0], [5.2, 0.0], [5.2, 3.1], [3.4, 3.1], [3.4, 4.4], [0.0, 4.4]],
                "heat_demand": 980.0,
                "build_up": "oak",
            },
            {
                "id": "washroom",
                "name": "Washroom",
                "outline": [[3.52, 3.22], [5.2, 3.22], [5.2, 6.4], [3.52, 6.4]],
                "use": "bathroom",
                "room_temperature": 24.0,
                "heat_demand": 260.0,
                "build_up": "stone",
            },
        ],
        "build_ups": [
            {
                "id": "oak",
                "covering": "timber",
                "covering_resistance": 0.1,
                "resistance_below": 2.8,
                "temperature_below": 8.0,
            },
            {
                "id": "stone",
                "covering": "natural_stone",
                "covering_resistance": 0.01,
                "resistance_below": 2.8,
                "temperature_below": 8.0,
            },
        ],
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
        "manifold": {"position": [1.7, 4.4]},
        "doorways": [{"rooms": ["parlour", "washroom"], "place": [4.5, 3.16], "width": 0.8}],
        "source": {"maximum_supply_temperature": 45.0, "temperature_drop": 5.0},
        "screed": {"pour_date": "2027-04-12", "binder": "calcium_sulphate_flowing", "flexural_class": "F5"},
    },
)
