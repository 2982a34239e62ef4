"""What is ordered: coils, quantities, packs and prices."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

ORDERING: dict[str, Entry] = {
    # coils
    "circuits_to_cut": Items("Circuits in the order in which they are laid", 1, 256),
    "coil_lengths": Items("Lengths of coils that can be bought", 1, 24, of="coil_length"),
    "coil_length": Number("m", 1.0, 1000.0, "Length of a coil of pipe"),
    "coil_count": Number("1", 1, 100, "Number of coils of this length"),
    "coil_stock": Items("Coils and rests of coils at hand, used before any is bought", 0, 64),
    "cutting_allowance": Number("m", 0.0, 5.0, "Pipe beyond what was measured, at each end of a circuit"),
    "coils": Items("Coils in the order in which they are opened", 0, 256),
    "coil": Text("Number of the coil in the order in which they are opened", 16),
    "in_stock": Word("Whether the coil is at hand and need not be bought"),
    "stock_name": Text("Name of the coil at hand", 120),
    "cuts": Items("Pieces in the order of laying", 1, 256),
    "cut_length": Number("m", 0.0, 2000.0, "Length of the piece, with the allowance at both ends"),
    "start_mark": Number("m", 0.0, 1000.0, "Metre mark of the coil at which the piece begins"),
    "end_mark": Number("m", 0.0, 1000.0, "Metre mark of the coil at which the piece ends"),
    "offcut": Number("m", 0.0, 1000.0, "What remains of the coil"),
    "to_buy": Items("Coils to buy, longest first", 0, 24),
    "all_cuts_length": Number("m", 0.0, 1e6, "All pieces with their allowances"),
    "bought_length": Number("m", 0.0, 1e6, "Length of all coils to buy"),
    "least_bought_length": Number("m", 0.0, 1e6, "Length below which no plan can buy: proven"),
    "opened_coils": Number("1", 0, 256, "Coils that are opened, those at hand included"),
    "fewest_coils": Number("1", 0, 256, "Number below which no plan that buys as little can open: proven"),
    "proven": Word("Whether no plan buys less, and none that buys as little opens fewer coils"),
    "offcut_length": Number("m", 0.0, 1e6, "What remains of all coils"),
    "usable_offcut_length": Number("m", 0.0, 1e6, "Rests of at least 10 m, worth keeping"),
    "waste_share": Number("1", 0.0, 1.0, "Share of the opened coils that does not become circuit"),
    "not_planned": Items("Ids of circuits that are longer than any coil", 0, 256, of="id"),
    # in what sizes things are ordered
    "ordering": Word("In what sizes things are ordered, what is added for waste, and prices"),
    "fixings_per_box": Number("1", 1, 100_000, "Fixings in a box"),
    "board": Word("Size of the insulation boards"),
    "layer_board": Word("Size of this layer's boards; none: that of all"),
    "board_length": Number("m", 0.2, 50.0, "Length of a board or roll of insulation"),
    "board_width": Number("m", 0.2, 5.0, "Width of a board or roll of insulation"),
    "film_roll": Word("Film over the insulation; null where the boards' own foil replaces it"),
    "film_width": Number("m", 0.2, 20.0, "Width of the film"),
    "film_length": Number("m", 1.0, 500.0, "Length of a roll of film"),
    "least_film_lap": Number("m", 0.0, 1.0, "Least lap of neighbouring sheets"),
    "film_upturn": Number(
        "m", 0.0, 0.5, "Film turned up at the edges; the thickness of the screed if not given"
    ),
    "edge_strip_roll": Number("m", 1.0, 500.0, "Edge strip on a roll"),
    "tape_roll": Number("m", 1.0, 500.0, "Tape on a roll"),
    "joint_profile_length": Number("m", 0.1, 100.0, "Length of a piece of joint profile"),
    "sleeve_length": Number("m", 0.05, 2.0, "Length of a sleeve on pipe through a joint"),
    "screed_supply": Word("How the screed comes to the site"),
    "supply_form": Word("In bags, mixed on site, or ready mixed; by binder if not given"),
    "screed_density": Number("kg/m3", 1000.0, 3000.0, "Density of the screed"),
    "bag_mass": Number("kg", 1.0, 2000.0, "Mass of a bag"),
    "bag_yield": Number("m3", 0.0005, 2.0, "Screed that a bag gives"),
    "mixer_load": Number("m3", 0.01, 10.0, "Screed that one load of the mixer gives"),
    "cement_content": Number("kg/m3", 50.0, 1000.0, "Cement in the screed"),
    "sand_content": Number("kg/m3", 500.0, 2500.0, "Sand in the screed"),
    "additive_share": Number("1", 0.0, 0.1, "Additive over cement, by mass"),
    "pump_rest": Number("m3", 0.0, 5.0, "Screed that stays in pump and hoses"),
    "manifold_parts": Word("What goes with manifolds"),
    "actuators": Word("Whether every circuit gets an actuator"),
    "port_pitch": Number("m", 0.02, 0.2, "Distance between the ports of a manifold"),
    "end_length": Number("m", 0.0, 2.0, "Width that valves and vents at both ends take in the cabinet"),
    "cabinet_widths": Items("Widths of cabinets to choose from", 1, 40, of="cabinet_width"),
    "cabinet_width": Number("m", 0.1, 5.0, "Width of a cabinet"),
    "inhibitor_share": Number("1", 0.0, 0.1, "Inhibitor over water, by volume"),
    "material_overrides": Items("What holds for single items instead of their rules", 0, 100),
    "item": Text("Id of the item, as in quantities", 120, 1),
    "override_quantity": Number(
        "1", 0.0, 1e6, "Quantity before waste, in the item's unit; the rule's if not given"
    ),
    "override_pack_size": Number(
        "1", 1e-6, 1e6, "Size of a pack in the item's unit; the rule's if not given"
    ),
    "added_waste_share": Number("1", 0.0, 10.0, "Share of the quantity that is added for waste"),
    "price_list": Word("Prices by item; without it there is no money in the answer"),
    "prices": Items("Price of each item", 1, 2000),
    "currency": Text("Currency of the prices", 12, 1),
    "unit_price": Number(
        "1", 0.0, 1e6, "Price of one unit of the item, without tax, in the currency of the list"
    ),
    # what is ordered for
    "material_circuits": Items("The circuits in the order in which they are laid", 1, 256),
    "material_areas": Items("The heated floors", 1, 64),
    "material_build_ups": Items("Layers of the floors; areas name one of them", 1, 16),
    "insulation_layers": Items("Layers of insulation boards from below; empty: the floor has none", 0, 6),
    "covering_thickness": Number("m", 0.0, 0.2, "Thickness of the covering with its bed"),
    "wall_openings": Items("Doorways, each by both jambs on the outline [m]", 0, 32, of="stretch"),
    "given_wall_length": Number(
        "m", 0.0, 5000.0, "Wall along which edge strip runs; from the outline if not given"
    ),
    "area_id": Text("The id of an area", 64),
    "material_joints": Items("Movement joints, given or due", 0, 256),
    "sleeves_given": Number("1", 0, 1000, "Pipes that pass the joint; those drawn over it if not given"),
    "due": Word("Whether the joint is due by the rules but not decided on yet"),
    "material_manifolds": Items("Manifolds that circuits name; those alone where it is empty", 0, 16),
    "balancing_valve": Word("Whether a balancing valve is needed before the manifold"),
    "mixing_set": Word("Whether the floor is fed through a mixing set"),
    "vessel_size": Number("m3", 0.001, 100.0, "Size of the expansion vessel; none: not ordered here"),
    "room_controls": Number("1", 0, 1000, "Room controls; one for each area if not given"),
    # the order
    "material_quantities": Items("Lines of the order", 0, 200),
    "quantity_status": Word(
        "needed; due: of joints that the rules ask for but nobody has decided on; if_wanted: where local practice asks"
    ),
    "quantity_unit": Text(
        "Unit of net_quantity, order_quantity and pack_size: m, m2, m3, kg, or 1 for pieces", 8
    ),
    "net_quantity": Number("1", 0.0, 1e9, "Quantity without waste, in the unit of the line"),
    "pack_size": Number("1", 0.0, 1e6, "Size of a pack, in the unit of the line"),
    "packs": Number("1", 0, 1_000_000, "Whole packs to order"),
    "order_quantity": Number("1", 0.0, 1e9, "Quantity to order with waste, in the unit of the line"),
    "quantity_rule": Text("How the quantity is counted", 400),
    "quantity_source": Text("Where the rule comes from", 400),
    "cost": Number("1", 0.0, 1e15, "Cost of the line in the currency of the price list"),
    "board_counts": Items("Boards by layer, from below", 0, 6),
    "boards": Number("1", 0, 1_000_000, "Boards for the layer in this area"),
    "cut_off": Number("m2", 0.0, 1e6, "What of the boards does not lie on the floor"),
    "circuit_quantities": Items("What each circuit takes", 0, 256),
    "fixings_on_straights": Number("1", 0, 1_000_000, "Fixings on straight pipe"),
    "fixings_at_bends": Number("1", 0, 1_000_000, "Fixings at bends"),
    "area_quantities": Items("What each floor takes, before waste", 0, 64),
    "floor_area": Number("m2", 0.0, 1e6, "Floor area net of voids"),
    "measured_on_outline": Word("Whether boards, film and edge strip were measured on an outline"),
    "pipe_in_area": Number(
        "m", 0.0, 1e6, "Pipe that lies in this floor, that of other rooms' tails included"
    ),
    "wall_length": Number("m", 0.0, 1e5, "Walls and voids along which edge strip runs"),
    "edge_strip_height": Number("m", 0.0, 1.0, "Height that the edge strip needs"),
    "film_area": Number("m2", 0.0, 1e6, "Film with laps and what is turned up"),
    "film_sheets": Items("Sheets of film as they lie", 0, 2000),
    "laid_film_lap": Number("m", 0.0, 20.0, "Lap of neighbouring sheets as laid"),
    "tape_length": Number("m", 0.0, 1e6, "Tape along laps, and along walls under flowing screed"),
    "screed_volume": Number("m3", 0.0, 1e5, "Screed without the pipe in it"),
    "total_screed_mass": Number("kg", 0.0, 1e9, "Mass of the screed in all"),
    "coil_plan": Word("Which circuits are cut from which coils"),
    "total_cost": Number("1", 0.0, 1e15, "Cost of all lines that are needed and have a price"),
    "without_price": Items("Items of this order that the price list does not have", 0, 200, of="item"),
}
