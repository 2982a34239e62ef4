"""Words on people's safety round the screed and its first heating."""

from __future__ import annotations

from functools import lru_cache

from ..results import Caution
from .screed import Binder

__all__ = ["curing_cautions", "laying_cautions"]

_LOCAL_CODES = Caution(
    "local_codes_decide",
    "A planning aid. Local building rules, the screed maker's sheet, the approvals of the products and "
    "licensed practice decide; where they ask for more, they hold.",
)
_NO_FORCED_DRYING = Caution(
    "no_forced_drying",
    "Never heat earlier, hotter or faster to dry the screed: it shrinks, curls and cracks, and the deep "
    "moisture stays. Heating does not shorten the drying time that may be counted on.",
)
_CURING_TEMPERATURE = Caution(
    "curing_temperature",
    "Keep room and screed at 5 °C or more while pouring and for at least the 3 days after, without "
    "draught. A fresh screed that freezes is lost.",
)
_PRESSURE = Caution(
    "pressure_test_before_pour",
    "Test the loops for leaks before the pour and keep them filled and under pressure while pouring. Test "
    "with water where possible: compressed air stores energy that can kill when a fitting lets go. Wear "
    "eye protection, raise the pressure slowly and keep people away from ends and fittings.",
)
_BINDER = {
    "cement": Caution(
        "alkaline_screed",
        "Fresh cement screed is strongly alkaline and burns skin and eyes. Wear gloves, goggles and closed "
        "boots; rinse splashes at once.",
    ),
    "calcium_sulphate": Caution(
        "alkaline_screed",
        "Fresh calcium sulphate screed may be alkaline and irritates skin and eyes. Wear gloves, goggles "
        "and closed boots; keep it dry once hardened, it loses strength in lasting wet.",
    ),
}
_BINDER["calcium_sulphate_flowing"] = _BINDER["calcium_sulphate"]
_HOT_WATER = Caution(
    "first_heating_supervised",
    "Supervise the first heating. Fit a temperature limiter that stops the pump when the mixing fails; "
    "loops and manifold get hot. Pumps and controls are connected by a competent electrician.",
)
_SURFACE = Caution(
    "surface_temperature",
    "Keep the floor at or below its surface temperature limit, lower for people who cannot feel or step "
    "off heat; no thick rugs or closed furniture bases on the heated area.",
)
_NO_DRILLING = Caution(
    "no_drilling",
    "Heated floors are not to be drilled. Mark the moisture test points on the drawing before the pour and "
    "sample only there.",
)
_FROST = Caution(
    "frost_and_antifreeze",
    "Filled loops burst when they freeze. Keep the building warm, or use antifreeze, or drain the loops by "
    "blowing them out. Ethylene glycol is poisonous; never join a system with antifreeze to drinking water "
    "without the protection that EN 1717 asks for, label it, and dispose of the fluid by local rules.",
)
_COLD = 5.0


@lru_cache(maxsize=256)
def _heavy_load(mass: int) -> Caution:
    return Caution(
        "heavy_load",
        f"The screed weighs about {mass} kg on each square metre. A structural engineer must agree that the "
        "floor carries it, stacked materials included; bags and coils are heavy to lift.",
    )


def curing_cautions(binder: Binder, mass: float, lowest_air_temperature: float | None) -> tuple[Caution, ...]:
    """Cautions for a screed of ``mass`` [kg/m2]; frost is left out only when the air [degC] is known to
    stay warm."""
    common = (
        _LOCAL_CODES,
        _NO_FORCED_DRYING,
        _CURING_TEMPERATURE,
        _PRESSURE,
        _BINDER[binder],
        _heavy_load(round(mass)),
        _HOT_WATER,
        _SURFACE,
        _NO_DRILLING,
    )
    frost_free = lowest_air_temperature is not None and lowest_air_temperature >= _COLD
    return common if frost_free else (*common, _FROST)


def laying_cautions() -> tuple[Caution, ...]:
    """Cautions for those who lay the pipe."""
    return (_LOCAL_CODES, _PRESSURE, _SURFACE, _NO_DRILLING)
