"""Humid air, as computations."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from diagnostics.physics import humid_air
from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import in_figures
from diagnostics.physics.computations.units import (
    ALTITUDE,
    BAROMETER,
    LEFT_OUT,
    REPORTED,
    air_of,
    optional,
)
from diagnostics.physics.errors import Malformed, PhysicsError
from diagnostics.physics.humid_air import HumidAir
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.propagation import propagated
from diagnostics.physics.uncertainty import INSTRUMENTS
from diagnostics.physics.units import from_si, shown, with_unit

ASHRAE = "ASHRAE Handbook Fundamentals 2017, chapter 1"
FIT = f"{ASHRAE}, equations 5 and 6 (Hyland and Wexler 1983)"
COLDEST, HOTTEST = -100.0, 200.0  # °C
AIR = (ALTITUDE, BAROMETER, REPORTED)
HYGROMETER = 5.0  # %: what data sheets of hand hygrometers promise; from memory
ERRORS = (
    Input(
        "thermometer",
        "Limit of error of the thermometers, plus or minus",
        "ΔK",
        0,
        20,
        default=INSTRUMENTS["thermometer"].fixed,
        limit_of_error=True,
    ),
    Input(
        "hygrometer",
        "Limit of error of the humidity, plus or minus",
        "%",
        0,
        50,
        default=HYGROMETER,
        limit_of_error=True,
    ),
)
Make = Callable[[float, float, Absolute], HumidAir]
MADE_BY: dict[str, Make] = {
    "relative_humidity": humid_air.by_relative_humidity,
    "wet_bulb": humid_air.by_wet_bulb,
    "dew_point": humid_air.by_dew_point,
    "humidity_ratio": humid_air.by_humidity_ratio,
}


def told_by(prefix: str = "", air: str = "the air") -> dict[str, Input]:
    """The four inputs by one of which the water in air is told."""
    one_of = "give one of them"
    return {
        "relative_humidity": Input(
            f"{prefix}relative_humidity",
            f"Relative humidity of {air}; or wet bulb, dew point, humidity ratio: {one_of}",
            "%",
            0,
            100,
            default=LEFT_OUT,
        ),
        "wet_bulb": Input(
            f"{prefix}wet_bulb",
            f"Wet bulb in {air}",
            "°C",
            COLDEST,
            HOTTEST,
            default=LEFT_OUT,
        ),
        "dew_point": Input(
            f"{prefix}dew_point",
            f"Dew point of {air}; below 0 °C its frost point",
            "°C",
            COLDEST,
            HOTTEST,
            default=LEFT_OUT,
        ),
        "humidity_ratio": Input(
            f"{prefix}humidity_ratio",
            f"Water vapor in {air} per kilogram of dry air",
            "g/kg",
            0,
            10_000,
            default=LEFT_OUT,
        ),
    }


def dry_bulb(prefix: str = "", air: str = "the air") -> Input:
    """The temperature of air."""
    return Input(f"{prefix}temperature", f"Temperature of {air} (dry bulb)", "°C", COLDEST, HOTTEST)


@dataclass(frozen=True)
class Told:
    """How air was told: by temperature, one other number, and the pressure; all SI."""

    by: str
    kelvin: float
    number: float
    pascal: float

    def __call__(self, read: Sequence[float] | None = None) -> HumidAir:
        """The air of these numbers, or of others told in the same way."""
        kelvin, number, pascal = read or (self.kelvin, self.number, self.pascal)
        return MADE_BY[self.by](kelvin, number, Absolute(pascal))

    @property
    def read(self) -> tuple[float, float, float]:
        """The three numbers."""
        return (self.kelvin, self.number, self.pascal)

    def us(self, inputs: Inputs, air_u: float) -> tuple[float, float, float]:
        """Their standard uncertainties. JCGM 100:2008, 4.3.7."""
        thermometer, hygrometer = (float(inputs[one.name]) / math.sqrt(3) for one in ERRORS)
        humidity = hygrometer if self.by == "relative_humidity" else thermometer
        return (thermometer, 0.0 if self.by == "humidity_ratio" else humidity, air_u)


def told(inputs: Inputs, prefix: str = "") -> Told | None:
    """Air as the inputs tell it; None: nothing tells its water.

    Raises:
        Malformed: told in two ways.

    """
    found = {by: number for by in MADE_BY if (number := optional(inputs, prefix + by)) is not None}
    if not found:
        return None
    if len(found) > 1:
        raise Malformed(
            f"Give one of {', '.join(prefix + by for by in found)}: the others follow from it."
        )
    ((by, number),) = found.items()
    return Told(by, float(inputs[f"{prefix}temperature"]), number, air_of(inputs).pressure.pa)


def must_be_told(inputs: Inputs, prefix: str = "") -> Told:
    """Air as the inputs tell it.

    Raises:
        Malformed: its water is not told, or in two ways.

    """
    found = told(inputs, prefix)
    if found is None:
        names = ", ".join(prefix + by for by in MADE_BY if prefix + by in inputs)
        raise Malformed(f"How much water is in the air is not told: give one of {names}.")
    return found


@dataclass(frozen=True)
class Property:
    """One property of humid air: its value in SI, the unit to show it in, and how to say it."""

    name: str
    words: str
    unit: str
    decimals: int
    value: Callable[[HumidAir], float]
    sentence: str  # {} is the value


PROPERTIES = (
    Property(
        "relative_humidity",
        "Relative humidity",
        "%",
        1,
        lambda air: air.relative_humidity,
        "It holds {} of the vapor that it can at that temperature.",
    ),
    Property(
        "humidity_ratio",
        "Water vapor per kilogram of dry air",
        "g/kg",
        2,
        lambda air: air.humidity_ratio,
        "{} of vapor to dry air.",
    ),
    Property(
        "dew_point",
        "Dew point: the temperature at which it begins to dew or frost",
        "°C",
        1,
        HumidAir.dew_point,
        "What is colder than {} gets wet in this air, or frosts below 0 °C.",
    ),
    Property(
        "wet_bulb",
        "Wet bulb: what a wet thermometer in moving air shows",
        "°C",
        1,
        HumidAir.wet_bulb,
        "A wet thermometer in moving air goes down to {}.",
    ),
    Property(
        "vapor_pressure",
        "Pressure of the vapor in the air",
        "kPa",
        3,
        lambda air: air.vapor_pressure.pa,
        "The vapor alone presses with {}, absolute.",
    ),
    Property(
        "humid_air_enthalpy",
        "Heat in humid air per kilogram of dry air, counted from 0 °C",
        "kJ/kg",
        1,
        lambda air: air.enthalpy,
        "{} of dry air, counted from dry air and liquid water at 0 °C.",
    ),
    Property(
        "humid_air_volume",
        "Volume of humid air per kilogram of dry air",
        "m³/kg",
        4,
        lambda air: air.volume,
        "{} of dry air.",
    ),
    Property(
        "humid_air_density",
        "Density of humid air, vapor included",
        "kg/m³",
        4,
        lambda air: air.density,
        "{}, vapor included.",
    ),
)


def everything(air: HumidAir) -> dict[str, Result]:
    """All properties that this air has; one that no formula follows is left out."""
    found = {}
    for one in PROPERTIES:
        try:
            found[one.name] = Result(one.value(air), one.unit)
        except PhysicsError:
            continue
    return found


def _computation(one: Property) -> Computation:
    def run(inputs: Inputs) -> Result:
        told_, around = must_be_told(inputs), air_of(inputs)
        found = one.value(told_())
        known = told_.by != "humidity_ratio"  # it was worked out, by whatever means
        us = told_.us(inputs, around.u)
        return Result(
            found,
            one.unit,
            propagated(lambda read: one.value(told_(read)), told_.read, us) if known else None,
            one.sentence.format(with_unit(shown(from_si(found, one.unit), one.decimals), one.unit)),
            f"air pressure: {around.basis}; limits of error: our judgement unless told",
            everything(told_()),
        )

    ways = tuple(way for by, way in told_by().items() if by != one.name)
    return Computation(
        one.name, one.words, (dry_bulb(), *ways, *AIR, *ERRORS), one.unit, ASHRAE, run
    )


def _saturation(inputs: Inputs) -> Result:
    kelvin = float(inputs["temperature"])
    found = humid_air.saturation_vapor_pressure(kelvin)
    over = "water" if kelvin >= humid_air.TRIPLE else "ice"
    pressure = in_figures(found.pa, "kPa", 4)
    return Result(
        found.pa,
        "kPa",
        meaning=f"Vapor over {over} presses with {pressure}, absolute, and with no more.",
        basis="within 0.03 % of the handbook's table from −50 to 200 °C",
    )


SATURATION = Computation(
    "saturation_vapor_pressure",
    "Pressure of water vapor over water, below 0.01 °C over ice, as for humid air",
    (replace(dry_bulb(), words="Temperature of water or ice and vapor"),),
    "kPa",
    FIT,
    _saturation,
)
COMPUTATIONS: tuple[Computation, ...] = (SATURATION, *map(_computation, PROPERTIES))
