"""Coils on direct current: resistance and temperature of copper, current, power. SI inside."""

from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import Impossible, OutOfRange
from diagnostics.physics.uncertainty import Measured, place

# Annealed copper, per kelvin, referred to 20 °C: IEC 60028 (1925); IEC 60228 gives the same
# formula. It is meant for about -20 to 100 °C; a published multiplier table agrees within 0.1 %
# up to 125 °C. Wider than COPPER_RANGE it is not used.
COPPER_PER_KELVIN = 0.00393
KELVIN_20 = 293.15
COPPER_RANGE = (213.15, 473.15)  # -60 to 200 °C

NO_CURRENT = 0.05  # A: what a clamp shows with nothing flowing; our judgement
NONE_SHARE = 0.1  # of the lowest expected current: an open path, not a weak one; our judgement

Grade = Literal["none", "low", "expected", "high", "cannot_tell"]


@dataclass(frozen=True)
class CoilFigure:
    """What a coil should have at 20 °C, from low to high, in ohm."""

    low: float
    high: float


# Trade articles on 12 V clutch coils: plausible 2 to 6 ohm, mostly 3 to 4. A plausible band, not
# a limit: the vehicle's own specification always comes first.
PLAUSIBLE_12_V = CoilFigure(2.0, 6.0)


def copper_factor(kelvin: float) -> float:
    """R(T) / R(20 °C) of copper = 1 + 0.00393 (T - 293.15 K). IEC 60028.

    Raises:
        Impossible: below absolute zero.
        OutOfRange: outside -60 to 200 °C.

    """
    if kelvin < 0:
        raise Impossible("Below absolute zero: nothing is that cold.")
    if not COPPER_RANGE[0] <= kelvin <= COPPER_RANGE[1]:
        raise OutOfRange("Copper is followed from −60 to 200 °C only.")
    return 1 + COPPER_PER_KELVIN * (kelvin - KELVIN_20)


def resistance_at(ohm_20: float, kelvin: float) -> float:
    """Resistance in ohm at a temperature, from that at 20 °C.

    Raises:
        Impossible: a resistance below zero, a temperature below absolute zero.
        OutOfRange: outside -60 to 200 °C.

    """
    return _ohm(ohm_20) * copper_factor(kelvin)


def resistance_at_20(ohm: float, kelvin: float) -> float:
    """Resistance in ohm brought from its temperature to 20 °C.

    Raises:
        Impossible: a resistance below zero, a temperature below absolute zero.
        OutOfRange: outside -60 to 200 °C.

    """
    return _ohm(ohm) / copper_factor(kelvin)


def coil_resistance(volt: float, ampere: float) -> float:
    """V / I in ohm, of the coil at the temperature it has.

    Raises:
        Impossible: no current; a resistance cannot be told from a voltage alone.

    """
    if ampere == 0:
        raise Impossible("No current flows: a voltage alone does not tell a resistance.")
    return _ohm(volt / ampere)


def expected_current(volt: float, ohm: float) -> float:
    """V / R in ampere.

    Raises:
        Impossible: a coil of no resistance.

    """
    if _ohm(ohm) == 0:
        raise Impossible("A coil of no resistance: no copper wire has none.")
    return volt / ohm


def power(volt: float, ampere: float) -> float:
    """V x I in watt."""
    return volt * ampere


def current_band(
    volt: float, coil: CoilFigure, coldest: float, hottest: float
) -> tuple[float, float]:
    """Lowest and highest current in ampere of a coil between two temperatures in kelvin.

    Raises:
        Impossible: a figure that no coil has.
        OutOfRange: outside -60 to 200 °C.

    """
    return (
        expected_current(volt, resistance_at(coil.high, hottest)),
        expected_current(volt, resistance_at(coil.low, coldest)),
    )


def grade_current(current: Measured, low: float, high: float) -> Grade:
    """Where a current in ampere stands to the band that is expected."""
    upper = current.value + current.expanded
    if current.value < NO_CURRENT or upper < NONE_SHARE * low:
        return "none"
    where = place(current, low, high)
    grades: dict[str, Grade] = {"below": "low", "inside": "expected", "above": "high"}
    return grades.get(where, "cannot_tell")


def _ohm(ohm: float) -> float:
    if ohm < 0:
        raise Impossible("A resistance below zero: volts and amps were taken with opposite signs.")
    return ohm
