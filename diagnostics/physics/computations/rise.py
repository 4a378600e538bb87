"""A vacuum that rises, and what a leak does to one, as computations."""

import math
from collections.abc import Sequence

from diagnostics.physics.charge import LOOP_VOLUME
from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    AIR,
    REFRIGERANT,
    VOLUME,
    in_figures,
    number,
    plain,
    text,
    words,
)
from diagnostics.physics.computations.several import pairs
from diagnostics.physics.computations.units import air_of
from diagnostics.physics.computations.vacuum import pulled
from diagnostics.physics.errors import OutOfRange
from diagnostics.physics.leak import (
    NOTHING,
    REST_KELVIN,
    STANDARD,
    Loop,
    gas_flow,
    pressure_rate,
    refrigerant_flow,
)
from diagnostics.physics.pressure import Absolute
from diagnostics.physics.rise import GROSS, Rise, Seen, Why, read_rise
from diagnostics.physics.rise_curves import Timed, spread
from diagnostics.physics.uncertainty import COVERAGE
from diagnostics.physics.units import from_si, scaled, shown, to_si
from diagnostics.physics.water import vapor_pressure

AICC = (
    "AICc: Burnham and Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002 (from "
    "memory); water by IAPWS R7-97 and R14-08"
)
LEAK = (
    "pressure change x volume; as refrigerant by laminar flow, by the squares of the pressures "
    "(handbooks of leak testing)"
)
MINUTES, MICRONS = ("min", "s", "h"), ("micron", "Pa", "mbar", "Torr", "mTorr", "mmHg", "kPa")
GAS = Input(
    "refrigerant", "Refrigerant the leak is told in", answers=REFRIGERANT.answers, default=STANDARD
)
REST = Input(
    "rest_temperature",
    "Temperature at rest, for the leak as refrigerant",
    "°C",
    -20,
    60,
    default=from_si(REST_KELVIN, "°C"),
)
LOOP_AT = Input("temperature", "Temperature of the loop", "°C", -40, 90, default=20)
ASSUMED = (VOLUME, GAS, REST, *AIR)
DIGIT = Input("digit", "The gauge's last digit", "micron", 0, 1_000, default=1)
SEEN: dict[Seen, str] = {
    "no_rise": "No rise is seen.",
    "leak": "A straight climb: points at a leak.",
    "moisture": "The rise flattens below water's line: points at moisture, or gas out of the oil.",
    "falls": "It falls: something still pumps, or the loop cools.",
    "cannot_tell": "Cannot tell.",
}
WHY: dict[Why, str] = {
    "": "",
    "few": " Too few readings: a leak and moisture need five at least to be told apart.",
    "close": " Two explanations fit nearly as well. Go on reading.",
    "not_shown": " It rises, but too little or too short to show whether it flattens. Go on.",
}
ABOVE_WATER = (
    "It rose through water's line: more than water can give, so air gets in, or refrigerant comes "
    "out of the oil."
)
# Shares of the air's pressure, our judgement: a hold begins below STARTED; above GONE nothing is
# left of the vacuum; MOST leaves a micron gauge its error.
STARTED, GONE, MOST = 0.5, 0.8, 1.2
CODES: tuple[Seen, ...] = ("no_rise", "leak", "moisture", "falls", "cannot_tell")


LEAK_FIGURES = 2  # of a leak as refrigerant, which is good to a factor of two or three


def loop_of(inputs: Inputs) -> Loop:
    """What is assumed of the loop that leaks."""
    return Loop(
        number(inputs, "volume"),
        text(inputs, "refrigerant"),
        number(inputs, "rest_temperature"),
        air_of(inputs).pressure,
    )


def volume_words(loop: Loop) -> str:
    """The volume, and that it is assumed where it is the usual one."""
    told = words(loop.volume, "L", 1)
    return f"{told} assumed" if math.isclose(loop.volume, LOOP_VOLUME) else told


def per_year(kilogram: float) -> str:
    """A leak as refrigerant, to two digits."""
    grams = float(f"{from_si(kilogram, 'g/yr'):.2g}")
    kilogram = scaled(grams, "g/yr")
    decimals = 0 if grams >= 10 else 1
    if grams >= 1_000:
        return words(kilogram, "kg/yr", 0 if grams >= 10_000 else 1)
    return words(kilogram, "g/yr", decimals)


def _as_refrigerant(rate: float, inputs: Inputs) -> float:
    """A rise in Pa/s as the refrigerant in kg/s that the leak lets out at rest."""
    loop = loop_of(inputs)
    flow = gas_flow(rate, loop.volume)
    return refrigerant_flow(flow, number(inputs, "temperature"), NOTHING, loop.air, loop)


def _basis(inputs: Inputs) -> str:
    loop = loop_of(inputs)
    return (
        f"{volume_words(loop)}; {loop.refrigerant} at rest at {words(loop.rest_kelvin, '°C', 0)}; "
        f"air: {air_of(inputs).basis}; good to a factor of two or three"
    )


def _more(rate: float, smallest: float, inputs: Inputs) -> dict[str, Result]:
    volume = number(inputs, "volume")
    return {
        "rise": plain(rate, "micron/min"),
        "gas_flow": plain(gas_flow(max(rate, 0.0), volume), "Pa·m³/s"),
        "leak": Result(_as_refrigerant(max(rate, 0.0), inputs), "g/yr", figures=LEAK_FIGURES),
        "smallest_leak": Result(_as_refrigerant(smallest, inputs), "g/yr", figures=LEAK_FIGURES),
    }


def _held(pressures: Sequence[Absolute], air: Absolute) -> None:
    """Let pass what can be a vacuum that was held.

    Raises:
        OutOfRange: half the air's pressure or more at the start, or more than the air's.

    """
    if pressures and pressures[0].pa > STARTED * air.pa:
        raise OutOfRange(
            f"{words(pressures[0].pa, 'micron', 0)} at the start, where the air presses with "
            f"{words(air.pa, 'micron', 0)}: that is no vacuum that could be held."
        )
    if any(one.pa > MOST * air.pa for one in pressures):
        raise OutOfRange(
            "It rose to more than the air presses with: refrigerant, nitrogen or the gauge does "
            "that, no leak from outside."
        )


def _rise(inputs: Inputs) -> Result:
    told = pairs(inputs["readings"], "readings", MINUTES, MICRONS)
    readings = [Timed(second, pulled(Absolute(pascal))) for second, pascal in told]
    _held([one.pressure for one in readings], air_of(inputs).pressure)
    water = vapor_pressure(number(inputs, "temperature"))
    found = read_rise(readings, water, number(inputs, "digit"))
    more = _more(found.rate.value, found.smallest_rate, inputs)
    more["hidden_leak"] = Result(
        _as_refrigerant(found.hidden_rate, inputs), "g/yr", figures=LEAK_FIGURES
    )
    more["water_line"] = plain(water.pa, "micron")
    more["seen"] = plain(CODES.index(found.seen) + 1, "")
    for shape, curve in found.curves.items():
        if math.isfinite(curve.aicc):
            more[f"aicc_{shape}"] = plain(curve.aicc, "")
    if found.seen == "moisture":
        more["plateau"] = plain(found.curves["flattening"].plateau, "micron")
    return Result(
        found.rate.value,
        "micron/min",
        found.rate.u,
        f"{_said(found)} {_leak_words(found, more)} {GROSS}",
        f"{_basis(inputs)}; readings scatter ±2 % and ±5 micron, our judgement",
        more,
    )


def _said(found: Rise) -> str:
    return ABOVE_WATER if found.above_water else f"{SEEN[found.seen]}{WHY[found.why]}"


def _leak_words(found: Rise, more: dict[str, Result]) -> str:
    if found.seen == "leak":
        return f"As refrigerant about {per_year(more['leak'].value)}."
    if found.seen == "falls":
        return "Nothing is said of a leak."
    return f"A leak of up to {per_year(more['hidden_leak'].value)} would not show."


def _hold(inputs: Inputs) -> Result:
    first, last = (pulled(Absolute(number(inputs, name))) for name in ("start", "end"))
    air = air_of(inputs).pressure
    _held((first, last), air)
    seconds, digit = number(inputs, "time"), number(inputs, "digit")
    change = last.pa - first.pa
    u = math.hypot(*(spread(Timed(0.0, one), digit) for one in (first, last)))
    rate, smallest = change / seconds, COVERAGE * u / seconds
    more = _more(rate, smallest, inputs)
    more["rise"] = Result(rate, "micron/min", u / seconds)
    smallest_leak = per_year(more["smallest_leak"].value)
    if abs(change) <= COVERAGE * u:
        seen = f"No rise is seen. A leak of less than {smallest_leak} would not show in it."
    elif change < 0:
        seen = "It fell: something still pumps, or the loop cools. Nothing is said of a leak."
    elif last.pa > GONE * air.pa:
        seen = (
            "The vacuum is gone. Were all of it a leak, as refrigerant "
            f"{per_year(more['leak'].value)} or more."
        )
    else:
        seen = (
            f"It rose by {words(change, 'micron', 0)}; two readings cannot tell leak from "
            f"moisture. Were all of it a leak, as refrigerant about "
            f"{per_year(more['leak'].value)}."
        )
    read = (
        f"From {shown(from_si(first.pa, 'micron'), 0)} to {words(last.pa, 'micron', 0)} in "
        f"{in_figures(seconds, 'min', 2)}."
    )
    return Result(change, "micron", u, f"{read} {seen} {GROSS}", _basis(inputs), more)


def _of_leak(inputs: Inputs) -> Result:
    loop, kilogram = loop_of(inputs), number(inputs, "leak")
    rate = pressure_rate(kilogram, number(inputs, "temperature"), NOTHING, loop.air, loop)
    rise = rate * number(inputs, "time")
    if rise > STARTED * loop.air.pa:
        raise OutOfRange(
            "So large a leak fills the loop with air in that time: the rise is no longer straight."
        )
    decimals = 1 if rise < to_si(100, "micron") else 0
    return Result(
        rise,
        "micron",
        meaning=(
            f"A leak of {per_year(kilogram)} lets a vacuum rise by "
            f"{words(rise, 'micron', decimals)} in {words(number(inputs, 'time'), 'min', 0)}. "
            f"{GROSS}"
        ),
        basis=_basis(inputs),
        more={"rate": plain(rate, "micron/min")},
    )


def _micron(name: str, said: str) -> Input:
    return Input(name, said, "micron", 0, 1_000_000, reference="absolute")


TIME = Input("time", "Time between the readings", "min", 0.1, 10_000)
COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "vacuum_rise",
        "What timed readings behind a closed valve show: no rise, leak, moisture, or cannot tell; "
        "gives the straight rise (seen: 1 no rise, 2 leak, 3 moisture, 4 falls, 5 cannot tell)",
        (
            Input("readings", "Pairs of minutes and micron, such as 0:400 5:620 10:830 15:1050"),
            LOOP_AT,
            DIGIT,
            *ASSUMED,
        ),
        "micron/min",
        f"{AICC}; {LEAK}",
        _rise,
    ),
    Computation(
        "vacuum_hold",
        "Rise between two readings, and the smallest leak that would have shown",
        (
            _micron("start", "Absolute pressure when the valve was closed"),
            _micron("end", "Absolute pressure at the end"),
            TIME,
            LOOP_AT,
            DIGIT,
            *ASSUMED,
        ),
        "micron",
        LEAK,
        _hold,
    ),
    Computation(
        "leak_in_vacuum",
        "By how much a vacuum rises with a leak told as refrigerant",
        (
            Input("leak", "Leak at rest, as refrigerant", "g/yr", 0, 1e8),
            Input("time", "Time", "min", 0.1, 10_000, default=5),
            LOOP_AT,
            *ASSUMED,
        ),
        "micron",
        LEAK,
        _of_leak,
    ),
)
