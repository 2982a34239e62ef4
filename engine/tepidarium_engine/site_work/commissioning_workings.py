"""The chain of values behind commissioning."""

from __future__ import annotations

import math

from ..results import Working
from .commissioning_outcome import CommissioningResult
from .commissioning_records import CommissioningInputs

__all__ = ["commissioning_workings"]

_ARITHMETIC = "Arithmetic"
_LAME = "Lame, thick-walled cylinder; elastic values of the pipe from memory of makers' sheets"


def commissioning_workings(inputs: CommissioningInputs, result: CommissioningResult) -> tuple[Working, ...]:
    """Leak test first, then circuit by circuit, frost and joints."""
    test, plan, drift = inputs.leak_test, result.leak_test, result.leak_test.drift
    length = math.fsum(circuit.length for circuit in inputs.circuits)
    slope = (
        "p_abs / T" if plan.medium == "air" else "(b_w (1 - a) + a / T - 3 a_p) / (k (1 - a) + C + a / p_abs)"
    )
    rows: list[tuple[str, str, float, str, str, str]] = [
        ("L", "pipe of all circuits", length, "m", "sum of the circuits", "Input"),
        (
            "V",
            "content of the system",
            result.system_volume,
            "m3",
            "given, or pi/4 bore^2 L + V_add",
            _ARITHMETIC,
        ),
        (
            "p",
            "test pressure above atmospheric",
            plan.test_pressure,
            "Pa",
            "given, or by the standard",
            "EN 1264-4:2021",
        ),
        ("t", "temperature at the test", test.test_temperature, "degC", "given", "Input"),
        ("dp/dT", "reading over temperature", drift.pressure_per_kelvin, "Pa/K", slope, _LAME),
        ("dT", "change of temperature", drift.temperature_change, "K", "given", "Input"),
        ("dp", "change of the reading", drift.pressure_change, "Pa", "dp/dT x dT", _ARITHMETIC),
        (
            "V_l",
            "water lost for 0.1 bar",
            drift.volume_for_loss,
            "m3",
            "10 kPa x V (k (1 - a) + C + a / p_abs); air: 10 kPa V / p_abs",
            _LAME,
        ),
        (
            "E",
            "energy stored in the test",
            plan.test_energy,
            "J",
            "air isentropic, water 1/2 k p^2 V",
            "Thermodynamics",
        ),
    ]
    for row in result.flushing:
        rows += [
            (
                f"V'_{row.circuit}",
                f"flushing flow of {row.circuit}",
                row.volume_flow,
                "m3/s",
                "pi/4 bore^2 v",
                _ARITHMETIC,
            ),
            (
                f"t_{row.circuit}",
                f"flushing time of {row.circuit}",
                row.flushing_time,
                "s",
                "n L / v",
                _ARITHMETIC,
            ),
        ]
    for option in result.antifreeze:
        if option.glycol_volume is not None:
            rows.append(
                (
                    f"V_{option.fluid}",
                    f"{option.fluid.replace('_', ' ')} for the frost temperature",
                    option.glycol_volume,
                    "m3",
                    "x V, x from the freezing points by volume",
                    "ASHRAE Handbook Fundamentals 2001, ch. 21, as fitted in CoolProp",
                )
            )
    for joint in result.joint_movements:
        rows.append(
            (
                f"dl_{joint.id}",
                f"movement of joint {joint.id}",
                joint.movement,
                "m",
                "a_s dT (l_1 + l_2) / 2",
                "Thermal expansion of screed, trade texts",
            )
        )
    return tuple(Working(*row) for row in rows)
