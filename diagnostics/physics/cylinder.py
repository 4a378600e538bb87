"""How far a recovery cylinder may be filled, and when liquid would fill it.

Local codes and the marks on the cylinder come first. Never above 80 %, never when the
requalification is out of date, one refrigerant to a cylinder.
"""

from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import OutOfRange
from diagnostics.physics.refrigerants import refrigerant_named
from diagnostics.physics.saturation import (
    ZERO_C,
    liquid_density_temperature,
    saturated,
    table_of,
)
from diagnostics.physics.units import shown

FILL = 0.8  # share of the volume that liquid may take
AT_25 = ZERO_C + 25
# kg/m³: water capacity is the mass of water that fills the cylinder. The round figure, instead of
# 999 at 15 °C or 997 at 25 °C, gives the lower limit of the two.
WATER = 1000.0
HOTTEST = ZERO_C + 52  # K: no cylinder is let become hotter; trade articles

Rule = Literal["water", "density"]


@dataclass(frozen=True)
class FillLimits:
    """Net mass in kg by 0.8 x water capacity, and by 0.8 x water capacity x specific gravity."""

    by_water: float
    by_density: float

    @property
    def rule(self) -> Rule:
        """The rule that gives the lower limit."""
        return "water" if self.by_water <= self.by_density else "density"

    @property
    def lower(self) -> float:
        """The limit to keep to, in kg, unless the shop's rule says otherwise."""
        return min(self.by_water, self.by_density)


def specific_gravity(refrigerant: str, kelvin: float = AT_25) -> float:
    """Density of the saturated liquid over that of water (1000 kg/m³), at a temperature in K.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: outside the table; R-744, whose cylinders follow another rule.

    """
    if refrigerant_named(refrigerant).name == "R-744":
        raise OutOfRange(
            "R-744 goes into high-pressure cylinders, filled by the ratio stamped on them: the "
            "80 % rules do not hold for it."
        )
    return saturated(refrigerant, kelvin).liquid_density / WATER


def fill_limits(water_capacity: float, gravity: float) -> FillLimits:
    """Net mass by both rules, in the unit of the water capacity.

    Source: 0.8 x WC x SG at 25 °C (77 °F) is the rule of AHRI Guideline K; 0.8 x WC is the shorter
    one in use. The shorter one overfills where the liquid is lighter than water (R-152a).

    Raises:
        OutOfRange: a water capacity or gravity that is not above zero.

    """
    if not (water_capacity > 0 and gravity > 0):
        raise OutOfRange("A water capacity is more than nothing: it stands on the cylinder as WC.")
    return FillLimits(FILL * water_capacity, FILL * water_capacity * gravity)


def net_mass(scale: float, tare: float) -> float:
    """What is in a cylinder, in kg: scale reading less tare.

    Raises:
        OutOfRange: a cylinder lighter than its tare.

    """
    if not scale >= tare:
        raise OutOfRange("Lighter than its tare: the scale or the tare (TW on the collar) is off.")
    return scale - tare


def most_that_fits(refrigerant: str, water_capacity: float) -> float:
    """Mass in kg of the densest liquid that the table has, in a cylinder of a water capacity in kg.

    Raises:
        Malformed: a refrigerant that is not known here.

    """
    table = table_of(refrigerant)
    return water_capacity / WATER * table.at("liquid_density", table.lowest)


def liquid_full_temperature(refrigerant: str, mass: float, water_capacity: float) -> float:
    """Temperature in K at which liquid fills a cylinder to the last corner, from kg and kg.

    Hotter than that it bursts or its relief opens. The steel is taken as stiff, which errs to the
    low, safe side.

    Raises:
        Malformed: a refrigerant that is not known here.
        OutOfRange: so little that liquid never fills it, or more than fits at all.

    """
    if not (mass > 0 and water_capacity > 0):
        raise OutOfRange("Mass and water capacity are more than nothing.")
    table = table_of(refrigerant)
    density = mass / water_capacity * WATER
    if density < table.at("liquid_density", table.highest):
        raise OutOfRange(
            f"So little {table.refrigerant} never fills the cylinder with liquid, up to "
            f"{shown(table.critical_kelvin - ZERO_C, 0)} °C."
        )
    if density > table.at("liquid_density", table.lowest):
        raise OutOfRange(
            f"So much {table.refrigerant} does not fit even at "
            f"{shown(table.lowest - ZERO_C, 0)} °C: mass or water capacity is not what was said."
        )
    return liquid_density_temperature(refrigerant, density)
