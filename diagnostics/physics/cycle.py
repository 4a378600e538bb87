"""The running loop: superheat, subcooling, pressure ratio, and an estimate of the whole cycle.

The estimate is for the desk: four states, no pressure drop in pipes and heat exchangers, no heat
through the compressor's wall.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import Impossible, OutOfRange
from diagnostics.physics.helmholtz import State
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.refrigerants import refrigerant_named
from diagnostics.physics.saturation import (
    ZERO_C,
    Reference,
    above_zero,
    saturated,
    saturation_pressure,
    saturation_temperature,
)
from diagnostics.physics.single_phase import at_pressure, liquid, vapor
from diagnostics.physics.uncertainty import Measured, place
from diagnostics.physics.units import from_si, shown, with_unit

# The high side of a running loop stands near saturation at ambient + 15 to 25 K, the low side near
# saturation at 2 °C in the evaporator: the span is from memory, the ratios are computed from it,
# for 20 and 40 °C ambient. Never a pass or a fail without the load.
EVAPORATOR = ZERO_C + 2
OVER_AMBIENT = (15.0, 25.0)  # K
RATIO_RANGE = (ZERO_C + 20, ZERO_C + 40)  # K
RATIO_BANDS: Mapping[str, Mapping[int, tuple[float, float]]] = {
    "R-134a": {20: (2.8, 3.7), 40: (4.7, 6.0)},
    "R-1234yf": {20: (2.6, 3.4), 40: (4.3, 5.4)},
}
NOT_PUMPING = 2.0  # ratio near 1 to 2 with the shaft turning: trade articles

# What reading the tables leaves of two temperatures that are the same, and of Carnot's bound: our
# own judgement.
SAME, ROUNDING = 1e-3, 1e-3  # K, share
NEAREST = 0.1  # K between both sides: nearer, the estimate is rounding; our judgement

Ratio = Literal["not_pumping", "below", "inside", "above", "cannot_tell"]


@dataclass(frozen=True)
class Cycle:
    """Suction gas (1), discharge gas (2), liquid (3), mixture behind the expansion device (4).

    `ideal_enthalpy`: that of the discharge gas without losses. `quality`: share of vapor in 4.
    """

    suction: State
    discharge: State
    liquid: State
    ideal_enthalpy: float
    evaporating_kelvin: float
    condensing_kelvin: float
    quality: float

    @property
    def cooling(self) -> float:
        """Heat taken up in the evaporator, in J per kg that circulates."""
        return self.suction.enthalpy - self.liquid.enthalpy

    @property
    def work(self) -> float:
        """Work put in by the compressor, in J/kg."""
        return self.discharge.enthalpy - self.suction.enthalpy

    @property
    def rejected(self) -> float:
        """Heat given off in the condenser, in J/kg."""
        return self.discharge.enthalpy - self.liquid.enthalpy

    @property
    def cop(self) -> float:
        """Cooling over work."""
        return self.cooling / self.work


def superheat(refrigerant: str, kelvin: float, absolute: Absolute) -> float:
    """How many K a suction line is warmer than saturation at the low side's pressure.

    Below zero: liquid in the line cannot be colder than it boils, so gauge, thermometer or gas is
    not what was said, or the pressure was read far from the line.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: a pressure outside the table.

    """
    return above_zero(kelvin) - saturation_temperature(refrigerant, absolute)


def subcooling(refrigerant: str, kelvin: float, absolute: Absolute) -> float:
    """How many K a liquid line is colder than saturation at the high side's pressure.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: a pressure outside the table.

    """
    return saturation_temperature(refrigerant, absolute) - above_zero(kelvin)


def difference_u(
    refrigerant: str, absolute: Absolute, thermometer_u: float, gauge_u: float
) -> float:
    """Standard uncertainty in K of superheat or subcooling, from K and Pa; JCGM 100:2008, 5.1.2.

    Raises:
        Malformed: a refrigerant that is not known here.
        OutOfRange: a pressure outside the table.

    """
    rest = saturated(refrigerant, saturation_temperature(refrigerant, absolute))
    return math.hypot(thermometer_u, gauge_u / rest.pressure_slope)


def pressure_ratio(high: Absolute, low: Absolute) -> float:
    """High over low side, both absolute.

    Raises:
        Impossible: a low side of no pressure at all.

    """
    if not Absolute(0) < low:
        raise Impossible("A low side at perfect vacuum: no running loop has none at all.")
    return high.pa / low.pa


def ratio_u(high: Absolute, low: Absolute, high_u: float, low_u: float) -> float:
    """Standard uncertainty of the ratio, from those of both gauges in Pa; JCGM 100:2008, 5.1.6.

    Raises:
        Impossible: a low side of no pressure at all.

    """
    ratio = pressure_ratio(high, low)
    return math.hypot(high_u / low.pa, ratio * low_u / low.pa)


def ratio_band(refrigerant: str, ambient: float) -> tuple[float, float]:
    """Absolute pressure ratio of a healthy loop under load, at an ambient temperature in K.

    From 20 to 40 °C, R-134a and R-1234yf: evaporator at 2 °C, condenser 15 to 25 K over ambient.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        OutOfRange: another ambient or refrigerant.

    """
    name = refrigerant_named(refrigerant).name
    if name not in RATIO_BANDS:
        raise OutOfRange(f"No band of pressure ratios is known for {name}.")
    if not RATIO_RANGE[0] <= ambient <= RATIO_RANGE[1]:
        raise OutOfRange("Pressure ratios are known for 20 to 40 °C ambient only.")
    low_side = saturation_pressure(refrigerant, EVAPORATOR)
    low, high = (
        pressure_ratio(saturation_pressure(refrigerant, ambient + over), low_side)
        for over in OVER_AMBIENT
    )
    return low, high


def judge_ratio(ratio: Measured, band: tuple[float, float]) -> Ratio:
    """Where a ratio stands; "not_pumping" only if the shaft was seen to turn."""
    if ratio.value + ratio.expanded < NOT_PUMPING:
        return "not_pumping"
    return place(ratio, *band)


def exchanged(ratio: Measured) -> bool:
    """Whether a ratio is below 1 by more than the gauges are off: no loop has its sides so."""
    return ratio.value + ratio.expanded < 1


def estimate(
    refrigerant: str,
    evaporating: Absolute,
    condensing: Absolute,
    *,
    superheated: float = 0.0,
    subcooled: float = 0.0,
    efficiency: float = 1.0,
    reference: Reference = "IIR",
) -> Cycle:
    """The cycle between two absolute pressures, with superheat and subcooling in K.

    `efficiency`: isentropic, above 0 to 1. Source: any textbook of thermodynamics; the states are
    those of the equation of state.

    Raises:
        Malformed: a refrigerant or reference that is not known here.
        Impossible: a compressor that gives more than it takes, pressures the wrong way round,
            liquid colder than the evaporator, more cooling than Carnot's machine.
        OutOfRange: outside the tables, both sides too near each other; R-744 above its critical
            pressure.

    """
    if not 0 < efficiency <= 1:
        raise Impossible("An efficiency is above 0 and at most 1: no compressor adds less or more.")
    if not evaporating < condensing:
        raise Impossible("The high side is not above the low side: nothing is pumped.")
    if superheated < 0 or subcooled < 0:
        raise OutOfRange("Superheat or subcooling below zero: the line would hold both phases.")
    boiling = saturation_temperature(refrigerant, evaporating)
    condensed = saturation_temperature(refrigerant, condensing)
    if condensed - boiling < NEAREST:
        raise OutOfRange("Both sides are too near each other for an estimate of the cycle.")
    _not_below_evaporator(condensed - subcooled, boiling)
    suction = vapor(refrigerant, boiling + superheated, evaporating, reference)
    ideal = at_pressure(refrigerant, condensing, "entropy", suction.entropy, reference)
    enthalpy = suction.enthalpy + (ideal.enthalpy - suction.enthalpy) / efficiency
    behind = liquid(refrigerant, condensed - subcooled, condensing, reference)
    rest = saturated(refrigerant, boiling, reference)
    found = Cycle(
        suction=suction,
        discharge=at_pressure(refrigerant, condensing, "enthalpy", enthalpy, reference),
        liquid=behind,
        ideal_enthalpy=ideal.enthalpy,
        evaporating_kelvin=boiling,
        condensing_kelvin=condensed,
        quality=(behind.enthalpy - rest.liquid_enthalpy) / rest.latent_heat,
    )
    _within_carnot(found)
    return found


def _not_below_evaporator(liquid_kelvin: float, boiling: float) -> None:
    if liquid_kelvin < boiling - SAME:
        raise Impossible(
            f"So much subcooling makes the liquid {_celsius(liquid_kelvin)}, colder than the "
            f"evaporator at {_celsius(boiling)}: nothing in the loop is cold enough for that."
        )


def _within_carnot(found: Cycle) -> None:
    cold, hot = found.evaporating_kelvin, found.condensing_kelvin
    most = cold / (hot - cold) if hot > cold else math.inf
    if found.cop > most * (1 + ROUNDING):
        raise Impossible(
            f"It would take up {shown(found.cop, 2)} times its work, and between "
            f"{_celsius(cold)} and {_celsius(hot)} no machine takes up more than "
            f"{shown(most, 2)} times (Carnot): subcooling or superheat is not what was said."
        )


def _celsius(kelvin: float) -> str:
    return with_unit(shown(from_si(kelvin, "°C"), 1), "°C")


def isentropic_efficiency(
    refrigerant: str,
    suction: tuple[float, Absolute],
    discharge: tuple[float, Absolute],
) -> float:
    """Ideal over real work of a compressor, from temperature in K and pressure of both lines.

    Above 1 no adiabatic compressor can be: it lost heat, or a line was read far from it.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero, pressures the wrong way round, gas that did not warm up.
        OutOfRange: a line that holds no vapor, or outside the range.

    """
    if not suction[1] < discharge[1]:
        raise Impossible("The high side is not above the low side: nothing is pumped.")
    begun = vapor(refrigerant, *suction)
    ended = vapor(refrigerant, *discharge)
    if ended.enthalpy <= begun.enthalpy:
        raise Impossible("The discharge gas carries no more heat than the suction gas: no work.")
    ideal = at_pressure(refrigerant, discharge[1], "entropy", begun.entropy)
    return (ideal.enthalpy - begun.enthalpy) / (ended.enthalpy - begun.enthalpy)
