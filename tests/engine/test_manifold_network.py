"""A manifold as a pipe network that EPANET solves (owa-epanet, the maintained release of the engine of the US EPA).

EPANET has the same friction law for laminar flow (Hagen and Poiseuille) and the formula of Swamee and Jain for
turbulent flow, where ours is Churchill's; both approach that of Colebrook and White within 1 %. Between them, from
Re 2000 to 4000, it interpolates: no circuit here lies there.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest
from epanet import toolkit
from tepidarium_engine.hydraulics import Circuit, HydraulicsInputs, HydraulicsResult, calculate
from tepidarium_engine.pipe import Pipe

PIPE = Pipe(outside_diameter=0.016, wall_thickness=0.002)
GRAVITY = 32.2 * 0.3048
"""As EPANET takes it [m/s2]."""
UNIT_VISCOSITY = 1.1e-5 * 0.3048**2
"""Kinematic viscosity that it calls 1 [m2/s]."""
HEATS = (640.0, 700.0, 760.0, 820.0, 120.0, 180.0, 230.0)
"""Re 4,500 to 5,800, and 850 to 1,630 [W]."""
LENGTHS = (74.0, 68.0, 71.0, 60.0, 95.0, 88.0, 52.0)

NETWORK = """
[JUNCTIONS]
{junctions}
[RESERVOIRS]
 supply {head:.9f}
 return 0
[PIPES]
{pipes}
[VALVES]
{valves}
[OPTIONS]
 UNITS LPM
 HEADLOSS D-W
 VISCOSITY {viscosity:.9f}
 ACCURACY 0.0000001
 TRIALS 500
[END]
"""


@dataclass
class Balanced:
    inputs: HydraulicsInputs
    result: HydraulicsResult

    @classmethod
    def of(cls, lengths: Sequence[float], heats: Sequence[float]) -> Balanced:
        circuits = tuple(
            Circuit(f"c{number}", length, heat)
            for number, (length, heat) in enumerate(zip(lengths, heats, strict=True))
        )
        inputs = HydraulicsInputs(PIPE, circuits, bend_allowance=0.0, flow_meter_kv=2.5, valve_kv_open=1.1)
        return cls(inputs, calculate(inputs))

    def flows(self, kvs: Sequence[float], folder: Path) -> list[float]:
        """Flows [m3/s] that EPANET finds with valves of these flow coefficients [m3/h]."""
        one = self.result.circuits[0]
        bore = PIPE.bore
        junctions, pipes, valves = [], [], []
        for circuit, kv in zip(self.inputs.circuits, kvs, strict=True):
            name = circuit.id
            junctions += [f" {name}a 0 0", f" {name}b 0 0"]
            pipes.append(
                f" {name} supply {name}a {circuit.length} {bore * 1e3} {PIPE.roughness * 1e3} {loss(2.5, bore)} Open"
            )
            # a valve in the network joins junctions
            pipes.append(f" {name}e {name}b return 0.001 100 0.001 0 Open")
            valves.append(f" {name}v {name}a {name}b {bore * 1e3} TCV {loss(kv, bore)}")
        text = NETWORK.format(
            junctions="\n".join(junctions),
            pipes="\n".join(pipes),
            valves="\n".join(valves),
            head=self.result.manifold_pressure / one.density / GRAVITY,
            viscosity=one.dynamic_viscosity / one.density / UNIT_VISCOSITY,
        )
        (folder / "manifold.inp").write_text(text)
        project = toolkit.createproject()
        toolkit.open(
            project, str(folder / "manifold.inp"), str(folder / "report.txt"), str(folder / "out.bin")
        )
        toolkit.solveH(project)
        found = [
            toolkit.getlinkvalue(project, toolkit.getlinkindex(project, circuit.id), toolkit.FLOW) / 60_000.0
            for circuit in self.inputs.circuits
        ]
        toolkit.close(project)
        toolkit.deleteproject(project)
        return found


def loss(kv: float, bore: float) -> float:
    """Loss coefficient by the velocity in the bore, of a valve that passes kv [m3/h] at 1 bar (IEC 60534-2-1)."""
    area = math.pi * bore**2 / 4.0
    return 2.0 * 1e5 / 1000.0 * (3600.0 * area / kv) ** 2


@pytest.fixture(scope="module")
def balanced() -> Balanced:
    return Balanced.of(LENGTHS, HEATS)


def test_no_circuit_lies_where_friction_is_interpolated(balanced: Balanced) -> None:
    numbers = [circuit.reynolds for circuit in balanced.result.circuits]
    assert all(number < 2000.0 or number > 4000.0 for number in numbers)
    assert sum(number < 2000.0 for number in numbers) == 3


def test_valves_as_set_give_every_circuit_its_flow(balanced: Balanced, tmp_path: Path) -> None:
    circuits = balanced.result.circuits
    found = balanced.flows([circuit.valve_kv for circuit in circuits], tmp_path)
    assert found == pytest.approx([circuit.volume_flow for circuit in circuits], rel=0.01)


def test_open_valves_share_the_flow_as_the_network_does(balanced: Balanced, tmp_path: Path) -> None:
    circuits = balanced.result.circuits
    found = balanced.flows([1.1] * len(circuits), tmp_path)
    expected = [circuit.open_same_pressure.mass_flow / circuit.density for circuit in circuits]
    assert found == pytest.approx(expected, rel=0.015)
    assert max(flow / circuit.volume_flow for flow, circuit in zip(found, circuits, strict=True)) > 1.2
