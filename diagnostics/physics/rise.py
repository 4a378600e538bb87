"""A vacuum that rises behind a closed valve: leak, moisture, no rise, or cannot tell.

A leak lets in the same all the time: a straight climb. Moisture and gas out of oil fill up to a
pressure of their own: a rise that flattens below water's line. The curve with the better criterion
is taken (see rise_curves.py); the one with more to bend has to win by DECISIVE, and a climb counts
as straight only where these readings would have shown a flattening one. Leak and moisture together
are not told apart.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from diagnostics.physics.errors import Malformed, OutOfRange
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.rise_curves import (
    PARAMETERS,
    Curve,
    Shape,
    Timed,
    criterion,
    fitted,
    spread,
    straight_line,
    widened,
)
from diagnostics.physics.uncertainty import Measured

# 4 to 7 is "considerably less" support in the rule of thumb of Burnham and Anderson, 2.6 (from
# memory).
DECISIVE = 4.0
FEWEST, ENOUGH = 4, 5  # readings to tell a rise at all; to tell what rises
MOST = 500
# "Straight" needs readings that would show a rise which flattens within half the time of the test.
PACE = 0.5
# Times water's line: a thermometer that is 2 K off moves the line by 13 %.
ABOVE = 1.15
GROSS = (
    "Holding vacuum is a gross check, never proof of tightness: small leaks do not show in a "
    "vacuum. Search for leaks under pressure."
)

# leak: a straight climb, or one through water's line. moisture: flattens below that line.
Seen = Literal["no_rise", "leak", "moisture", "falls", "cannot_tell"]
# few: too few readings to tell what rises. close: two curves fit nearly as well. not_shown: rises,
# but too little or too short to show whether it flattens.
Why = Literal["", "few", "close", "not_shown"]


@dataclass(frozen=True)
class Rise:
    """What timed readings show; `why` where they cannot tell.

    `rate`: of the straight curve with its standard uncertainty, in Pa/s. `last`: s. `above_water`:
    it rose through the pressure of vapor over water, so it is not water alone.
    """

    seen: Seen
    why: Why
    rate: Measured
    curves: dict[Shape, Curve]
    last: float
    above_water: bool

    @property
    def smallest_rate(self) -> float:
        """The smallest steady rise in Pa/s that these readings could have shown."""
        return self.rate.expanded

    @property
    def hidden_rate(self) -> float:
        """The largest steady rise in Pa/s that can still be in them: seen at the end, or unseen."""
        curve = self.curves["flattening" if self.seen == "moisture" else "straight"]
        return max(curve.rate_at(self.last), 0.0) + self.rate.expanded


def read_rise(readings: Sequence[Timed], water: Absolute, last_digit: float = 0.0) -> Rise:
    """What readings in order of time show, in a loop where vapor over water presses with `water`.

    `last_digit`: the gauge's step in Pa.

    Raises:
        Malformed: not a finite time, or times that do not go on.
        OutOfRange: fewer than two readings, or more than 500.

    """
    _in_order(readings)
    spreads = [spread(one, last_digit) for one in readings]
    curves = {one.shape: one for one in fitted(readings, spreads, water)}
    _, u = straight_line(readings, spreads)
    rate = Measured(curves["straight"].rate, u * widened(list(curves.values()), len(readings)))
    first, last = readings[0], readings[-1]
    through = first.pressure < water and last.pressure.pa > ABOVE * water.pa
    told: tuple[Seen, Why] = ("leak", "") if through else _seen(readings, spreads, curves)
    return Rise(*told, rate, curves, last.second, through)


def _seen(
    readings: Sequence[Timed], spreads: Sequence[float], curves: dict[Shape, Curve]
) -> tuple[Seen, Why]:
    level, straight, flattening = (curves[shape] for shape in ("level", "straight", "flattening"))
    better = level.aicc - min(straight.aicc, flattening.aicc)
    if len(readings) < FEWEST:
        return "cannot_tell", "few"
    if better < DECISIVE:
        return ("no_rise", "") if better <= 0 else ("cannot_tell", "close")
    if straight.rate < 0:
        return "falls", ""
    if len(readings) < ENOUGH:
        return "cannot_tell", "few"
    bent = straight.aicc - flattening.aicc
    if bent > 0:
        return ("moisture", "") if bent >= DECISIVE else ("cannot_tell", "close")
    wider = widened(list(curves.values()), len(readings))
    shown = _would_show(readings, spreads, straight, wider)
    return ("leak", "") if shown else ("cannot_tell", "not_shown")


def _would_show(
    readings: Sequence[Timed], spreads: Sequence[float], straight: Curve, wider: float
) -> bool:
    """Whether the same rise, flattening within half the time, would not have looked straight."""
    begin, span = readings[0].second, readings[-1].second - readings[0].second
    full = straight.rate * span / -math.expm1(-1 / PACE)
    bent = Curve("flattening", begin, straight.start, 0.0, gain=full, pace=PACE * span)
    as_if = [Timed(one.second, Absolute(max(bent.at(one.second), 0.0))) for one in readings]
    line, _ = straight_line(as_if, spreads)
    count = len(readings)
    told = criterion(line.misfit / wider**2, PARAMETERS["straight"], count)
    return told - criterion(0.0, PARAMETERS["flattening"], count) >= DECISIVE


def _in_order(readings: Sequence[Timed]) -> None:
    if len(readings) < 2:
        raise OutOfRange("One reading shows no rise: read again after some minutes.")
    if len(readings) > MOST:
        raise OutOfRange(f"More than {MOST} readings: take some out.")
    for before, after in itertools.pairwise(readings):
        if not after.second > before.second or not math.isfinite(after.second):
            raise Malformed("Each reading is later than the one before: check the minutes.")
