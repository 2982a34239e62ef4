"""What is read of a former design, and what has changed since."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

COMPARING: dict[str, Entry] = {
    # what a house is to have least of
    "design_objective": Word(
        "What the house is to have least of; none: the coldest supply that serves the rooms, on it the widest spacings"
    ),
    "least_of": Word(
        "supply_temperature; material: pipe, or its price with prices; pump_power; cost_of_use: material and the "
        "electricity of all years"
    ),
    "objective_outcome": Word("The house beside the one by the rule; null without an objective"),
    "objective_taken": Word(
        "best: the best house by area, designed completely; rule: that by the rule is no worse"
    ),
    "objective_value": Number("1", 0.0, 1e13, "What was to be least, in degC, m, W or the currency"),
    "objective_by_rule": Number("1", 0.0, 1e13, "The same of the house by the rule"),
    "beside_rule": Word(
        "What the house takes more or less than the one by the rule, both designed completely"
    ),
    "objective_proven": Word(
        "Whether by area no other choice of spacings, circuits and manifolds is better, on any supply from which on a "
        "room can have another spacing"
    ),
    "objective_gap": Number(
        "1",
        0.0,
        1.0,
        "Share by which one could be better on the supplies looked at; null where no bound is known",
    ),
    "options_of_design": Word(
        "What the house could be instead, by area: the options that the objective was chosen from; null without one"
    ),
    "chosen_floors": Items("Floors whose covering was chosen, in place of build-ups of the request", 0, 64),
    "chosen_build_up": Word("The build-up with the covering that was chosen, as a request takes it"),
    "chosen_covering": Number(
        "1", 0, 5, "Number of the covering in the objective; null where a former design chose it"
    ),
    "rooms_of_floor": Items("The ids of the rooms that have it", 0, 64, of="id"),
    # what is asked beside a design
    "sensitivity_questions": Word(
        "Changes to look at one at a time, as in design-sensitivity; null: none, {}: those that are usual"
    ),
    "sensitivity_of_design": Word("How the design reacts to them, by area; null where nobody asked"),
    "season_questions": Word("The year to operate the design through, as in heating-season; null: none"),
    "season_of_design": Word("The heating curve and the year; null where nobody asked"),
    # what is read of a former answer
    "former": Word(
        "A former answer of designs for this house: its decisions are kept where they still hold, and comparison says "
        "what has changed. Further members are ignored. With inputs alone it is designed again"
    ),
    "former_inputs": Word("The request of the former answer"),
    "engine_version": Text("Version of the engine that made it", 64),
    "former_pump": Word("The former pump"),
    "former_rooms": Items("The former rooms", 0, 64),
    "former_circuits": Items("The former circuits", 0, 256),
    "former_layout": Word("Of the former drawing: where manifolds stand"),
    "former_plans": Items("The former curing plans", 0, 64),
    "former_dates": Word("The days that others wait for"),
    "former_materials": Word("The former order"),
    "former_findings": Items("The former findings", 0, 1000),
    "former_places": Items("Every place that it held for", 0, 1000),
    # what has changed
    "design_comparison": Word("What has changed since the former design; null without one"),
    "former_version": Text("Version of the engine that made the former design", 64),
    "decisions_kept": Word("Whether the former decisions were kept where they still hold"),
    "asked_changes": Items("What the request asks for that is another", 0, 2000),
    "decision_changes": Items("Decisions that are others", 0, 2000),
    "figure_changes": Items("Figures that are others by more than can be seen on site", 0, 5000),
    "finding_changes": Items("Findings that are new, gone or others", 0, 1000),
    "unchanged_rooms": Items("The ids of the rooms in which nothing is laid otherwise", 0, 64, of="id"),
    "changed_thing": Text("What it is, in words", 120),
    "value_before": Number("1", -1e12, 1e12, "What it was, in the unit of its quantity"),
    "value_after": Number("1", -1e12, 1e12, "What it is, in the unit of its quantity"),
    "text_before": Text("What it was, in units of the trade", 2000),
    "text_after": Text("What it is, in units of the trade", 2000),
    "because": Text("Why it changed where nobody asked for it; empty elsewhere", 1000),
    "finding_change": Word(
        "new; gone; severity: another severity; places: it holds for other rooms or circuits"
    ),
    "former_severity": Word("Its severity before; null where it is new"),
    "severity_now": Word("Its severity now; null where it is gone"),
    "subjects": Items("Rooms and circuits that it is new or gone for", 0, 1000, of="subject"),
}
