"""What two gauges and a thermometer on the suction line cannot show together.

No suction line is colder than its refrigerant boils at the pressure in it: a superheat below zero
cannot be. Source: any textbook of thermodynamics.
"""

import math
from collections.abc import Iterator

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.loop_pressures import THERMOMETER_U, Loop, absolute, loop
from diagnostics.evidence.readings import Readings, number
from diagnostics.evidence.worked_out import BEYOND_ERROR
from diagnostics.physics.cycle import difference_u, superheat
from diagnostics.physics.errors import PhysicsError

TOO_COLD = (
    "Colder than the refrigerant boils at that pressure, and a superheat below zero cannot be:"
    " gauge, thermometer or gas is not what was told."
)
A_LITTLE_TOO_COLD = (
    "A superheat below zero cannot be. So little may come of gauge and thermometer; else pressure,"
    " temperature or gas is not what was told."
)
BELOW_ZERO = "A superheat below zero cannot be: pressure, temperature or gas is not what was told."


def sides_at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    """Sides the wrong way round, a vacuum no air allows, a suction line colder than it boils."""
    sides = loop(readings, around)
    low, high = sides.low, sides.high
    for name, side in (("low", low), ("high", high)):
        if side.reading and side.pressure is None:
            yield name, "Deeper than perfect vacuum at this altitude: no gauge shows that."
    if low.pressure and high.pressure and low.pressure.pa > high.pressure.pa + low.u + high.u:
        yield "low", "The low side stands above the high side: hoses or numbers changed places."
    suction = number(readings, "suction")
    if suction and _too_cold(sides, suction.si, around):
        yield "suction", TOO_COLD


def liquid_at_odds(readings: Readings) -> Iterator[tuple[str, str]]:
    """A liquid line colder than the air that cools the condenser, beyond both thermometers."""
    liquid, air = number(readings, "liquid"), number(readings, "ambient")
    if liquid and air and liquid.si < air.si - 3 * math.sqrt(2) * THERMOMETER_U:
        yield "liquid", "Colder than the air in front of the condenser, which nothing there can do."


def _too_cold(sides: Loop, kelvin: float, around: Circumstances) -> bool:
    """Whether the line is colder than it boils, by more than gauge and thermometer may be off."""
    low = sides.low
    if low.pressure is None or low.kelvin is None:
        return False
    gas = around.system.get("refrigerant", "")
    off = difference_u(gas, low.pressure, THERMOMETER_U, low.u)
    return kelvin < low.kelvin - BEYOND_ERROR * off


def superheat_words(readings: Readings, around: Circumstances) -> Iterator[str]:
    """What to say of a superheat that is shown below zero, or nothing."""
    suction, pressure = number(readings, "suction"), absolute(number(readings, "low"), around)
    if suction is None or pressure is None:
        return
    try:
        found = superheat(around.system.get("refrigerant", ""), suction.si, pressure)
    except PhysicsError:
        return
    if round(found, suction.decimals) < 0:  # as it is shown
        sorted_here = loop(readings, around).low.kelvin is not None
        yield A_LITTLE_TOO_COLD if sorted_here else BELOW_ZERO
