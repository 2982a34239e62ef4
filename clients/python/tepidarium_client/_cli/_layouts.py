"""Which columns the wide tables of an answer show. Other tables show every plain value of their rows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ._tables import Column

__all__ = [
    "HIDDEN",
    "JOINED",
    "LAYOUTS",
    "NESTED",
    "ONLY_SEVERAL",
    "SUMMARIES",
    "TITLES",
    "Joined",
]

TITLES = {
    ("heat-loss", "losses"): "Element by element",
    ("heat-loss", "ground"): "Floor on the ground",
    ("insulation-check", "rules"): "What each rule asks of the insulation",
    ("floor-section", "surface_profile"): "Surface from the pipe to midway to the next",
    ("floor-section", "edge_bay"): "Bay at the cold edge",
    ("floor-section", "edge_profile"): "Surface from the edge to midway between two pipes",
    ("floor-section", "setback"): "Lowering at night",
    ("supply-temperature", "options"): "Pipe spacings compared",
    ("supply-temperature", "rooms_on_supply"): "Other rooms on the same supply",
    ("routes", "bare_spots"): "Floor without pipe",
    ("routes", "laid_spacings"): "Where the spacing differs",
    ("routes", "sleeves"): "Sleeves on tails through movement joints",
    ("manifold-position", "ways"): "Way to each room",
    ("hydraulics", "open_valves"): "With all valves open",
    ("curing-plan", "moisture_limit"): "Dry enough to cover",
    ("coil-plan", "cuts"): "Cuts in the order of laying",
    ("coil-plan", "to_buy"): "To buy",
    ("materials", "quantities"): "To order",
    ("estimates", "materials"): "To order",
    ("materials", "film_sheets"): "Sheets of film",
    ("materials", "coils"): "Plan of coils",
    ("materials", "cuts"): "Cuts in the order of laying",
    ("laying-sheets", "steps"): "Straights and turns in the order of laying",
    ("laying-sheets", "wall_distances"): "From the walls to the first pipe",
    ("commissioning", "test_steps"): "Steps of the leak test",
    ("commissioning", "editions"): "What the texts ask for",
    ("commissioning", "drift"): "How the reading of a tight system moves",
    ("commissioning", "filling_steps"): "Steps of filling",
    ("heating-season", "bins"): "From bin to bin",
    ("design-sensitivity", "lines"): "One change at a time, the greatest effect first",
    ("design-sensitivity", "tolerances"): "How much more heat a room may need",
    ("design-sensitivity", "finding_tolerances"): "How much more heat until a finding changes",
    ("design-sensitivity", "effects"): "What it does to each room, the greatest effect first",
    ("designs", "effects"): "What it does to each room, the greatest effect first",
    ("design-options", "options"): "From the warmest supply to the coldest",
    ("design-options", "choices"): "Rooms of the options",
    ("designs", "curing_plans"): "Screed",
    ("designs", "asked"): "What is asked for otherwise than before",
    ("designs", "decided"): "What has changed",
    ("designs", "figures"): "What that comes to for the house",
    ("designs", "changed_findings"): "Findings that have changed",
    ("designs", "remedies"): "What would give the missing heat",
    ("designs", "chosen_floors"): "Coverings that were chosen",
    ("designs", "front"): "What the house could be instead, by area",
    ("designs", "reactions"): "One change at a time, by area, the greatest effect first",
    ("designs", "reserves"): "How much more heat until a finding changes, by area",
    ("designs", "curve"): "Heating curve",
    ("designs", "year"): "The year from bin to bin",
}


@dataclass(frozen=True, slots=True)
class Joined:
    """A table out of the lists inside the rows of another list: every ``inner`` row, led by the value ``source``
    of its ``outer`` row under the name ``lead``. Rows that are the same for several outer rows appear once. ``first``:
    before the answer's own tables."""

    outer: str
    inner: str
    source: str
    lead: str
    first: bool = False

    def rows(self, answer: Mapping[str, Any]) -> list[dict[str, Any]]:
        joined: list[tuple[list[str], dict[str, Any]]] = []
        for row in Column.of(self.outer).value(answer) or ():
            for member in Column.of(self.inner).value(row) or ():
                leads = next((leads for leads, other in joined if other == member), None)
                if leads is None:
                    joined.append((leads := [], member))
                leads.append(str(row.get(self.source)))
        return [{self.lead: ", ".join(leads)} | member for leads, member in joined]


JOINED = {
    "heat-loss": {
        "losses": Joined("rooms", "elements", "id", "room"),
    },
    "routes": {
        "laid_spacings": Joined("circuits", "laid_spacings", "id", "circuit"),
    },
    "coil-plan": {
        "cuts": Joined("coils", "cuts", "coil", "coil"),
    },
    "materials": {
        "cuts": Joined("coil_plan.coils", "cuts", "coil", "coil"),
    },
    "laying-sheets": {
        "steps": Joined("sheets", "steps", "circuit", "circuit"),
        "wall_distances": Joined("sheets", "wall_distances", "circuit", "circuit"),
    },
    "manifold-position": {
        "ways": Joined("manifolds", "room_tails", "room", "manifold in"),
    },
    "design-options": {
        "choices": Joined("options", "rooms", "number", "option"),
    },
    "design-sensitivity": {
        "effects": Joined("rooms", "effects", "id", "room"),
    },
    "designs": {
        "effects": Joined("sensitivity.rooms", "effects", "id", "room"),
        "remedies": Joined("rooms", "remedies", "name", "room", first=True),
        "dates": Joined("curing_plans", "plan.stages", "build_up", "build_up"),
    },
}
"""Command -> further tables."""


NESTED = {
    "designs": {
        "asked": "comparison.asked",
        "decided": "comparison.decisions",
        "figures": "comparison.figures",
        "changed_findings": "comparison.findings",
        "front": "options.options",
        "reactions": "sensitivity.lines",
        "reserves": "sensitivity.finding_tolerances",
        "curve": "season.curve",
        "year": "season.bins",
    },
    "floor-section": {
        "edge_profile": "edge_bay.surface_profile",
        "setback": "warm_up.setback",
    },
    "materials": {
        "coils": "coil_plan.coils",
    },
    "commissioning": {
        "drift": "leak_test.drift",
        "test_steps": "leak_test.steps",
        "editions": "leak_test.editions",
        "filling_steps": "filling.steps",
    },
}
"""Command -> further records and tables, out of records. The course in time is in the answer, for ``--json``."""


def _columns(*paths: str | tuple[str, str]) -> tuple[Column, ...]:
    return tuple(Column.of(path) if isinstance(path, str) else Column.of(*path) for path in paths)


_ORDER = (
    *_columns("item", "name"),
    Column.of("status", distinctive=True),
    Column.of("net_quantity", "quantity", unit_in="unit"),
    *_columns(("waste_share", "waste")),
    Column.of("pack_size", "pack", unit_in="unit"),
    *_columns("packs"),
    Column.of("order_quantity", "to order", unit_in="unit"),
    *_columns("unit_price", "cost"),
)
_CUTS = _columns("coil", "circuit", ("start_mark", "from"), ("end_mark", "to"), "length")
_STAGES = _columns("stage", ("start_date", "from"), ("end_date", "to"), "days", "description")
_DAYS = _columns("date", "day", "stage", "supply_temperature")
_TOLERANCES = _columns(("name", "room"), ("tolerable_rise", "may rise by"), ("changed", "what changes then"))
_REACTIONS = _columns(
    ("message", "change"),
    ("missing_difference", "missing"),
    ("supply_difference", "supply"),
    ("plot", "less or more supply"),
    ("pipe_difference", "pipe"),
    ("circuit_difference", "circuits"),
    ("power_difference", "pump power"),
)
_EFFECTS = _columns(
    "room",
    ("message", "change"),
    ("missing_difference", "missing"),
    ("supply_difference", "supply"),
    ("pipe_spacing", "spacing"),
    ("pipe_difference", "pipe"),
    ("circuit_difference", "circuits"),
)
_BINS = _columns(
    ("outside_temperature", "outside"),
    "hours",
    ("supply_temperature", "supply"),
    ("plot", "supply, plotted"),
    ("return_temperature", "return"),
    "heat",
    ("volume_flow", "flow"),
    "pump_power",
    "electricity",
)
_FRONT = (
    *_columns(
        "number",
        ("supply_temperature", "supply"),
        ("pipe_length", "pipe"),
        ("circuit_count", "circuits"),
        ("heat_missing", "missing"),
        ("pump.hydraulic_power", "pump power"),
        ("material_cost", "material"),
        ("plot", "material, plotted"),
        ("energy.electricity", "electricity a year"),
        ("energy.cost_of_use", "with all years"),
    ),
    Column.of("proven", distinctive=True),
    *_columns(("beside.message", "beside the one before")),
)
_CHANGES = _columns(("subject", "where"), "what", ("text_before", "before"), ("text_after", "now"))

LAYOUTS = {
    ("heat-loss", "rooms"): _columns(
        ("id", "room"),
        "name",
        "room_temperature",
        "area",
        "volume",
        ("transmission_loss", "transmission"),
        ("ventilation_loss", "ventilation"),
        "heat_loss",
        ("heated_floor_loss", "through the floor"),
        ("reheat_power", "reheat"),
        "heat_demand",
        ("required_heat_output", "per area"),
    ),
    ("heat-loss", "losses"): _columns(
        "room",
        ("where", "element"),
        "name",
        "surface",
        "beyond",
        "neighbour",
        "area",
        "u_value",
        ("temperature_beyond", "beyond"),
        "heat_loss",
        ("through_heated_floor", "heated floor"),
    ),
    ("supply-temperature", "options"): _columns(
        "pipe_spacing",
        ("pipe_length_per_area", "pipe"),
        "supply_temperature",
        "return_temperature",
        ("mean_surface_temperature", "surface"),
        ("limit_heat_output", "limit output"),
        "within_limits",
        "chosen",
        "reason",
    ),
    ("supply-temperature", "rooms_on_supply"): _columns(
        ("id", "room"),
        "reached",
        "pipe_spacing",
        "heat_output",
        ("missing_heat_output", "missing"),
        "temperature_drop",
        "return_temperature",
        ("mean_surface_temperature", "surface"),
        "downward_heat_loss",
        "mass_flow",
    ),
    ("routes", "circuits"): _columns(
        ("id", "circuit"),
        "pattern",
        "area",
        "pipe_spacing",
        ("length", "in the room"),
        ("inner_tail_length", "to its floor"),
        ("tail_length", "both tails"),
        "total_length",
        ("bends.right_angle", "right angles"),
        ("bends.u_turn", "U-turns"),
        ("bends.other", "other bends"),
        ("quality.coverage_three_quarters", "covered"),
        ("quality.temperature_spread", "temperature spread"),
        ("valid", "can be laid"),
    ),
    ("manifold-position", "manifolds"): _columns(
        "room",
        "place",
        ("ahead", "faces"),
        "ports",
        ("manifold_width", "width"),
        ("tail_pipe", "pipe in tails"),
    ),
    ("manifold-position", "ways"): _columns(
        "manifold in", "room", ("circuit_ids", "circuits"), ("tail_length", "one way")
    ),
    ("hydraulics", "circuits"): _columns(
        ("id", "circuit"),
        "heat_flow",
        "volume_flow",
        "temperature_drop",
        "return_temperature",
        "velocity",
        "regime",
        ("total_pressure_drop", "pressure drop"),
        ("valve_pressure_drop", "at valve"),
        "valve_kv",
        "valve_setting",
        ("open_same_pressure.flow_ratio", "flow if all open"),
    ),
    ("curing-plan", "stages"): _STAGES,
    ("curing-plan", "daily_programme"): _DAYS,
    ("designs", "rooms"): _columns(
        ("name", "room"),
        "area",
        ("pipe_spacing", "spacing"),
        ("spacer_length", "spacer"),
        ("heat_demand", "needs"),
        ("heat_given", "gets"),
        ("tails_heat", "from tails"),
        ("heat_missing", "missing"),
    ),
    ("designs", "chosen_floors"): _columns(
        ("build_up.id", "build up"),
        ("build_up.name", "name"),
        ("like", "in place of"),
        "rooms",
    ),
    ("designs", "asked"): _CHANGES,
    ("designs", "decided"): (*_CHANGES, Column.of("because", "why")),
    ("designs", "figures"): _CHANGES,
    ("designs", "changed_findings"): _columns("change", ("subjects", "where"), "message"),
    ("designs", "circuits"): (
        Column.of("manifold", distinctive=True),
        *_columns(
            "port",
            ("id", "circuit"),
            "room",
            ("total_length", "length"),
            ("volume_flow", "flow"),
            ("valve_setting", "valve setting"),
        ),
        Column.of("valve_kv", instead_of="valve_setting"),
    ),
    ("designs", "manifolds"): _columns(
        ("id", "manifold"),
        ("room_ids", "rooms"),
        ("circuit_count", "circuits"),
        "heat_flow",
        "volume_flow",
        "return_temperature",
        "index_circuit",
        ("manifold_pressure", "pressure"),
        ("balancing_pressure_drop", "at balancing valve"),
        "balancing_kv",
    ),
    ("designs", "remedies"): _columns(
        "room", ("message", "change"), ("heat_given", "gives"), ("heat_missing", "missing")
    ),
    ("design-sensitivity", "lines"): _REACTIONS,
    ("design-sensitivity", "finding_tolerances"): _TOLERANCES,
    ("design-sensitivity", "effects"): _EFFECTS,
    ("designs", "effects"): _EFFECTS,
    ("designs", "reactions"): _REACTIONS,
    ("designs", "reserves"): _TOLERANCES,
    ("heating-season", "bins"): _BINS,
    ("designs", "year"): _BINS,
    ("design-options", "options"): _FRONT,
    ("designs", "front"): _FRONT,
    ("design-options", "choices"): (
        *_columns("option", ("id", "room"), ("pipe_spacing", "spacing")),
        Column.of("covering", distinctive=True),
        Column.of("manifold", distinctive=True),
        *_columns(
            ("circuit_count", "circuits"),
            ("circuit_length", "each"),
            ("pipe_length", "pipe"),
            ("heat_missing", "missing"),
        ),
    ),
    ("coil-plan", "cuts"): _CUTS,
    ("materials", "cuts"): _CUTS,
    ("materials", "quantities"): _ORDER,
    ("estimates", "materials"): (
        *_columns("item", "name"),
        Column.of("status", distinctive=True),
        *(
            Column.of(f"quantity.{level}", level, unit_in="quantity.unit")
            for level in ("low", "likely", "high")
        ),
        *_columns(
            "unit_price",
            ("cost.low", "cost, low"),
            ("cost.likely", "likely cost"),
            ("cost.high", "cost, high"),
        ),
    ),
    ("laying-sheets", "steps"): _columns(
        "circuit",
        ("number", "step"),
        "kind",
        "hand",
        "angle",
        ("step_length", "length"),
        ("mark", "from port"),
        ("coil_mark", "on coil"),
        "from_datum",
        "part",
        "room",
        "fixings",
    ),
    ("laying-sheets", "wall_distances"): _columns("circuit", "ring", ("edge", "wall"), "distance", "step"),
    ("commissioning", "flushing"): _columns(
        "circuit",
        "manifold",
        "port",
        "volume_flow",
        "velocity",
        "flushing_time",
        "water_volume",
        "pressure_drop",
    ),
    ("commissioning", "forms"): _columns("title", "basis"),
    ("designs", "curing_plans"): (
        *_columns("build_up", ("plan.screed_cover", "cover"), ("plan.minimum_screed_cover", "at least")),
        Column.of("plan.earliest_heating", distinctive=True),
        Column.of("plan.highest_supply_temperature", distinctive=True),
        Column.of("plan.earliest_covering", distinctive=True),
        Column.of("plan.moisture_limit.carbide_moisture", "carbide moisture"),
    ),
    ("designs", "dates"): (
        Column.of("build_up", distinctive=True),
        *_columns("stage", ("start_date", "from"), "days", "supply"),
    ),
}
"""Command and list -> columns, each with its heading where the field name is not the best one."""

_RANGES = {
    "pipe_length": "pipe [m]",
    "circuit_count": "circuits",
    "manifold_count": "manifolds",
    "heat_output": "heat output [W]",
    "supply_temperature": "supply [degC]",
    "specific_heat_demand": "heat demand [W/m2]",
    "total_cost": "cost without tax",
}
"""Ranges of an estimate -> heading."""

SUMMARIES = {
    "estimates": _columns(
        "floor_area",
        "room_count",
        *(
            (f"{name}.{level}", f"{heading}, {level}")
            for name, heading in _RANGES.items()
            for level in ("low", "likely", "high")
        ),
        "currency",
    ),
    "designs": _columns(
        ("objective.least", "sought: least"),
        ("objective.beside_rule.message", "beside the rule"),
        ("objective.gap", "could be better by"),
        "supply_temperature",
        "return_temperature",
        ("heat_demand", "heat needed"),
        "heat_given",
        "heat_missing",
        "volume_flow",
        ("pump.pressure", "pump pressure"),
        "pipe_length",
        "system_volume",
        ("expansion_vessel.nominal_volume", "expansion vessel"),
        ("expansion_vessel.precharge_pressure", "its precharge"),
        ("expansion_vessel.fill_pressure", "fill pressure"),
        "sleeve_count",
        "movement_joint_length",
        ("due_sleeve_count", "sleeves not laid out"),
        ("due_joint_length", "movement joints not laid out"),
        "insulated_tail_length",
    ),
}
"""Command -> the figures that a report begins with, where they are not all plain values of the answer."""

HIDDEN = {
    "estimates": set(_RANGES),
    "designs": {
        "objective",
        "options",
        "sensitivity",
        "season",
        "comparison",
        "materials",
        "commissioning",
        "laying_sheets",
        "pump",
        "expansion_vessel",
        "layout",
        "joints",
        "convergence",
        "frost_protection",
    },
}
"""Command -> records that a report leaves to the answer as JSON."""

ONLY_SEVERAL = {("designs", "manifolds")}
"""Tables of which one row would say nothing new."""
