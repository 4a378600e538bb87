"""Pressure of the air, as computations."""

from diagnostics.physics.atmosphere import (
    ALTITUDES,
    REPORT_U,
    WEATHER_U,
    Told,
    pressure_altitude,
    reported_pressure,
    standard_pressure,
    station_pressure,
    told_as,
)
from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.units import ALTITUDE, BAROMETER, REPORTED, REPORTS, air_of
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.units import scaled

ISO = "ISO 2533:1975 with addendum 2 (1997), geopotential altitude"
ALTIMETER = "ICAO Doc 7488: the rule by which an altimeter is set"
WEATHER = (
    "the weather moves the air's pressure by about 1 kPa (one standard uncertainty); from memory"
)
HEIGHT = Input("altitude", "Altitude above the sea", "m", *ALTITUDES)
MEANINGS: dict[Told, str] = {
    "station": "Such a reading is the air's own pressure at that altitude.",
    "sea_level": "So high up such a reading was brought to sea level, as weather reports are.",
    "either": "So near to the sea the place's own pressure and one brought to it look alike.",
    "neither": "No weather makes such a pressure there, and no weather report tells such a number.",
}


def _air(name: str, words: str) -> Input:
    return Input(name, words, "kPa", 22.7, 177, reference="absolute")


def _standard(inputs: Inputs) -> Result:
    found = standard_pressure(float(inputs["altitude"]))
    return Result(
        found.pa, "kPa", WEATHER_U, "Of an average day; a barometer knows better.", WEATHER
    )


def _altitude(inputs: Inputs) -> Result:
    found = pressure_altitude(Absolute(float(inputs["pressure"])))
    return Result(found, "m", meaning="Where the standard atmosphere has that pressure.")


def _station(inputs: Inputs) -> Result:
    found = station_pressure(Absolute(float(inputs["reported"])), float(inputs["altitude"]))
    meaning = "What the air itself presses with at that altitude."
    return Result(found.pa, "kPa", REPORT_U, meaning, "a report of the place and the hour")


def _reported(inputs: Inputs) -> Result:
    found = reported_pressure(Absolute(float(inputs["station"])), float(inputs["altitude"]))
    low, high = (scaled(edge, "kPa") for edge in REPORTS)
    meaning = (
        "What a weather report makes of it."
        if low <= found.pa <= high
        else "No weather report tells such a pressure: reading or altitude is not what was said."
    )
    return Result(found.pa, "kPa", meaning=meaning)


def _air_pressure(inputs: Inputs) -> Result:
    air = air_of(inputs)
    return Result(air.pressure.pa, "kPa", air.u, "The pressure of the air around.", air.basis)


def _told_as(inputs: Inputs) -> Result:
    reading, altitude = Absolute(float(inputs["reading"])), float(inputs["altitude"])
    told = told_as(reading, altitude)
    air = station_pressure(reading, altitude) if told == "sea_level" else reading
    return Result(air.pa, "kPa", meaning=MEANINGS[told], basis=WEATHER)


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "standard_pressure",
        "Air pressure at an altitude in the standard atmosphere",
        (HEIGHT,),
        "kPa",
        ISO,
        _standard,
    ),
    Computation(
        "pressure_altitude",
        "Altitude at which the standard atmosphere has a pressure",
        (_air("pressure", "Pressure of the air"),),
        "m",
        ISO,
        _altitude,
    ),
    Computation(
        "station_pressure",
        "Pressure of the air in the shop, from a weather report",
        (
            Input(
                "reported",
                "Pressure as reported, brought to sea level",
                "kPa",
                *REPORTS,
                reference="absolute",
            ),
            HEIGHT,
        ),
        "kPa",
        ALTIMETER,
        _station,
    ),
    Computation(
        "reported_pressure",
        "What a weather report says of a pressure measured at an altitude",
        (_air("station", "Pressure of the air as measured there"), HEIGHT),
        "kPa",
        ALTIMETER,
        _reported,
    ),
    Computation(
        "air_pressure",
        "Pressure of the air around by the best that is known: barometer, report, altitude",
        (ALTITUDE, BAROMETER, REPORTED),
        "kPa",
        ISO,
        _air_pressure,
    ),
    Computation(
        "barometer_reading",
        "Whether a barometer's number is the place's own or one of sea level; the air's pressure",
        (_air("reading", "The number read"), HEIGHT),
        "kPa",
        ALTIMETER,
        _told_as,
    ),
)
