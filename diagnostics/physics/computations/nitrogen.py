"""A nitrogen hold, as computations."""

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import (
    AIR,
    VOLUME,
    accuracy,
    gauge_pressure,
    number,
    plain,
    standard,
    thermometer,
    words,
)
from diagnostics.physics.computations.rise import (
    GAS,
    LEAK_FIGURES,
    REST,
    loop_of,
    per_year,
    volume_words,
)
from diagnostics.physics.computations.units import LEFT_OUT, air_of, optional
from diagnostics.physics.errors import Impossible, OutOfRange
from diagnostics.physics.nitrogen import (
    NOTHING_TO_HOLD,
    READ_TWICE_U,
    HeldReading,
    Hold,
    HoldSeen,
    expected_pressure,
    read_hold,
)
from diagnostics.physics.pressure import Gauge
from diagnostics.physics.uncertainty import Measured

GAS_LAW = "ideal gas at constant volume: P2 absolute = P1 absolute x T2 / T1"
START = gauge_pressure("start", "Gauge reading at the start")
START_AT = Input("start_temperature", "Temperature of the loop at the start", "°C", -40, 90)
END_AT = Input("end_temperature", "Temperature of the loop at the end", "°C", -40, 90)
READ = accuracy("gauge", "gauge, one reading against the other", "kPa", READ_TWICE_U * 3**0.5 / 1e3)
LIMIT = Input(
    "limit",
    "The maker's highest pressure for the low side",
    "kPa",
    50,
    10_000,
    reference="gauge",
    default=LEFT_OUT,
)
SEEN: dict[HoldSeen, str] = {
    "leak": "It fell more than temperature and instruments explain: a leak.",
    "rises": (
        "It rose more than temperature and instruments explain: the regulator still feeds, or the "
        "loop was not at one temperature."
    ),
    "cannot_tell": "No drop is seen that temperature and instruments do not explain.",
}
CAUTION = (
    "Dry nitrogen through a regulator with relief; never oxygen, never compressed air with "
    "refrigerant. Local codes and licensed practice come first."
)


def _expected(inputs: Inputs) -> Result:
    start, air = Gauge(number(inputs, "start")), air_of(inputs)
    if not start.pa > 0:
        raise OutOfRange(NOTHING_TO_HOLD)
    first, last = (number(inputs, name) for name in ("start_temperature", "end_temperature"))
    found = expected_pressure(start, first, last, air.pressure)
    return Result(
        found.pa,
        "bar",
        meaning=(
            f"{words(start.pa, 'bar', 2)} at {words(first, '°C', 0)} read "
            f"{words(found.pa, 'bar', 2)} at {words(last, '°C', 0)} with nothing lost."
        ),
        basis=f"{GAS_LAW}; {air.basis}",
    )


def _limit_words(inputs: Inputs) -> str:
    limit = optional(inputs, "limit")
    if limit is None:
        return "The limit is the maker's low-side figure; none is told: ask, do not guess."
    if number(inputs, "start") > limit:
        return f"Above the maker's {words(limit, 'bar', 1)} for the low side: let it down."
    return f"Not above the maker's {words(limit, 'bar', 1)}."


def _hold(inputs: Inputs) -> Result:
    u, loop = standard(inputs, "thermometer"), loop_of(inputs)
    start, end = (
        HeldReading(Gauge(number(inputs, name)), Measured(number(inputs, f"{name}_temperature"), u))
        for name in ("start", "end")
    )
    found = read_hold(start, end, number(inputs, "time"), loop, standard(inputs, "gauge"))
    _can_be_told(start, end, found)
    return Result(
        found.change.value,
        "kPa",
        found.change.u,
        f"{SEEN[found.seen]} {_leak_words(found, gone=_gone(end, found))} "
        f"{_limit_words(inputs)} {CAUTION}",
        (
            f"{GAS_LAW}; {volume_words(loop)}; {loop.refrigerant} at rest at "
            f"{words(loop.rest_kelvin, '°C', 0)}; air: {air_of(inputs).basis}; good to a factor of "
            "two or three"
        ),
        {
            "expected": plain(found.expected.pa, "bar"),
            "leak": Result(max(found.leak, 0.0), "g/yr", figures=LEAK_FIGURES),
            "smallest_leak": Result(found.smallest, "g/yr", figures=LEAK_FIGURES),
        },
    )


def _can_be_told(start: HeldReading, end: HeldReading, found: Hold) -> None:
    """Let pass what a hold can have shown.

    Raises:
        OutOfRange: no more above the air's pressure than the instruments may be off.
        Impossible: less than the air's pressure at the end, where cold does not explain it.

    """
    if start.pressure.pa <= found.change.expanded:
        raise OutOfRange(NOTHING_TO_HOLD)
    if end.pressure.pa < min(found.expected.pa, 0.0) - found.change.expanded:
        raise Impossible(
            "The end reads below the air's pressure: no leak does that. Gauge or sign is not what "
            "was said, or a pump was on it."
        )


def _gone(end: HeldReading, found: Hold) -> bool:
    """Whether nothing is left above the air's pressure: it may have been gone long before."""
    return end.pressure.pa <= found.change.expanded


def _leak_words(found: Hold, *, gone: bool) -> str:
    expected = f"With nothing lost it would read {words(found.expected.pa, 'bar', 2)}."
    if found.seen == "leak":
        if gone:
            return f"{expected} As refrigerant {per_year(found.leak)} or more: all of it is gone."
        return f"{expected} As refrigerant about {per_year(found.leak)}."
    return f"{expected} A leak of less than {per_year(found.smallest)} would not show."


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "nitrogen_expected",
        "Gauge pressure of a hold at another temperature, nothing lost",
        (START, START_AT, END_AT, *AIR),
        "bar",
        GAS_LAW,
        _expected,
    ),
    Computation(
        "nitrogen_hold",
        "A hold corrected for temperature: read minus expected, leak seen or cannot tell, and the "
        "smallest leak it could have shown",
        (
            START,
            gauge_pressure("end", "Gauge reading at the end"),
            START_AT,
            END_AT,
            Input("time", "Time of the hold", "min", 1, 100_000),
            LIMIT,
            VOLUME,
            GAS,
            REST,
            *AIR,
            thermometer(),
            READ,
        ),
        "kPa",
        f"{GAS_LAW}; leak as refrigerant by laminar flow, by the squares of the pressures",
        _hold,
    ),
)
