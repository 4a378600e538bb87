"""What the pressure of a loop at rest tells, and what it cannot.

At rest liquid and vapor stand together and the pressure follows the temperature alone: it tells
that liquid is there, not how much.
"""

import math
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.atmosphere import SEA_LEVEL
from diagnostics.physics.errors import Impossible, OutOfRange
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.saturation import saturated, saturation_pressure, saturation_temperature
from diagnostics.physics.uncertainty import COVERAGE, Measured
from diagnostics.physics.units import from_si, shown, with_unit

LOOP_VOLUME = 3e-3  # m³: assumed for a loop with one evaporator; the car's own is seldom known
# Above the band by more than this after a full soak: air or another gas. Trade articles say so in
# rounder words; the figure is common practice, no source.
FOREIGN_GAS = 30e3  # Pa

# none, some: all that a loop that has not soaked can tell. none, below, expected, a_little_above,
# above: one that has soaked.
Static = Literal["none", "some", "below", "expected", "a_little_above", "above"]


@dataclass(frozen=True)
class StaticBand:
    """Pressure at rest that a thermometer lets expect, as a gauge shows it, in pascal.

    `u`: standard uncertainty of a reading's distance to it, from thermometer and gauge.
    """

    expected: Gauge
    u: float

    @property
    def low(self) -> Gauge:
        """Lower end of the band that about 95 of 100 readings keep to."""
        return Gauge(self.expected.pa - COVERAGE * self.u)

    @property
    def high(self) -> Gauge:
        """Upper end of the same band."""
        return Gauge(self.expected.pa + COVERAGE * self.u)


def static_pressure(refrigerant: str, kelvin: float, air: Absolute = SEA_LEVEL) -> Gauge:
    """Gauge pressure of a loop at rest with liquid in it, everywhere at one temperature in K.

    Range and source: the saturation table's.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: outside the table; above 31 °C R-744 is recorded, not judged.

    """
    return saturation_pressure(refrigerant, kelvin).gauge(air)


def static_band(
    refrigerant: str, soak: Measured, gauge_u: float, air: Absolute = SEA_LEVEL
) -> StaticBand:
    """The pressure expected at a soak temperature in K, with thermometer and gauge accounted for.

    `gauge_u` in Pa. First order, JCGM 100:2008, 5.1.2: the temperature counts by the slope of the
    saturation pressure.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: outside the table.

    """
    rest = saturated(refrigerant, soak.value)
    u = math.hypot(gauge_u, rest.pressure_slope * soak.u)
    return StaticBand(rest.pressure.gauge(air), u)


def read_static(band: StaticBand, reading: Gauge, gauge_u: float, *, soaked: bool) -> Static:
    """What a reading at rest shows; `gauge_u` is the gauge's standard uncertainty in Pa.

    Without a full soak (one temperature everywhere) it only tells some from none.
    """
    if reading.pa - COVERAGE * gauge_u <= 0:
        return "none"
    if not soaked:
        return "some"
    if reading < band.low:
        return "below"
    if reading <= band.high:
        return "expected"
    return "above" if reading.pa > band.high.pa + FOREIGN_GAS else "a_little_above"


def last_liquid(refrigerant: str, kelvin: float, volume: float = LOOP_VOLUME) -> float:
    """Mass in kg at which the last liquid of a loop of `volume` m³ is gone, at a temperature in K.

    As long as more is in it, the pressure at rest stays the same: volume x density of the
    saturated vapor.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero.
        OutOfRange: outside the table, or a volume of nothing.

    """
    if not volume > 0:
        raise OutOfRange("A loop has some volume: more than nothing.")
    return volume * saturated(refrigerant, kelvin).vapor_density


def unseen_loss(
    refrigerant: str, label: float, kelvin: float, volume: float = LOOP_VOLUME
) -> float:
    """How many kg of a label charge can be gone while the needle at rest still shows full.

    Raises:
        Malformed: a refrigerant that is not known here, or no number.
        Impossible: below absolute zero, or a label charge that does not fit the volume as liquid.
        OutOfRange: outside the table, a volume of nothing, a label charge below zero.

    """
    if not label >= 0:
        raise OutOfRange("A label charge below zero: no label says so.")
    most = volume * saturated(refrigerant, kelvin).liquid_density
    if label > most:
        raise Impossible(
            f"{_grams(label)} do not fit in {with_unit(shown(from_si(volume, 'L'), 1), 'L')}: full "
            f"of liquid it holds {_grams(most)} at this temperature. The volume or the charge is "
            "not what was said."
        )
    return max(label - last_liquid(refrigerant, kelvin, volume), 0.0)


def _grams(kilogram: float) -> str:
    return with_unit(shown(from_si(kilogram, "g"), 0), "g")


def lockout_temperature(refrigerant: str, switch: Gauge, air: Absolute = SEA_LEVEL) -> float:
    """Temperature in K below which even a full loop rests under the pressure of a switch.

    Colder than this the low-pressure switch keeps the compressor off, and nothing is wrong.

    Raises:
        Malformed: a refrigerant that is not known here.
        Impossible: deeper than perfect vacuum.
        OutOfRange: a pressure outside the table.

    """
    return saturation_temperature(refrigerant, switch.absolute(air))
