"""Where pure water and ice turn to vapor. For a pumped loop, in which no air is.

Over water: IAPWS R7-97(2012), region 4, from 0 °C to the critical point (equation 30, and 31 the
other way round). Over ice: IAPWS R14-08(2011), equation 6, from 50 K to 0.01 °C. The two meet at
the triple point within 0.0001 Pa.
"""

import math

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.root import crossing

TRIPLE_KELVIN = 273.16
TRIPLE_PRESSURE = Absolute(611.657)  # about 4588 micron: below it there is ice and vapor, no water
CRITICAL_KELVIN = 647.096
COLDEST = 50.0
FREEZES = 273.15
THINNEST = Absolute(1e-30)  # Pa: ice at 62 K, and less than any gauge shows

_N = (
    1167.0521452767, -724213.16703206, -17.073846940092, 12020.824702470, -3232555.0322333,
    14.915108613530, -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798,
)  # fmt: skip
_ICE = (
    (-21.2144006, 0.00333333333), (27.3203819, 1.20666667), (-6.10598130, 1.70333333),
)  # fmt: skip


def vapor_pressure(kelvin: float) -> Absolute:
    """Pressure of vapor over water, below 0.01 °C over ice. IAPWS R7-97 and R14-08, 50 to 647 K.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero.
        OutOfRange: colder than 50 K, or above the critical point.

    """
    if _kelvin(kelvin) < TRIPLE_KELVIN:
        return over_ice(kelvin)
    return over_water(kelvin)


def over_water(kelvin: float) -> Absolute:
    """Pressure of vapor over liquid water. IAPWS R7-97(2012), equation 30, from 0 °C.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero.
        OutOfRange: below 0 °C, or above the critical point.

    """
    if not FREEZES <= _kelvin(kelvin) <= CRITICAL_KELVIN:
        raise OutOfRange("Liquid water is followed from 0 to 373.9 °C.")
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _N
    theta = kelvin + n9 / (kelvin - n10)
    a = theta * theta + n1 * theta + n2
    b = n3 * theta * theta + n4 * theta + n5
    c = n6 * theta * theta + n7 * theta + n8
    return Absolute(1e6 * (2 * c / (-b + math.sqrt(b * b - 4 * a * c))) ** 4)


def over_ice(kelvin: float) -> Absolute:
    """Pressure of vapor over ice. IAPWS R14-08(2011), equation 6, from 50 K to 0.01 °C.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero.
        OutOfRange: colder, or above 0.01 °C.

    """
    if not COLDEST <= _kelvin(kelvin) <= TRIPLE_KELVIN:
        raise OutOfRange("Ice is followed from 50 K to 0.01 °C: above, it is water.")
    theta = kelvin / TRIPLE_KELVIN
    powers = sum(a * theta**b for a, b in _ICE)
    return Absolute(TRIPLE_PRESSURE.pa * math.exp(powers / theta))


def vapor_temperature(pressure: Absolute) -> float:
    """Temperature in K at which water boils at that pressure; below 612 Pa, at which ice leaves.

    Raises:
        OutOfRange: less than over the coldest ice, or above the critical pressure.

    """
    if pressure < THINNEST:
        raise OutOfRange("So near to perfect vacuum no ice is cold enough to stay.")
    if pressure < TRIPLE_PRESSURE:
        wanted = math.log(pressure.pa)
        return crossing(
            lambda kelvin: math.log(over_ice(kelvin).pa) - wanted, COLDEST, TRIPLE_KELVIN
        )
    if pressure > over_water(CRITICAL_KELVIN):
        raise OutOfRange("Above 22 MPa water does not boil at all.")
    return _boiling(pressure)


def slope(kelvin: float) -> float:
    """By how many Pa the vapor's pressure rises with one K there, by a small step.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero.
        OutOfRange: colder than 50 K, or above the critical point.

    """
    step = 1e-4
    low = max(kelvin - step, COLDEST)
    high = min(kelvin + step, CRITICAL_KELVIN)
    if not low < high:
        vapor_pressure(kelvin)
    return (vapor_pressure(high).pa - vapor_pressure(low).pa) / (high - low)


def _boiling(pressure: Absolute) -> float:
    """Equation 31 of IAPWS R7-97."""
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _N
    beta = (pressure.pa / 1e6) ** 0.25
    e = beta * beta + n3 * beta + n6
    f = n1 * beta * beta + n4 * beta + n7
    g = n2 * beta * beta + n5 * beta + n8
    d = 2 * g / (-f - math.sqrt(f * f - 4 * e * g))
    return float((n10 + d - math.sqrt((n10 + d) ** 2 - 4 * (n9 + n10 * d))) / 2)


def _kelvin(kelvin: float) -> float:
    if not math.isfinite(kelvin):
        raise Malformed("That is no number.")
    if kelvin < 0:
        raise Impossible("Below absolute zero: nothing is that cold.")
    if not COLDEST <= kelvin <= CRITICAL_KELVIN:
        raise OutOfRange("Water and ice are followed from 50 K (−223 °C) to 373.9 °C.")
    return kelvin
