"""The air that comes out of a vent, beside the air that went in, and under what it was read.

What a vent should give is judged nowhere: it hangs on the air outside, its moisture, engine speed,
fan, doors, recirculation and the minutes run (trade articles), and the normal ranges in circulation
have no source. Two readings are compared under the same conditions only.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from diagnostics.evidence.cautions import CLEAR_OF_BELT, LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Value
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.missing import missing, untold
from diagnostics.evidence.orders import RUN
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.showable import TOO_COLD
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.cooled_air import cooling, wettest
from diagnostics.physics.errors import PhysicsError
from diagnostics.physics.humid_air import HumidAir, by_relative_humidity
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured
from diagnostics.physics.units import from_si, shown, to_si, with_unit

SOON = 300.0  # s: before that the loop has hardly settled; our judgement
COLD_WORDS = f"{with_unit(shown(from_si(TOO_COLD, '°C'), 0), '°C')} (our judgement)"
SOON_WORDS = f"it has run {with_unit(shown(from_si(SOON, 'min'), 0), 'min')} (our judgement)"
AIR = Span(-10, 50, -60, 70, "Outside what such air has.", "No air is below −60 or above 70 °C.")
VENT = Span(-5, 60, -40, 100, "Outside what a vent gives.", "No vent of a car gives that.")

FIELDS: tuple[Field, ...] = (
    Choice(
        "branch", "Which vent", "",
        (Answer("front", "Front, center"), Answer("rear", "Rear unit"),
         Answer("other", "Another")),
        condition=True, compact=True,
    ),
    Number(
        "vent", "At the vent", "Probe in the middle of the air, steady.", "°C", VENT, ("°F",),
        instrument="thermometer", compact=True,
    ),
    Number(
        "intake", "Air that goes in", "Outside with fresh air, cabin with recirculation.", "°C",
        AIR, ("°F",), instrument="thermometer", compact=True,
    ),
    Number(
        "humidity", "Its relative humidity", "If read.", "%",
        Span(5, 100, 0, 100, "Drier than air is.", "Air holds from 0 to 100 % of what it can."),
        instrument="scan_data", condition=True, compact=True,
    ),
    Choice(
        "recirculation", "Air from", "",
        (Answer("fresh", "Outside"), Answer("recirculated", "Recirculated")),
        condition=True, compact=True, group="Under what it was read",
    ),
    Choice(
        "blower", "Blower", "",
        (Answer("low", "Low"), Answer("middle", "Middle"), Answer("high", "High")),
        condition=True, compact=True,
    ),
    Choice(
        "doors", "Doors and windows", "",
        (Answer("open", "Open"), Answer("closed", "Closed")), condition=True, compact=True,
    ),
    Number(
        "rpm", "Engine speed", "Electric: leave it empty.", "rpm",
        Span(500, 4000, 0, 12_000, "Outside a usual test speed.", "No engine turns so."),
        instrument="scan_data", condition=True, compact=True,
    ),
    Number(
        "minutes", "Run for", "A/C on.", "min",
        Span(2, 120, 0, 1440, "Shorter or longer than such a run.", "Less than no time."),
        ("s", "h"), instrument="watch", condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("nothing_told", "carries nothing", carries=False),
    OutcomeWords("too_cold", "too cold outside to show it", carries=False),
    OutcomeWords("no_colder", "no colder than the air that goes in"),
    OutcomeWords("warmer", "warmer than the air that goes in"),
    OutcomeWords("cannot_tell", "whether it is colder cannot be told"),
    OutcomeWords("colder", "colder than the air that goes in", normal=True),
)
_ONWARD = {
    "no_colder": ("Does the compressor engage? Then both running pressures, and the air doors.",),
    "warmer": ("Pinch the heater’s hoses: does it turn colder? Look at the air doors.",),
    "cannot_tell": ("Run it ten minutes, recirculated, then read both again.",),
    "colder": ("Repeat it after the work under the same conditions, else they do not compare.",),
    "too_cold": ("Show it on a warmer day, or in a heated bay.",),
    "nothing_told": ("Read vent and the air that goes in, at one moment, running.",),
}


@dataclass(frozen=True)
class Vent:
    """The readings: how much colder the vent is, in K, and the air that goes in, where known."""

    vent: Reading | None
    intake: Reading | None
    run: Reading | None
    colder: Measured | None
    entering: HumidAir | None


def _look(readings: Readings, around: Circumstances) -> Vent:
    vent, intake, run = (number(readings, name) for name in ("vent", "intake", "minutes"))
    colder = None
    if vent and intake:
        us = (measured(one.si, one.last_digit, "thermometer").u for one in (vent, intake))
        colder = Measured(intake.si - vent.si, math.hypot(*us))
    return Vent(vent, intake, run, colder, _entering(readings, intake, around))


def _entering(readings: Readings, intake: Reading | None, around: Circumstances) -> HumidAir | None:
    humidity = number(readings, "humidity")
    if intake is None or humidity is None:
        return None
    try:
        return by_relative_humidity(intake.si, humidity.si, around.air)
    except PhysicsError:
        return None


def _is_early(run: Reading | None) -> bool:
    """Whether the loop may not have settled; also where nobody told how long it ran."""
    return run is None or run.si < SOON


def _code(seen: Vent) -> str:
    if seen.colder is None or seen.intake is None:
        return "nothing_told"
    least, most = (seen.colder.value + side * seen.colder.expanded for side in (-1, 1))
    rows = (
        ("nothing_told", seen.run is not None and seen.run.si <= 0),
        ("colder", least > 0),
        ("too_cold", seen.intake.si < TOO_COLD),
        ("warmer", most < 0),
        ("cannot_tell", _is_early(seen.run)),
        ("no_colder", True),
    )
    return next(code for code, fits in rows if fits)


def _sentence(seen: Vent, code: str) -> str:
    at = seen.intake.shown if seen.intake else ""
    if code == "nothing_told":
        if seen.colder:
            return "It had not run: what a vent gives then tells nothing."
        return "The vent and the air that goes in were not both read."
    return {
        "too_cold": f"Not showable at {at}: below {COLD_WORDS} a car may ask for no cold.",
        "warmer": "The vent is warmer than the air that goes in.",
        "no_colder": "The vent is no colder than the air that goes in, beyond what can be told.",
        "cannot_tell": f"Whether the vent is colder cannot be told before {SOON_WORDS}.",
        "colder": "The vent is colder than the air that goes in; no limit is held to how much.",
    }[code]


def _marks(code: str, run: Reading | None) -> Iterator[Mark]:
    if code == "no_colder":
        yield Mark("likely", "No cold at the vent", "points here, by this thermometer.")
    if code == "warmer" and _is_early(run):
        words = "not settled: a car that stood hot gives that before it has run."
        yield Mark("open", "Heat gets into the air", words)
    elif code == "warmer":
        yield Mark("likely", "Heat gets into the air", "points here: heater, door, or hot metal.")
    if code in ("no_colder", "cannot_tell"):
        yield Mark("open", "Why", "the loop, the air through it and the doors: not parted here.")
    if code == "colder":
        if run:
            yield Mark("ruled_out", "No cold at all", "ruled out at this vent, at this moment.")
        yield Mark("open", "Cold enough", "not judged: there is no limit that has a source.")


def _not_tested(readings: Readings, around: Circumstances) -> Iterator[str]:
    yield from missing(readings, "vent", "Vent")
    yield from missing(readings, "intake", "Air that goes in")
    yield from missing(readings, "humidity", "Its humidity")
    yield from untold(readings, "recirculation", "Where the air comes from")
    yield from untold(readings, "blower", "Blower’s step")
    yield from untold(readings, "doors", "Doors and windows")
    yield from missing(readings, "minutes", "Minutes run")
    if around.system.get("drive", "").startswith("belt"):
        yield from missing(readings, "rpm", "Engine speed")
    rear = "rear" in around.system.get("branches", [])
    if rear and taps(readings).get("branch") != "rear":
        yield "Rear unit’s vent: not measured by this step."
    yield from untold(readings, "branch", "Which vent")


def _values(seen: Vent) -> Iterator[Value]:
    """How much colder; the dew point of what goes in; how much of the cold dries it at most."""
    if seen.colder:
        text = with_unit(shown(seen.colder.value, 0), "K")
        words = "Colder than the air that goes in"
        yield Value("vent", words, text, seen.colder.value, "ΔK", seen.colder.u)
    entering, vent = seen.entering, seen.vent
    if entering is None or vent is None:
        return
    try:
        dew = entering.dew_point()
        yield Value(
            "humidity", "Dew point of what goes in",
            with_unit(shown(from_si(dew, "°C"), 0), "°C"), dew, "K",
        )  # fmt: skip
        share = cooling(entering, wettest(entering, vent.si), 1.0).latent_share
    except PhysicsError:
        return
    words = "Of the heat taken out, at least the part that dried the air"
    if share > 0:
        yield Value("humidity", words, with_unit(shown(100 * share, 0), "%"), share, "1")


def _notes(seen: Vent, code: str) -> Iterator[str]:
    if seen.run and 0 < seen.run.si < SOON and code in ("colder", "no_colder", "warmer"):
        yield "Read early: it turns colder for about ten minutes."
    if seen.entering is not None and seen.vent is not None and code == "colder":
        yield "Moist air takes more to cool: the same car gives warmer air on a muggy day."


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    vent = number(readings, "vent")
    if vent and vent.si < to_si(-5, "°C"):
        yield "vent", "No evaporator gives air so far below freezing for long: it would be ice."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    seen = _look(readings, around)
    code = _code(seen)
    outcome = Outcome(
        code,
        _sentence(seen, code),
        tuple(_marks(code, seen.run)),
        tuple(_not_tested(readings, around)),
        carries=code not in ("nothing_told", "too_cold"),
    )
    read = (("vent", seen.vent), ("air in", seen.intake))
    lead = ", ".join(f"{words} {one.shown}" for words, one in read if one)
    lead = f"{lead[:1].upper()}{lead[1:]}."
    return Meaning(
        outcome,
        lead if lead != "." else "",
        band=f"{INSTRUMENTS['thermometer'].words}, by default." if seen.colder else "",
        notes=tuple(_notes(seen, code)),
        onward=_ONWARD["cannot_tell" if code == "warmer" and _is_early(seen.run) else code],
        values=tuple(_values(seen)),
    )


VENT_TEMPERATURE = Kind(
    name="vent_temperature",
    title="Temperature at a vent",
    question="How cold is the air at the vent, and what goes in?",
    version=1,
    minutes=10,
    about="heat",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        "Exhaust out of the bay, brake on, out of gear.",
        RUNS_BY_ITSELF,
        CLEAR_OF_BELT,
        LOCAL,
    ),
    orders=RUN,
    at_odds=_at_odds,
    works_out=(
        WorkedOut("vent", "Vent", "same", ("vent",), "°F"),
        WorkedOut("intake", "Air in", "same", ("intake",), "°F"),
    ),
)
