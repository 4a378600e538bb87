"""Air that a coil cools and dries, as computations."""

from collections.abc import Callable
from dataclasses import replace

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.humid_air import (
    AIR,
    ASHRAE,
    dry_bulb,
    must_be_told,
    told,
    told_by,
)
from diagnostics.physics.computations.refrigerant_inputs import in_figures
from diagnostics.physics.computations.units import air_of
from diagnostics.physics.cooled_air import Cooling, cooling, wettest
from diagnostics.physics.errors import OutOfRange
from diagnostics.physics.humid_air import ZERO_C, saturation_vapor_pressure
from diagnostics.physics.units import from_si, shown, with_unit

ENTERING, LEAVING = "entering_", "leaving_"
BEFORE, AFTER = "the air before the coil", "the air behind it"
FLOW = Input("flow", "Air flow, measured before the coil", "m³/h", 0, 100_000)
STATES = (
    dry_bulb(ENTERING, BEFORE),
    *told_by(ENTERING, BEFORE).values(),
    dry_bulb(LEAVING, AFTER),
    *told_by(LEAVING, AFTER).values(),
)
WATER_LEFT_OUT = (
    "how much water the leaving air holds was not told: it counts as full, or with all it brought."
)


def _cooling(inputs: Inputs) -> Cooling:
    if not float(inputs["flow"]):
        raise OutOfRange("No air flows: the coil has nothing to cool.")
    entering, leaving = must_be_told(inputs, ENTERING)(), told(inputs, LEAVING)
    after = leaving() if leaving else wettest(entering, float(inputs[f"{LEAVING}temperature"]))
    return cooling(entering, after, float(inputs["flow"]))


def _frozen(inputs: Inputs) -> bool:
    """Whether the coil has to be below freezing: no air gets drier than the coldest of it."""
    if float(inputs[f"{LEAVING}temperature"]) < ZERO_C:
        return True
    leaving = told(inputs, LEAVING)
    return leaving is not None and leaving().vapor_pressure < saturation_vapor_pressure(ZERO_C)


def _words(si: float, unit: str, decimals: int) -> str:
    return with_unit(shown(from_si(si, unit), decimals), unit)


def _drips(found: Cooling, least: str, *, frozen: bool) -> str:
    if not found.condensate:
        return "No water drips: the air is not cooled below its dew point, as far as was told."
    liters = in_figures(found.condensate, "kg/h").replace("kg/h", "kg")
    if frozen:
        return f"{least}{liters} of water an hour stay on the coil as ice: it freezes over."
    return f"{least}{liters} of water an hour drip from the coil, as many liters."


def _shares(found: Cooling, _least: str, **_frozen: bool) -> str:
    cools = _words(found.sensible_share, "%", 0)
    dries = _words(found.latent_share, "%", 0)
    return f"{cools} of the heat taken out cools the air, {dries} dries it."


def _power(found: Cooling, _least: str, *, frozen: bool) -> str:
    lost, drips = _words(found.air, "kW", 2), _words(found.drained, "W", 0)
    if frozen and found.condensate:
        return f"The air loses {lost}. Water stays on the coil as ice; its freezing is not counted."
    return f"The air loses {lost}; {drips} of it drip away, the coil takes the rest."


def _more(found: Cooling) -> dict[str, Result]:
    shares = (
        {
            "sensible_share": Result(found.sensible_share, "%"),
            "latent_share": Result(found.latent_share, "%"),
        }
        if found.air > 0
        else {}
    )
    return shares | {
        "condensate": Result(found.condensate, "kg/h"),
        "sensible": Result(found.sensible, "W"),
        "latent": Result(found.latent, "W"),
        "air_loses": Result(found.air, "W"),
        "drained": Result(found.drained, "W"),
        "coil_takes": Result(found.coil, "W"),
        "dry_air": Result(found.dry_air, "kg/h"),
    }


def _computation(
    name: str,
    words: str,
    unit: str,
    value: Callable[[Cooling], float],
    sentence: Callable[..., str],
) -> Computation:
    def run(inputs: Inputs) -> Result:
        found, open_end = _cooling(inputs), told(inputs, LEAVING) is None
        notes = [f"air pressure: {air_of(inputs).basis}"] + [WATER_LEFT_OUT] * open_end
        return Result(
            value(found),
            unit,
            None,
            sentence(found, "At least " if open_end else "", frozen=_frozen(inputs)),
            "; ".join(notes),
            _more(found),
        )

    flow = replace(FLOW, default=100.0) if unit == "%" else FLOW  # it cancels out of a share
    return Computation(name, words, (*STATES, flow, *AIR), unit, ASHRAE, run)


COMPUTATIONS: tuple[Computation, ...] = (
    _computation(
        "condensate",
        "Water that drips from a coil that cools air",
        "kg/h",
        lambda found: found.condensate,
        _drips,
    ),
    _computation(
        "sensible_share",
        "Share of the cooling that lowers the temperature (sensible heat ratio)",
        "%",
        lambda found: found.sensible_share,
        _shares,
    ),
    _computation(
        "latent_share",
        "Share of the cooling that takes water out of the air",
        "%",
        lambda found: found.latent_share,
        _shares,
    ),
    _computation(
        "air_cooling",
        "Heat that the air loses, sensible and latent together",
        "kW",
        lambda found: found.air,
        _power,
    ),
    _computation(
        "coil_cooling",
        "Heat that the coil takes up: what the air loses, less what drips away with the water",
        "kW",
        lambda found: found.coil,
        _power,
    ),
)
