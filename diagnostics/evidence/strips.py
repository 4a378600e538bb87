"""Linear strips: an axis that fits what stands on it, with whole ticks."""

import math

from diagnostics.evidence.fields import Number
from diagnostics.evidence.findings import Strip
from diagnostics.evidence.readings import Reading
from diagnostics.evidence.system import System
from diagnostics.physics.shown_units import ShownIn
from diagnostics.physics.units import from_si, shown_range

STEPS = (1.0, 2.0, 4.0, 5.0)
TICKS = 7


def tick_step(width: float) -> float:
    """The smallest of 1, 2, 4, 5 times a power of ten that needs at most TICKS steps."""
    size = 10.0 ** math.floor(math.log10(width / TICKS))
    return next(step * size for step in (*STEPS, 10.0) if width / (step * size) <= TICKS)


def axis(low: float, high: float) -> tuple[float, float, tuple[float, ...]]:
    """(low, high, ticks) that hold everything from low to high, ending on ticks."""
    step = tick_step(max(high - low, 1e-9))
    first, last = math.floor(low / step), math.ceil(high / step)
    if first == last:
        last += 1
    ticks = tuple(round(index * step, 12) for index in range(first, last + 1))
    return ticks[0], ticks[-1], ticks


def strip(
    unit: str,
    point: float,
    point_words: str,
    error: float = 0.0,
    expected: tuple[float, float] | None = None,
    decimals: int = 1,
) -> Strip:
    """Point, error and band on one axis, all in `unit`."""
    ends = [point - error, point + error, *(expected or ())]
    room = 0.1 * (max(ends) - min(ends)) or 1.0
    low, high, ticks = axis(max(0.0, min(ends) - room), max(ends) + room)
    words = ""
    if expected:
        words = f"expected {shown_range(*expected, decimals)}"
    return Strip(unit, low, high, ticks, expected, words, point, point_words, error)


def range_strip(
    number: Number, reading: Reading, system: System, units: ShownIn | None = None
) -> Strip:
    """What a number can be, and a typed value beyond it, past a break in the scale."""
    span = number.span_for(system)
    low, high = float(span.low), float(span.high)
    unit = number.starts(units) if units else number.unit
    if units and unit != number.unit:
        low, high = (units.in_usual(end, number.unit) for end in (low, high))
    ticks = tuple(tick for tick in axis(low, high)[2] if low <= tick <= high)
    words = f"can be {number.range_words(system, units)}"
    point = from_si(reading.si, unit)
    return Strip(unit, low, high, ticks, (low, high), words, point, reading.shown, 0.0, beyond=True)
