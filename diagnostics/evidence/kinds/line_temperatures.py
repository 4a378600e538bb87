"""Temperatures along the loop while it runs: where it steps, and where it frosts.

A step or frost at a place where liquid should only pass points at a restriction there: trade
articles. Superheat and subcooling are shown and held to nothing: the normal ranges in circulation
have no source.
"""

import math
from collections.abc import Iterator

from diagnostics.evidence.cautions import CLEAR_OF_BELT, HIGH_VOLTAGE, HOT, LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.charge_told import CHARGE_KNOWN, charge_words
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span, SpanOn
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Value
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Readings, kept_aside, number, taps
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured
from diagnostics.physics.units import shown, with_unit

STEP = 3.0  # K: liquid that only passes cools less on its way; our judgement
LINE = Span(-30, 130, -60, 200, "Outside what a line has.", "No line is below −60 or above 200 °C.")
_NO_VACUUM = "Deeper than perfect vacuum, or more than any hose of a loop holds."
LOW = Span(-20, 600, -101.33, 3500, "Outside what a running low side shows.", _NO_VACUUM)
HIGH = Span(300, 3000, -101.33, 6000, "Outside what a running high side shows.", _NO_VACUUM)
WIDE = Span(-20, 14_000, -101.33, 20_000, "Outside what a running loop shows.", _NO_VACUUM)
MAYBE_744 = {"refrigerant": ("R-744", "other", "")}
PLACES = {
    "discharge": "Discharge, compressor’s end",
    "condenser_out": "Behind the condenser",
    "drier_in": "Before the drier",
    "drier_out": "Behind the drier",
    "device_in": "Before the expansion device",
    "device_out": "Behind the expansion device",
    "suction": "Suction, compressor’s end",
}


def _place(name: str) -> Number:
    return Number(
        name, PLACES[name], "", "°C", LINE, ("°F",), instrument="thermometer", compact=True,
        group="Along the loop, in its direction" if name == "discharge" else "",
    )  # fmt: skip


FIELDS: tuple[Field, ...] = (
    Choice(
        "running", "Running steadily while you read?", "Some minutes, A/C on, blower high.",
        (Answer("yes", "Yes"), Answer("no", "No")), condition=True,
    ),
    Choice(
        "by", "Read by", "Bright metal fools an infrared one: tape or paint the spot.",
        (
            Answer("clamp", "Clamp or probe"), Answer("infrared", "Infrared, on tape"),
            Answer("bright", "Infrared, bright metal"),
        ),
        condition=True,
    ),
    *(_place(name) for name in PLACES),
    Choice(
        "frost", "Frost or a sudden cold spot", "",
        (
            Answer("none", "None"), Answer("liquid", "In the liquid line"),
            Answer("drier", "At the drier"), Answer("device", "At the expansion device"),
            Answer("suction", "Suction up to the compressor"),
        ),
    ),
    CHARGE_KNOWN,
    Number(
        "low", "Low side", "For superheat.", "kPa", LOW, ("psi", "bar"),
        (SpanOn(MAYBE_744, WIDE),), instrument="low_side_gauge", reference="gauge", compact=True,
        group="Pressures at the same moment, if read",
    ),
    Number(
        "high", "High side", "For subcooling.", "kPa", HIGH, ("psi", "bar"),
        (SpanOn(MAYBE_744, WIDE),), instrument="high_side_gauge", reference="gauge", compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("step_drier", "temperature steps down at the drier"),
    OutcomeWords("step_liquid", "temperature steps down in the liquid line"),
    OutcomeWords("frost_early", "frost before the expansion device"),
    OutcomeWords("no_drop", "no drop at the expansion device"),
    OutcomeWords("frost_suction", "frost up to the compressor"),
    OutcomeWords("no_step", "no step where liquid only passes", normal=True),
    OutcomeWords("recorded", "recorded, held to nothing", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "step_drier": "The line turns colder across the drier.",
    "step_liquid": "The liquid line turns colder on its way.",
    "frost_early": "It frosts before the expansion device.",
    "no_drop": "The line turns no colder across the expansion device.",
    "frost_suction": "It frosts along the suction line up to the compressor.",
    "no_step": "Where liquid only passes, its temperature does not step.",
    "recorded": "The temperatures are recorded and held to nothing.",
}
_ONWARD = {
    "step_drier": ("Recover, then renew the drier; look for debris before it.",),
    "step_liquid": ("Look for a kink or a crushed line between the two places.",),
    "frost_early": ("Read before and behind that place; look for a kink, drier or screen.",),
    "no_drop": ("Hold it against both running pressures and whether the shaft turns.",),
    "frost_suction": ("Look at airflow inside and at the expansion device before the charge.",),
    "no_step": ("Hold it against both running pressures.",),
    "recorded": ("Read before and behind drier and expansion device.",),
    "nothing_told": ("Run it steadily some minutes, then read along the loop.",),
}
BLOCKED = {
    "step_drier": "Drier blocked",
    "step_liquid": "Liquid line pinched or blocked",
    "frost_early": "Liquid line, drier or screen blocked",
}


def _drop(readings: Readings, before: str, behind: str) -> Measured | None:
    """How much colder it is behind than before, in K; one thermometer read both."""
    one, other = number(readings, before), number(readings, behind)
    if one is None or other is None:
        return None
    # Its own error is in both alike; half of it is left for contact and place: our judgement.
    us = (measured(r.si, r.last_digit, "thermometer").u / 2 for r in (one, other))
    return Measured(one.si - other.si, math.hypot(*us))


def _steps(drop: Measured | None) -> bool:
    return drop is not None and drop.value - drop.expanded > STEP


def _why_nothing(readings: Readings, told: dict[str, str]) -> str:
    """Why nothing is made of it, or empty."""
    read = [name for name in PLACES if number(readings, name)]
    if told.get("running") == "no":
        return "It did not run steadily: temperatures along a loop at rest tell nothing."
    if not read and told.get("frost", "") in ("", "none"):
        aside = any(name in kept_aside(readings) for name in PLACES)
        return "What was read is kept as typed, not used." if aside else "No temperature was read."
    if told.get("running") != "yes":
        return "Whether it ran steadily is not told: temperatures at rest tell nothing."
    return ""


def _code(readings: Readings, told: dict[str, str]) -> str:
    frost, bright = told.get("frost", ""), told.get("by") == "bright"
    drier = None if bright else _drop(readings, "drier_in", "drier_out")
    liquid = None if bright else _drop(readings, "condenser_out", "device_in")
    device = None if bright else _drop(readings, "device_in", "device_out")
    rows = (
        ("nothing_told", bool(_why_nothing(readings, told))),
        ("frost_early", frost in ("liquid", "drier")),
        ("step_drier", _steps(drier)),
        ("step_liquid", _steps(liquid)),
        ("no_drop", device is not None and device.value + device.expanded < STEP),
        ("frost_suction", frost == "suction"),
        ("no_step", drier is not None or liquid is not None),
        ("recorded", True),
    )
    return next(code for code, fits in rows if fits)


def _marks(code: str, charge: str) -> Iterator[Mark]:
    if code in BLOCKED:
        words = "points here: liquid that only passes a place does not turn colder there."
        yield Mark("likely", BLOCKED[code], words)
    if code == "no_drop" and not charge:
        yield Mark("open", "Charge", "not known to be right; too little in it shows so too.")
    elif code == "no_drop":
        words = "not told apart by temperatures alone."
        yield Mark("open", "Expansion device wide open, or next to no flow", words)
    if code == "frost_suction":
        words = "too much through it, or too little air inside: not told apart here."
        yield Mark("open", "Expansion device, or airflow inside", words)
    if code == "no_step":
        yield Mark("ruled_out", "A step where it was read", "ruled out at this load.")
        yield Mark("open", "Expansion device", "a drop there is as it should be.")


def _not_tested(readings: Readings, told: dict[str, str], charge: str) -> Iterator[str]:
    left = [words for name, words in PLACES.items() if number(readings, name) is None]
    if left:
        yield f"No reading to go by: {', '.join(left)}."
    if not told.get("running"):
        yield "Whether it ran steadily: not told."
    if not told.get("frost"):
        yield "Frost: not told."
    if not charge:
        yield "Charge: not known to be right."
    yield "How much refrigerant is in it: not told by temperatures."


def _values(readings: Readings) -> Iterator[Value]:
    pairs = (
        ("drier_out", "Colder across the drier", "drier_in", "drier_out"),
        ("device_in", "Colder along the liquid line", "condenser_out", "device_in"),
        ("device_out", "Colder across the expansion device", "device_in", "device_out"),
    )
    for about, words, before, behind in pairs:
        drop = _drop(readings, before, behind)
        if drop is not None:
            text = with_unit(shown(drop.value, 0), "K")
            yield Value(about, words, text, drop.value, "ΔK", drop.u)


def _notes(told: dict[str, str]) -> Iterator[str]:
    if told.get("by") == "bright":
        yield "Bright metal fools an infrared thermometer: recorded, not judged."
    elif not told.get("by"):
        yield "What it was read by is not told."


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    hot, liquid = number(readings, "discharge"), number(readings, "condenser_out")
    if taps(readings).get("running") == "yes" and hot and liquid:
        us = (measured(one.si, one.last_digit, "thermometer").u for one in (hot, liquid))
        if liquid.si - hot.si > 2 * math.hypot(*us):
            yield (
                "condenser_out",
                "Behind the condenser it is hotter than before it: changed places?",
            )


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told = taps(readings)
    code, charge = _code(readings, told), charge_words(told)
    outcome = Outcome(
        code,
        _SENTENCES.get(code) or _why_nothing(readings, told),
        tuple(_marks(code, charge)),
        tuple(_not_tested(readings, told, charge)),
        carries=code != "nothing_told",
        basis="general" if code in ("step_drier", "step_liquid", "no_drop", "no_step") else "",
    )
    band = ""
    if outcome.basis:
        step = with_unit(shown(STEP, 0), "K")
        band = f"A step is more than {step} (our judgement); {INSTRUMENTS['thermometer'].words}, by"
        band += " default, read twice by one."
    return Meaning(
        outcome,
        band=band,
        notes=tuple(_notes(told)),
        onward=_ONWARD[code],
        values=tuple(_values(readings)),
    )


LINE_TEMPERATURES = Kind(
    name="line_temperatures",
    title="Temperatures along the loop",
    question="Where does the loop turn colder, and where should it not?",
    version=1,
    minutes=8,
    about="heat",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("lines reached",),
    cautions=(HOT, RUNS_BY_ITSELF, CLEAR_OF_BELT, LOCAL),
    orders=("hub_first", "charge_first"),
    at_odds=_at_odds,
    remarks=(
        SystemRule({"drive": ("electric_hv",)}, HIGH_VOLTAGE),
        SystemRule({"refrigerant": ("R-744",)}, "R-744: recorded; no drier sits in its liquid."),
        SystemRule(
            {"branches": ("rear", "battery")},
            "More than one branch: each has an expansion device; tell in words which was read.",
        ),
    ),
    works_out=(
        WorkedOut("suction", "Superheat", "superheat", ("low", "suction"), "ΔK"),
        WorkedOut("condenser_out", "Subcooling", "subcooling", ("high", "condenser_out"), "ΔK"),
    ),
)
