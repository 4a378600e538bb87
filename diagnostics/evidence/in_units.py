"""What a kind asks and what its readings mean, told in the units that the shop chose.

Kinds are written in the usual units. A reading keeps the unit in which it was typed.
"""

import math
from collections.abc import Collection, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from diagnostics.evidence.findings import Axis, Line, Meaning, Plot, Spot, Strip, Value
from diagnostics.evidence.readings import Reading, Readings
from diagnostics.evidence.strips import axis
from diagnostics.physics.shown_units import DIFFERENCE, ShownIn
from diagnostics.physics.units import shown_range

Told = TypeVar("Told")


def typed_words(readings: Readings) -> frozenset[str]:
    """The readings as typed: they stay so wherever a sentence repeats them."""
    return frozenset(told.shown for told in readings.values() if isinstance(told, Reading))


def told_in(told: Told, units: ShownIn, typed: Collection[str] = ()) -> Told:
    """The same with every figure of its sentences in these units; what is no sentence stays."""
    return _told(told, units, typed) if units.as_json() else told


def _told(told: Any, units: ShownIn, typed: Collection[str]) -> Any:
    if isinstance(told, str):
        return units.sentence(told, typed)
    if isinstance(told, tuple):
        return tuple(_told(one, units, typed) for one in told)
    if is_dataclass(told) and not isinstance(told, type | ShownIn | Reading):
        before = {one.name: getattr(told, one.name) for one in fields(told)}
        after = {
            name: _told(value, units, typed)
            for name, value in before.items()
            if not isinstance(value, Mapping)
        }
        return replace(told, **{name: new for name, new in after.items() if new != before[name]})
    return told


def meaning_in(meaning: Meaning, units: ShownIn, readings: Readings) -> Meaning:
    """A meaning in these units: its sentences, its numbers, its strip and its plot."""
    if not units.as_json():
        return meaning
    said = told_in(meaning, units, typed_words(readings))
    return replace(
        said,
        strip=strip_in(said.strip, units) if said.strip else None,
        plot=plot_in(said.plot, units) if said.plot else None,
        values=tuple(
            before if before.live else value_in(before, now, units)
            for before, now in zip(meaning.values, said.values, strict=True)
        ),
    )


def value_in(before: Value, now: Value, units: ShownIn) -> Value:
    """A temperature worked out, from its own value: not rounded twice."""
    number, _, unit = before.shown.rpartition("\u00a0")
    if unit != "°C" or before.si_unit != "K" or not _is_number(number):
        return now
    return replace(now, shown=units.text(before.si, "°C", len(number.partition(".")[2])))


def _is_number(text: str) -> bool:
    return text.removeprefix("\u2212").replace(".", "", 1).isdigit()


def strip_in(strip: Strip, units: ShownIn) -> Strip:
    """A strip on an axis of its own in the unit chosen."""
    unit = units.unit(strip.unit)
    if unit == strip.unit:
        return strip
    low, high, ticks = axis(
        units.in_usual(strip.low, strip.unit), units.in_usual(strip.high, strip.unit)
    )
    expected = strip.expected
    if expected:
        expected = (
            units.in_usual(expected[0], strip.unit),
            units.in_usual(expected[1], strip.unit),
        )
    words = strip.expected_words
    if expected:
        decimals = len(words.rpartition(".")[2]) if "." in words else 0
        told = shown_range(*expected, units.decimals(strip.unit, decimals))
        words = f"{words.partition(' ')[0]} {told}"
    return replace(
        strip,
        unit=unit,
        expected_words=words,
        low=low,
        high=high,
        ticks=ticks,
        expected=expected,
        point=units.in_usual(strip.point, strip.unit),
        error=width_in(strip.error, strip.unit, units),
    )


def plot_in(plot: Plot, units: ShownIn) -> Plot:
    """A plot on axes of its own in the units chosen."""
    x, y = plot.x.unit, plot.y.unit

    def line(one: Line) -> Line:
        points = ((units.in_usual(a, x), units.in_usual(b, y)) for a, b in one.points)
        return replace(one, points=tuple(points))

    def spot(one: Spot) -> Spot:
        return replace(
            one,
            x=units.in_usual(one.x, x),
            y=units.in_usual(one.y, y),
            error_x=width_in(one.error_x, x, units),
            error_y=width_in(one.error_y, y, units),
        )

    return replace(
        plot,
        x=axis_in(plot.x, units),
        y=axis_in(plot.y, units),
        lines=tuple(map(line, plot.lines)),
        spots=tuple(map(spot, plot.spots)),
    )


def axis_in(drawn: Axis, units: ShownIn) -> Axis:
    """An axis that holds the same in the unit chosen, ending on ticks of its own."""
    unit = units.unit(drawn.unit)
    if unit == drawn.unit:
        return drawn
    low, high = (units.in_usual(end, drawn.unit) for end in (drawn.low, drawn.high))
    if drawn.log:
        first, last = math.floor(math.log10(low) + 1e-9), math.ceil(math.log10(high) - 1e-9)
        ticks = tuple(10.0**power for power in range(first, last + 1))
        return replace(drawn, unit=unit, low=ticks[0], high=ticks[-1], ticks=ticks)
    low, high, ticks = axis(low, high)
    return replace(drawn, unit=unit, low=low, high=high, ticks=ticks)


def width_in(width: float, usual: str, units: ShownIn) -> float:
    """A half width, which has no zero, in the unit chosen."""
    usual = DIFFERENCE.get(usual, usual)
    return units.in_usual(width, usual) if width else width
