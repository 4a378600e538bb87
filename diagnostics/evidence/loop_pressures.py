"""Both sides of a running loop: where each stands, by the vehicle's chart or sorted by us.

No published limits hold for every car. Where the vehicle's own chart is not at hand, each side is
sorted by the temperature at which the refrigerant boils at its pressure, into wide bands of our
judgement: they sort patterns and condemn nothing.
"""

import math
from dataclasses import dataclass, replace
from typing import Literal

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.system import System
from diagnostics.physics.cycle import RATIO_RANGE, difference_u, ratio_band, ratio_u
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.saturation import saturation_temperature
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured, place
from diagnostics.physics.units import to_si

Where = Literal["toward_vacuum", "below", "inside", "above", "cannot_tell", ""]

# Our judgement, wide on purpose: an evaporator at 2 °C and a condenser 15 to 25 K over the air lie
# well inside.
EVAPORATOR_SORTED = (to_si(-6, "°C"), to_si(12, "°C"))
OVER_AIR_SORTED = (10.0, 30.0)  # K
COOLEST = to_si(20, "°C")  # outside air below which too little heat is taken up to sort by
TOWARD_VACUUM = Gauge(35e3)  # our judgement
TRANSCRITICAL = "R-744"
# From here a running high side is switched off: our judgement; cut-outs of R-134a open near 3 MPa
# (from memory).
TOO_HIGH = Gauge(3000e3)
SWITCH_OFF_HIGH = (
    "So high a pressure strains hoses and drive (our judgement: from 3\u00a0MPa): switch it off."
)
THERMOMETER_U = INSTRUMENTS["thermometer"].fixed / math.sqrt(3)
SORTED_WORDS = (
    "No chart of this vehicle told: each side is sorted by our judgement, the low side inside from"
    " −6 to 12\u00a0°C of boiling, the high side inside from 10 to 30\u00a0K over the air. That"
    " sorts patterns and is no limit."
)


@dataclass(frozen=True)
class Side:
    """One side as read; `pressure` is None when unread or deeper than perfect vacuum here.

    `by` tells what sorted it: "chart", "us" or "" (nothing).
    """

    reading: Reading | None
    pressure: Absolute | None
    u: float
    kelvin: float | None
    where: Where
    by: str


@dataclass(frozen=True)
class Loop:
    """Both sides of a running loop, the air outside, and the ratio of absolute pressures."""

    low: Side
    high: Side
    ambient: Reading | None
    ratio: Measured | None
    band: tuple[float, float] | None  # of the ratio, where one is known

    @property
    def hot_enough(self) -> bool:
        """Whether the air outside is read, and warm enough for the ratio to tell."""
        return self.ambient is not None and self.ambient.si >= RATIO_RANGE[0]

    @property
    def over_air(self) -> float | None:
        """How many K the high side's saturation stands over the air outside."""
        if self.high.kelvin is None or self.ambient is None:
            return None
        return self.high.kelvin - self.ambient.si

    @property
    def charted(self) -> bool:
        """Whether both sides were held against the vehicle's own chart."""
        return self.low.by == self.high.by == "chart"


def is_too_high(reading: Reading | None, system: System) -> bool:
    """Whether a running high side stands where it is switched off; R-744 runs higher."""
    gas = system.get("refrigerant", "")
    return reading is not None and gas != TRANSCRITICAL and reading.si >= TOO_HIGH.pa


def gauge_of(side: str, gas: str) -> str:
    """The class of gauge that reads a side ("low", "high"): R-744 needs one of a wider scale."""
    return "r744_gauge" if gas == TRANSCRITICAL else f"{side}_side_gauge"


def absolute(reading: Reading | None, around: Circumstances) -> Absolute | None:
    """A gauge reading above perfect vacuum, or None where that cannot be."""
    if reading is None:
        return None
    try:
        return Gauge(reading.si).absolute(around.air)
    except PhysicsError:
        return None


def boiling(pressure: Absolute | None, around: Circumstances) -> float | None:
    """Temperature in kelvin at which the car's refrigerant boils there, or None."""
    name = around.system.get("refrigerant", "")
    if pressure is None or name in ("", TRANSCRITICAL):
        return None
    try:
        return saturation_temperature(name, pressure)
    except PhysicsError:
        return None


def loop(readings: Readings, around: Circumstances) -> Loop:
    """Sort both sides and work out the ratio."""
    ambient = number(readings, "ambient")
    low = _side("low", readings, around, EVAPORATOR_SORTED)
    low = _toward_vacuum(low)
    over = None
    if ambient and ambient.si >= COOLEST:
        over = (ambient.si + OVER_AIR_SORTED[0], ambient.si + OVER_AIR_SORTED[1])
    high = _side("high", readings, around, over)
    return Loop(low, high, ambient, _ratio(low, high), _band(ambient, around))


def _side(
    name: str, readings: Readings, around: Circumstances, band: tuple[float, float] | None
) -> Side:
    """One side against the vehicle's chart, else against a band of boiling temperatures."""
    reading = number(readings, name)
    pressure = absolute(reading, around)
    if reading is None or pressure is None:
        return Side(reading, None, 0.0, None, "", "")
    gas = around.system.get("refrigerant", "")
    gauge = measured(reading.si, reading.last_digit, gauge_of(name, gas))
    kelvin = boiling(pressure, around)
    charted: dict[str, Where] = {"below": "below", "inside": "inside", "above": "above"}
    chart = charted.get(taps(readings).get(f"{name}_chart", ""))
    if chart:
        return Side(reading, pressure, gauge.u, kelvin, chart, "chart")
    if kelvin is None or band is None:
        return Side(reading, pressure, gauge.u, kelvin, "", "")
    of_air = THERMOMETER_U if name == "high" else 0.0  # the high side's band hangs on the air
    point = Measured(kelvin, difference_u(gas, pressure, of_air, gauge.u))
    return Side(reading, pressure, gauge.u, kelvin, place(point, *band), "us")


def _toward_vacuum(low: Side) -> Side:
    """The low side again, told as near to vacuum where the gauge shows that beyond its error."""
    if low.reading is None or low.pressure is None or low.where not in ("below", "cannot_tell"):
        return low
    if low.reading.si + 2 * low.u >= TOWARD_VACUUM.pa:
        return low
    return replace(low, where="toward_vacuum")


def _ratio(low: Side, high: Side) -> Measured | None:
    if low.pressure is None or high.pressure is None or low.pressure.pa <= low.u:
        return None
    ratio = high.pressure.pa / low.pressure.pa
    return Measured(ratio, ratio_u(high.pressure, low.pressure, high.u, low.u))


def _band(ambient: Reading | None, around: Circumstances) -> tuple[float, float] | None:
    """The band of the ratio at that air, or None where none is known."""
    gas = around.system.get("refrigerant", "")
    if ambient is None or not gas:
        return None
    try:
        return ratio_band(gas, ambient.si)
    except PhysicsError:
        return None


def gauges_words() -> str:
    """Whose accuracy stands behind the sorting."""
    names = ("low_side_gauge", "high_side_gauge", "thermometer")
    return ", ".join(INSTRUMENTS[name].words for name in names) + ", by default."
