"""Absolute and gauge pressure as two types, so that one can never be taken for the other."""

import math
from dataclasses import dataclass

from diagnostics.physics.errors import Impossible, Malformed


def _finite(pascal: float) -> None:
    if not math.isfinite(pascal):
        raise Malformed("That is no number.")


@dataclass(frozen=True, order=True)
class Absolute:
    """Pressure above perfect vacuum, in pascal.

    Raises:
        Malformed: not a finite number.
        Impossible: below zero.

    """

    pa: float

    def __post_init__(self) -> None:
        _finite(self.pa)
        if self.pa < 0:
            raise Impossible("Deeper than perfect vacuum: no pressure is below nothing.")

    def gauge(self, ambient: "Absolute") -> "Gauge":
        """What a gauge shows of it where the air presses with `ambient`."""
        return Gauge(self.pa - ambient.pa)


@dataclass(frozen=True, order=True)
class Gauge:
    """Pressure above that of the air around, in pascal; below zero is vacuum.

    Raises:
        Malformed: not a finite number.

    """

    pa: float

    def __post_init__(self) -> None:
        _finite(self.pa)

    def absolute(self, ambient: Absolute) -> Absolute:
        """The same above perfect vacuum, where the air presses with `ambient`.

        Raises:
            Impossible: deeper than perfect vacuum at that air pressure.

        """
        return Absolute(self.pa + ambient.pa)
