"""The clutch coil's resistance, plug off: both ways round, wiggled, to its case.

Trade articles: 12 V coils plausibly have 2 to 6 ohm, copper reads more when hot, so a reading is
brought to 20 °C before it is judged; shorted turns can hold normally and still end the relay or
driver; some coils ground through the case. Nothing named: common practice, no source.
"""

import math
from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.coil_figure import WARMTH
from diagnostics.evidence.coil_ohm import (
    SHORT_WORDS,
    CoilOhm,
    coil_ohm,
    is_to_case,
    ohm_band,
    ohm_sentence,
    ohm_strip,
)
from diagnostics.evidence.drives import CLUTCH_NOT_SURE, NO_CLUTCH
from diagnostics.evidence.fields import Answer, Choice, Number, Span, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.missing import missing
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.uncertainty import COVERAGE, measured
from diagnostics.physics.units import to_si

UPSTREAM = "Relay, fuse, switches and wiring: not tested by this step."
BEFORE_RELAY = "Relay or driver is replaced only after this: shorted turns end the next one too."
AGAIN = "Touch the meter’s leads together, then read again at the coil’s own pins."
OHM = Span(
    0.1, 100, 0, 1e9,
    "Outside what a clutch coil shows. Is the unit right? Beyond its range is a tap below.",
    "A resistance below zero: some voltage stands on the wire, or the plug is still on.",
)  # fmt: skip
CASE_OHM = Span(0, 1e7, 0, 1e9, "More than a path to the case shows: that is open.", OHM.impossible)
HOT = to_si(60, "°C")  # a coil that has been carrying current for a while; our judgement
PARTED = ("one_way", "both", "neither")
OTHERS = ("mΩ", "kΩ", "MΩ")  # both, so that capitals tell them apart
READS = When("case", ("reads",))

FIELDS = (
    Number(
        "one", "One way round", "",
        "Ω", OHM, OTHERS, instrument="ohmmeter", compact=True,
    ),
    Number(
        "other", "Leads swapped", "", "Ω", OHM, OTHERS, instrument="ohmmeter", compact=True,
    ),
    Choice(
        "beyond", "Beyond the meter’s range?", "What the meter shows with its leads apart.",
        (Answer("no", "No"), Answer("both", "Both ways"), Answer("one", "One way only")),
        compact=True,
    ),
    Number(
        "temperature", "Coil temperature, if read",
        "At the coil. Left empty it counts as not read, and the expected band is wide.",
        "°C", WARMTH, ("°F",), instrument="thermometer", condition=True,
    ),
    Choice(
        "wiggled", "Plug and lead wiggled", "While it is read.",
        (
            Answer("steady", "Steady"), Answer("jumps", "Jumps"),
            Answer("not_done", "Not done"),
        ),
    ),
    Choice(
        "case", "From a pin to the case", "A coil with one wire grounds there.",
        (
            Answer("open", "Open"), Answer("reads", "Reads"),
            Answer("one_wire", "One wire only"), Answer("not_done", "Not done"),
        ),
        compact=True,
    ),
    Number(
        "case_ohm", "What it reads to the case", "", "Ω", CASE_OHM, OTHERS,
        when=(READS,), why_not="Asked only where something reads to the case.",
        instrument="ohmmeter", compact=True,
    ),
    Choice(
        "diode", "Its diode, on the diode range", "Only where it can be parted from the coil.",
        (
            Answer("one_way", "One way only"), Answer("both", "Both ways"),
            Answer("neither", "Neither way"), Answer("not_parted", "Not parted"),
        ),
        compact=True,
    ),
    Choice(
        "plug", "Coil’s plug", "With it on, the meter reads through the car’s wiring.",
        (Answer("off", "Off"), Answer("on", "Still on")),
        preset="off", condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("intermittent", "jumps when wiggled"),
    OutcomeWords("to_case", "reads to its case"),
    OutcomeWords("open", "open: coil, melt fuse or lead"),
    OutcomeWords("far_low", "far less than it should have"),
    OutcomeWords("low", "less than it should have"),
    OutcomeWords("high", "more than it should have"),
    OutcomeWords("diode_shorted", "its diode carries both ways"),
    OutcomeWords("diode_open", "its diode carries neither way"),
    OutcomeWords("cannot_tell", "inside or outside cannot be told"),
    OutcomeWords("not_held", "read, and held to nothing"),
    OutcomeWords("inside", "inside what it should have", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_BY_GRADE = {
    "open": "open", "short": "far_low", "far_low": "far_low", "low": "low", "high": "high",
    "edge": "cannot_tell", "unheld": "not_held", "inside": "inside",
}  # fmt: skip
# Which of several is named first; whatever else was seen stands in the marks.
_GRAVEST = tuple(one.code for one in OUTCOMES)

ONWARD: dict[str, tuple[str, ...]] = {
    "intermittent": ("Clean and seat the plug, follow the lead, read again while it is moved.",),
    "to_case": ("Take lead and plug away from metal, read again at the coil itself.",),
    "open": (AGAIN, "Turn the hub by hand."),
    "far_low": ("Part its diode from the coil and read each by itself.", BEFORE_RELAY),
    "low": ("Part its diode from the coil and read each by itself.", BEFORE_RELAY),
    "high": ("Clean the pins, read again at the coil itself.",),
    "diode_shorted": ("Renew the diode, read coil and fuse again.", BEFORE_RELAY),
    "diode_open": ("Renew the diode: without it each switching strikes relay or driver.",),
    "cannot_tell": ("Read again cold, the coil’s temperature with it.",),
    "not_held": ("Note this vehicle’s own figure with the car.",),
    "inside": ("Measure the air gap; put power straight at the coil if that was not done.",),
    "nothing_told": ("Take the coil’s plug off and read between its pins.",),
}
LOOK_UP = "Look up this vehicle’s own figure before it is judged."


def _codes(seen: CoilOhm, told: dict[str, str], to_case: bool) -> set[str]:
    found = {_BY_GRADE[seen.grade]} if seen.grade in _BY_GRADE else set()
    by_diode = {"both": "diode_shorted", "neither": "diode_open"}.get(told.get("diode", ""), "")
    found |= {by_diode} if by_diode else set()
    found |= {"intermittent"} if told.get("wiggled") == "jumps" else set()
    return found | ({"to_case"} if to_case else set())


def _sentence(seen: CoilOhm, code: str) -> str:
    should = "it should have" if seen.specified else "such coils usually have"
    return {
        "intermittent": "The reading jumps when plug and lead are wiggled.",
        "to_case": "A path from the coil to its case was read.",
        "open": "No path through the coil.",
        "far_low": f"Far less than {should}.",
        "low": f"Less than {should}.",
        "high": f"More than {should}.",
        "diode_shorted": "The diode carries both ways.",
        "diode_open": "The diode carries neither way.",
        "cannot_tell": "Whether that is inside cannot be told with these readings.",
        "not_held": "This vehicle’s own figure is not noted, so it is held to nothing.",
        "inside": f"Inside what {should}.",
        "nothing_told": "The coil’s resistance was not told.",
    }[code]


def _coil_marks(seen: CoilOhm, parted: bool) -> Iterator[Mark]:
    """What the resistance between the pins shows of the coil."""
    if seen.grade == "open":
        words = "points here; the melt fuse inside may be what is open."
        yield Mark("likely", "Coil, its melt fuse or its lead open", words)
        locked = "not cleared: a locked or slipping compressor can open the coil’s melt fuse."
        yield Mark("open", "Compressor", locked)
        return
    yield Mark("ruled_out", "Coil open", "ruled out, a path through it was read.")
    if seen.grade in ("short", "far_low", "low"):
        yield _too_low(seen, parted)
    elif seen.grade == "high":
        subject = "Joint, lead or winding of the coil"
        unsure = Mark("open", subject, f"cannot be named by what coils usually have. {LOOK_UP}")
        points = Mark("likely", subject, "too much resistance points here.")
        yield points if seen.specified else unsure
    elif seen.grade == "inside" and seen.specified:
        at = f"at {seen.warm.shown}" if seen.warm else f"coil temperature {seen.no_warmth}"
        yield Mark("ruled_out", "Coil shorted in part", f"ruled out, {at}, at rest.")
    else:
        yield Mark("open", "Coil shorted in part", _not_told(seen))


def _too_low(seen: CoilOhm, parted: bool) -> Mark:
    """Little resistance; by a general band alone nothing is pointed at."""
    subject = "Coil shorted in part" if parted else "Coil shorted in part, or its diode"
    if seen.specified:
        apart = "" if parted else " Part the two and read each by itself."
        return Mark("likely", subject, f"points here.{apart}")
    if seen.grade == "short":
        words = f"points here: through less than {SHORT_WORDS} flows more than a clutch’s fuse"
        return Mark("likely", subject, f"{words} carries.")
    return Mark("open", subject, f"cannot be named by what coils usually have. {LOOK_UP}")


def _not_told(seen: CoilOhm) -> str:
    if seen.grade == "edge":
        if not seen.warm:
            return f"cannot be told while the coil’s temperature is {seen.no_warmth}."
        return "the reading reaches over the edge of what is expected: cannot tell with this meter."
    return "cannot be told without this vehicle’s own figure."


def _side_marks(told: dict[str, str], to_case: bool) -> Iterator[Mark]:
    """What wiggling, the case and the diode show."""
    if told.get("wiggled") == "jumps":
        yield Mark("likely", "Loose pin or broken strand at the coil", "points here.")
    if to_case:
        words = "points here: it works past a switch on the ground side, and blows fuses on the"
        yield Mark("likely", "Coil or lead shorted to its case", f"{words} feed side.")
    elif told.get("case") == "open":
        yield Mark("ruled_out", "Coil shorted to its case", "ruled out at rest.")
    by_diode = {
        "both": Mark("likely", "Diode shorted", "points here: it blows fuses with a good coil."),
        "neither": Mark("likely", "Diode open", "points here: it ends drivers with a good coil."),
        "one_way": Mark("ruled_out", "Diode open or shorted", "ruled out, parted from the coil."),
    }
    if told.get("diode") in by_diode:
        yield by_diode[told["diode"]]


def _not_tested(seen: CoilOhm, readings: Readings) -> Iterator[str]:
    yield UPSTREAM
    if seen.grade == "unread":
        yield from missing(readings, "one", "Resistance between the pins")
    elif seen.grade != "open" and not (seen.one and seen.other):
        yield "The other way round: not read."
    if seen.grade != "open":
        yield from missing(readings, "temperature", "Coil temperature")
    for name, words in (("wiggled", "Wiggled while read"), ("case", "To its case")):
        if readings.get(name, "not_done") == "not_done":
            yield f"{words}: not done."
    if readings.get("diode", "not_parted") == "not_parted":
        yield "Diode: an ohmmeter sends too little to wake it, so it is not told."


def _notes(seen: CoilOhm, codes: set[str], readings: Readings) -> Iterator[str]:
    ohm = number(readings, "case_ohm")
    if readings.get("case") == "reads" and "to_case" not in codes and ohm:
        yield f"{ohm.shown} to the case is dirt or moisture; clean it and read again."
    if seen.grade in ("short", "far_low", "low"):
        yield "Shorted turns can hold normally and still end relay or driver."
    if seen.grade in ("inside", "edge") and not (seen.warm and seen.warm.si >= HOT):
        yield "A coil that fails hot can read well cold: read it again while it fails."


def _nothing(sentence: str, note: str, onward: tuple[str, ...]) -> Meaning:
    missing_all = (UPSTREAM, "Coil: not tested.")
    return Meaning(
        Outcome("nothing_told", sentence, (), missing_all, False), notes=(note,), onward=onward
    )


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    if told.get("plug") == "on":
        words = "With the plug on the meter read through the car’s wiring: nothing is made of it."
        return _nothing("The coil’s resistance was not told.", words, ONWARD["nothing_told"])
    seen = coil_ohm(around.system, readings)
    to_case = is_to_case(number(readings, "case_ohm"), told.get("case", ""))
    codes = _codes(seen, told, to_case)
    code = next((one for one in _GRAVEST if one in codes), "nothing_told")
    parted = told.get("diode") in PARTED
    coil = tuple(_coil_marks(seen, parted)) if seen.grade != "unread" else ()
    marks = (*coil, *_side_marks(told, to_case)) if code != "nothing_told" else ()
    outcome = Outcome(
        code,
        _sentence(seen, code),
        marks,
        tuple(_not_tested(seen, readings)),
        carries=code != "nothing_told",
        basis=seen.basis,
    )
    lead = "" if seen.grade == "unread" else f"{ohm_sentence(seen)}."
    notes = tuple(_notes(seen, codes, readings))
    onward = _onward(codes, code, parted)
    return Meaning(outcome, lead, ohm_strip(seen), ohm_band(seen), notes, onward)


def _onward(codes: set[str], code: str, parted: bool) -> tuple[str, ...]:
    """What comes next; an open coil never ends the look at the shaft."""
    first = (BEFORE_RELAY,) if parted and code in ("far_low", "low") else ONWARD[code]
    return tuple(dict.fromkeys((*first, *(ONWARD["open"][1:] if "open" in codes else ()))))


TWO_WAYS = (
    "A coil carries as much one way as the other, and an ohmmeter sends too little through it to"
    " wake a diode beside it: the two differ by contacts or leads."
)


def _apart(one: Reading, other: Reading) -> bool:
    """Whether two readings within the meter's range differ by more than both may be off."""
    if max(one.si, other.si) > OHM.high:
        return False
    a, b = (measured(each.si, each.last_digit, "ohmmeter") for each in (one, other))
    return abs(a.value - b.value) > COVERAGE * math.hypot(a.u, b.u)


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    told = taps(readings)
    read = [one for name in ("one", "other") if (one := number(readings, name))]
    if told.get("wiggled") == "jumps":
        return
    if told.get("beyond") == "both" and read:
        yield "beyond", f"Beyond the meter’s range both ways, yet {read[0].shown} was read."
    if told.get("beyond") == "one" and len(read) == 2:
        yield "beyond", "Beyond the meter’s range one way, yet both ways were read."
    elif told.get("beyond") == "one" and read and read[0].si <= OHM.high:
        carries = "A coil carries as much one way as the other, a diode across it or not"
        shows = "one way and nothing the other is a lead that slipped, or a diode in the line"
        again = "Read both ways again at the coil’s own pins"
        yield "beyond", f"{carries}: {read[0].shown} {shows}. {again}."
    if len(read) == 2 and _apart(*read):
        yield "other", TWO_WAYS


COIL_RESISTANCE = Kind(
    name="coil_resistance",
    title="Coil’s resistance",
    question="What is the clutch coil’s resistance, with its plug off?",
    version=1,
    minutes=4,
    about="clutch",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("coil plug reached",),
    cautions=(
        cautions.KEY_AWAY,
        "Coil’s plug off before the meter goes on.",
        cautions.CLEAR_OF_BELT,
        cautions.HOT,
        cautions.LOCAL,
    ),
    bars=NO_CLUTCH,
    asks_first=CLUTCH_NOT_SURE,
    remarks=(
        SystemRule({}, "Touch the meter’s leads together first, and take off what they read."),
        SystemRule({}, BEFORE_RELAY),
        SystemRule({"voltage": ("24",)}, "24 V: judged by the vehicle’s own figure only."),
        SystemRule({"voltage": ("",)}, "System voltage not noted: held to what 12 V coils have."),
    ),
    at_odds=_at_odds,
    works_out=(
        WorkedOut("one", "At 20\u00a0°C", "at_20", ("one", "temperature"), "Ω"),
        WorkedOut("other", "At 20\u00a0°C", "at_20", ("other", "temperature"), "Ω"),
        WorkedOut("temperature", "Coil", "same", ("temperature",), "°F"),
    ),
    fine=Fine(
        "Fine: steady when wiggled, open to the case",
        "sets the taps below; the resistance stays yours to type",
        {"wiggled": "steady", "case": "open"},
    ),
)
