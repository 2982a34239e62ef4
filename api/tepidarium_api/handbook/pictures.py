"""A picture for each calculation, of the answer to its example."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import msgspec

from ..calculations import SVG
from .answers import answered, calculation_of, content_as, request_of
from .charts import Axis, Bar, Line, bars, lines, plan
from .sketches import SKETCHES
from .term_sketches import TERM_SKETCHES
from .wording import number

__all__ = ["PICTURES"]

_KPA, _MM, _PERCENT = 1e-3, 1e3, 100.0


def _drawn(example: str) -> Callable[[], bytes]:
    return lambda: content_as(example, SVG)


def _heat_loss() -> bytes:
    rows = [
        Bar(
            room["name"],
            (room["transmission_loss"], room["ventilation_loss"], room["reheat_power"]),
            f"{room['heat_demand']:.0f} W",
        )
        for room in answered("heat-loss")["rooms"]
    ]
    return bars(
        "What each room needs in the design winter", rows, "W", ("through elements", "by air", "reheat")
    )


def _insulation_check() -> bytes:
    found = answered("insulation-check")
    rows = [Bar("insulation as given", (found["actual_resistance"],), number(found["actual_resistance"], 3))]
    rows += [
        Bar(
            rule["rule"].replace("_", " "),
            (rule["required_resistance"],),
            number(rule["required_resistance"], 3),
        )
        for rule in found["rules"]
    ]
    limit = [("required", found["required_resistance"])]
    return bars("Insulation below the pipes against each rule", rows, "m²·K/W", limits=limit)


def _heat_output() -> bytes:
    calculation, request = calculation_of("heat-output"), request_of("heat-output")
    curves = []
    for spacing in (0.1, 0.15, 0.2, 0.3):
        asked = request | {"pipe_spacing": spacing}
        found = calculation.calculate(msgspec.convert(asked, calculation.inputs))
        most = found.limit_excess_temperature
        curves.append(Line(f"{spacing * _MM:.0f} mm", [(0.0, 0.0), (most, found.limit_heat_output)]))
    limits = [("surface limit", max(curve.places[-1][1] for curve in curves))]
    across, upwards = Axis("mean excess temperature, K", 0.0, 30.0), Axis("heat output, W/m²", 0.0, 110.0)
    return lines("Heat output of the example's floor, up to its limit", across, upwards, curves, limits)


def _supply_temperature() -> bytes:
    rows = [
        Bar(
            f"{option['pipe_spacing'] * _MM:.0f} mm",
            (option["supply_temperature"],),
            f"{option['supply_temperature']:.1f} °C" + (", chosen" if option["chosen"] else ""),
        )
        for option in answered("supply-temperature")["options"]
    ]
    return bars("Supply that each pipe spacing needs", rows, "°C")


def _curing_plan() -> bytes:
    days = answered("curing-plan")["daily_programme"]
    rows = [
        Bar(f"day {day['day']}", (day["supply_temperature"],), f"{day['supply_temperature']:.0f} °C")
        for day in days
    ]
    return bars("First heat-up: supply temperature on each day after the pour", rows, "°C")


def _moisture_reading() -> bytes:
    found = answered("moisture-reading")["readings"]
    rows = [
        Bar(each["point"], (each["moisture"] * _PERCENT,), number(each["moisture"] * _PERCENT, 3))
        for each in found
    ]
    limit = [("limit", found[0]["highest"] * _PERCENT)]
    return bars("Readings by the carbide method", rows, "CM-%", limits=limit)


def _loop_length() -> bytes:
    found = answered("loop-length")
    rows = [
        Bar(
            f"circuit {each['id']}",
            (each["field_length"], each["tail_length"]),
            f"{each['total_length']:.1f} m",
        )
        for each in found["circuits"]
    ]
    return bars(
        "Circuits and the longest permitted",
        rows,
        "m",
        ("field", "tails"),
        [("longest", found["maximum_circuit_length"])],
    )


def _manifold_position() -> bytes:
    request, found = request_of("manifold-position"), answered("manifold-position")
    rooms = [(room.get("name") or room["id"], room["outline"]) for room in request["rooms"]]
    marks = [("manifold", manifold["place"]) for manifold in found["manifolds"]]
    marks += [("", doorway["place"]) for doorway in request.get("doorways", ())]
    return plan("Where the manifold makes the tails shortest; dots are doorways", rooms, marks=marks)


def _hydraulics() -> bytes:
    parts = ("pressure_drop", "valve_pressure_drop", "fixed_pressure_drop")
    rows = [
        Bar(each["id"], tuple(each[part] * _KPA for part in parts), f"{each['volume_flow'] * 6e4:.2f} l/min")
        for each in answered("hydraulics")["circuits"]
    ]
    return bars(
        "Pressure over each circuit after balancing", rows, "kPa", ("pipe", "presetting valve", "flow meter")
    )


def _coil_plan() -> bytes:
    rows = []
    for coil in answered("coil-plan")["coils"]:
        cuts = tuple(cut["end_mark"] - cut["start_mark"] for cut in coil["cuts"])
        rows.append(Bar(f"coil {coil['coil']}, {coil['length']:.0f} m", cuts, f"rest {coil['offcut']:.1f} m"))
    return bars("Which circuits are cut from which coil", rows, "m", ("first cut", "second", "third"))


def _materials() -> bytes:
    rows = [
        Bar(
            each["name"].split(",")[0],
            (each["net_quantity"], each["order_quantity"] - each["net_quantity"]),
            f"{number(each['order_quantity'], 4)} {each['unit']}",
        )
        for each in answered("materials")["quantities"]
        if each["unit"] in {"m", "m2"} and each["status"] == "needed"
    ]
    return bars(
        "Lengths and areas of the order", rows, "m and m²", ("needed", "more because of packs and cuts")
    )


def _laying_sheets() -> bytes:
    request = request_of("laying-sheets")
    rooms = [(room.get("name") or room["id"], room["outline"]) for room in request["rooms"]]
    sheet = answered("laying-sheets")["sheets"][0]
    steps = [(f"{step['number']}", step["start"]) for step in sheet["steps"] if step["kind"] == "straight"]
    way = [step["start"] for step in sheet["steps"]]
    return plan("The first points of the steps, in the order of laying", rooms, [way], steps)


def _commissioning() -> bytes:
    rows = [
        Bar(each["circuit"], (each["flushing_time"] / 60.0,), f"{each['flushing_time'] / 60.0:.1f} min")
        for each in answered("commissioning")["flushing"]
    ]
    return bars("How long each circuit is flushed", rows, "min")


def _estimates() -> bytes:
    found = answered("estimates")
    rows = []
    for name in ("pipe_length", "circuit_count", "heat_output", "supply_temperature"):
        each = found[name]
        low, likely, high = (each[key] / each["likely"] * _PERCENT for key in ("low", "likely", "high"))
        note = (
            f"{number(each['low'], 3)} to {number(each['high'], 3)} {each['unit'].removeprefix('1')}".strip()
        )
        rows.append(
            Bar(name.replace("_", " "), (low, likely - low, high - likely), note.replace("degC", "°C"))
        )
    return bars(
        "Low, likely and high, as shares of the likely value",
        rows,
        "%",
        ("up to low", "up to likely", "up to high"),
    )


def _plan_imports() -> bytes:
    request = answered("plan-imports")["request"]
    rooms = [(room["name"], room["outline"]) for room in request["rooms"]]
    return plan(
        "Rooms taken from the file; dots are doorways",
        rooms,
        marks=[("", each["place"]) for each in request["doorways"]],
    )


PICTURES: Mapping[str, Callable[[], bytes]] = {
    **SKETCHES,
    **TERM_SKETCHES,
    "heat-loss": _heat_loss,
    "insulation-check": _insulation_check,
    "heat-output": _heat_output,
    "floor-section": _drawn("floor-section"),
    "supply-temperature": _supply_temperature,
    "curing-plan": _curing_plan,
    "moisture-reading": _moisture_reading,
    "loop-length": _loop_length,
    "routes": _drawn("routes"),
    "manifold-position": _manifold_position,
    "hydraulics": _hydraulics,
    "coil-plan": _coil_plan,
    "materials": _materials,
    "laying-sheets": _laying_sheets,
    "commissioning": _commissioning,
    "designs": _drawn("house"),
    "two-storeys": _drawn("two-storeys"),
    "design-options": _drawn("design-options"),
    "design-sensitivity": _drawn("design-sensitivity"),
    "heating-season": _drawn("heating-season"),
    "estimates": _estimates,
    "plan-imports": _plan_imports,
}
"""Name of a picture -> what draws it."""
