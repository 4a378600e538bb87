"""Dry nitrogen held in the loop, its pressure corrected for temperature. Trade articles.

The correction and the smallest leak it could have seen are worked out in nitrogen.py of physics.
The pressure's limit is the maker's low-side figure: none known is asked for, never guessed.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from diagnostics.evidence.cautions import EYES_AND_HANDS, KEY_AWAY, LOCAL
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Number, Span, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Value
from diagnostics.evidence.hoses import HV_HOSES, MORE_BRANCHES, THROUGH_REGULATOR
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.leak_size import a_year, loop_of, taken_words
from diagnostics.evidence.missing import missing, untold
from diagnostics.evidence.problems import FieldGate
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.nitrogen import (
    READ_TWICE_U,
    HeldReading,
    Hold,
    expected_pressure,
    read_hold,
)
from diagnostics.physics.pressure import Gauge
from diagnostics.physics.uncertainty import INSTRUMENTS, measured
from diagnostics.physics.units import from_si, shown, to_si, with_unit

PRESSURE = Span(
    200, 2000, 0, 5000, "Outside what a loop is held at.",
    "Below the air’s pressure, or more than any loop is held at.",
)  # fmt: skip
BAY = Span(-10, 50, -60, 100, "Outside what a bay has.", "No bay is below −60 or above 100 °C.")
PRESSURES = ("psi", "bar")
MOST_HELD = 2000e3  # Pa: more than a loop is held at where no limit is known; our judgement
TOO_BLIND = to_si(20_000, "g/yr")  # a hold that could miss more clears nothing; our judgement
ONLY_NITROGEN = "What was put in is not told: only a dry gas follows its temperature so."
FEWEST_HELD = 50e3  # Pa: hardly more than a gauge may be off; our judgement
# Where no temperature was read: what falls further than from the warmest bay to the coldest yard is
# lost; our judgement.
WARMEST, COLDEST = to_si(60, "°C"), to_si(-20, "°C")

FIELDS = (
    Choice(
        "gas", "What was put in", "",
        (
            Answer("nitrogen", "Dry nitrogen"),
            Answer("tracer", "Nitrogen with tracer gas"),
            Answer("air", "Air or oxygen"),
        ),
        condition=True,
    ),
    Number(
        "limit", "Maker’s limit of the low side", "From plate or data. Not known: ask first.",
        "kPa", PRESSURE, PRESSURES, instrument="low_side_gauge", condition=True, reference="gauge",
    ),
    Number(
        "start", "Pressure at the start", "Some minutes after filling.", "kPa", PRESSURE, PRESSURES,
        instrument="low_side_gauge", reference="gauge", group="At the start",
    ),
    Number(
        "start_temperature", "Temperature of the loop", "", "°C", BAY, ("°F",),
        instrument="thermometer", condition=True, compact=True,
    ),
    Number(
        "minutes", "Held for", "", "min",
        Span(5, 1440, 0, 20_160, "Outside a usual hold.", "From none to two weeks."), ("h",),
        instrument="watch", condition=True, group="At the end", compact=True,
    ),
    Number(
        "end", "Pressure at the end", "The same gauge.", "kPa",
        Span(0, 2000, -101.33, 5000, PRESSURE.outside, PRESSURE.impossible), PRESSURES,
        instrument="low_side_gauge", reference="gauge",
    ),
    Number(
        "end_temperature", "Temperature of the loop", "", "°C", BAY, ("°F",),
        instrument="thermometer", condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("falls", "fell more than the temperature explains"),
    OutcomeWords("falls_far", "fell further than any temperature explains"),
    OutcomeWords("held", "held as far as this can be seen", normal=True),
    OutcomeWords("rises", "rose more than the temperature explains"),
    OutcomeWords("nothing_told", "recorded, carries nothing", carries=False),
)

LEAK = "A leak"
_ONWARD: dict[str, tuple[str, ...]] = {
    "falls": ("Search place by place under this pressure: soap, or a tracer and its detector.",),
    "falls_far": ("Search place by place: soap, or a tracer and its detector; hoses too.",),
    "held": ("Search place by place all the same where grams are missing: small ones hide here.",),
    "rises": ("Read both temperatures again, at the loop and out of the sun.",),
    "nothing_told": ("Read pressure and the loop’s temperature at start and end, and the time.",),
}


@dataclass(frozen=True)
class Held:
    """What was read of a hold; `hold` is None where it could not be corrected."""

    start: Reading | None
    end: Reading | None
    warm: Reading | None
    warm_end: Reading | None
    time: Reading | None
    hold: Hold | None
    code: str
    why: str


def look(readings: Readings, around: Circumstances) -> Held:
    """The readings, corrected for temperature where all of them are there."""
    names = ("start", "end", "start_temperature", "end_temperature", "minutes")
    start, end, warm, warm_end, time = (number(readings, name) for name in names)
    hold, why = None, ""
    if start and end and warm and warm_end and time:
        try:
            read_u = math.hypot(READ_TWICE_U, max(start.last_digit, end.last_digit) / math.sqrt(12))
            first, last = _held(start, warm), _held(end, warm_end)
            hold = read_hold(first, last, time.si, loop_of(around), read_u)
        except PhysicsError as problem:
            why = problem.sentence
    code = {"leak": "falls", "rises": "rises", "cannot_tell": "held"}[hold.seen] if hold else ""
    if code == "held" and not taps(readings).get("gas"):
        code, why = "nothing_told", ONLY_NITROGEN
    if not code:
        code = "falls_far" if _falls_far(start, end, around) else "nothing_told"
    return Held(start, end, warm, warm_end, time, hold, code, why)


def _held(pressure: Reading, warm: Reading) -> HeldReading:
    return HeldReading(Gauge(pressure.si), measured(warm.si, warm.last_digit, "thermometer"))


def _falls_far(start: Reading | None, end: Reading | None, around: Circumstances) -> bool:
    """Whether it fell further than from the warmest to the coldest, beyond what a gauge may be off.

    Only where a temperature is missing.
    """
    if start is None or end is None or start.si <= 0:
        return False
    try:
        least = expected_pressure(Gauge(start.si), WARMEST, COLDEST, around.air)
    except PhysicsError:
        return False
    return end.si + _off(end) < least.pa


def at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    """A hold that held nothing, an end below the air's pressure, a vacuum that no air allows."""
    start, end = number(readings, "start"), number(readings, "end")
    if start and start.si <= FEWEST_HELD:
        yield "start", "Next to no pressure at the start: nothing was held."
    if end and end.si + around.air.pa < 0:
        yield "end", "Deeper than perfect vacuum at this altitude: no gauge shows that."
    elif end and end.si < -_off(end):
        yield "end", "A leak ends at the air’s pressure: what stands below it was pumped."


def _off(pressure: Reading) -> float:
    """By how much the gauge may be off there, in Pa."""
    return measured(pressure.si, pressure.last_digit, "low_side_gauge").expanded


def _kpa(pascal: float) -> str:
    return with_unit(shown(from_si(pascal, "kPa"), 0), "kPa")


def _sentence(seen: Held) -> str:
    if seen.code == "nothing_told":
        if seen.why:
            return seen.why
        if seen.start and seen.end:
            return "Not corrected for temperature: how much of the change is a leak is not told."
        return "Pressure at the start and at the end were not both read."
    if seen.hold is None:
        return "It fell further than any change of temperature explains."
    change = _change(seen.hold)
    taken_out = f"With the temperature taken out it changed by {change}"
    return {
        "falls": f"{taken_out}: it fell, beyond what gauge and thermometer may be off.",
        "rises": f"{taken_out}: it rose, beyond what gauge and thermometer may be off.",
        "held": f"It held as far as this can be seen. {taken_out}.",
    }[seen.code]


def _change(hold: Hold) -> str:
    """Such as −18 kPa, ±15 kPa."""
    return f"{_kpa(hold.change.value)}, ±{_kpa(hold.change.expanded)}"


def _marks(seen: Held) -> Iterator[Mark]:
    if seen.code in ("falls", "falls_far"):
        yield Mark("likely", LEAK, "points here; hoses, couplers and the valve count too.")
    if seen.code == "held" and seen.hold and seen.hold.smallest > TOO_BLIND:
        yield Mark("open", LEAK, "not told: so short a hold does not see even a gross one.")
    elif seen.code == "held" and seen.hold:
        smallest = a_year(seen.hold.smallest)
        yield Mark("ruled_out", "Gross leak", f"ruled out above about {smallest}.")
        yield Mark("open", "A smaller leak", "not told by this hold.")
    if seen.code == "rises":
        yield Mark("open", LEAK, "not told: a temperature was read where the loop was not so warm.")


def _notes(readings: Readings, seen: Held) -> Iterator[str]:
    limit, told = number(readings, "limit"), taps(readings)
    if limit is None:
        yield "The maker’s limit of the low side is not told: ask, never guess."
    if _is_too_much(readings, seen) and seen.start:
        most = f"the maker’s limit of {limit.shown}" if limit else "what a loop is held at"
        yield f"{seen.start.shown} is above {most}: let it down."
    if told.get("gas") == "air":
        yield (
            "Compressed air or oxygen with refrigerant and oil can burn or explode: let it down"
            " slowly, away from any flame."
        )


def _is_too_much(readings: Readings, seen: Held) -> bool:
    """Whether it was filled above the limit, beyond the last digits typed."""
    limit, start = number(readings, "limit"), seen.start
    if start is None:
        return False
    if limit is None:
        return start.si > MOST_HELD
    return start.si - start.last_digit / 2 > limit.si + limit.last_digit / 2


def _not_tested(readings: Readings) -> Iterator[str]:
    yield from missing(readings, "start", "Pressure at the start")
    yield from missing(readings, "end", "Pressure at the end")
    yield from missing(readings, "start_temperature", "Temperature at the start")
    yield from missing(readings, "end_temperature", "Temperature at the end")
    yield from missing(readings, "minutes", "How long it was held")
    yield from untold(readings, "gas", "What was put in")
    yield "Small leaks, and at which place: not told by a hold."


def _onward(readings: Readings, seen: Held) -> tuple[str, ...]:
    """What comes next: what is wrong in it out first; where nothing is left, filled again."""
    if taps(readings).get("gas") == "air" or _is_too_much(readings, seen):
        return ("Let it down slowly, away from any flame; then dry nitrogen, below the limit.",)
    if seen.code in ("falls", "falls_far") and seen.end and seen.end.si <= _off(seen.end):
        return ("Put nitrogen on again, and search place by place while it flows out; hoses too.",)
    return _ONWARD[seen.code]


def _values(seen: Held) -> Iterator[Value]:
    if seen.hold is None:
        return
    hold = seen.hold
    yield Value(
        "end_temperature", "With nothing lost it would show", _kpa(hold.expected.pa),
        hold.expected.pa, "Pa",
    )  # fmt: skip
    yield Value("end", "Change with temperature taken out", _change(hold), hold.change.value, "Pa",
                hold.change.u)  # fmt: skip
    words, size = "Smallest leak this hold could have seen", hold.smallest
    if seen.code == "falls":
        words, size = "As a leak, about", hold.leak
    yield Value("end", words, a_year(size), size, "kg/s")


def _read(readings: Readings, around: Circumstances) -> Meaning:
    seen = look(readings, around)
    carries = seen.code != "nothing_told"
    outcome = Outcome(
        seen.code,
        _sentence(seen),
        tuple(_marks(seen)),
        tuple(_not_tested(readings)),
        carries,
        "general" if carries else "",
    )
    told = [one.shown for one in (seen.start, seen.end) if one]
    lead = " then ".join(told) + (f", after {seen.time.shown}" if seen.time else "")
    band = ""
    if seen.hold:
        band = (
            f"{INSTRUMENTS['thermometer'].words}, by default; the gauge read twice,"
            f" ±5\u00a0kPa and half a digit each (our judgement). {taken_words(around)}"
            f" Air: {around.air_words}."
        )
    return Meaning(
        outcome,
        f"{lead}." if told else "",
        band=band,
        notes=tuple(_notes(readings, seen)),
        onward=_onward(readings, seen),
        values=tuple(_values(seen)),
    )


NITROGEN_HOLD = Kind(
    name="nitrogen_hold",
    title="Nitrogen held",
    question="Does dry nitrogen hold its pressure?",
    version=1,
    minutes=30,
    about="charge",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("loop empty", "loop closed", "nitrogen and regulator"),
    cautions=(
        KEY_AWAY,
        THROUGH_REGULATOR,
        "Never above the maker’s limit of the low side; none known: ask, never guess.",
        "Recover first; let it down slowly, with goggles, hands clear.",
        EYES_AND_HANDS,
        LOCAL,
    ),
    orders=("recovered_first",),
    gates=(
        FieldGate(
            "no_air",
            (When("gas", ("air",)),),
            "gas",
            ("nitrogen", "tracer"),
            "Never oxygen, never compressed air: with refrigerant and oil it can burn or explode.",
            "Compressed air or oxygen was put into the loop.",
        ),
    ),
    at_odds=at_odds,
    remarks=(HV_HOSES, MORE_BRANCHES),
    works_out=(
        WorkedOut("limit", "Limit", "same", ("limit",), "psi"),
        WorkedOut("start", "Start", "same", ("start",), "psi"),
        WorkedOut("start_temperature", "Start", "same", ("start_temperature",), "°F"),
        WorkedOut("end", "End", "same", ("end",), "psi"),
        WorkedOut("end_temperature", "End", "same", ("end_temperature",), "°F"),
    ),
)
