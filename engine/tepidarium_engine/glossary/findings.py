"""What findings are about where it is no field of a request or of a result."""

from __future__ import annotations

from .entries import Entry, Items, Number, Text, Word

FINDINGS: dict[str, Entry] = {
    # the record
    "findings": Items("What can be computed but should be looked at, the most urgent first", 0, 10_000),
    "where": Text("JSON pointer (RFC 6901) to what the finding is about, into the document where_in", 400),
    "where_in": Word(
        "request: your request, or where you left the field out the inputs of the answer; answer: the answer"
    ),
    "value": Number("1", -1e12, 1e12, "The value concerned, in the unit of its quantity"),
    "limit": Number("1", -1e12, 1e12, "The limit concerned, in the unit of its quantity"),
    "quantity": Text("What value and limit are of: a field name, such as volume_flow", 64),
    "finding_places": Items("Every place that the finding holds for, the worst first", 1, 1000),
    "subject": Text("The room, circuit or other thing concerned, as people call it", 400),
    # quantities that only findings have
    "clear_distance": Number("m", -1e3, 1e3, "Clear distance between the outside of the pipe and a wall"),
    "crossing_count": Number("1", 0, 1e6, "Number of crossings"),
    "days_after_pour": Number("d", -1e5, 1e5, "Days from the day of the pour"),
    "downward_share": Number("1", -1e3, 1e3, "Share of the water's heat that goes down"),
    "entry_shift": Number("m", 0.0, 1e3, "From the place that was given to the one used"),
    "frost_limit": Number("degC", -200.0, 200.0, "Temperature at which a fluid must not freeze"),
    "joint_angle": Number("rad", 0.0, 1.6, "Angle between a pipe and the square to the joint that it passes"),
    "kink_angle": Number("rad", 0.0, 3.2, "Angle by which a pipe turns without a bend"),
    "limit_table_position": Number(
        "1",
        0.0,
        1e6,
        "Where a floor stands in the limit tables of EN 1264-2: cover over spacing or conductivity",
    ),
    "manifold_count": Number("1", 0, 1000, "Number of manifolds"),
    "manifold_shift": Number("m", 0.0, 1e6, "From where a manifold was given to the wall on which it stands"),
    "opening_per_length": Number("m2/m", 0.0, 1e3, "Ventilation openings for each metre of wall"),
    "pipe_side_distance": Number(
        "m", -1e3, 1e3, "Distance between two parts of the pipe, or of it to a wall"
    ),
    "pair_width": Number("m", 0.0, 100.0, "Clear width of a room, or what flow and return take side by side"),
    "ports_shift": Number("m", 0.0, 1e3, "From a manifold's position to the middle of its ports"),
    "resistance_ratio": Number("1", 0.0, 1e6, "Upper over lower bound of a resistance (ISO 6946)"),
    "side_ratio": Number("1", 0.0, 1e6, "Longer over shorter side of a field of screed"),
    "surface_spread": Number("K", 0.0, 1e3, "Warmest less coldest place of a floor's surface"),
    "temperature_rise": Number("K", 0.0, 1e3, "Rise of the supply temperature from one day to the next"),
    "temperature_share": Number("1", -1e6, 1e6, "Share of the difference to the outside"),
    "unheated_factor": Number("1", 0.0, 1e3, "Temperature factor of an unheated space"),
}
