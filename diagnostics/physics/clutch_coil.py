"""A clutch coil judged by its resistance, and how hard it pulls when hot or fed too little."""

import math
from dataclasses import dataclass

from diagnostics.physics.electrics import (
    COPPER_PER_KELVIN,
    KELVIN_20,
    CoilFigure,
    copper_factor,
    resistance_at_20,
)
from diagnostics.physics.errors import Impossible, Malformed, OutOfRange
from diagnostics.physics.uncertainty import Measured, Place, place

# A coil whose temperature was not read: anything from a winter yard to a hot bay after a long run;
# our judgement.
UNREAD_KELVIN = (253.15, 393.15)
FULL_VOLT = 13.5  # V at the coil with the engine running: what the pull is compared with
TOLERANCE = 0.1  # where a specification names none; our judgement


@dataclass(frozen=True)
class JudgedCoil:
    """Resistance in ohm at 20 °C, and where that stands to the figure."""

    at_20: Measured
    where: Place
    figure: CoilFigure


@dataclass(frozen=True)
class Pull:
    """Share of the full pull, between two ends.

    `square`: as the square of the current, iron far from saturated. `straight`: as the current,
    iron near saturation. The truth lies between; the shape of the iron decides.
    """

    square: float
    straight: float

    @property
    def low(self) -> float:
        """The lesser end."""
        return min(self.square, self.straight)

    @property
    def high(self) -> float:
        """The greater end."""
        return max(self.square, self.straight)


def vehicle_figure(ohm: float, tolerance: float = TOLERANCE) -> CoilFigure:
    """The band at 20 °C in ohm from the vehicle's own figure and its tolerance as a share.

    Raises:
        OutOfRange: a figure that is not above zero, or a tolerance outside 0 to 1.

    """
    if not (ohm > 0 and math.isfinite(ohm)):
        raise OutOfRange("A coil's figure is more than nothing.")
    if not 0 <= tolerance < 1:
        raise OutOfRange("A tolerance lies between nothing and the whole figure.")
    return CoilFigure(ohm * (1 - tolerance), ohm * (1 + tolerance))


def unread_temperature() -> Measured:
    """Temperature in K of a coil on which none was read: a wide uniform spread, JCGM 100, 4.3.7."""
    low, high = UNREAD_KELVIN
    return Measured((low + high) / 2, (high - low) / 2 / math.sqrt(3))


def brought_to_20(ohm: Measured, kelvin: Measured) -> Measured:
    """Resistance in ohm brought to 20 °C, with what both readings may be off. JCGM 100, 5.1.2.

    Raises:
        Impossible: a resistance below zero, a temperature below absolute zero.
        OutOfRange: outside -60 to 200 °C.

    """
    value, factor = resistance_at_20(ohm.value, kelvin.value), copper_factor(kelvin.value)
    by_warmth = value * COPPER_PER_KELVIN / factor * kelvin.u
    return Measured(value, math.hypot(ohm.u / factor, by_warmth))


def judge_coil(ohm: Measured, kelvin: Measured, figure: CoilFigure) -> JudgedCoil:
    """Where a coil's resistance in ohm, read at a temperature in K, stands to a figure at 20 °C.

    Raises:
        Impossible: a resistance below zero, a temperature below absolute zero.
        OutOfRange: outside -60 to 200 °C.

    """
    at_20 = brought_to_20(ohm, kelvin)
    return JudgedCoil(at_20, place(at_20, figure.low, figure.high), figure)


def pull(
    volt: float, kelvin: float, full_volt: float = FULL_VOLT, full_kelvin: float = KELVIN_20
) -> Pull:
    """Share of the pull that a coil has at volts and K, of that at `full_volt` and `full_kelvin`.

    The current goes as V / R(T). The force of a magnet goes as the square of the flux; far from
    saturation flux goes as current (any textbook on magnetic circuits), near it hardly at all, so
    as the current alone is taken as the other end: our judgement. Gap and current as the same.

    Raises:
        Malformed: not a finite number.
        Impossible: a voltage below zero, a temperature below absolute zero.
        OutOfRange: outside -60 to 200 °C, or no voltage to compare with.

    """
    if not (math.isfinite(volt) and math.isfinite(full_volt)):
        raise Malformed("That is no number.")
    if volt < 0:
        raise Impossible("A magnet pulls either way round: give the amount of the voltage.")
    if not full_volt > 0:
        raise OutOfRange("The voltage compared with is more than nothing.")
    current = volt / full_volt * copper_factor(full_kelvin) / copper_factor(kelvin)
    return Pull(current * current, current)
