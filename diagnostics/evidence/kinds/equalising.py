"""How long both sides take to meet after switching off: a weak sign, and only after real pumping.

The bands of seconds are our judgement: no source gives any. What meets at once is not held back by
valve plates or an expansion device; some devices close at rest and let the sides meet slowly in a
sound loop.
"""

import math
from collections.abc import Iterator

from diagnostics.evidence.cautions import (
    CLEAR_OF_BELT,
    EYES_AND_HANDS,
    HOT,
    LOCAL,
    NEVER_DRY,
    RUNS_BY_ITSELF,
)
from diagnostics.evidence.charge_told import CHARGE_KNOWN, WEIGH_FIRST, charge_words
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Number, Span
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.hoses import HV_HOSES
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.orders import OWN_HOSES, RUN
from diagnostics.evidence.readings import Readings, kept_aside, number, taps
from diagnostics.evidence.strips import strip
from diagnostics.physics.uncertainty import INSTRUMENTS, measured, place
from diagnostics.physics.units import with_unit

AT_ONCE, QUICK, SLOW = 10.0, 30.0, 300.0  # s; our judgement
GRADES = {
    "at_once": (-math.inf, AT_ONCE),
    "quick": (AT_ONCE, QUICK),
    "usual": (QUICK, SLOW),
    "slow": (SLOW, math.inf),
}
BANDS = (
    "Our judgement, no source: up to 10 s at once, to 30 s quick, to 5 minutes usual, beyond slow;"
    f" {INSTRUMENTS['watch'].words}, by default."
)

FIELDS = (
    Number(
        "seconds", "From switching off until both needles meet", "Or stop creeping together.", "s",
        Span(
            0, 900, 0, 86_400, "Longer than anyone stands and watches.", "No time is below zero."
        ),
        ("min",), instrument="watch",
    ),
    Choice(
        "apart", "Still apart after 5 minutes?", "Instead of a time.",
        (Answer("yes", "Still apart"), Answer("no", "No")),
    ),
    Choice(
        "pumped", "Did the sides stand well apart before?",
        "Sides that never stood apart have nothing to even out.",
        (Answer("yes", "Yes"), Answer("no", "No")), condition=True,
    ),
    CHARGE_KNOWN,
    Choice(
        "device", "Expansion device", "A valve may close at rest; an orifice never does.",
        (
            Answer("orifice", "Orifice tube"),
            Answer("valve", "Expansion valve"),
            Answer("electric", "Electric valve"),
        ),
        condition=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("at_once", "the sides meet at once"),
    OutcomeWords("quick", "the sides meet quickly"),
    OutcomeWords("usual", "the sides meet in a usual time", normal=True),
    OutcomeWords("slow", "the sides meet slowly or not"),
    OutcomeWords("between", "between two of our bands"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

_SENTENCES = {
    "at_once": "The sides meet at once.",
    "quick": "The sides meet quickly.",
    "usual": "The sides meet in a usual time.",
    "slow": "The sides meet slowly.",
    "between": "The time lies between two of our bands.",
}


def _code(readings: Readings) -> str:
    """The outcome; a time goes before what was tapped instead of one."""
    told, read = taps(readings), number(readings, "seconds")
    if told.get("pumped") == "no":
        return "nothing_told"
    if read:
        watch = measured(read.si, read.last_digit, "watch")
        found = (
            code for code, (low, high) in GRADES.items() if place(watch, low, high) == "inside"
        )
        return next(found, "between")
    return "slow" if told.get("apart") == "yes" else "nothing_told"


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    """Never more than a pointer, and none before the charge is told as right."""
    if code in ("at_once", "quick"):
        if not charge_words(told):
            words = f"not known to be right; little in it meets fast too. {WEIGH_FIRST}"
            yield Mark("open", "Charge", words)
            return
        yield Mark(
            "open",
            "What keeps the compressor’s sides apart, or an expansion device stuck open",
            "a weak sign, and this step cannot tell them apart.",
        )
    elif code == "slow":
        closes = told.get("device") in ("valve", "electric")
        words = "a valve that closes at rest does so too" if closes else "a weak sign"
        yield Mark("open", "Expansion device or drier blocked", f"{words}: cannot be told by it.")


def _nothing(readings: Readings) -> str:
    if taps(readings).get("pumped") == "no":
        return "The sides never stood apart, so there was nothing to even out."
    if "seconds" in kept_aside(readings):
        return "The time is kept as typed, not used."
    return "No time was read."


_ONWARD = {
    "at_once": "Hold it against both running pressures before any part is named.",
    "quick": "Hold it against both running pressures before any part is named.",
    "slow": "Measure temperatures before and behind expansion device and drier.",
    "between": "Time it again, from steady running.",
    "nothing_told": "Run it until the sides stand well apart, switch off, and time it.",
}


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    read = number(readings, "seconds")
    if read and read.si < SLOW and taps(readings).get("apart") == "yes":
        yield "seconds", "They met within 5 minutes, and were still apart after 5 minutes."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told, read, code = taps(readings), number(readings, "seconds"), _code(readings)
    sentence = _SENTENCES.get(code) or _nothing(readings)
    missing = ["Which part lets the sides meet: not told by a time."]
    if not told.get("pumped") and code != "nothing_told":
        missing.append("Whether the sides stood well apart before: not told.")
    if not charge_words(told):
        missing.append("Charge: not known to be right.")
    carries = code != "nothing_told"
    basis = "general" if carries else ""
    outcome = Outcome(code, sentence, tuple(_marks(code, told)), tuple(missing), carries, basis)
    lead = f"{read.shown} from switching off." if read else ""
    if code == "slow" and not read:
        lead = f"Still apart after {with_unit('5', 'min')}."
    drawn = None
    if read and carries:
        watch = measured(read.si, read.last_digit, "watch")
        drawn = strip("s", watch.value, read.shown, watch.expanded, (QUICK, SLOW), 0)
    onward = (_ONWARD[code],) if code in _ONWARD else ()
    return Meaning(outcome, lead, drawn, BANDS if carries else "", onward=onward)


EQUALISING = Kind(
    name="equalising",
    title="Equalizing after switching off",
    question="How fast do both sides meet when the A/C is switched off?",
    version=1,
    minutes=6,
    about="compressor",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("gauges on",),
    cautions=(EYES_AND_HANDS, CLEAR_OF_BELT, RUNS_BY_ITSELF, HOT, NEVER_DRY, LOCAL),
    orders=(*OWN_HOSES, *RUN),
    at_odds=_at_odds,
    remarks=(HV_HOSES,),
)
