"""Published coefficients of the fluids' properties.

Melinder's are for mass fractions (viscosity as ln of mPa.s). The sets by volume are the bivariate polynomials
that CoolProp fitted to the tables of the ASHRAE Handbook Fundamentals 2001, ch. 21 (viscosity as ln of Pa.s).
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["GLYCOLS", "GlycolSet", "Polynomial"]

Polynomial = tuple[tuple[float, ...], ...]
"""Rows by power of temperature above the base [K], columns by power of concentration above the base [1]."""


@dataclass(frozen=True, slots=True, eq=False)
class GlycolSet:
    """One published set for one glycol in water. Temperatures in kelvin, as published."""

    source: str
    minimum_concentration: float
    base_concentration: float
    base_temperature: float
    density: Polynomial
    heat_capacity: Polynomial
    thermal_conductivity: Polynomial
    log_viscosity: Polynomial
    viscosity_unit: float
    freezing_point: tuple[float, ...]
    freezing_is_log: bool


_MELINDER = "Melinder 2010, Properties of secondary working fluids for indirect systems, IIR"
_ASHRAE = "ASHRAE Handbook Fundamentals 2001, ch. 21, as fitted in CoolProp"

_PROPYLENE_MASS = GlycolSet(
    source=f"{_MELINDER}, propylene glycol",
    minimum_concentration=0.01,
    base_concentration=0.307031,
    base_temperature=305.8583,
    density=(
        (1018.0, 76.04, -24.98, -155.0, -113.1, 234.2),
        (-0.5406, -0.945, 0.27, 2.829, -2.221),
        (-2.666e-3, 5.541e-3, -4.018e-3, -7.175e-3),
        (1.347e-5, -1.343e-5, 3.376e-5),
    ),
    heat_capacity=(
        (3882.0, -1304.0, -1598.0, 353.9, 5000.0, -4959.0),
        (2.699, 5.07, 0.9534, 31.02, -71.35),
        (-1.659e-3, -4.752e-3, 0.1167, -0.295),
        (-1.032e-5, 1.522e-4, -4.87e-4),
    ),
    thermal_conductivity=(
        (0.4513, -0.4795, 0.2076, -0.09083, -0.05952, 0.2104),
        (7.955e-4, -1.678e-3, 1.563e-3, -2.518e-3, -3.605e-3),
        (3.482e-8, 8.941e-6, -4.615e-5, 6.543e-5),
        (-5.966e-9, 1.493e-8, 9.897e-8),
    ),
    log_viscosity=(
        (0.6837, 3.328, 0.5453, -3.9, -1.587, 35.64),
        (-3.045e-2, -3.984e-2, -8.6e-4, 0.1054, 4.475e-2),
        (2.525e-4, 4.332e-4, -1.593e-4, -1.589e-3),
        (-1.399e-6, -1.86e-6, -4.465e-7),
    ),
    viscosity_unit=1e-3,
    freezing_point=(259.9, -66.31, -109.4, -228.3, -340.9, 146.5),
    freezing_is_log=False,
)

_ETHYLENE_MASS = GlycolSet(
    source=f"{_MELINDER}, ethylene glycol",
    minimum_concentration=0.01,
    base_concentration=0.308462,
    base_temperature=304.878,
    density=(
        (1034.0, 131.1, 0.749, -106.2, -96.23, 489.1),
        (-0.4781, -0.6876, 0.7855, 1.229, -7.211),
        (-2.692e-3, 4.805e-3, -3.995e-3, -1.153e-2),
        (4.725e-6, 1.69e-6, 4.982e-5),
    ),
    heat_capacity=(
        (3737.0, -1799.0, -993.3, 2610.0, 1537.0, -16180.0),
        (2.93, 10.46, 3.516, -1.189, -42.72),
        (-4.675e-3, -4.147e-2, 5.109e-2, -0.1643),
        (-1.389e-5, 1.847e-5, -7.138e-4),
    ),
    thermal_conductivity=(
        (0.472, -0.4286, 0.1747, 0.03017, -0.1322, 0.2678),
        (8.903e-4, -1.473e-3, 6.814e-4, -2.412e-3, 2.555e-3),
        (-1.058e-6, 1.059e-5, -3.612e-5, 4.004e-5),
        (-2.789e-9, -1.142e-8, 2.365e-8),
    ),
    log_viscosity=(
        (0.4705, 2.471, 0.03328, 1.659, 3.089, -18.65),
        (-2.55e-2, -1.171e-2, 1.086e-2, 3.157e-3, 1.831e-2),
        (1.782e-4, 1.052e-4, 1.051e-4, 4.063e-4),
        (-7.669e-7, -1.634e-6, -6.475e-6),
    ),
    viscosity_unit=1e-3,
    freezing_point=(257.9, -80.8, -133.4, -72.93, 100.6, 11.4),
    freezing_is_log=False,
)

_PROPYLENE_VOLUME = GlycolSet(
    source=f"{_ASHRAE}, propylene glycol",
    minimum_concentration=0.1,
    base_concentration=0.35,
    base_temperature=305.65,
    density=(
        (1026.177, 72.53677, -65.32547, 34.66575, -15.82785, -213.9879),
        (-0.5350059, -0.5056296, 0.1751278, -0.092333, 0.02877433),
        (-0.002566157, -0.0001703579, 0.001165892, -0.000207517),
        (-5.177316e-09, 9.673169e-09, 3.368862e-07),
    ),
    heat_capacity=(
        (3815.392, -1391.877, -1121.4, -419.3939, -243.53, 4054.145),
        (3.025751, 5.558605, -0.1073388, 0.5290725, -2.262081),
        (4.165345e-05, -9.032069e-05, -0.003392169, 0.01079472),
        (-4.30948e-07, -1.33518e-06, 3.538903e-05),
    ),
    thermal_conductivity=(
        (0.4329771, -0.4535551, 0.1845012, -0.2435214, 0.06266485, 1.891363),
        (0.0007338869, -0.001966849, 0.0009861397, -1.817568e-05, -0.001628752),
        (-5.424175e-06, 1.100798e-05, -3.754805e-06, 5.476691e-07),
        (5.879755e-10, -6.777231e-10, -2.213073e-08),
    ),
    log_viscosity=(
        (-6.025825, 3.573663, -1.995205, -6.42511, 36.01949, 53.50879),
        (-0.03284399, -0.03838339, 0.08223532, 0.01520795, -1.123741),
        (0.0002492009, 0.0003529886, -0.0005119547, -0.0006572286),
        (-1.155771e-06, -1.216539e-06, 3.230125e-06),
    ),
    viscosity_unit=1.0,
    freezing_point=(5.546103, -0.326277, -0.6666873, -0.8800598, -1.071417, -1.875782),
    freezing_is_log=True,
)

_ETHYLENE_VOLUME = GlycolSet(
    source=f"{_ASHRAE}, ethylene glycol",
    minimum_concentration=0.1,
    base_concentration=0.35,
    base_temperature=305.65,
    density=(
        (1047.337, 140.4485, -48.70559, 71.41693, 52.4585, -693.3962),
        (-0.4505054, -0.3001582, -0.03952614, 0.02496264, -0.06817576),
        (-2.432696e-3, -2.084384e-5, 3.108353e-4, -8.979712e-4),
        (-3.72545e-9, 1.044784e-6, -4.391164e-6),
    ),
    heat_capacity=(
        (3596.551, -1707.073, -444.7538, -552.7923, -715.9059, 7905.301),
        (3.096886, 5.184379, -0.7061384, 0.7949891, -0.6689394),
        (-3.388642e-5, 3.639717e-4, 9.169943e-4, -5.359818e-3),
        (3.171299e-7, -2.457345e-6, 1.419543e-5),
    ),
    thermal_conductivity=(
        (0.4453745, -0.4067857, 0.2325883, -0.1569133, -0.1074279, 1.192263),
        (8.706814e-4, -1.560464e-3, 7.90936e-4, -2.926925e-5, -2.372089e-4),
        (-5.352757e-6, 1.082907e-5, -6.117302e-6, 5.716025e-6),
        (-1.560759e-10, -6.139943e-9, 3.179827e-8),
    ),
    log_viscosity=(
        (-6.319551, 2.881296, 0.8374394, -19.29626, -13.10981, 252.8586),
        (-2.410848e-2, -1.593008e-2, -6.961209e-3, -6.322254e-2, -0.2651482),
        (1.764482e-4, 1.708786e-4, -4.014337e-4, -2.4771e-4),
        (-1.315418e-6, -1.745316e-6, 9.973464e-6),
    ),
    viscosity_unit=1.0,
    freezing_point=(5.534468, -0.3574293, -0.6535113, -0.9039166, 1.048048, 4.622116),
    freezing_is_log=True,
)

GLYCOLS: dict[tuple[str, str], GlycolSet] = {
    ("propylene_glycol", "mass"): _PROPYLENE_MASS,
    ("propylene_glycol", "volume"): _PROPYLENE_VOLUME,
    ("ethylene_glycol", "mass"): _ETHYLENE_MASS,
    ("ethylene_glycol", "volume"): _ETHYLENE_VOLUME,
}
