"""Two readings of one quantity in words: as typed, how far apart, the limit of being alike."""

from collections.abc import Sequence

from diagnostics.evidence.fields import Number
from diagnostics.evidence.readings import Reading
from diagnostics.physics.shown_units import DIFFERENCE, ShownIn
from diagnostics.physics.units import EN_DASH, UNITS, shown, with_unit


def typed(reading: Reading, units: ShownIn) -> str:
    """A reading as typed, and the shop's unit beside it where that is another."""
    unit = units.unit(reading.unit)
    if unit == reading.unit:
        return reading.shown
    return f"{reading.shown} ({units.text(reading.si, reading.unit, reading.decimals)})"


def apart_words(asked: Number, was: Reading, now: Reading, off: float, units: ShownIn) -> str:
    """How much more or less it is now; or that the instruments cannot tell them apart.

    `off` is how far both may be off together, in SI.
    """
    unit = DIFFERENCE.get(asked.unit, asked.unit)
    more, less = ("warmer", "colder") if unit != asked.unit else ("more", "less")
    apart_by = now.si - was.si
    decimals = max(decimals_in(one, asked.unit) for one in (was, now))
    if abs(apart_by) <= off:
        limit = units.text(off, unit, max(decimals, digits_of(off, unit)))
        return f"not told apart by these instruments (±{limit})"
    return f"{units.text(abs(apart_by), unit, decimals)} {more if apart_by > 0 else less}"


def decimals_in(reading: Reading, unit: str) -> int:
    """How many decimals a reading has once it is told in another unit."""
    if reading.unit == unit:
        return reading.decimals
    return digits_of(reading.last_digit, unit)


def digits_of(step: float, unit: str) -> int:
    """The decimals in `unit` that show a step of so much, in SI; none more than three."""
    size = step / float(UNITS[unit].factor)
    return next((count for count in range(3) if size >= 10.0**-count), 3)


def limit_words(within: float, reading: Reading, units: ShownIn) -> str:
    """How far apart is still alike, in the unit in which it was read."""
    unit = DIFFERENCE.get(reading.unit, reading.unit)
    size = within / float(UNITS[unit].factor)
    decimals = 0 if abs(size - round(size)) < 1e-6 else 1
    return units.text(within, unit, decimals)


def spread(readings: Sequence[Reading]) -> str:
    """Smallest and largest of several, with how many there are; empty: none."""
    if not readings:
        return ""
    in_order = sorted(readings, key=lambda one: one.si)
    low, high = in_order[0], in_order[-1]
    points = f"at {len(readings)} point{'s' * (len(readings) > 1)}"
    if low.shown == high.shown:
        return f"{low.shown} {points}"
    if low.unit != high.unit:
        return f"{low.shown} to {high.shown} {points}"
    decimals = max(low.decimals, high.decimals)
    ends = EN_DASH.join(shown(one.decimal, decimals) for one in (low, high))
    return f"{with_unit(ends, low.unit)} {points}"
