"""Temperatures along a running loop, read: where it turns colder, and what else may cool it there.

A step or frost at a place where liquid should only pass points at a restriction there: trade
articles. Superheat and subcooling are shown and held to nothing: the normal ranges in circulation
have no source. A drier sits in the liquid line; an accumulator in the suction line, where cold and
frost are as they should be; an internal heat exchanger cools the liquid on purpose: common
practice, no source. Above its critical 31 °C R-744 has no liquid: it is recorded.
"""

import math
from collections.abc import Iterator

from diagnostics.evidence.charge_told import charge_words
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.findings import Mark, Meaning, Outcome, Value
from diagnostics.evidence.loop_at_odds import sides_at_odds, superheat_words
from diagnostics.evidence.loop_pressures import SWITCH_OFF_HIGH, TRANSCRITICAL, is_too_high
from diagnostics.evidence.missing import untold
from diagnostics.evidence.readings import Readings, kept_aside, number, taps
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured
from diagnostics.physics.units import shown, with_unit

STEP = 3.0  # K: liquid that only passes cools less on its way; our judgement
BY_STEP = ("step_drier", "step_liquid", "step_exchanger", "no_drop", "no_step")
PLACES = {
    "discharge": "Discharge, compressor’s end",
    "condenser_out": "Behind the condenser",
    "drier_in": "Before the drier",
    "drier_out": "Behind the drier",
    "device_in": "Before the expansion device",
    "device_out": "Behind the expansion device",
    "suction": "Suction, compressor’s end",
}
AT_DRIER = ("drier_in", "drier_out")
EXCHANGER = "Internal heat exchanger"
WHICH = (
    "Whether drier or accumulator frosts is not told: at a drier it tells of a restriction, at an"
    " accumulator of none."
)
LOOK_WHICH = (
    "Look which it is: between condenser and expansion device, or between evaporator and"
    " compressor."
)
_SENTENCES = {
    "step_drier": "The line turns colder across the drier.",
    "step_liquid": "The liquid line turns colder on its way.",
    "step_exchanger": "The liquid line turns colder on its way.",
    "frost_early": "It frosts before the expansion device.",
    "no_drop": "The line turns no colder across the expansion device.",
    "frost_suction": "It frosts along the suction line up to the compressor.",
    "no_step": "Where liquid only passes, its temperature does not step.",
    "recorded": "What was told is recorded and held to nothing.",
}
_ONWARD = {
    "step_drier": (
        "Search for leaks while there is pressure, then recover and renew the drier.",
        "Look for debris before it.",
    ),
    "step_liquid": ("Look for a kink or a crushed line between the two places.",),
    "step_exchanger": (
        "Look whether liquid and suction line meet; if so, read the liquid before and behind that.",
    ),
    "frost_early": ("Read before and behind that place; look for a kink, drier or screen.",),
    "no_drop": ("Hold it against both running pressures and whether the shaft turns.",),
    "frost_suction": ("Look at airflow inside and at the expansion device before the charge.",),
    "no_step": ("Hold it against both running pressures.",),
    "recorded": ("Read behind the condenser, and before and behind the expansion device.",),
    "nothing_told": ("Run it steadily some minutes, then read along the loop.",),
}
BLOCKED = {
    "step_drier": "Drier blocked",
    "step_liquid": "Liquid line, or a drier in it, blocked",
    "frost_early": "Liquid line, drier or screen blocked",
}
# What is left in the direction of flow is no warmer than what came in; the line itself takes up
# heat from the engine: as much as a step, our judgement.
WARMER = (
    ("drier_in", "drier_out", 0.0),
    ("condenser_out", "device_in", STEP),
    ("device_in", "device_out", 0.0),
)


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


def _is_accumulator(told: dict[str, str]) -> bool:
    """Whether an accumulator takes the drier's place, in the suction line."""
    return told.get("vessel") == "accumulator"


def _is_drier(told: dict[str, str]) -> bool:
    return told.get("vessel") == "drier"


def _no_exchanger(told: dict[str, str]) -> bool:
    """Whether somebody told that nothing cools the liquid on its way on purpose."""
    return told.get("exchanger") == "not_fitted"


def _frost_somewhere(told: dict[str, str]) -> bool:
    """Frost that is told without whether drier or accumulator frosts."""
    return told.get("frost") == "drier" and told.get("vessel") not in ("drier", "accumulator")


def _why_nothing(readings: Readings, told: dict[str, str], gas: str) -> str:
    """Why nothing is made of it, or empty."""
    read = [name for name in PLACES if number(readings, name)]
    if told.get("running") == "no":
        return "It did not run steadily: temperatures along a loop at rest tell nothing."
    if not read and told.get("frost", "") in ("", "none"):
        aside = any(name in kept_aside(readings) for name in PLACES)
        return "What was read is kept as typed, not used." if aside else "No temperature was read."
    if gas == TRANSCRITICAL:
        return "R-744: recorded, not judged."
    if told.get("running") != "yes":
        return "Whether it ran steadily is not told: temperatures at rest tell nothing."
    return WHICH if not read and _frost_somewhere(told) else ""


def _code(readings: Readings, told: dict[str, str], gas: str) -> str:
    frost, bright = told.get("frost", ""), told.get("by") == "bright"
    drier = None if bright else _drop(readings, "drier_in", "drier_out")
    liquid = None if bright else _drop(readings, "condenser_out", "device_in")
    device = None if bright else _drop(readings, "device_in", "device_out")
    rows = (
        ("nothing_told", bool(_why_nothing(readings, told, gas))),
        ("step_drier", _steps(drier) and frost == "drier" and _is_drier(told)),
        ("frost_early", frost == "liquid" or (frost == "drier" and _is_drier(told))),
        ("step_drier", _steps(drier)),
        ("step_liquid" if _no_exchanger(told) else "step_exchanger", _steps(liquid)),
        ("no_drop", device is not None and device.value + device.expanded < STEP),
        ("frost_suction", frost == "suction"),
        ("no_step", (drier is not None and _is_drier(told)) or liquid is not None),
        ("recorded", True),
    )
    return next(code for code, fits in rows if fits)


def _left_open(code: str, told: dict[str, str]) -> str:
    """What else may turn colder there: "vessel", "exchanger", or empty where that is excluded."""
    if code == "step_drier" and not _is_drier(told):
        return "vessel"
    by_exchanger = code == "frost_early" and told.get("frost") == "liquid"
    return "exchanger" if by_exchanger and not _no_exchanger(told) else ""


def _blocked(code: str, told: dict[str, str]) -> Mark:
    """Where it is blocked, likely once all else that turns colder is told not to be there."""
    words = {
        "vessel": "across a drier in the liquid it points here; which of the two is not told.",
        "exchanger": "an internal heat exchanger, if there, cools the liquid too: not told apart.",
        "": "points here: liquid that only passes a place does not turn colder there.",
    }
    other = _left_open(code, told)
    return Mark("open" if other else "likely", BLOCKED[code], words[other])


def _marks(code: str, told: dict[str, str], charge: str) -> Iterator[Mark]:
    if code in BLOCKED:
        yield _blocked(code, told)
    if code == "step_exchanger":
        fitted = told.get("exchanger") == "fitted"
        words = "it cools the liquid on purpose: not told apart here."
        words = words if fitted else f"if there, {words}"
        yield Mark("open", f"{EXCHANGER}, or a blocked liquid line or drier", words)
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


def _not_tested(readings: Readings, told: dict[str, str], charge: str, gas: str) -> Iterator[str]:
    asked = {
        n: words for n, words in PLACES.items() if not (n in AT_DRIER and _is_accumulator(told))
    }
    left = [words for name, words in asked.items() if number(readings, name) is None]
    if left:
        yield f"No reading to go by: {', '.join(left)}."
    if not told.get("running"):
        yield "Whether it ran steadily: not told."
    if not told.get("frost"):
        yield "Frost: not told."
    for name, words in (("vessel", "Drier or accumulator"), ("exchanger", EXCHANGER)):
        yield from untold(told, name, words)
        if told.get(name) == "cannot_tell":
            yield f"{words}: could not be told."
    if not gas:
        yield "Which refrigerant: not noted; on R-744 none of this holds."
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


def _notes(readings: Readings, told: dict[str, str], around: Circumstances) -> Iterator[str]:
    if told.get("frost") == "drier" and _is_accumulator(told):
        yield "Cold or frost at an accumulator, in the suction line, tells of no restriction."
    elif _frost_somewhere(told) and any(number(readings, name) for name in PLACES):
        yield f"Frost: {WHICH[:1].lower()}{WHICH[1:]}"
    if told.get("by") == "bright":
        yield "Bright metal fools an infrared thermometer: recorded, not judged."
    elif not told.get("by"):
        yield "What it was read by is not told."
    yield from superheat_words(readings, around)
    if is_too_high(number(readings, "high"), around.system):
        yield SWITCH_OFF_HIGH


def at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    """What both gauges cannot show, and, running, what grows warmer where nothing warms it."""
    yield from sides_at_odds(readings, around)
    told = taps(readings)
    if told.get("running") != "yes":
        return
    yield from _condenser_at_odds(readings)
    if told.get("by") != "bright" and around.system.get("refrigerant") != TRANSCRITICAL:
        yield from _warmer_behind(readings)


def _warmer_behind(readings: Readings) -> Iterator[tuple[str, str]]:
    for before, behind, by_engine in WARMER:
        drop = _drop(readings, before, behind)
        if drop is not None and drop.value + drop.expanded < -by_engine:
            where = PLACES[behind][:1].lower() + PLACES[behind][1:]
            entry = PLACES[before][:1].lower() + PLACES[before][1:]
            yield behind, f"It is warmer {where} than {entry}: changed places?"


def _condenser_at_odds(readings: Readings) -> Iterator[tuple[str, str]]:
    hot, liquid = number(readings, "discharge"), number(readings, "condenser_out")
    if hot and liquid:
        us = (measured(one.si, one.last_digit, "thermometer").u for one in (hot, liquid))
        if liquid.si - hot.si > 2 * math.hypot(*us):
            yield (
                "condenser_out",
                "Behind the condenser it is hotter than before it: changed places?",
            )


def _onward(code: str, told: dict[str, str], why: str, gas: str) -> tuple[str, ...]:
    """What the step itself says to do next."""
    if code == "nothing_told" and gas == TRANSCRITICAL:
        return ()
    other = _left_open(code, told)
    if why == WHICH or other == "vessel":
        return (LOOK_WHICH,)
    return _ONWARD["step_exchanger" if other == "exchanger" else code]


def read(readings: Readings, around: Circumstances) -> Meaning:
    """What the temperatures along the loop show."""
    told, gas = taps(readings), around.system.get("refrigerant", "")
    code, charge = _code(readings, told, gas), charge_words(told)
    why = _why_nothing(readings, told, gas)
    outcome = Outcome(
        code,
        _SENTENCES.get(code) or why,
        tuple(_marks(code, told, charge)),
        tuple(_not_tested(readings, told, charge, gas)),
        carries=code != "nothing_told",
        basis="general" if code in BY_STEP else "",
    )
    band = ""
    if outcome.basis:
        step = with_unit(shown(STEP, 0), "K")
        band = f"A step is more than {step} (our judgement); {INSTRUMENTS['thermometer'].words}, by"
        band += " default, read twice by one."
    return Meaning(
        outcome,
        band=band,
        notes=tuple(_notes(readings, told, around)),
        onward=_onward(code, told, why, gas),
        values=tuple(_values(readings)),
    )
