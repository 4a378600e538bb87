"""Curves fitted to a vacuum that rises: level, straight, and flattening below water's line.

Least squares with known spreads. Which curve explains best is told by Akaike's criterion for few
readings, AICc = misfit / c + 2k + 2k(k + 1) / (n - k - 1): Burnham and Anderson, Model Selection
and Multimodel Inference, 2nd ed. 2002, 2.4 and, for c that widens spreads where no curve keeps to
them, 2.5 (from memory).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from diagnostics.physics.pressure import Absolute
from diagnostics.physics.units import to_si

# What one micron gauge's readings scatter: ±2 % and ±5 micron, uniform; our judgement. What its
# scale is off counts for all readings alike and hardly bends a curve.
SPREAD_SHARE = 0.02 / math.sqrt(3)
SPREAD_FIXED = to_si(5, "micron") / math.sqrt(3)

Shape = Literal["level", "straight", "flattening"]
PARAMETERS: dict[Shape, int] = {"level": 1, "straight": 2, "flattening": 3}
# Paces of a flattening rise that are tried first, as shares of the time of the test.
_PACES = tuple(10 ** (step / 10) for step in range(-15, 16))
_GOLDEN = (math.sqrt(5) - 1) / 2


@dataclass(frozen=True)
class Timed:
    """A reading: seconds since the valve was closed, absolute pressure."""

    second: float
    pressure: Absolute


@dataclass(frozen=True)
class Curve:
    """A fitted curve; `begin` in s, `start` and `gain` in Pa, `rate` in Pa/s, `pace` in s.

    level: start. straight: start + rate x t. flattening: start + gain x (1 - exp(-t / pace)), t
    counted from `begin`. `misfit`: squared distances in spreads, summed. `aicc`: infinite where
    there are too few readings for it.
    """

    shape: Shape
    begin: float
    start: float
    misfit: float
    rate: float = 0.0
    gain: float = 0.0
    pace: float = 0.0
    aicc: float = math.inf

    def at(self, second: float) -> float:
        """Pressure in Pa at a time in s."""
        passed = second - self.begin
        if self.shape == "flattening":
            return self.start - self.gain * math.expm1(-passed / self.pace)
        return self.start + self.rate * passed

    def rate_at(self, second: float) -> float:
        """How fast it rises at a time in s, in Pa/s."""
        if self.shape == "flattening":
            return self.gain / self.pace * math.exp(-(second - self.begin) / self.pace)
        return self.rate

    @property
    def plateau(self) -> float:
        """Pressure in Pa at which a flattening rise ends."""
        return self.start + self.gain


def spread(reading: Timed, last_digit: float = 0.0) -> float:
    """Standard spread of a reading in Pa; `last_digit` is the gauge's own step there."""
    return math.hypot(
        SPREAD_SHARE * reading.pressure.pa, SPREAD_FIXED, last_digit / 2 / math.sqrt(3)
    )


def fitted(readings: Sequence[Timed], spreads: Sequence[float], water: Absolute) -> list[Curve]:
    """Level, straight and flattening curve through readings in order of time, with their AICc.

    A flattening one ends no higher than `water`, the pressure of vapor over water there.
    """
    straight, _ = straight_line(readings, spreads)
    curves = [_level(readings, spreads), straight, _flattening(readings, spreads, water)]
    wider = _widening(curves, len(readings))
    return [
        replace(one, aicc=criterion(one.misfit / wider, PARAMETERS[one.shape], len(readings)))
        for one in curves
    ]


def criterion(misfit: float, parameters: int, readings: int) -> float:
    """AICc of a fit with known spreads; infinite where there are too few readings."""
    left = readings - parameters - 1
    if left < 1:
        return math.inf
    return misfit + 2 * parameters + 2 * parameters * (parameters + 1) / left


def straight_line(readings: Sequence[Timed], spreads: Sequence[float]) -> tuple[Curve, float]:
    """The straight curve, and the standard uncertainty of its rate in Pa/s."""
    weights = [1 / one**2 for one in spreads]
    total, begin = sum(weights), readings[0].second
    middle = sum(w * one.second for w, one in zip(weights, readings, strict=True)) / total
    mean = sum(w * one.pressure.pa for w, one in zip(weights, readings, strict=True)) / total
    wide = sum(w * (one.second - middle) ** 2 for w, one in zip(weights, readings, strict=True))
    rate = (
        sum(
            w * (one.second - middle) * (one.pressure.pa - mean)
            for w, one in zip(weights, readings, strict=True)
        )
        / wide
    )
    curve = Curve("straight", begin, mean + rate * (begin - middle), 0.0, rate=rate)
    return _with_misfit(curve, readings, spreads), 1 / math.sqrt(wide)


def widened(curves: Sequence[Curve], readings: int) -> float:
    """By what the spreads have to be widened for the best curve to keep to them; 1 at least."""
    return math.sqrt(_widening(curves, readings))


def _widening(curves: Sequence[Curve], readings: int) -> float:
    shares = [
        one.misfit / (readings - PARAMETERS[one.shape])
        for one in curves
        if readings > PARAMETERS[one.shape]
    ]
    return max(1.0, min(shares)) if readings > PARAMETERS["straight"] else 1.0


def _level(readings: Sequence[Timed], spreads: Sequence[float]) -> Curve:
    weights = [1 / one**2 for one in spreads]
    mean = sum(w * one.pressure.pa for w, one in zip(weights, readings, strict=True)) / sum(weights)
    return _with_misfit(Curve("level", readings[0].second, mean, 0.0), readings, spreads)


def _flattening(readings: Sequence[Timed], spreads: Sequence[float], water: Absolute) -> Curve:
    """The best of all paces: a coarse search, then golden section around the best."""
    span = readings[-1].second - readings[0].second

    def fit(logarithm: float) -> Curve:
        return _of_pace(readings, spreads, water, span * math.exp(logarithm))

    grid = [math.log(pace) for pace in _PACES]
    best = min(range(len(grid)), key=lambda index: fit(grid[index]).misfit)
    low, high = grid[max(best - 1, 0)], grid[min(best + 1, len(grid) - 1)]
    for _ in range(30):
        left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        if fit(left).misfit <= fit(right).misfit:
            high = right
        else:
            low = left
    return min(fit((low + high) / 2), fit(grid[best]), key=lambda one: one.misfit)


def _of_pace(
    readings: Sequence[Timed], spreads: Sequence[float], water: Absolute, pace: float
) -> Curve:
    """The best flattening curve of one pace: linear least squares within its bounds."""
    begin = readings[0].second
    full = [-math.expm1(-(one.second - begin) / pace) for one in readings]
    weights = [1 / one**2 for one in spreads]
    total = sum(weights)
    middle = sum(w * f for w, f in zip(weights, full, strict=True)) / total
    mean = sum(w * one.pressure.pa for w, one in zip(weights, readings, strict=True)) / total
    wide = sum(w * (f - middle) ** 2 for w, f in zip(weights, full, strict=True))
    with_gain = sum(
        w * (f - middle) * (one.pressure.pa - mean)
        for w, f, one in zip(weights, full, readings, strict=True)
    )
    gain = max(with_gain / wide, 0.0) if wide else 0.0
    start = mean - gain * middle
    if start + gain > water.pa:  # its end is held at water's line
        left = [1 - f for f in full]
        squares = sum(w * one**2 for w, one in zip(weights, left, strict=True))
        gain = sum(
            w * one * (water.pa - read.pressure.pa)
            for w, one, read in zip(weights, left, readings, strict=True)
        )
        gain = max(gain / squares, 0.0)
        start = water.pa - gain
    curve = Curve("flattening", begin, start, 0.0, gain=gain, pace=pace)
    return _with_misfit(curve, readings, spreads)


def _with_misfit(curve: Curve, readings: Sequence[Timed], spreads: Sequence[float]) -> Curve:
    misfit = sum(
        ((one.pressure.pa - curve.at(one.second)) / u) ** 2
        for one, u in zip(readings, spreads, strict=True)
    )
    return replace(curve, misfit=misfit)
