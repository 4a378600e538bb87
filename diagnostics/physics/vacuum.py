"""How deep a vacuum is, what a needle can show of it, and whether water boils in it."""

import math
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.physics.pressure import Absolute, Gauge
from diagnostics.physics.uncertainty import Measured, Place, place
from diagnostics.physics.units import from_si, shown, to_si, with_unit
from diagnostics.physics.water import (
    TRIPLE_KELVIN,
    TRIPLE_PRESSURE,
    slope,
    vapor_pressure,
    vapor_temperature,
)

TARGET = Absolute(to_si(500, "micron"))  # or lower, by a micron gauge at the system: trade articles
COLD_ENOUGH = 150.0  # K: colder than any loop; below its ice's pressure no temperature is told

# boils: water of that temperature turns to vapor. stays: it does not. ice_leaves, ice_stays: the
# same of ice, in a loop below freezing. cannot_tell: with these instruments.
WaterState = Literal["boils", "stays", "ice_leaves", "ice_stays", "cannot_tell"]


@dataclass(frozen=True)
class Water:
    """What water in a pumped loop does.

    `line`: the pressure below which it leaves; `u`: standard uncertainty of the distance to it, Pa.
    `leaves_at`: the temperature in K from which it leaves at this depth; None: colder than any
    loop. `chills_to_ice`: below the ice point, so what boils can freeze itself and then leaves
    slowly.
    """

    state: WaterState
    line: Absolute
    u: float
    leaves_at: float | None
    chills_to_ice: bool


def needle_best(air: Absolute) -> Gauge:
    """What a needle gauge shows of a perfect vacuum where the air presses with `air`."""
    return Absolute(0.0).gauge(air)


def needle_shows(pressure: Absolute, air: Absolute) -> Gauge:
    """What a needle gauge, right at zero, shows of a pressure where the air presses with `air`."""
    return pressure.gauge(air)


def depth_absolute(depth: Gauge, air: Absolute) -> Absolute:
    """Absolute pressure of a vacuum as a needle shows it, below zero, where the air presses so.

    Raises:
        Impossible: deeper than perfect vacuum at that air pressure; the sentence names the best
            that a needle can show there.
        Malformed: above the air's pressure: no vacuum.

    """
    if depth.pa > 0:
        raise Malformed("That is above the air's pressure: no vacuum.")
    if depth < needle_best(air):
        raise Impossible(
            f"{_inches(-depth.pa)} of vacuum is deeper than perfect: where the air presses with "
            f"{_inches(air.pa)} no needle can show more than that. Check altitude and zero."
        )
    return depth.absolute(air)


def water_in(pressure: Measured, kelvin: Measured) -> Water:
    """What water does at an absolute pressure in Pa, in a loop of a temperature in K.

    IAPWS R7-97 and R14-08; what both readings may be off by JCGM 100, 5.1.2.

    Raises:
        Malformed: not a finite number.
        Impossible: deeper than perfect vacuum, or below absolute zero.
        OutOfRange: a temperature at which water and ice are not followed.

    """
    here = Absolute(pressure.value)
    line = vapor_pressure(kelvin.value)
    u = math.hypot(pressure.u, slope(kelvin.value) * kelvin.u)
    where = place(Measured(here.pa, u), -math.inf, line.pa)
    return Water(
        _state(where, frozen=kelvin.value < TRIPLE_KELVIN),
        line,
        u,
        leaves_at(here),
        here < TRIPLE_PRESSURE,
    )


def leaves_at(pressure: Absolute) -> float | None:
    """Temperature in K from which water or ice leaves at that pressure; None: colder than any loop.

    Raises:
        OutOfRange: above the critical pressure.

    """
    if pressure < vapor_pressure(COLD_ENOUGH):
        return None
    return vapor_temperature(pressure)


def reaches(depth: Measured, target: Absolute = TARGET) -> Place:
    """Where a depth, an absolute pressure in Pa, stands to the target: "inside" is deep enough."""
    return place(depth, -math.inf, target.pa)


def _state(where: Place, *, frozen: bool) -> WaterState:
    if where == "cannot_tell":
        return "cannot_tell"
    if frozen:
        return "ice_leaves" if where == "inside" else "ice_stays"
    return "boils" if where == "inside" else "stays"


def _inches(pascal: float) -> str:
    return with_unit(shown(from_si(pascal, "inHg"), 1), "inHg")
