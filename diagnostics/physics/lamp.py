"""A filament lamp as load in place of the coil, to bring a rotten joint to light.

A filament is the hotter the more it gets, and the hotter the more resistance it has: dim, it asks
less of its volts than its label says. The power goes as V to 1.6, so the current as V to 0.6 (lamp
rerating, as handbooks of electrical engineering give it; some give 0.55 for the current). Followed
from a fifth of its rated voltage up; below, the filament hardly glows and the law is rougher.
"""

import math
from dataclasses import dataclass

from diagnostics.physics.errors import OutOfRange
from diagnostics.physics.root import crossing
from diagnostics.physics.wiring import Joint

CURRENT_EXPONENT = 0.6
LOWER_EXPONENT = 0.55  # of other handbooks; shows how rough the law is
FOLLOWED_FROM = 0.2  # of the rated voltage; our judgement
HIGHEST = 30.0  # V: no car's lamp gets more


@dataclass(frozen=True)
class Lamp:
    """Power in W at a voltage in V.

    Raises:
        OutOfRange: no power or no voltage.

    """

    watt: float
    volt: float

    def __post_init__(self) -> None:
        if not (self.watt > 0 and self.volt > 0 and math.isfinite(self.watt * self.volt)):
            raise OutOfRange("A lamp takes some power at some voltage: more than nothing.")

    def ampere(self, volt: float, exponent: float = CURRENT_EXPONENT) -> float:
        """Current in A at a voltage in V. Lamp rerating.

        Raises:
            OutOfRange: below zero, or more than any car has.

        """
        return self.watt / self.volt * float((_volt(volt) / self.volt) ** exponent)

    def is_followed(self, volt: float) -> bool:
        """Whether the law holds well at a voltage in V."""
        return volt >= FOLLOWED_FROM * self.volt


TWENTY_ONE_WATT = Lamp(21.0, 13.5)


def joint_before_lamp(
    volt: float, joint_ohm: float, lamp: Lamp, exponent: float = CURRENT_EXPONENT
) -> Joint:
    """A joint of some ohm before a lamp, fed with `volt`: current, drop, and volts at the lamp.

    Raises:
        OutOfRange: a resistance below zero, a voltage below zero or more than any car has.

    """
    _volt(volt)
    if not (joint_ohm >= 0 and math.isfinite(joint_ohm)):
        raise OutOfRange("A joint has no less than no resistance.")
    at_lamp = crossing(
        lambda at: at + joint_ohm * lamp.ampere(max(at, 0.0), exponent) - volt, 0.0, volt
    )
    ampere = lamp.ampere(max(at_lamp, 0.0), exponent)
    return Joint(joint_ohm, ampere, volt - at_lamp, at_lamp)


def joint_by_lamp(volt: float, lamp_volt: float, lamp: Lamp) -> Joint:
    """The joint that leaves `lamp_volt` at a lamp fed with `volt`.

    Raises:
        OutOfRange: more at the lamp than is fed, none at it, or more than any car has.

    """
    if not 0 < _volt(lamp_volt) <= _volt(volt):
        raise OutOfRange("The lamp gets some of what is fed, and not more.")
    ampere = lamp.ampere(lamp_volt)
    return Joint((volt - lamp_volt) / ampere, ampere, volt - lamp_volt, lamp_volt)


def _volt(volt: float) -> float:
    if not 0 <= volt <= HIGHEST:
        raise OutOfRange("A lamp is followed from 0 to 30 V.")
    return volt
