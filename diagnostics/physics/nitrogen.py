"""Dry nitrogen held in a loop: the pressure that temperature alone explains, and the rest.

A gas in a closed loop presses as its absolute temperature (ideal gas; real nitrogen at 10 bar falls
0.005 bar more over 5 K). What is left after that is a leak, or what the gauge and the
thermometer may be off.
"""

import math
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import OutOfRange
from diagnostics.physics.leak import Loop, gas_flow, refrigerant_flow
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.saturation import above_zero
from diagnostics.physics.uncertainty import Measured, place

# Pa: one gauge read twice. What its scale is off counts for both readings and drops out of their
# difference (JCGM 100, 5.2.2); what is left is how finely it is read. Our judgement: ±5 kPa.
READ_TWICE_U = 5e3 / math.sqrt(3)
NOTHING_TO_HOLD = "No pressure above the air's: there is nothing to hold."
SHORTEST = 60.0  # s: over less, no leak is told

# leak: fell more than can be explained. rises: the other way. cannot_tell: neither is shown; a leak
# smaller than `smallest_leak` would look the same.
HoldSeen = Literal["leak", "rises", "cannot_tell"]


@dataclass(frozen=True)
class HeldReading:
    """A gauge reading with the temperature of the whole loop in K at that time."""

    pressure: Gauge
    kelvin: Measured


@dataclass(frozen=True)
class Hold:
    """A hold between two readings.

    `expected`: what the gauge would show with nothing lost. `change`: read minus expected, in Pa.
    `leak`: the leak in kg/s of refrigerant that explains the change; `smallest`: the smallest that
    this hold could have shown.
    """

    seen: HoldSeen
    expected: Gauge
    change: Measured
    leak: float
    smallest: float


def expected_pressure(start: Gauge, start_kelvin: float, end_kelvin: float, air: Absolute) -> Gauge:
    """What a gauge shows at the end when nothing was lost: P2abs = P1abs x T2 / T1.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero, or deeper than perfect vacuum.
        OutOfRange: no temperature to begin with.

    """
    above_zero(start_kelvin)
    above_zero(end_kelvin)
    if start_kelvin == 0:
        raise OutOfRange("At absolute zero no gas is left that could press.")
    absolute = start.absolute(air)
    return Absolute(absolute.pa * end_kelvin / start_kelvin).gauge(air)


def read_hold(
    start: HeldReading, end: HeldReading, seconds: float, loop: Loop, read_u: float = READ_TWICE_U
) -> Hold:
    """A hold over so many seconds; `read_u` is how finely each pressure is read, in Pa.

    Both temperatures may be off on their own: the loop is seldom at one temperature.

    Raises:
        Malformed: not a finite number.
        Impossible: below absolute zero, or deeper than perfect vacuum.
        OutOfRange: less than a minute, or no pressure above the air's.

    """
    if not (seconds >= SHORTEST and math.isfinite(seconds)):
        raise OutOfRange("A hold of less than a minute shows nothing.")
    if not start.pressure.pa > 0:
        raise OutOfRange(NOTHING_TO_HOLD)
    expected = expected_pressure(start.pressure, start.kelvin.value, end.kelvin.value, loop.air)
    absolute = expected.absolute(loop.air).pa
    warmth = absolute * math.hypot(
        start.kelvin.u / start.kelvin.value, end.kelvin.u / end.kelvin.value
    )
    scale = end.kelvin.value / start.kelvin.value
    u = math.hypot(read_u * scale, read_u, warmth)
    change = Measured(end.pressure.pa - expected.pa, u)

    def as_leak(pascal: float) -> float:
        flow = gas_flow(pascal / seconds, loop.volume)
        held = start.pressure.absolute(loop.air)
        return refrigerant_flow(flow, end.kelvin.value, held, loop.air, loop)

    return Hold(_seen(change), expected, change, as_leak(-change.value), as_leak(change.expanded))


def _seen(change: Measured) -> HoldSeen:
    where = place(change, 0.0, 0.0)
    found: dict[str, HoldSeen] = {"below": "leak", "above": "rises"}
    return found.get(where, "cannot_tell")
