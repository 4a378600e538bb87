"""Air that a cooling coil cools and dries: the water that drips, and where the cooling goes.

ASHRAE Handbook Fundamentals 2017, chapter 1, "Moist air cooling and dehumidification".
"""

import math
from dataclasses import dataclass

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.humid_air import (
    MASS_RATIO,
    ROUNDING,
    ZERO_C,
    HumidAir,
    saturation_vapor_pressure,
)

WATER_HEAT = 4_186.0  # J/(kg K) of liquid water, as in the wet bulb's equation


@dataclass(frozen=True)
class Cooling:
    """What becomes of the air: kilograms a second of dry air and of condensate, and watts.

    `sensible` cools the air, `latent` is the heat of the vapor that turned into water, `drained`
    the little of it that is still in the water that drips (below 0 °C: as if not frozen).
    """

    dry_air: float
    condensate: float
    sensible: float
    latent: float
    drained: float

    @property
    def air(self) -> float:
        """Watts that the air lost, sensible and latent together."""
        return self.sensible + self.latent

    @property
    def coil(self) -> float:
        """Watts that the coil took up: what the air lost, less what drips away with the water."""
        return self.air - self.drained

    @property
    def sensible_share(self) -> float:
        """The sensible part of what the air lost, from 0 to 1 (sensible heat ratio).

        Raises:
            OutOfRange: the air lost no heat.

        """
        if self.air <= 0:
            raise OutOfRange("No heat was taken from that air: it has no shares.")
        return self.sensible / self.air

    @property
    def latent_share(self) -> float:
        """The rest: the part that dried the air, from 0 to 1.

        Raises:
            OutOfRange: the air lost no heat.

        """
        return 1 - self.sensible_share


def cooling(entering: HumidAir, leaving: HumidAir, flow: float) -> Cooling:
    """The cooling of `flow` cubic meters a second of entering air.

    Sensible: from one temperature to the other with the water that stays. Latent: the rest of the
    enthalpy, at the entering temperature.

    Raises:
        Malformed: not a finite number.
        Impossible: an air flow below zero, two air pressures.
        OutOfRange: air that leaves warmer or with more water than it came in.

    """
    if not math.isfinite(flow):
        raise Malformed("That is no number.")
    if flow < 0:
        raise Impossible("An air flow below zero: entering and leaving air are exchanged.")
    if entering.pressure != leaving.pressure:
        raise Impossible("Both are the air of one place: it has one pressure.")
    if leaving.kelvin > entering.kelvin:
        raise OutOfRange("The air leaves warmer than it came in: that is heating.")
    if leaving.humidity_ratio > entering.humidity_ratio * (1 + ROUNDING):
        raise OutOfRange(
            "More water leaves with the air than came in: a coil that cools only takes water out; "
            "a wet one that has stopped cooling gives it back."
        )
    dry_air = flow / entering.volume
    condensate = dry_air * max(0.0, entering.humidity_ratio - leaving.humidity_ratio)
    at_entry = HumidAir(entering.kelvin, leaving.humidity_ratio, entering.pressure).enthalpy
    return Cooling(
        dry_air,
        condensate,
        dry_air * (at_entry - leaving.enthalpy),
        dry_air * max(0.0, entering.enthalpy - at_entry),
        condensate * WATER_HEAT * (leaving.kelvin - ZERO_C),
    )


def wettest(entering: HumidAir, kelvin: float) -> HumidAir:
    """The moistest air that can leave a coil at a temperature in K: full, or with all it brought.

    Raises:
        OutOfRange: a temperature for which the formulas of humid air do not hold.
        Impossible: below absolute zero.
        Malformed: not a finite number.

    """
    vapor, pressure = saturation_vapor_pressure(kelvin).pa, entering.pressure
    if vapor >= entering.vapor_pressure.pa:
        return HumidAir(kelvin, entering.humidity_ratio, pressure)
    return HumidAir(kelvin, MASS_RATIO * vapor / (pressure.pa - vapor), pressure)
