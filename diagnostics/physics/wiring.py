"""Wires and joints under current: resistance of a cable, and what a drop along one means."""

import math
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.electrics import NO_CURRENT, resistance_at
from diagnostics.physics.errors import Malformed, OutOfRange
from diagnostics.physics.uncertainty import Measured, place, quotient

RESISTIVITY = 1 / 58e6  # Ω·m at 20 °C, annealed copper: IEC 60028
GAUGES = (-3, 40)  # 4/0 counts as -3
# V that may be lost, coil energized: from, and above which it is traced. Feed: trade articles name
# 0.20 and 0.30 V; ground: common practice, no source. For 12 V systems.
FEED_DROP = (0.20, 0.30)
GROUND_DROP = (0.10, 0.10)

DropPlace = Literal["inside", "at_limit", "outside", "cannot_tell"]


@dataclass(frozen=True)
class Joint:
    """A resistance in a line that feeds a load, in V, A and Ω."""

    ohm: float
    ampere: float
    drop: float
    load_volt: float


def awg_diameter(gauge: float) -> float:
    """Diameter in m of solid wire by American wire gauge, 4/0 (-3) to 40. ASTM B258.

    Raises:
        Malformed: no whole number.
        OutOfRange: outside 4/0 to 40.

    """
    if not math.isfinite(gauge) or gauge != int(gauge):
        raise Malformed("A wire gauge is a whole number; 4/0 is written −3.")
    if not GAUGES[0] <= gauge <= GAUGES[1]:
        raise OutOfRange("Wire gauges are followed from 4/0 (−3) to 40.")
    return float(0.127e-3 * 92 ** ((36 - gauge) / 39))


def awg_area(gauge: float) -> float:
    """Copper in m² of solid wire by American wire gauge, 4/0 (-3) to 40. ASTM B258.

    Raises:
        Malformed: no whole number.
        OutOfRange: outside 4/0 to 40.

    """
    return math.pi / 4 * awg_diameter(gauge) ** 2


def wire_resistance(area: float, length: float, kelvin: float) -> float:
    """Ohm of so many m of copper, `area` in m², at a temperature in K. One way, not there and back.

    Stranded cable of the same gauge has up to 10 % more (limits of IEC 60228), and old cable
    whatever its joints have.

    Raises:
        Impossible: a temperature below absolute zero.
        OutOfRange: no copper, a length below zero, outside -60 to 200 °C.

    """
    if not (area > 0 and math.isfinite(area)):
        raise OutOfRange("A wire has some copper in it: more than nothing.")
    if not (length >= 0 and math.isfinite(length)):
        raise OutOfRange("A wire is not shorter than nothing.")
    return resistance_at(RESISTIVITY * length / area, kelvin)


def drop_resistance(drop: Measured, current: Measured) -> Measured:
    """Ohm in a stretch that loses `drop` volts while `current` ampere flow; signs are left out.

    Raises:
        OutOfRange: no current flows.

    """
    amount = Measured(abs(drop.value), drop.u), Measured(abs(current.value), current.u)
    if not amount[1].value >= NO_CURRENT:
        raise OutOfRange(
            "No current flows: without current even a rotten joint loses no voltage, so the "
            "reading shows nothing."
        )
    return quotient(*amount)


def place_drop(drop: Measured, limit: tuple[float, float]) -> DropPlace:
    """Where volts lost stand to a limit (at most, traced above), the meter's error included."""
    amount = Measured(abs(drop.value), drop.u)
    if place(amount, -math.inf, limit[0]) == "inside":
        return "inside"
    if place(amount, -math.inf, limit[1]) == "above":
        return "outside"
    return "at_limit" if place(amount, *limit) == "inside" else "cannot_tell"


def joint_before_coil(volt: float, joint_ohm: float, coil_ohm: float) -> Joint:
    """A joint of some ohm before a coil of some ohm, fed with `volt`.

    Raises:
        OutOfRange: a resistance below zero, or a coil of none.

    """
    if not (joint_ohm >= 0 and coil_ohm > 0):
        raise OutOfRange("A joint has no less than no resistance, a coil has some.")
    ampere = volt / (joint_ohm + coil_ohm)
    return Joint(joint_ohm, ampere, ampere * joint_ohm, ampere * coil_ohm)
