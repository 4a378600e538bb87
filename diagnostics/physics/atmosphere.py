"""Pressure of the air: by altitude in the standard atmosphere, by barometer, by weather report.

ISO 2533:1975, with addendum 2 (1997) for altitudes below -2000 m: below 11 km the air is taken to
cool by 6.5 K a kilometer from 15 °C at sea level. Altitudes are geopotential; at 5000 m that is 4 m
less than on a map and is not told apart here.
"""

import math
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.units import from_si, shown, with_unit

SEA_LEVEL = Absolute(101_325)  # Pa
SEA_LEVEL_KELVIN = 288.15
LAPSE = 0.0065  # K/m
EXPONENT = 9.80665 / (287.05287 * LAPSE)  # gravity over gas constant of air and lapse: 5.25588
ALTITUDES = (-5_000.0, 11_000.0)  # m

# What the weather does at one place, after a look at sea level charts; from memory. Standard
# uncertainty of a pressure told from the altitude alone, and the span that is not astonishing.
WEATHER_U = 1_000.0  # Pa
USUAL_AT_SEA_LEVEL = (Absolute(96_000), Absolute(105_000))
BAROMETER_U = 120.0  # Pa: ±2 hPa, uniform; our judgement
REPORT_U = 150.0  # Pa: the report's own place and hour are not the shop's; our judgement

Told = Literal["station", "sea_level", "either", "neither"]


@dataclass(frozen=True)
class Air:
    """The pressure of the air around, its standard uncertainty in Pa, and what both rest on."""

    pressure: Absolute
    u: float
    basis: str


def standard_pressure(altitude: float) -> Absolute:
    """Air pressure at an altitude in m. ISO 2533, from -5000 to 11 000 m.

    Raises:
        Malformed: not a finite number.
        OutOfRange: deeper or higher.

    """
    return Absolute(SEA_LEVEL.pa * _share(altitude) ** EXPONENT)


def pressure_altitude(air: Absolute) -> float:
    """Altitude in m at which the standard atmosphere has that pressure. ISO 2533.

    Raises:
        OutOfRange: outside -5000 to 11 000 m.

    """
    low, high = (standard_pressure(altitude) for altitude in reversed(ALTITUDES))
    if not low <= air <= high:
        raise OutOfRange(
            f"{_kilopascal(air)} absolute is no air pressure between "
            f"{_meters(ALTITUDES[0])} and {_meters(ALTITUDES[1])}."
        )
    return float(SEA_LEVEL_KELVIN / LAPSE * (1 - (air.pa / SEA_LEVEL.pa) ** (1 / EXPONENT)))


def station_pressure(reported: Absolute, altitude: float) -> Absolute:
    """Pressure of the air at an altitude in m, from one brought to sea level (altimeter setting).

    The altimeter's own rule, ICAO Doc 7488: the altitude of the reported pressure is moved up.

    Raises:
        Malformed: not a finite number.
        OutOfRange: an altitude, or a pressure, that the standard atmosphere does not have.

    """
    _share(altitude)
    return standard_pressure(pressure_altitude(reported) + altitude)


def reported_pressure(station: Absolute, altitude: float) -> Absolute:
    """What a weather report says (altimeter setting) where the air at an altitude in m presses so.

    Raises:
        Malformed: not a finite number.
        OutOfRange: an altitude, or a pressure, that the standard atmosphere does not have.

    """
    _share(altitude)
    return standard_pressure(pressure_altitude(station) - altitude)


def told_as(reading: Absolute, altitude: float) -> Told:
    """Whether a barometer's number at an altitude in m is the place's own, or one of sea level.

    Weather apps and reports give pressure brought to sea level; so does a barometer in the shop
    that was set by them. Near the sea both are usual, and "either" is the answer.

    Raises:
        Malformed: not a finite number.
        OutOfRange: an altitude that the standard atmosphere does not have.

    """
    low, high = USUAL_AT_SEA_LEVEL
    as_report = low <= reading <= high
    here = station_pressure(low, altitude), station_pressure(high, altitude)
    as_station = here[0] <= reading <= here[1]
    if as_report and as_station:
        return "either"
    if as_station:
        return "station"
    return "sea_level" if as_report else "neither"


def air_around(
    altitude: float | None = None,
    barometer: Absolute | None = None,
    reported: Absolute | None = None,
) -> Air:
    """The air's pressure by the best that is known: barometer, report at an altitude, altitude.

    Nothing known: sea level. A report counts only where the altitude in m is known, too.

    Raises:
        Malformed: not a finite number, or a report without an altitude.
        OutOfRange: an altitude, or a pressure, that the standard atmosphere does not have.

    """
    if barometer is not None:
        pressure_altitude(barometer)
        return Air(barometer, BAROMETER_U, _barometer_words(barometer, altitude))
    if reported is not None:
        if altitude is None:
            raise Malformed(
                "A weather report tells the pressure at sea level: the altitude is needed."
            )
        return Air(
            station_pressure(reported, altitude),
            REPORT_U,
            f"weather report of {_kilopascal(reported)}, brought to {_meters(altitude)}",
        )
    if altitude is None:
        return Air(SEA_LEVEL, WEATHER_U, "at sea level, as long as no altitude is set")
    return Air(
        standard_pressure(altitude), WEATHER_U, f"standard atmosphere at {_meters(altitude)}"
    )


def _barometer_words(barometer: Absolute, altitude: float | None) -> str:
    words = f"barometer {_kilopascal(barometer)}"
    if altitude is None:
        return words
    told = told_as(barometer, altitude)
    if told == "sea_level":
        here = _kilopascal(station_pressure(barometer, altitude))
        return (
            f"{words}; at {_meters(altitude)} that looks like a pressure brought to sea level, "
            f"the air itself would press with {here}"
        )
    if told == "neither":
        return f"{words}; at {_meters(altitude)} no weather makes such a pressure"
    return words


def _share(altitude: float) -> float:
    """Temperature of the air at an altitude over that at sea level."""
    if not math.isfinite(altitude):
        raise Malformed("That is no number.")
    if not ALTITUDES[0] <= altitude <= ALTITUDES[1]:
        raise OutOfRange(
            f"An altitude of {_meters(altitude)}: the standard atmosphere is followed from "
            f"{_meters(ALTITUDES[0])} to {_meters(ALTITUDES[1])}."
        )
    return 1 - LAPSE * altitude / SEA_LEVEL_KELVIN


def _meters(altitude: float) -> str:
    return with_unit(shown(altitude, 0), "m")


def _kilopascal(air: Absolute) -> str:
    return with_unit(shown(from_si(air.pa, "kPa"), 1), "kPa")
