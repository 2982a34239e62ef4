"""The whole building: rooms, sources, manifolds and limits of a design."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

BUILDING: dict[str, Entry] = {
    # rooms and floors
    "rooms": Items("Rooms heated by the floor", 1, 64),
    "build_ups": Items("Floors by their layers; rooms name one of them", 1, 16),
    "build_up": Text("The id of the room's build-up", 64, 1),
    "use": Word("occupied, or bathroom: its surface may be 9 K above the room, see also counts_for_supply"),
    "counts_for_supply": Word(
        "Whether the room counts when the common supply is chosen; null: a bathroom does not, any other room does"
    ),
    "other_counts_for_supply": Word(
        "Whether the room counts when the room that sets the supply is sought; null: one of 24 degC and more does not"
    ),
    "heat_demand": Number(
        "W", 1.0, 500_000.0, "Heat that the room needs, without the loss through its own heated floor"
    ),
    "entry": Items("Where the pipes come into the room, x and y", 2, 2, of="coordinate"),
    "room": Text("The id of a room", 64),
    "heat_loss_request": Word(
        "Elements of the rooms whose heat demand is not given; as heat-loss takes them"
    ),
    "doorways": Items("Doorways between rooms; with them every pipe is drawn", 0, 128),
    "doorway_rooms": Items("The ids of the two rooms that the doorway joins", 2, 2, of="id"),
    "doorway_width": Number("m", 0.3, 10.0, "Clear width of the doorway"),
    "storeys": Items("Storeys of the house from below; none: there is one", 0, 8),
    "storey_id": Text("The id of a storey", 64, 1),
    "manifold_id": Text("The id of a manifold", 64, 1),
    "manifolds_given": Items("The manifolds where there are several, in place of manifold", 0, 16),
    # source, manifold, limits, screed
    "heat_source": Word("What the source of heat can give"),
    "manifold": Word("The manifold that serves the rooms, where there is one"),
    "position": Items("Where the manifold stands, x and y", 2, 2, of="coordinate"),
    "manifold_height": Number("m", 0.0, 5.0, "Pipe between a port of the manifold and the screed, one way"),
    "limits": Word("What the design must keep"),
    "screed": Word("The screed and the day of its pour"),
    # the design
    "governing_room": Text("The id of the room that sets the supply temperature", 64),
    "room_designs": Items("The rooms as designed", 1, 64),
    "circuit_designs": Items("The circuits in the order of manifolds and their ports", 1, 256),
    "manifold_designs": Items("The manifolds as designed, in the order of the request", 1, 16),
    "room_ids": Items("The ids of the rooms that it serves", 0, 64, of="id"),
    "circuit_count": Number("1", 0, 256, "Number of its circuits"),
    "balancing_pressure_drop": Number(
        "Pa",
        0.0,
        1e12,
        "Pressure drop of the balancing valve before the manifold, so that each manifold gets its flow from the "
        "common pump",
    ),
    "balancing_kv": Number(
        "m3/h", 0.0, 1e6, "Flow coefficient to which that valve is set: m3/h of water at a drop of 1 bar"
    ),
    "circuit_ids": Items("The ids of the room's circuits; none where tails alone heat it", 0, 256, of="id"),
    "port": Number("1", 1, 256, "Port of the manifold, counted from 1"),
    "heat_given": Number("W", 0.0, 500_000.0, "Heat that the floor gives to the room at the design's flows"),
    "heat_missing": Number("W", 0.0, 500_000.0, "Heat demand that the floor cannot give; 0 when it can"),
    "downward_heat_flow": Number("W", -500_000.0, 500_000.0, "Heat lost downwards"),
    "remedies": Items("Changes that make the floor give more heat, each by itself", 0, 16),
    "open_flow_ratio": Number(
        "1", 0.0, 1e6, "Flow divided by design flow if all valves are open and the pump holds its pressure"
    ),
    "insulation_request": Word("What insulation-check takes, for this build-up"),
    "solve_sections": Word(
        "Whether to solve the section of each build-up under the room that asks most of it"
    ),
    "build_up_checks": Items("Further checks of the build-ups that ask for them", 0, 16),
    "insulation_result": Word("What insulation-check answers"),
    "section_inputs": Word("What the section was solved from; floor-section takes it as it is"),
    "section_result": Word("What floor-section answers"),
    "layout": Word("The storeys as drawn; null without doorways"),
    "placed_manifolds": Items("The manifolds of the storeys that are drawn", 0, 16),
    "position_found": Word("Whether the position was found, or given"),
    "sitings": Items(
        "Pipe that the places of the manifolds take, by storey, where places were searched", 0, 8
    ),
    "manifold_places": Items("Where manifolds stand best, on walls [m]", 0, 16),
    "tail_insulation": Word("Insulation round tails in the rooms they cross; none: they are bare"),
    "tail_insulation_thickness": Number("m", 0.002, 0.05, "Thickness of the insulation round a tail"),
    "insulated_pipes": Word("both pipes of a tail, or the flow alone"),
    "insulated_tail_length": Number(
        "m", 0.0, 100_000.0, "Insulation round tails, one metre for each of a pipe"
    ),
    "tails_heat": Number("W", 0.0, 500_000.0, "Heat that tails of other rooms give to the room"),
    "tails_area": Number("m2", 0.0, 10_000.0, "Floor that tails of other rooms take"),
    "field_supply_temperature": Number(
        "degC", -50.0, 100.0, "Water that enters the room's own field, cooled on its way from the manifold"
    ),
    "lost_on_the_way": Number("W", 0.0, 100_000.0, "Heat that the circuit's tails leave in rooms of others"),
    "convergence": Word("How spacings, supply, flows, lengths and heat of tails came to agree"),
    "rounds": Number("1", 1, 1000, "Number of rounds"),
    "residual": Number("W", 0.0, 1e6, "Greatest change of a room's or circuit's heat in the last round"),
    "tolerance": Number("W", 0.0, 1e6, "Change of heat from round to round that counts as none"),
    "settled": Word("Whether the last round changed no heat by more than the tolerance"),
    "sleeve_count": Number(
        "1", 0, 10_000, "Sleeves for pipes through movement joints, flow and return each one"
    ),
    "movement_joint_length": Number(
        "m", 0.0, 100_000.0, "Movement joints that are laid out, given or adopted"
    ),
    "due_joint_length": Number(
        "m", 0.0, 100_000.0, "Movement joints that the rules ask for beside those that are laid out"
    ),
    "due_sleeve_count": Number("1", 0, 10_000, "Sleeves where tails as drawn pass the joints that are due"),
    "joints_adopted": Word(
        "given: joints are those of the rooms; proposed: those that the rules ask for beside them are adopted, too"
    ),
    "design_joints": Items(
        "Movement joints of rooms and doorways: laid out, then those that are due", 0, 4096
    ),
    "joint_points": Items("The joint from end to end [m]", 2, 100),
    "joint_state": Word(
        "given with the room, adopted as proposed, or due: asked for by the rules and not laid out"
    ),
    "joint_reason": Word("Which rule asks for the joint; none where it was given"),
    "joint_length": Number("m", 0.0, 1000.0, "Length of the joint"),
    "joint_doorway": Items(
        "The ids of the two rooms of the doorway that the joint lies in; none in a room", 0, 2, of="id"
    ),
    "joint_sleeves": Number("1", 0, 10_000, "Sleeves for tails through the joint"),
    "drawn_length": Number("m", 0.0, 100_000.0, "Sum of the drawn circuits"),
    "drawn_circuits": Items("Circuits in the order of manifolds and their ports", 0, 256),
    "doorway_stretches": Items("The doorways as they were found on the outlines", 0, 128),
    "jambs": Items("Both jambs on the outline of the first room [m]", 2, 2),
    "opposite_jambs": Items("Both jambs on the outline of the second room [m]", 2, 2),
    "sleeves": Items("Where tails pass movement joints in a sleeve", 0, 1000),
    "circuit": Text("The id of a circuit", 80),
    "unplaced": Items("Circuits that could not be drawn, and why", 0, 256),
    "curing_plans": Items("The curing plan of each build-up in use", 0, 16),
    "plan_inputs": Word("What the plan was made from; curing-plan takes it as it is"),
    "plan": Word("The dated plan"),
    # for the site
    "commissioning_options": Word("How the floor is tested, filled and heated; null leaves it out"),
    "sheets_wanted": Word("Whether to make the laying sheet of each circuit that is drawn"),
    "house_materials": Word("What materials answers; none where ordering is null"),
    "house_commissioning": Word("What commissioning answers; none where it was left out"),
}
