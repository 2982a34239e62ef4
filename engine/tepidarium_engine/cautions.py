"""Words on people's safety: one short text for each code, wherever it is said."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from .practice.screed import Binder
from .results import Caution

__all__ = [
    "CAUTIONS",
    "COILS",
    "FLOOR",
    "HEAT_LOSS",
    "IMPORT",
    "INSULATION",
    "LAYING",
    "LENGTHS",
    "MANIFOLD",
    "MOISTURE",
    "commissioning_cautions",
    "curing_cautions",
    "once",
    "order_cautions",
    "water_cautions",
]

_HEAVY = (
    "The screed {weight}: let a structural engineer confirm that the floor carries it with stacked materials. Bags are "
    "heavy to lift."
)
CAUTIONS = {
    "local_codes_decide": "This is a planning aid. Local codes, the makers' sheets and licensed practice decide.",
    "surface_temperature": "A floor above 29 °C can burn people who stay on it, above all small children and the "
    "sick. Keep to the limit, and lay no thick rugs on it.",
    "temperature_limiter": "If the mixing fails, water that is too hot harms floor and people. Fit a limiter that "
    "works by itself and stops the pump.",
    "safety_valve_and_vessel": "Without expansion vessel, pressure gauge and a safety valve that cannot be shut off, "
    "a closed system can burst and scald (EN 12828). Let a licensed person size and check them.",
    "electrical_work": "Mains voltage kills. Let a qualified electrician connect pump, actuators and controls, with "
    "the supply off and secured.",
    "frost_and_antifreeze": "Filled loops burst when they freeze: keep the building warm, use antifreeze or blow "
    "them out. Glycol can poison: keep it out of drinking water (EN 1717).",
    "glycol": "Ethylene glycol is poisonous: keep it out of drinking water (EN 1717), label the system and dispose "
    "of it by local rules. Check the frost point with a refractometer: the figures are for pure glycol.",
    "pressure_test_before_pour": "Test the loops with water before the pour, and keep them under pressure while "
    "pouring. Compressed air can kill when a fitting lets go: raise it slowly, wear eye protection and keep people "
    "away.",
    "no_forced_drying": "Never heat earlier, hotter or faster to dry the screed: it cracks, and moisture stays deep "
    "inside.",
    "curing_temperature": "Keep room and screed at 5 °C or more, without draught, at the pour and for 3 days after. "
    "A fresh screed that freezes is lost.",
    "alkaline_screed": "Fresh screed burns skin and eyes. Wear gloves, goggles and closed boots, and rinse splashes "
    "at once.",
    "keep_screed_dry": "Calcium sulphate screed loses its strength where it stays wet. Keep it dry once it has "
    "hardened.",
    "first_heating_supervised": "Loops and manifold get hot at the first heating. Do not leave it unattended.",
    "no_drilling": "Do not drill into a heated floor. Mark places for moisture tests before the pour, and take "
    "samples only there.",
    "chimney_distance": "Keep pipe 200 mm from chimneys, open fireplaces and shafts (EN 1264-4). Enlarge their "
    "voids: the calculation does not know them.",
    "real_building_decides": "A heat loss is as true as its U-values: look at the walls and windows that are there. "
    "Heating sized for insulation that was never built leaves people cold and lets pipes freeze.",
    "inspector_decides": "Energy rules usually ask for more insulation than EN 1264-4. Ask the building inspector "
    "before the insulation is covered.",
    "approved_products": "Boards that give way crack the screed and hurt the pipes. Use insulation that is approved "
    "for the load and the place, and keep damp out with a layer of its own.",
    "compressed_air": "A fitting that lets go under compressed air kills. Keep everybody out of the area, raise the "
    "pressure in steps, and ask whether local rules allow this test.",
    "heavy_coils": "A coil of 500 m weighs 40 to 60 kg. Lift it with two people or use a decoiler, and secure it "
    "against rolling.",
    "heavy_load": _HEAVY.format(weight="is heavy"),
    "carbide_test": "The carbide test sets free acetylene, which explodes. Keep flames away, ventilate well and wear "
    "goggles.",
}
"""Every caution by code; that of a heavy load names the weight where it is known."""


_BY_CODE = {code: Caution(code, text) for code, text in CAUTIONS.items()}


def _cautions(*codes: str) -> tuple[Caution, ...]:
    return tuple([_BY_CODE[code] for code in codes])


FLOOR = _cautions("local_codes_decide", "surface_temperature", "temperature_limiter")
"""A floor that gives heat."""
HEAT_LOSS = _cautions("local_codes_decide", "real_building_decides")
IMPORT = _cautions("local_codes_decide", "real_building_decides", "chimney_distance")
"""A plan read from a file."""
INSULATION = _cautions("local_codes_decide", "inspector_decides", "approved_products")
LENGTHS = _cautions("local_codes_decide", "chimney_distance")
MANIFOLD = _cautions("local_codes_decide", "pressure_test_before_pour", "no_drilling")
COILS = _cautions("local_codes_decide", "heavy_coils")
MOISTURE = _cautions("local_codes_decide", "no_drilling", "carbide_test")
LAYING = (*LENGTHS, *_cautions("pressure_test_before_pour", "surface_temperature", "no_drilling"))
"""Those who lay the pipe."""
_FROST = 5.0
"""Air that stays as warm keeps filled loops from freezing [degC]."""


def water_cautions(glycol: bool) -> tuple[Caution, ...]:
    """Pump, source and fluid."""
    return _cautions(
        "local_codes_decide",
        "safety_valve_and_vessel",
        "temperature_limiter",
        "electrical_work",
        "glycol" if glycol else "frost_and_antifreeze",
    )


def curing_cautions(binder: Binder, mass: float, lowest_air_temperature: float | None) -> tuple[Caution, ...]:
    """A screed of ``mass`` [kg/m2] and its first heating; frost is left out only where the air [degC] is known to stay
    warm."""
    return (
        *_cautions(
            "local_codes_decide",
            "pressure_test_before_pour",
            "curing_temperature",
            "alkaline_screed",
            *(() if binder == "cement" else ("keep_screed_dry",)),
        ),
        _heavy_load(round(mass)),
        *_cautions(
            "no_forced_drying",
            "first_heating_supervised",
            "temperature_limiter",
            "surface_temperature",
            "electrical_work",
            "no_drilling",
        ),
        *(
            ()
            if lowest_air_temperature is not None and lowest_air_temperature >= _FROST
            else _cautions("frost_and_antifreeze")
        ),
    )


def order_cautions(mass: float, glycol: bool) -> tuple[Caution, ...]:
    """What is delivered and lifted; ``mass`` [kg/m2] of the screed."""
    codes = ("alkaline_screed", "glycol") if glycol else ("alkaline_screed",)
    return once((*COILS, _heavy_load(round(mass)), *_cautions(*codes)))


def commissioning_cautions(air: bool, glycol: bool) -> tuple[Caution, ...]:
    """Leak test, with compressed air or not, filling and first heating."""
    return _cautions(
        "local_codes_decide",
        "pressure_test_before_pour",
        *(("compressed_air",) if air else ()),
        "safety_valve_and_vessel",
        "glycol" if glycol else "frost_and_antifreeze",
        "electrical_work",
        "no_forced_drying",
        "first_heating_supervised",
        "temperature_limiter",
    )


@lru_cache(maxsize=256)
def _heavy_load(mass: int) -> Caution:
    return Caution("heavy_load", _HEAVY.format(weight=f"weighs about {mass} kg/m2"))


def once(said: Iterable[Caution]) -> tuple[Caution, ...]:
    """Each code once, in the order in which they come; what local codes say comes first."""
    found: dict[str, Caution] = {}
    for caution in said:
        found.setdefault(caution.code, caution)
    return tuple(sorted(found.values(), key=lambda one: one.code != "local_codes_decide"))
