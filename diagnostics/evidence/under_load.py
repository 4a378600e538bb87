"""Volts along the clutch's feed and ground while current flows: one set of limits for all kinds.

A voltage read at the coil and a drop read along the wire are one thing seen from two ends. Without
current even a joint of many ohms loses nothing, so what is read then shows nothing.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from diagnostics.evidence.cautions import CLEAR_OF_BELT, LOCAL, NEVER_DRY, RUNS_BY_ITSELF
from diagnostics.evidence.drop_told import (
    ALL_LOST,
    FAR,
    LEAST_DRAWN,
    WORKING_SHARE,
    working_amps,
)
from diagnostics.evidence.fields import Answer, Choice, Number, Span, SpanOn, When
from diagnostics.evidence.findings import OutcomeWords, Strip
from diagnostics.evidence.readings import Reading, Readings, number
from diagnostics.evidence.strips import strip
from diagnostics.evidence.system import System, SystemRule
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.electrics import NO_CURRENT
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured
from diagnostics.physics.units import MINUS, shown, shown_range, with_unit
from diagnostics.physics.wiring import FEED_DROP, GROUND_DROP, DropPlace, place_drop

# Ω: less than any fuse or feed has, our judgement. A third of a meter of 2.5 mm² copper has 2.3 mΩ
# (resistivity of IEC 60028), a 30 A blade fuse alone about 2 mΩ (from memory).
LEAST_OHM = 0.002
LEAST_GROUND_OHM = 0.0002  # by a case and a short strap: 0.4 m of 35 mm² copper; our judgement too
Grade = Literal["within", "edge", "cannot_tell", "above", "far"]


@dataclass(frozen=True)
class Limit:
    """Volts that a stretch may lose: at most `low`, trace it above `high`. `basis` in words."""

    low: float
    high: float
    basis: str

    @property
    def words(self) -> str:
        """Such as 0.20–0.30 V."""
        return with_unit(shown_range(self.low, self.high, 2), "V")


FEED_LIMIT = Limit(*FEED_DROP, "trade articles, for 12\u00a0V")  # battery plus to coil plus
GROUND_LIMIT = Limit(*GROUND_DROP, "common practice, no source, for 12\u00a0V")  # to battery minus

CAUTIONS = (RUNS_BY_ITSELF, CLEAR_OF_BELT, NEVER_DRY, LOCAL)
YES_NO = (Answer("yes", "Yes"), Answer("no", "No"), Answer("cannot_tell", "Can’t tell"))
NOT_JUDGED_24 = (
    "24\u00a0V: the limits are for 12\u00a0V, so what is lost is recorded and not judged."
)
NO_AMPS = "Amps not read: what resistance the drop means cannot be told."
NOT_MEASURED = (
    "The current was told, not measured: at little current even a rotten joint loses little."
)
REMARKS = (
    SystemRule({"voltage": ("24",)}, NOT_JUDGED_24),
    SystemRule({"voltage": ("",)}, "System voltage not noted: judged as 12\u00a0V."),
)
DROP_OUTCOMES = (
    OutcomeWords("within", "inside the limit", normal=True),
    OutcomeWords("edge", "at the limit"),
    OutcomeWords("cannot_tell", "cannot be told with this instrument"),
    OutcomeWords("above", "outside the limit"),
    OutcomeWords("far", "far outside the limit, 1\u00a0V or more"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

_IMPOSSIBLE = "Above 60 V is no clutch circuit on a battery: mV read as V, or high voltage."
DROP = Span(-16, 16, -60, 60, "More than a 12 V car has.", _IMPOSSIBLE)
DROP_ON = (
    SpanOn(
        {"voltage": ("24",)}, Span(-32, 32, -60, 60, "More than a 24 V vehicle has.", _IMPOSSIBLE)
    ),
)
AMPS = Number(
    "amps", "Current", "Clamp on the coil’s wire, if one is at hand.", "A",
    Span(
        -10, 10, -100, 100,
        "Outside what a clutch coil draws.",
        "No clutch coil carries that: a slipped point, or mA read as A.",
    ),
    ("mA",), instrument="dc_amps",
)  # fmt: skip
CARRIES = Choice(
    "carries", "Does current flow while you read?",
    "Yes: amps on a clamp, the magnet felt at the pulley face, a filament lamp lit. Without current"
    " a rotten joint loses nothing.",
    YES_NO, condition=True,
)  # fmt: skip

DROP_RESISTANCE = (
    WorkedOut(
        "volts", "Resistance this means", "drop_ohm", ("volts", "amps"), "Ω",
        when=(When("carries", ("yes", "cannot_tell", "")),),
    ),
)  # fmt: skip


@dataclass(frozen=True)
class Load:
    """Whether current flowed: `flows` is "yes", "no", "little" (for a coil) or "" (not told).

    `least` is the current in A from which a small drop shows something.
    """

    flows: str
    amps: Reading | None = None
    least: float = WORKING_SHARE * LEAST_DRAWN

    @property
    def words(self) -> str:
        """How it is known, such as "with 3.05 A flowing"."""
        if self.flows not in ("yes", "little"):
            return "with no current" if self.flows == "no" else "current not told"
        return f"with {amount(self.amps)} flowing" if self.amps else "with current flowing"

    def tells(self, drop: "Drop") -> bool:
        """Whether a drop read so shows something: at little current only one that is too large."""
        return self.flows == "yes" or (self.flows == "little" and drop.outside)

    @property
    def lead(self) -> str:
        """The same as the beginning of what is told."""
        return f"{self.words[0].upper()}{self.words[1:]},"


@dataclass(frozen=True)
class Drop:
    """Volts lost along a stretch, as people read them, and where they stand to its limit."""

    volts: Measured
    words: str
    grade: Grade

    @property
    def outside(self) -> bool:
        """Whether more is lost than the limit allows."""
        return self.grade in ("above", "far")


def amount(reading: Reading) -> str:
    """A reading without its sign: a minus only says that the leads stood the other way round."""
    return reading.shown.removeprefix(MINUS)


def load_of(readings: Readings, system: System) -> Load:
    """What was told of the current; amps on a meter go before a tap."""
    amps = number(readings, "amps")
    if amps is not None:
        least = working_amps(system)
        if abs(amps.si) < NO_CURRENT:
            return Load("no", amps, least)
        return Load("yes" if abs(amps.si) >= least else "little", amps, least)
    told = str(readings.get("carries", ""))
    return Load(told if told in ("yes", "no") else "")


def currents_at_odds(readings: Readings) -> Iterator[tuple[str, str]]:
    """Amps on the meter and the answer about current, where they cannot both be true."""
    amps, told = number(readings, "amps"), readings.get("carries")
    reads = "no" if amps and abs(amps.si) < NO_CURRENT else "yes"
    if amps is not None and told in ("yes", "no") and told != reads:
        flows = "current flows" if told == "yes" else "no current flows"
        yield "amps", f"{amps.shown} was read, yet the answer was that {flows}."


def grade(volts: Measured, limit: Limit) -> Grade:
    """Where volts lost stand to the limit, the meter's error included."""
    where = place_drop(volts, (limit.low, limit.high))
    outside: Grade = "far" if abs(volts.value) >= FAR else "above"
    grades: dict[DropPlace, Grade] = {"inside": "within", "at_limit": "edge", "outside": outside}
    return grades.get(where, "cannot_tell")


def drop_read(reading: Reading, limit: Limit) -> Drop:
    """A drop read directly; a meter on its mV range tells more than on its V range."""
    instrument = "dc_millivolts" if reading.unit == "mV" else "dc_volts"
    volts = measured(abs(reading.si), reading.last_digit, instrument)
    return Drop(volts, amount(reading), grade(volts, limit))


def drop_between(battery: Reading, coil: Reading, limit: Limit) -> Drop:
    """Volts lost, as the difference of two readings of one meter.

    One meter reads both, so the share by which it is off counts for the difference only (correlated
    inputs: JCGM 100:2008, 5.2.2); scatter and last digits count twice.
    """
    value = abs(battery.si) - abs(coil.si)
    accuracy = INSTRUMENTS["dc_volts"]
    digits = math.hypot(battery.last_digit, coil.last_digit) / 2
    limits = (accuracy.share * abs(value), math.sqrt(2) * accuracy.fixed, digits)
    volts = Measured(value, math.hypot(*limits) / math.sqrt(3))
    decimals = min(battery.decimals, coil.decimals)
    return Drop(volts, with_unit(shown(value, decimals), "V"), grade(volts, limit))


def no_load_sentence(load: Load, what: str) -> str:
    """Why nothing is made of `what`, such as "a drop"."""
    shows = f"{what} without current shows nothing"
    if load.flows == "no":
        return f"No current flowed: {shows}, even across a rotten joint."
    if load.flows == "little" and load.amps:
        least = f"{with_unit(shown(load.least, 1), 'A')}, half of what such a coil draws"
        little = f"Only {amount(load.amps)} flowed, less than {least} (our judgement)"
        return f"{little}: at so little {what} clears nothing, even a rotten joint loses little."
    return f"Whether current flowed is not told: {shows}."


def grade_sentence(drop: Drop, limit: Limit, where: str) -> str:
    """What was lost and where that stands, `where` such as "over the feed"."""
    lost = f"{drop.words} is lost {where}"
    if drop.grade == "cannot_tell":
        told = "cannot be told with this instrument"
        return f"{lost}: whether that is above {limit.words} {told}."
    return {
        "within": f"{lost}: inside, at most {with_unit(shown(limit.low, 2), 'V')}.",
        "edge": f"{lost}: at the limit of {limit.words}.",
        "above": f"{lost}: outside, more than {with_unit(shown(limit.high, 2), 'V')}.",
        "far": f"{lost}: far outside {limit.words}.",
    }[drop.grade]


def drop_strip(drop: Drop, limit: Limit) -> Strip:
    """What was lost and what may be, on one axis in volt."""
    point, error = abs(drop.volts.value), drop.volts.expanded
    return strip("V", point, drop.words, error, (0, limit.low), 2)


def lead_notes(reading: Reading, drop: Drop, load: Load) -> Iterator[str]:
    """What a reader of a drop has to know beside it."""
    if reading.si < 0:
        yield "A minus sign: the leads stood the other way round. The amount counts."
    if load.amps is None:
        yield NO_AMPS if drop.outside else NOT_MEASURED


def nothing_lost(
    name: str, reading: Reading, load: Load, what: str, least: float = LEAST_OHM
) -> Iterator[tuple[str, str]]:
    """A drop of zeros, current flowing, where `what` is never without any resistance: at odds.

    Half of the last digit typed may still be there. Ohm's law, so it holds at 24 V as well.
    """
    if load.flows not in ("yes", "little"):
        return
    amps = abs(load.amps.si) if load.amps else load.least
    if abs(reading.si) + reading.last_digit / 2 < least * amps:
        words = f"{amount(reading)} lost, {load.words}: {what} is never without any resistance"
        yield name, f"{words}. Are meter and leads as they should be?"


def all_lost(name: str, drop: Drop, system: System) -> Iterator[tuple[str, str]]:
    """Of a 12 V battery lost on a stretch through which current was told to flow: at odds."""
    if system.get("voltage") != "24" and drop.volts.value >= ALL_LOST:
        yield name, f"With {drop.words} lost there no coil’s current flows: is it open?"
