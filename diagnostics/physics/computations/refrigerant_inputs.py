"""Inputs that several computations about refrigerants share, and how they are taken out."""

import math

from diagnostics.physics.charge import LOOP_VOLUME
from diagnostics.physics.computations.computation import Input, Inputs, Result
from diagnostics.physics.computations.units import ALTITUDE, BAROMETER, REPORTED, air_of
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.refrigerants import NAMES, refrigerant_named
from diagnostics.physics.saturation import REFERENCES, Reference, table_of
from diagnostics.physics.uncertainty import INSTRUMENTS
from diagnostics.physics.units import from_si, shown, with_unit

REFRIGERANT = Input("refrigerant", "Refrigerant", answers=NAMES)
REFERENCE = Input(
    "reference",
    "Where heat is counted from: IIR (200 kJ/kg in liquid at 0 °C) or ASHRAE (0 at −40 °C)",
    answers=REFERENCES,
    default="IIR",
)
# Farther off than this nothing is an instrument: our judgement.
WORST = {"ΔK": 20, "kPa": 250, "g": 200, "mm": 1}
AIR = (ALTITUDE, BAROMETER, REPORTED)
VOLUME = Input(
    "volume",
    "Inner volume of the loop; 3 L assumed unless told",
    "L",
    0.1,
    50,
    default=LOOP_VOLUME * 1000,
)


def temperature(name: str, words: str) -> Input:
    """A temperature in the range of the tables."""
    return Input(name, words, "°C", -60, 227)


def absolute_pressure(name: str, words: str) -> Input:
    """An absolute pressure in the range of the tables."""
    return Input(name, words, "kPa", 0, 10_000, reference="absolute")


def gauge_pressure(name: str, words: str) -> Input:
    """A reading of a gauge."""
    return Input(name, words, "kPa", -101.325, 10_000, reference="gauge")


def accuracy(name: str, instrument: str, unit: str, fixed: float) -> Input:
    """Limit of error of an instrument, in `unit`, with the default of its class."""
    words = f"Limit of error of the {instrument}, plus or minus"
    return Input(name, words, unit, 0, WORST[unit], default=fixed, limit_of_error=True)


def thermometer() -> Input:
    """Limit of error of a thermometer."""
    return accuracy("thermometer", "thermometer", "ΔK", INSTRUMENTS["thermometer"].fixed)


def thermometer_words(inputs: Inputs) -> str:
    """How far the thermometer may be off, and whether that was told."""
    told = number(inputs, "thermometer")
    if told == INSTRUMENTS["thermometer"].fixed:
        return f"{INSTRUMENTS['thermometer'].words} by default"
    return f"thermometer ±{words(told, 'ΔK', 1)} as told"


def gauge(name: str, instrument: str) -> Input:
    """Limit of error of one of the pressure gauges."""
    words = instrument.replace("_", " ").replace("low side", "low-side")
    fixed = from_si(INSTRUMENTS[instrument].fixed, "kPa")
    return accuracy(name, words.replace("high side", "high-side"), "kPa", fixed)


def number(inputs: Inputs, name: str) -> float:
    """A number in SI."""
    return float(inputs[name])


def text(inputs: Inputs, name: str) -> str:
    """One of the answers."""
    return str(inputs[name])


def absolute(inputs: Inputs, name: str) -> Absolute:
    """An absolute pressure."""
    return Absolute(number(inputs, name))


def read_gauge(inputs: Inputs, name: str) -> Absolute:
    """What a gauge showed, as absolute pressure in the air around."""
    return Gauge(number(inputs, name)).absolute(air_of(inputs).pressure)


def gauge_u(inputs: Inputs, name: str) -> float:
    """Standard uncertainty in Pa of a gauge as absolute pressure: its own, and that of the air."""
    return math.hypot(standard(inputs, name), air_of(inputs).u)


def standard(inputs: Inputs, name: str) -> float:
    """Standard uncertainty from a limit of error, JCGM 100:2008, 4.3.7."""
    return number(inputs, name) / math.sqrt(3)


def reference(inputs: Inputs) -> Reference:
    """The reference of enthalpy and entropy."""
    return "ASHRAE" if text(inputs, "reference") == "ASHRAE" else "IIR"


def name_of(inputs: Inputs) -> str:
    """The refrigerant's designation."""
    return refrigerant_named(text(inputs, "refrigerant")).name


def basis(inputs: Inputs) -> str:
    """Formulation and library behind the numbers of the refrigerant at hand."""
    return table_of(text(inputs, "refrigerant")).source


def basis_in_air(inputs: Inputs) -> str:
    """The same, and which pressure of the air the gauges were read in."""
    return f"{basis(inputs)}; air: {air_of(inputs).basis}"


def words(si: float, unit: str, decimals: int) -> str:
    """An SI value as text in a unit."""
    return with_unit(shown(from_si(si, unit), decimals), unit)


def in_figures(si: float, unit: str, figures: int = 3) -> str:
    """An SI value as text in a unit, with so many digits, down to millionths."""
    value = from_si(si, unit)
    if not value or abs(value) >= 10**figures:
        return words(si, unit, 0)
    decimals = figures - 1 - math.floor(math.log10(abs(value)))
    return words(si, unit, min(max(0, decimals), 6))


def plain(si: float, unit: str) -> Result:
    """A further result that needs no sentence."""
    return Result(si, unit)
