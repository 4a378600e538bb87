"""Whether two temperatures read at a vent may be compared at all.

Vent temperature depends on ambient temperature, humidity, engine speed, fan, doors, recirculation
and the minutes run: before and after are compared under the same conditions only (trade articles).
What a vent should show is judged nowhere: the normal ranges in circulation have no source. How far
two conditions may lie apart and count as the same is our judgement, see below.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import Impossible, Malformed
from diagnostics.physics.uncertainty import Measured
from diagnostics.physics.units import from_si, shown, with_unit

Verdict = Literal["comparable", "not_comparable", "cannot_tell"]
Way = Literal["no_change", "colder", "warmer"]

# Our judgement, common practice, no source: how far apart is still the same. Both readings are
# taken to come from the same thermometer and the same kind of humidity reading.
AMBIENT_APART = 3.0  # K
HUMIDITY_APART = 0.10  # share: ten points of relative humidity
SPEED_APART = 2.5  # 1/s: 150 rpm, what an idle wanders
RUN_APART = 120.0  # s
SETTLED = 600.0  # s: after ten minutes more minutes change little (workshop manuals ask for ten)
# Humidity told in a word instead of a number: from, to. Our judgement, no source.
HUMIDITY_WORDS = {"dry": (0.0, 0.4), "normal": (0.4, 0.7), "muggy": (0.7, 1.0)}


@dataclass(frozen=True)
class VentConditions:
    """Under what a vent was read; None or "": not noted.

    `ambient` in K, `humidity` a share from 0 to 1 or one of HUMIDITY_WORDS, `speed` of the engine
    in 1/s, `run` in s since the A/C was switched on; the rest as they are called in the shop.

    Raises:
        Malformed: not a finite number, or a word for the humidity that nobody knows.
        Impossible: below absolute zero, a humidity outside 0 to 1, a speed or time below zero.

    """

    ambient: float | None = None
    humidity: float | str | None = None
    speed: float | None = None
    fan: str | None = None
    doors: str | None = None
    recirculation: str | None = None
    run: float | None = None

    def __post_init__(self) -> None:
        numbers = (self.ambient, self.humidity, self.speed, self.run)
        if not all(math.isfinite(one) for one in numbers if isinstance(one, float | int)):
            raise Malformed("That is no number.")
        if self.ambient is not None and self.ambient < 0:
            raise Impossible("Below absolute zero: nothing is that cold.")
        if isinstance(self.humidity, float | int) and not 0 <= self.humidity <= 1:
            raise Impossible("Air holds from 0 to 100 % of the water vapor it can: never more.")
        if isinstance(self.humidity, str) and self.humidity not in ("", *HUMIDITY_WORDS):
            raise Malformed(f"“{self.humidity}”: humidity is a number, or dry, normal or muggy.")
        if (self.speed or 0) < 0 or (self.run or 0) < 0:
            raise Impossible("An engine speed or a time below zero.")


@dataclass(frozen=True)
class Comparison:
    """What stands in the way of comparing: conditions that differ, and those nobody noted."""

    differs: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def verdict(self) -> Verdict:
        """One difference is enough; a condition that was not noted is not a condition kept."""
        if self.differs:
            return "not_comparable"
        return "cannot_tell" if self.missing else "comparable"

    @property
    def why(self) -> tuple[str, ...]:
        """The reasons as sentences."""
        return self.differs + self.missing


NAMES = {
    "ambient": "Ambient temperature",
    "humidity": "Humidity",
    "speed": "Engine speed",
    "fan": "Fan step",
    "doors": "Doors and windows",
    "recirculation": "Recirculation",
    "run": "Minutes run",
}


def compare_conditions(first: VentConditions, second: VentConditions) -> Comparison:
    """What was not the same in two readings at a vent."""
    return Comparison(tuple(_differing(first, second)), tuple(_missing(first, second)))


def vent_change(first: Measured, second: Measured) -> tuple[Measured, Way]:
    """Second less first vent temperature in K, and whether the thermometers can tell a change.

    Only where the conditions are comparable does this say anything about the car.
    """
    change = Measured(second.value - first.value, math.hypot(first.u, second.u))
    if abs(change.value) <= change.expanded:
        return change, "no_change"
    return change, "colder" if change.value < 0 else "warmer"


def _differing(first: VentConditions, second: VentConditions) -> Iterator[str]:
    for name, words in NAMES.items():
        one, other = getattr(first, name), getattr(second, name)
        if _noted(one) and _noted(other) and not _same(name, one, other):
            yield f"{words}: {_told(name, one)} and {_told(name, other)}."


def _missing(first: VentConditions, second: VentConditions) -> Iterator[str]:
    for name, words in NAMES.items():
        noted = _noted(getattr(first, name)), _noted(getattr(second, name))
        if noted == (False, False):
            yield f"{words}: noted for neither."
        elif not all(noted):
            yield f"{words}: not noted for the {'second' if noted[0] else 'first'}."


def _noted(told: float | str | None) -> bool:
    return told is not None and told != ""


def _same(name: str, one: float | str, other: float | str) -> bool:
    if name == "humidity":
        return _same_humidity(one, other)
    if isinstance(one, str) or isinstance(other, str):
        return str(one).strip().casefold() == str(other).strip().casefold()
    if name == "run" and min(one, other) >= SETTLED:
        return True
    apart = {"ambient": AMBIENT_APART, "speed": SPEED_APART, "run": RUN_APART}[name]
    return abs(one - other) <= apart * (1 + 1e-9)


def _same_humidity(one: float | str, other: float | str) -> bool:
    """Two words must be one; a number must lie in what the word covers, give or take."""
    if isinstance(one, str) and isinstance(other, str):
        return one == other
    (low, high), (least, most) = _span(one), _span(other)
    apart = HUMIDITY_APART if isinstance(one, str) == isinstance(other, str) else 0.0
    return low - apart <= most + 1e-9 and least - apart <= high + 1e-9


def _span(humidity: float | str) -> tuple[float, float]:
    return (
        HUMIDITY_WORDS[humidity]
        if isinstance(humidity, str)
        else (float(humidity), float(humidity))
    )


def _told(name: str, told: float | str) -> str:
    if isinstance(told, str):
        return told
    unit, decimals = {
        "ambient": ("°C", 0), "humidity": ("%", 0), "speed": ("rpm", 0), "run": ("min", 0),
    }[name]  # fmt: skip
    return with_unit(shown(from_si(told, unit), decimals), unit)
