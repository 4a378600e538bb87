"""What a pressure that moves in a closed loop means as a leak, and as refrigerant a year.

Gas in or out: pressure change a second x volume, in Pa·m³/s. As refrigerant: the same hole, taken
as a narrow crack with laminar flow, lets gas through by the difference of the squares of the two
pressures (any handbook of leak testing), by the amount of gas. Viscosities are left out: air is
about 1.6 times as viscous as R-134a vapor, so as refrigerant a leak is even larger. The shape of a
real leak is not known; an equivalent is good to a factor of two or three.
"""

import math
from dataclasses import dataclass

from diagnostics.physics.atmosphere import SEA_LEVEL
from diagnostics.physics.charge import LOOP_VOLUME
from diagnostics.physics.errors import Malformed, OutOfRange
from diagnostics.physics.helmholtz import equation_of
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.saturation import above_zero, saturation_pressure

REST_KELVIN = 298.15  # the loop in the yard, at rest at 25 °C, in which the leak is counted
NOTHING = Absolute(0.0)
STANDARD = "R-134a"


@dataclass(frozen=True)
class Loop:
    """What is assumed of the loop that leaks: volume in m³, its refrigerant, at rest at K, the air.

    Raises:
        Malformed: a refrigerant that is not known here.
        OutOfRange: no volume; so cold that the loop at rest presses no more than the air.

    """

    volume: float = LOOP_VOLUME
    refrigerant: str = STANDARD
    rest_kelvin: float = REST_KELVIN
    air: Absolute = SEA_LEVEL

    def __post_init__(self) -> None:
        if not (self.volume > 0 and math.isfinite(self.volume)):
            raise OutOfRange("A loop has some volume: more than nothing.")
        if self.rest <= self.air:
            raise OutOfRange("So cold a loop presses no more than the air: nothing leaks out.")

    @property
    def rest(self) -> Absolute:
        """Pressure of the loop at rest, liquid and vapor together."""
        return saturation_pressure(self.refrigerant, self.rest_kelvin)

    @property
    def drive(self) -> float:
        """What drives refrigerant out: difference of the squares, in Pa²."""
        return _drive(self.rest, self.air)


def gas_flow(rate: float, volume: float) -> float:
    """Pa·m³/s into or out of a volume in m³ whose pressure moves by `rate` Pa a second.

    Raises:
        Malformed: not a finite number.
        OutOfRange: no volume.

    """
    if not math.isfinite(rate):
        raise Malformed("That is no number.")
    if not (volume > 0 and math.isfinite(volume)):
        raise OutOfRange("A loop has some volume: more than nothing.")
    return rate * volume


def refrigerant_flow(
    flow: float, kelvin: float, inside: Absolute, outside: Absolute, loop: Loop
) -> float:
    """Refrigerant in kg/s that the leak would let out at rest.

    `flow` Pa·m³/s of gas at K, driven by the pressures on its two sides, whichever is higher.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero.
        OutOfRange: the same pressure on both sides.

    """
    above_zero(kelvin)
    drive = _drive(inside, outside)
    if not drive:
        raise OutOfRange("The same pressure on both sides: nothing flows through any leak.")
    constant = equation_of(loop.refrigerant).gas_constant
    return flow / (constant * kelvin) * loop.drive / abs(drive)


def pressure_rate(
    kilogram: float, kelvin: float, inside: Absolute, outside: Absolute, loop: Loop
) -> float:
    """By how many Pa a second a loop's pressure moves with a leak of so many kg/s of refrigerant.

    The way back of `refrigerant_flow`; the amount, without a sign for in or out.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero.
        OutOfRange: the same pressure on both sides.

    """
    if not math.isfinite(kilogram):
        raise Malformed("That is no number.")
    one = refrigerant_flow(loop.volume, kelvin, inside, outside, loop)
    return kilogram / one


def _drive(one: Absolute, other: Absolute) -> float:
    return one.pa**2 - other.pa**2
