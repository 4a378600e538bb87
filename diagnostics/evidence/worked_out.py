"""Numbers worked out from readings in the moment they are typed.

A kind names them as data, so that the page's script works them out from the same tables by the
functions of the same names in static/js/physics.js, with the same digits, while the shop server
is away. tests/browser/test_worked_out.py holds the two to each other.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.coil_figure import COLDEST, HOTTEST, TOLERANCE, coil_figure
from diagnostics.evidence.drop_told import (
    ALL_LOST,
    FAR,
    WORKING_SHARE,
    WORKING_VOLTS,
    tells_resistance,
)
from diagnostics.evidence.fields import When, all_hold
from diagnostics.evidence.findings import Value
from diagnostics.evidence.loop_pressures import THERMOMETER_U, gauge_of
from diagnostics.evidence.readings import Reading, Readings, number
from diagnostics.physics import charge, cycle, electrics
from diagnostics.physics.errors import OutOfRange, PhysicsError
from diagnostics.physics.pressure import Gauge
from diagnostics.physics.saturation import saturation_temperature
from diagnostics.physics.uncertainty import COVERAGE, INSTRUMENTS, Measured
from diagnostics.physics.units import SI, UNITS, from_si, shown_range, with_unit

NEEDS_TABLE = frozenset({"boils_at", "rests_at", "superheat", "subcooling"})
MOST_DECIMALS = 4
BEYOND_ERROR = 3  # standard uncertainties: what is further off is no error of an instrument
PLAIN = "1"  # the unit of a ratio
CONVERTS = "same"  # a reading in another unit, no more
PICKS = frozenset({CONVERTS, "smallest", "largest"})  # one of the readings, as fine as it is
Found = tuple[float, ...]  # one number, or the two ends of a band; SI
How = Callable[[Sequence[float], Circumstances], Found]


@dataclass(frozen=True)
class WorkedOut:
    """One number, or a band, under the field `about`, in `unit`.

    `how` names a function of FUNCTIONS, `takes` the fields whose readings it takes in SI, in that
    order. All must be read, or with `least` the first so many; the rest count where they are.
    Every `when` must hold.
    """

    about: str
    words: str
    how: str
    takes: tuple[str, ...]
    unit: str
    least: int = 0
    when: tuple[When, ...] = ()


def _gas(around: Circumstances) -> str:
    return around.system.get("refrigerant", "")


def _same(read: Sequence[float], _around: Circumstances) -> Found:
    return (read[0],)


def _boils_at(read: Sequence[float], around: Circumstances) -> Found:
    return (saturation_temperature(_gas(around), Gauge(read[0]).absolute(around.air)),)


def _rests_at(read: Sequence[float], around: Circumstances) -> Found:
    """The band of resting pressures at a soak temperature, with a low-side gauge."""
    thermometer, gauge = INSTRUMENTS["thermometer"], INSTRUMENTS[gauge_of("low", _gas(around))]
    soak = Measured(read[0], thermometer.fixed / math.sqrt(3))
    band = charge.static_band(_gas(around), soak, gauge.fixed / math.sqrt(3), around.air)
    return (band.low.pa, band.high.pa)


def _superheat(read: Sequence[float], around: Circumstances) -> Found:
    """Of a line no colder than it boils; beyond what the instruments may be off that cannot be."""
    low, gas = Gauge(read[0]).absolute(around.air), _gas(around)
    found = cycle.superheat(gas, read[1], low)
    gauge_u = INSTRUMENTS[gauge_of("low", gas)].fixed / math.sqrt(3)
    if found < -BEYOND_ERROR * cycle.difference_u(gas, low, THERMOMETER_U, gauge_u):
        raise OutOfRange("A superheat below zero cannot be.")
    return (found,)


def _subcooling(read: Sequence[float], around: Circumstances) -> Found:
    return (cycle.subcooling(_gas(around), read[1], Gauge(read[0]).absolute(around.air)),)


def _ratio(read: Sequence[float], around: Circumstances) -> Found:
    high, low = (Gauge(one).absolute(around.air) for one in read)
    return (cycle.pressure_ratio(high, low),)


def _at_20(read: Sequence[float], _around: Circumstances) -> Found:
    return (electrics.resistance_at_20(read[0], read[1]),)


def _ohm(read: Sequence[float], _around: Circumstances) -> Found:
    return (electrics.coil_resistance(abs(read[0]), abs(read[1])),)


def _drop_ohm(read: Sequence[float], around: Circumstances) -> Found:
    """Resistance of a stretch that loses volts, where something is made of that drop."""
    if not tells_resistance(read[0], read[1], around.system):
        raise OutOfRange("At such a current and such volts the drop tells no resistance.")
    return _ohm(read, around)


def _lost(read: Sequence[float], _around: Circumstances) -> Found:
    """Volts lost between two places, the leads either way round."""
    return (abs(read[0]) - abs(read[1]),)


def _ohm_at_20(read: Sequence[float], around: Circumstances) -> Found:
    return _at_20((*_ohm(read, around), read[2]), around)


def _draws(read: Sequence[float], around: Circumstances) -> Found:
    """What the coil should draw at a voltage; without a temperature from -20 to 120 °C."""
    figure = coil_figure(around.system)
    if figure is None:
        return ()
    coldest, hottest = (read[1], read[1]) if len(read) > 1 else (COLDEST, HOTTEST)
    return electrics.current_band(abs(read[0]), figure[0], coldest, hottest)


def _smallest(read: Sequence[float], _around: Circumstances) -> Found:
    return (min(read),)


def _largest(read: Sequence[float], _around: Circumstances) -> Found:
    return (max(read),)


def _wobble(read: Sequence[float], _around: Circumstances) -> Found:
    return (max(read) - min(read),)


FUNCTIONS: dict[str, How] = {
    CONVERTS: _same,
    "boils_at": _boils_at,
    "rests_at": _rests_at,
    "superheat": _superheat,
    "subcooling": _subcooling,
    "ratio": _ratio,
    "at_20": _at_20,
    "ohm": _ohm,
    "ohm_at_20": _ohm_at_20,
    "drop_ohm": _drop_ohm,
    "lost": _lost,
    "draws": _draws,
    "smallest": _smallest,
    "largest": _largest,
    "wobble": _wobble,
}


def worked_out(
    all_of: tuple[WorkedOut, ...], readings: Readings, around: Circumstances
) -> Iterator[Value]:
    """The numbers that can be worked out from what was read so far; what cannot is left out."""
    for one in all_of:
        needed = one.takes[: one.least or None]
        if not (all_hold(one.when, readings) and all(number(readings, name) for name in needed)):
            continue
        told = [read for name in one.takes if (read := number(readings, name))]
        try:
            found = FUNCTIONS[one.how]([reading.si for reading in told], around)
            decimals = decimals_of(one, told, around) if found else 0
        except PhysicsError:
            continue
        if found:
            low, high = (from_si(si, one.unit) for si in (found[0], found[-1]))
            text = shown_range(low, high, decimals)
            text = with_unit(text, one.unit) if one.unit != PLAIN else text
            unit, converts = SI[UNITS[one.unit].quantity], one.how == CONVERTS
            yield Value(one.about, one.words, text, found[0], unit, converts=converts)


def decimals_of(one: WorkedOut, told: Sequence[Reading], around: Circumstances) -> int:
    """As many decimals as the last digits typed are worth, never more than the instruments had.

    One of the readings keeps all it had: in another unit no step is larger than the one typed.
    """
    read = [reading.si for reading in told]
    if one.how in PICKS:
        picked = FUNCTIONS[one.how](read, around)[0]
        digit = max(each.last_digit for each in told if each.si == picked)
        return _decimals(digit, one.unit, whole=True)
    moved = [
        abs(there - here)
        for index, reading in enumerate(told)
        for here, there in zip(
            FUNCTIONS[one.how](read, around),
            FUNCTIONS[one.how](
                [si + reading.last_digit * (place == index) for place, si in enumerate(read)],
                around,
            ),
            strict=True,
        )
    ]
    return _decimals(max(moved), one.unit)


def _decimals(si: float, unit: str, *, whole: bool = False) -> int:
    """As many decimals as that much is worth; `whole`: so many that all of it shows."""
    worth = si / float(UNITS[unit].factor)
    if not worth:
        return MOST_DECIMALS
    exact = -math.log10(worth)
    decimals = math.ceil(exact - 1e-9) if whole else math.floor(exact + 1e-9)
    return min(max(decimals, 0), MOST_DECIMALS)


def factors() -> dict[str, float | tuple[float, ...]]:
    """The figures of the functions above, for the page's script."""
    return {
        "thermometer": INSTRUMENTS["thermometer"].fixed,
        "low_side_gauge": INSTRUMENTS["low_side_gauge"].fixed,
        "r744_gauge": INSTRUMENTS["r744_gauge"].fixed,
        "beyond_error": BEYOND_ERROR,
        "coverage": COVERAGE,
        "copper_per_kelvin": electrics.COPPER_PER_KELVIN,
        "copper_range": electrics.COPPER_RANGE,
        "no_current": electrics.NO_CURRENT,
        "working": (WORKING_SHARE, WORKING_VOLTS),
        "far": FAR,
        "all_lost": ALL_LOST,
        "kelvin_20": electrics.KELVIN_20,
        "coil_12": (electrics.PLAUSIBLE_12_V.low, electrics.PLAUSIBLE_12_V.high),
        "coil_tolerance": TOLERANCE,
        "coil_between": (COLDEST, HOTTEST),
    }
