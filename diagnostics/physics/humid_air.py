"""Air with water vapor in it: how humid it is, where it dews, what heat it holds.

ASHRAE Handbook Fundamentals 2017, chapter 1; the equations are numbered as there. Dry air and vapor
count as ideal gases: against the handbook's table of real air the humidity ratio is up to 0.6 % low
to 50 °C, up to 2 % at 85 °C. All "per kilogram" is per kilogram of dry air.

Vapor saturates here by Hyland and Wexler's fit of 1983, because psychrometric charts and tables,
which shops and handbooks compare with, rest on it. Vacuum work uses the newer formulas of IAPWS:
they are meant for pure water and ice in a pumped loop, where no air is. The two differ by less than
0.04 % from -60 to 100 °C.
"""

import math
from dataclasses import dataclass

from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.root import crossing
from diagnostics.physics.units import NO_BREAK, from_si, shown, with_unit

ZERO_C = 273.15
TRIPLE = 273.16  # K: the fits over ice and over water meet here, not at 0 °C
TEMPERATURES = (173.15, 473.15)  # K, of both fits together
PRESSURES = (20e3, 200e3)  # Pa: from 11 km up to well below the sea
MASS_RATIO = 0.621945  # of water's and dry air's molar masses
DRY_AIR = 287.042  # J/(kg K)
ROUNDING = 1e-9  # of a humidity ratio, or above saturation

# ln p = a/T + b + c T + d T² + e T³ + f T⁴ + g ln T, in Pa and K: equations 5 and 6
_ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)
# Heat to evaporate at 0 °C in J/kg, how it changes with the bulb, what the bulb's water or ice
# takes up, in J/(kg K), and the heat to melt: equations 33 and 35
_WET = (2_501e3, 2_326.0, 4_186.0)
_ICED = (2_830e3, 240.0, 2_100.0)


@dataclass(frozen=True)
class HumidAir:
    """Air at a temperature in K with `humidity_ratio` kg of vapor a kg of dry air, at a pressure.

    The functions `by_…` make one and refuse what cannot be.
    """

    kelvin: float
    humidity_ratio: float
    pressure: Absolute

    @property
    def vapor_pressure(self) -> Absolute:
        """Pressure of the vapor alone. Equation 20."""
        ratio = self.humidity_ratio
        return Absolute(self.pressure.pa * ratio / (MASS_RATIO + ratio))

    @property
    def relative_humidity(self) -> float:
        """Share of what saturates the air, from 0 to 1. Equation 12; below 0.01 °C over ice."""
        return min(1.0, self.vapor_pressure.pa / saturation_vapor_pressure(self.kelvin).pa)

    @property
    def enthalpy(self) -> float:
        """Heat in J per kilogram, counted from dry air and liquid water at 0 °C. Equation 30."""
        celsius = self.kelvin - ZERO_C
        return 1_006 * celsius + self.humidity_ratio * (2_501e3 + 1_860 * celsius)

    @property
    def volume(self) -> float:
        """Cubic meters per kilogram. Equation 26."""
        wider = 1 + self.humidity_ratio / MASS_RATIO
        return DRY_AIR * self.kelvin * wider / self.pressure.pa

    @property
    def density(self) -> float:
        """Kilograms of air and vapor a cubic meter. Equation 11."""
        return (1 + self.humidity_ratio) / self.volume

    def dew_point(self) -> float:
        """Temperature in K where it begins to dew; below 0.01 °C, where it begins to frost.

        Raises:
            OutOfRange: so dry that this lies below -100 °C.

        """
        pascal = self.vapor_pressure.pa
        if pascal < saturation_vapor_pressure(TEMPERATURES[0]).pa:
            raise OutOfRange(
                f"So dry that its dew point lies below {_degrees(TEMPERATURES[0])}, "
                "where no formula follows."
            )
        wet = pascal >= saturation_vapor_pressure(TRIPLE).pa
        low, high = (TRIPLE, max(TRIPLE, self.kelvin)) if wet else (TEMPERATURES[0], TRIPLE)
        wanted = math.log(pascal)
        return crossing(lambda kelvin: _ln_saturation(kelvin, wet=wet) - wanted, low, high)

    def wet_bulb(self) -> float:
        """Temperature in K of a wet bulb in it, or of an iced one below 0 °C. Equations 33 and 35.

        Near freezing the same air can have a wet bulb above and an iced one below 0 °C: then the
        wet one is given.

        Raises:
            OutOfRange: an iced bulb below -100 °C.

        """
        water = self._above_bulb(ZERO_C, _WET) <= 0 and self.kelvin >= ZERO_C
        bulb = _WET if water else _ICED
        low = ZERO_C if water else TEMPERATURES[0]
        high = self.kelvin if water else min(self.kelvin, ZERO_C)
        if self._above_bulb(low, bulb) > 0:
            raise OutOfRange(f"A bulb colder than {_degrees(low)}, where no formula follows.")
        return crossing(
            lambda kelvin: self._above_bulb(kelvin, bulb), low, min(high, _boiling(self.pressure))
        )

    def _above_bulb(self, kelvin: float, bulb: tuple[float, float, float]) -> float:
        """Above zero where a bulb at that temperature would mean moister air than this."""
        vapor = saturation_vapor_pressure(kelvin).pa
        gained, held = _bulb_terms(self.kelvin, kelvin, bulb)
        evaporated = (bulb[0] - bulb[1] * (kelvin - ZERO_C)) * MASS_RATIO * vapor
        return evaporated - (gained + self.humidity_ratio * held) * (self.pressure.pa - vapor)


def saturation_vapor_pressure(kelvin: float) -> Absolute:
    """Pressure of vapor over water, below 0.01 °C over ice. Equations 5 and 6, -100 to 200 °C.

    Within 0.03 % of the handbook's table from -50 to 200 °C.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero.
        OutOfRange: colder or hotter.

    """
    _temperature(kelvin, "A temperature")
    return Absolute(math.exp(_ln_saturation(kelvin, wet=kelvin >= TRIPLE)))


def by_relative_humidity(kelvin: float, share: float, pressure: Absolute) -> HumidAir:
    """Air by temperature in K, relative humidity from 0 to 1, and pressure. Equations 12 and 20.

    Raises:
        Malformed: not a finite number.
        Impossible: a humidity outside 0 to 100 %, or more vapor than the whole air presses with.
        OutOfRange: a temperature or pressure for which the formulas do not hold.

    """
    _air(kelvin, pressure)
    _finite(share)
    percent = with_unit(shown(from_si(share, "%"), 0), "%")
    if share < 0:
        raise Impossible(f"A humidity of {percent}: air cannot hold less than no water.")
    if share > 1:
        raise Impossible(
            f"A humidity of {percent}: air at 100{NO_BREAK}% is full, what is more falls out "
            "as fog or dew."
        )
    return HumidAir(
        kelvin, _ratio(share * saturation_vapor_pressure(kelvin).pa, pressure), pressure
    )


def by_dew_point(kelvin: float, dew_point: float, pressure: Absolute) -> HumidAir:
    """Air by its temperature and its dew point, both in K, and pressure. Equation 38.

    Raises:
        Malformed: not a finite number.
        Impossible: a dew point above the air's own temperature, or below absolute zero.
        OutOfRange: a temperature or pressure for which the formulas do not hold.

    """
    _air(kelvin, pressure)
    _temperature(dew_point, "A dew point")
    if dew_point > kelvin:
        raise Impossible(
            f"A dew point of {_degrees(dew_point)} in air of {_degrees(kelvin)}: "
            "that water would have fallen out as dew before the air got so cold."
        )
    return HumidAir(kelvin, _ratio(saturation_vapor_pressure(dew_point).pa, pressure), pressure)


def by_wet_bulb(kelvin: float, wet_bulb: float, pressure: Absolute) -> HumidAir:
    """Air by its dry and its wet bulb, both in K, and pressure. Equations 33 and 35 (iced bulb).

    Raises:
        Malformed: not a finite number.
        Impossible: a wet bulb above the dry one, or colder than in air without any water.
        OutOfRange: a temperature or pressure for which the formulas do not hold.

    """
    _air(kelvin, pressure)
    _temperature(wet_bulb, "A wet bulb")
    both = f"A wet bulb of {_degrees(wet_bulb)} beside a dry one of {_degrees(kelvin)}"
    if wet_bulb > kelvin:
        raise Impossible(f"{both}: water that evaporates cools the bulb, it never warms it.")
    bulb = _WET if wet_bulb >= ZERO_C else _ICED
    saturated = _ratio(saturation_vapor_pressure(wet_bulb).pa, pressure)
    gained, held = _bulb_terms(kelvin, wet_bulb, bulb)
    ratio = ((bulb[0] - bulb[1] * (wet_bulb - ZERO_C)) * saturated - gained) / held
    if ratio < -ROUNDING:
        raise Impossible(f"{both}: not even air without any water cools a wet bulb so far.")
    return HumidAir(kelvin, max(0.0, ratio), pressure)


def by_humidity_ratio(kelvin: float, ratio: float, pressure: Absolute) -> HumidAir:
    """Air by its temperature in K, kilograms of vapor a kilogram of dry air, and pressure.

    Raises:
        Malformed: not a finite number.
        Impossible: less than no water, or more than saturates the air.
        OutOfRange: a temperature or pressure for which the formulas do not hold.

    """
    _air(kelvin, pressure)
    _finite(ratio)
    if ratio < 0:
        raise Impossible("Less than no water in the air.")
    air = HumidAir(kelvin, ratio, pressure)
    if air.vapor_pressure.pa > saturation_vapor_pressure(kelvin).pa * (1 + ROUNDING):
        raise Impossible(
            f"Air of {_degrees(kelvin)} cannot hold that much water as vapor: "
            "the rest falls out as fog or dew."
        )
    return air


def _ln_saturation(kelvin: float, *, wet: bool) -> float:
    a, b, c, d, e, f, g = _WATER if wet else _ICE
    powers = b + kelvin * (c + kelvin * (d + kelvin * (e + kelvin * f)))
    return a / kelvin + powers + g * math.log(kelvin)


def _bulb_terms(
    kelvin: float, wet_bulb: float, bulb: tuple[float, float, float]
) -> tuple[float, float]:
    """Heat in J/kg that dry air gives to a bulb, and that its vapor needs, by equation 33 or 35."""
    dry, wet = kelvin - ZERO_C, wet_bulb - ZERO_C
    return 1_006 * (dry - wet), bulb[0] + 1_860 * dry - bulb[2] * wet


def _ratio(vapor: float, pressure: Absolute) -> float:
    """Humidity ratio of vapor that presses with so many Pa. Equation 20."""
    if vapor >= pressure.pa:
        raise Impossible(
            "So much vapor alone would press more than the whole air does: at that temperature "
            "and air pressure water boils."
        )
    return MASS_RATIO * vapor / (pressure.pa - vapor)


def _boiling(pressure: Absolute) -> float:
    """Temperature in K at which water boils under that air pressure."""
    wanted = math.log(pressure.pa)
    return crossing(lambda at: _ln_saturation(at, wet=True) - wanted, TRIPLE, TEMPERATURES[1])


def _air(kelvin: float, pressure: Absolute) -> None:
    _temperature(kelvin, "Air")
    if not PRESSURES[0] <= pressure.pa <= PRESSURES[1]:
        low, high = (with_unit(shown(from_si(pascal, "kPa"), 0), "kPa") for pascal in PRESSURES)
        raise OutOfRange(
            f"Humid air is followed where the air presses with {low} to {high}, absolute."
        )


def _temperature(kelvin: float, what: str) -> None:
    _finite(kelvin)
    if kelvin < 0:
        raise Impossible(f"{what} below absolute zero: nothing is that cold.")
    if not TEMPERATURES[0] <= kelvin <= TEMPERATURES[1]:
        low, high = (_degrees(edge) for edge in TEMPERATURES)
        raise OutOfRange(
            f"{what} of {_degrees(kelvin)}: humid air is followed from {low} to {high}."
        )


def _finite(number: float) -> None:
    if not math.isfinite(number):
        raise Malformed("That is no number.")


def _degrees(kelvin: float) -> str:
    return with_unit(shown(from_si(kelvin, "°C"), 1), "°C")
