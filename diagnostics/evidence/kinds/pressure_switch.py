"""The switch or sensor that lets the compressor run: open or closed, and whether rightly so.

An open switch is a finding, not a fault: cold or an empty loop opens it as it should.
"""

import math
from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Number, Span, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.orders import OWN_HOSES
from diagnostics.evidence.problems import FieldGate
from diagnostics.evidence.readings import Readings, number, taps
from diagnostics.evidence.switch_read import (
    CUT_OUT,
    EMPTY,
    LOW,
    SENSOR,
    Seen,
    apart_of,
    code_of,
    is_empty,
    liquid_there,
    look,
    looks_absolute,
    open_code,
)
from diagnostics.evidence.system import SystemIs, SystemRule
from diagnostics.physics.uncertainty import INSTRUMENTS, measured, place
from diagnostics.physics.units import shown, with_unit

ORDER = (
    "Never bridge a three-wire sensor or any high-pressure cut-out, nor anything on an electric"
    " compressor; a two-wire low-pressure switch only for seconds, engine running, charge proven."
)
IS_LOW = When("type", (LOW,))
# An electric compressor starts at high voltage when its command is bridged: there nothing is.
BY_BELT: SystemIs = {"drive": ("belt_clutch", "belt_clutchless")}
MAY_BRIDGE = (When("engine", ("running",)), When("ready", ("yes",)))
REST = Span(
    -101, 2000, -101, 10_000,
    "Outside what a loop at rest shows.",
    "Deeper than perfect vacuum, or more than a loop of a car holds.",
)  # fmt: skip

FIELDS = (
    Choice(
        "type", "Which one is it?", "Count the wires first.",
        (
            Answer(LOW, "Two wires, low pressure"), Answer(CUT_OUT, "High-pressure cut-out"),
            Answer(SENSOR, "Three-wire sensor"), Answer("cannot_tell", "Can’t tell"),
        ),
        condition=True,
    ),
    Choice(
        "contacts", "Its contacts at rest", "Plug off, meter across its two pins.",
        (Answer("closed", "Closed"), Answer("open", "Open"), Answer("not_tried", "Not measured")),
        when=(When("type", (LOW, CUT_OUT, "cannot_tell", "")),),
        why_not="A three-wire sensor has no contacts: read what it tells in the data list.",
    ),
    Number(
        "rest", "Resting pressure", "Gauge, engine off, both sides the same.", "kPa", REST,
        ("psi", "bar"), instrument="low_side_gauge", reference="gauge",
    ),
    Number(
        "temperature", "Temperature of loop and air", "Soaked to one temperature.", "°C",
        Span(-40, 60, -60, 100, "Outside what a soaked car has.", "No soaked car has that."),
        ("°F",), instrument="thermometer", condition=True,
    ),
    Number(
        "closes_at", "Its own switch-on pressure, if known", "From this vehicle’s data.", "kPa",
        Span(
            50, 600, -101, 10_000, "Outside what low-pressure switches have, as far as we know.",
            "No low-pressure switch has that.",
        ),
        ("psi", "bar"), when=(IS_LOW,), why_not="Asked only of a two-wire low-pressure switch.",
        instrument="low_side_gauge", reference="gauge", condition=True,
    ),
    Number(
        "told", "Pressure in the data list", "At the same moment as the gauge.", "kPa", REST,
        ("psi", "bar"), when=(When("type", (SENSOR,)),), why_not="Asked only of a sensor.",
        instrument="scan_data", reference="gauge",
    ),
    Choice(
        "engine", "Engine", "", (Answer("off", "Off"), Answer("running", "Running")),
        preset="off", when=(IS_LOW,), why_not="Asked only before a low-pressure switch is bridged.",
        condition=True, on=BY_BELT,
    ),
    Choice(
        "ready", "Charge proven, hub turns free?", "Before a bridge: never run it empty or locked.",
        (Answer("yes", "Yes, both"), Answer("no", "No")),
        when=(IS_LOW, When("engine", ("running",))),
        why_not="Asked only before a low-pressure switch is bridged, engine running.",
        condition=True, on=BY_BELT,
    ),
    Choice(
        "bridged", "Bridged for seconds?", "A two-wire low-pressure switch only.",
        (
            Answer("no", "Not bridged"),
            Answer("comes_on", "Compressor comes on", MAY_BRIDGE, ORDER),
            Answer("nothing", "Nothing changes", MAY_BRIDGE, ORDER),
        ),
        when=(IS_LOW,), why_not=ORDER, on=BY_BELT,
    ),
    Choice(
        "all_the_same", "Was one bridged against that?",
        "Only what was done: it is recorded and becomes an open point.",
        (Answer("no", "No"), Answer("yes", "Yes")), compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("closed", "closed", normal=True),
    OutcomeWords("closed_empty", "closed with next to no pressure"),
    OutcomeWords("closed_untold", "closed with next to no pressure, which one is not told"),
    OutcomeWords("open_cold", "open, with the pressure of a loop with liquid in this cold"),
    OutcomeWords("open_low", "open, with too little pressure"),
    OutcomeWords("open_no_reason", "open although the pressure gives no reason"),
    OutcomeWords("open_untold", "open, whether rightly is not told"),
    OutcomeWords("sensor_agrees", "sensor and gauge agree", normal=True),
    OutcomeWords("sensor_off", "sensor and gauge do not agree"),
    OutcomeWords("sensor_unsure", "sensor and gauge: cannot be told with these instruments"),
    OutcomeWords("bridged_on", "compressor comes on when it is bridged"),
    OutcomeWords("bridged_on_full", "comes on when bridged, at a pressure that should close it"),
    OutcomeWords("bridged_nothing", "nothing changes when it is bridged"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)


SENTENCES = {
    "closed": "Its contacts are closed.",
    "closed_empty": "Its contacts are closed with next to no pressure in the loop.",
    "closed_untold": "Its contacts are closed with next to no pressure in the loop; which switch it"
    " is was not told.",
    "open_cold": "Open, and the pressure is that of a loop with liquid in this cold: a finding, not"
    " a fault.",
    "open_low": "Open, and the pressure is too low to close it: a finding, not a fault.",
    "open_no_reason": "Open, and the pressure gives no reason for it.",
    "open_untold": "Open; whether rightly cannot be told from what was read.",
    "sensor_agrees": "Sensor and gauge tell the same pressure.",
    "sensor_off": "Sensor and gauge do not tell the same pressure.",
    "sensor_unsure": "Whether sensor and gauge agree cannot be told with these instruments.",
    "bridged_on": "With the switch bridged the compressor comes on.",
    "bridged_on_full": "With the switch bridged the compressor comes on, at a pressure that should"
    " close it.",
    "bridged_nothing": "With the switch bridged nothing changes.",
    "nothing_told": "Nothing is shown of it yet.",
}
SWITCH = "Pressure switch"
MARKS = {
    "closed": Mark("open", SWITCH, "worn contacts show as a drop under current only."),
    "closed_empty": Mark(
        "open",
        f"{SWITCH} stuck closed or bridged before, or its port blocked",
        "only if the gauge sees the loop, and if this switch opens at so little pressure.",
    ),
    "closed_untold": Mark(
        "open",
        SWITCH,
        "wrong for a low-pressure switch, as it should be for a high-pressure cut-out.",
    ),
    "open_cold": Mark(
        "likely", "Kept off by the cold", "warm the loop or wait for a warmer day, then try again."
    ),
    "open_low": Mark("likely", "Kept off by low pressure", "charge or cold; not the switch."),
    "open_no_reason": Mark("likely", SWITCH, "points here; look at its plug and pins first."),
    "open_untold": Mark("open", SWITCH, "cold, low charge or the switch: cannot be told apart."),
    "sensor_agrees": Mark("ruled_out", "Pressure sensor", "ruled out at this pressure."),
    "sensor_off": Mark("likely", "Pressure sensor, its supply or its wires", "points here."),
    "sensor_unsure": Mark("open", "Pressure sensor", "not settled."),
    "bridged_on": Mark("likely", f"{SWITCH} or its wires", "points here."),
    "bridged_on_full": Mark("likely", f"{SWITCH} or its wires", "points here."),
    "bridged_nothing": Mark("open", "Another part of the command", "the switch is not it alone."),
}
TWO_IN_ONE = Mark(
    "open", SWITCH, "some open at too little pressure as well: look up whether this one does."
)
TAKE_OFF = "Take the bridge off."
NEVER_RUN = "Never run it."
LEAK = "Search for the leak."
NEXT = {
    "closed": "Read the drop across it, current flowing, if the coil’s current goes through it.",
    "closed_empty": "See that the gauge sees the loop, its valve and coupler open; then search for"
    " the leak.",
    "closed_untold": "Count its wires and see which it is; search for the leak.",
    "open_cold": "Bring the car where it is warmer than 11\u00a0°C, let it soak, and try again.",
    "open_low": "Read the resting pressure after a full soak, and search for a leak.",
    "open_no_reason": "Look at plug and pins, then look up its own switch-on pressure.",
    "open_untold": "Read resting pressure and temperature, and look up its own switch-on pressure.",
    "sensor_agrees": "See whether the control unit commands the compressor.",
    "sensor_off": "Measure the sensor’s supply and ground at its plug before it is replaced.",
    "sensor_unsure": "Find out whether the data list tells gauge or absolute pressure.",
    "bridged_on": "Read the pressure and the temperature it sees.",
    "bridged_on_full": "Read the pressure and the temperature it sees.",
    "bridged_nothing": "Look at fuse, relay and command.",
    "nothing_told": "Count its wires, then read its contacts or its pressure in the data list.",
}


def _bridged(seen: Seen) -> Mark:
    """What a bridge tells: of the switch only where its pressure gives no reason to be open."""
    if seen.gauge is None or seen.point is None:
        words = "the pressure it saw is not known: it may be open rightly."
        return Mark("open", f"{SWITCH} or its wires", words)
    where = place(seen.gauge, -math.inf, seen.point.pa)
    if where == "above":
        return MARKS["bridged_on"]
    if where == "inside":
        words = "charge or cold; not the switch, which is open rightly at so little pressure."
        return Mark("likely", "Kept off by low pressure", words)
    return Mark("open", f"{SWITCH} or its wires", "its pressure is too near where it switches.")


def _onward(seen: Seen, code: str, around: Circumstances) -> tuple[str, ...]:
    """What comes first; after a bridge it is what the pressure of the loop asks for."""
    if code.startswith("closed") and is_empty(seen):
        return NEVER_RUN, LEAK if code == "closed" else NEXT[code]
    if code.startswith("bridged_on"):
        why = open_code(seen, around)
        untold = NEXT[code] if seen.rest is None else "Look up its own switch-on pressure."
        return TAKE_OFF, untold if why == "open_untold" else NEXT[why]
    return (TAKE_OFF, NEXT[code]) if code == "bridged_nothing" else (NEXT[code],)


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    """A charge that was told as proven, with next to no pressure in the loop."""
    rest = number(readings, "rest")
    if rest is None or taps(readings).get("ready") != "yes":
        return
    gauge = measured(rest.si, rest.last_digit, "low_side_gauge")
    if gauge.value + gauge.expanded < EMPTY:
        yield "ready", f"With {rest.shown} in the loop no charge is proven: it is next to empty."


def _not_tested(seen: Seen, code: str) -> Iterator[str]:
    if code == "nothing_told":
        yield "Pressure switch or sensor: not tested."
    if seen.rest is None:
        yield "Resting pressure: not read."
    if seen.warm is None:
        yield "Temperature of the loop: not read."
    yield "How much is in the loop: a pressure does not tell it."


def _notes(seen: Seen, code: str, readings: Readings, around: Circumstances) -> Iterator[str]:
    if seen.is_told("all_the_same", "yes"):
        yield f"It was bridged against the order. {ORDER}"
    if code.startswith("bridged"):
        yield "A bridge shows what the switch keeps off; it does not show that it does so wrongly."
    apart = apart_of(seen, readings)
    if apart is not None:
        words = with_unit(shown(apart.value / 1000, 0), "kPa")
        yield f"Data list less gauge: {words}."
        if looks_absolute(apart, around):
            yield "That is about the pressure of the air: the list may tell absolute pressure."
    if code == "open_low" and liquid_there(seen, around) is None:
        yield "Too little charge or too cold: not told apart without refrigerant and temperature."


def _band(seen: Seen, code: str) -> str:
    if code.startswith("closed") and is_empty(seen):
        return "Next to no pressure: below 50\u00a0kPa (our judgement, not a limit of any switch)."
    if seen.point is None or code not in ("open_cold", "open_low", "open_no_reason"):
        return ""
    if not seen.is_told("type", LOW):
        return "At rest a cut-out belongs closed (common practice, no source)."
    point = with_unit(shown(seen.point.pa / 1000, 0), "kPa")
    gauge = INSTRUMENTS["low_side_gauge"].words
    if seen.basis == "vehicle":
        return f"Held against its own switch-on pressure, {point}; {gauge}, by default."
    return (
        f"Its own switch-on pressure is not noted: held against {point}, at which a full loop rests"
        f" at 11\u00a0°C (our judgement, not a limit of any switch); {gauge}, by default."
    )


def _lead(seen: Seen) -> str:
    told = [f"{seen.rest.shown} at rest"] if seen.rest else []
    told += [seen.warm.shown] if seen.warm else []
    return f"{', '.join(told)}." if told else ""


def _read(readings: Readings, around: Circumstances) -> Meaning:
    seen = look(readings, around)
    code = code_of(seen, readings, around)
    band = _band(seen, code)
    mark = MARKS.get(code)
    if code.startswith("bridged_on"):
        mark = _bridged(seen)
    elif code == "open_untold" and seen.is_told("type", CUT_OUT) and seen.gauge is not None:
        mark = TWO_IN_ONE
    outcome = Outcome(
        code,
        SENTENCES[code],
        (mark,) if mark else (),
        tuple(_not_tested(seen, code)),
        code != "nothing_told",
        seen.basis if band and seen.is_told("type", LOW) else "",
    )
    return Meaning(
        outcome,
        _lead(seen),
        band=band,
        notes=tuple(_notes(seen, code, readings, around)),
        onward=_onward(seen, code, around),
    )


PRESSURE_SWITCH = Kind(
    name="pressure_switch",
    title="Pressure switch or sensor",
    question="Does the pressure switch let the compressor run, and if not, rightly so?",
    version=1,
    minutes=4,
    about="command",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        ORDER,
        "Gas identified before the shop’s own gauges go on.",
        cautions.EYES_AND_HANDS,
        cautions.RUNS_BY_ITSELF,
        cautions.NEVER_DRY,
        cautions.LOCAL,
    ),
    gates=(
        FieldGate(
            "never_bridged",
            (When("all_the_same", ("yes",)),),
            "all_the_same",
            ("no",),
            ORDER,
            f"A pressure switch or sensor was bridged against the order. {ORDER}",
        ),
    ),
    orders=OWN_HOSES,
    orders_for=("rest",),
    waits=False,  # its contacts are read without hoses
    at_odds=_at_odds,
    remarks=(
        SystemRule(
            {"drive": ("electric_hv", "electric_48", "belt_electric")},
            "Electric compressor: nothing is bridged here; the sensor is read in the data list.",
        ),
        SystemRule(
            {"drive": ("",)},
            "The drive is not noted: look first, on an electric compressor nothing is bridged.",
        ),
        SystemRule({"refrigerant": ("R-744",)}, "R-744: pressures are recorded, not judged."),
    ),
    fine=Fine("Fine: closed at rest", "sets the tap below", {"contacts": "closed"}),
)
