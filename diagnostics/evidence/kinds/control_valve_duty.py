"""The outer control valve of a variable compressor: its command, its coil, and what follows.

That such a coil is of about the 10 ohm class, and is judged by duty and never given battery power
for long, is from trade articles; only the vehicle's own figure judges it. A high share means a
large stroke on most cars and a small one on some.
"""

from collections.abc import Iterator
from dataclasses import dataclass

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
from diagnostics.evidence.coil_figure import COLDEST, HOTTEST, SPREAD, TOLERANCE
from diagnostics.evidence.fields import Answer, Choice, Number, Span
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.orders import OWN_HOSES, RUN
from diagnostics.evidence.readings import Reading, Readings, kept_aside, number, taps
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.electrics import resistance_at
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured, place
from diagnostics.physics.units import shown, to_si, with_unit

COMMANDED = to_si(5, "%")  # a share from here on is a command; our judgement
FLOWS = 0.1  # A: a valve that is commanded draws more; our judgement
PRESSURE = Span(
    -20, 600, -101.33, 6000, "Outside what a low side shows.", "Deeper than perfect vacuum."
)
OHM = Span(1, 50, 0, 10_000_000, "Far from the 10 Ω class.", "No resistance is below zero.")

FIELDS = (
    Choice(
        "follows", "Command raised: does the low side fall?", "Engine warm, blower high.",
        (
            Answer("yes", "It falls"),
            Answer("no", "It stays"),
            Answer("cannot_tell", "Can’t tell"),
        ),
    ),
    Number(
        "duty", "Command with full cooling asked for", "By scan data or scope.", "%",
        Span(0, 100, 0, 100, "From 0 to 100 %.", "A share is from 0 to 100 %."),
        instrument="scan_data",
    ),
    Number(
        "amps", "Current then", "Clamp or scan data.", "A",
        Span(0, 1.5, -10, 10, "Outside what such a valve draws.", "No such valve draws that."),
        ("mA",), instrument="dc_amps", compact=True,
    ),
    CHARGE_KNOWN,
    Number(
        "low_small", "Low side, small command", "If read.", "kPa", PRESSURE, ("psi", "bar"),
        instrument="low_side_gauge", reference="gauge", compact=True,
    ),
    Number(
        "low_full", "Low side, full command", "If read.", "kPa", PRESSURE, ("psi", "bar"),
        instrument="low_side_gauge", reference="gauge", compact=True,
    ),
    Number(
        "ohm", "Coil", "Plug off, ignition off.", "Ω", OHM, ("kΩ",), instrument="ohmmeter",
        compact=True, group="Coil on the meter",
    ),
    Choice(
        "over_range", "Meter over range?", "Ignition off, plug off, leads held together first.",
        (Answer("yes", "Over range"), Answer("no", "No")), compact=True,
    ),
    Number(
        "temperature", "Coil temperature", "If read.", "°C",
        Span(-40, 150, -60, 200, "Outside what a coil in a car has.", "No winding is like that."),
        ("°F",), instrument="thermometer", condition=True, compact=True,
    ),
    Number(
        "spec", "This vehicle’s figure at 20 °C", "If it is at hand.", "Ω", OHM,
        instrument="ohmmeter", condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("follows", "the low side follows the command", normal=True),
    OutcomeWords("stays", "the low side does not follow the command"),
    OutcomeWords("stays_fed", "commanded, current flows, and the low side does not follow"),
    OutcomeWords("not_commanded", "full cooling asked for, next to no command"),
    OutcomeWords("coil_open", "coil over range"),
    OutcomeWords("coil_low", "coil below the vehicle’s figure"),
    OutcomeWords("coil_high", "coil above the vehicle’s figure"),
    OutcomeWords("coil_inside", "coil inside the vehicle’s figure", normal=True),
    OutcomeWords("coil_unsure", "coil: cannot tell against the vehicle’s figure"),
    OutcomeWords("nothing_told", "recorded, carries nothing", carries=False),
)
STAYS = ("stays", "stays_fed")
FALLS = "Fine: command raised, the low side falls"


@dataclass(frozen=True)
class Seen:
    """The readings by name; `coil` is where the coil stands to the vehicle's figure, or empty."""

    taps: dict[str, str]
    duty: Reading | None
    amps: Reading | None
    ohm: Reading | None
    coil: str
    falls: str  # by the two pressures: yes, no or empty
    aside: dict[str, str]

    @property
    def follows(self) -> str:
        """What was tapped, else what two pressures show."""
        told = self.taps.get("follows", "")
        return told if told in ("yes", "no") else self.falls

    @property
    def is_fed(self) -> bool:
        """Whether current was read to flow in the valve."""
        return self.amps is not None and abs(self.amps.si) >= FLOWS

    @property
    def is_commanded(self) -> bool:
        """Whether a command was read, beyond the reading's error."""
        if self.duty is None:
            return False
        share = measured(self.duty.si, self.duty.last_digit, "scan_data")
        return share.value - share.expanded >= COMMANDED

    @property
    def uncommanded(self) -> bool:
        """Whether next to nothing is commanded, beyond the reading's error."""
        if self.duty is None:
            return False
        share = measured(self.duty.si, self.duty.last_digit, "scan_data")
        return share.value + share.expanded < COMMANDED


def _look(readings: Readings) -> Seen:
    told = taps(readings)
    ohm, amps = number(readings, "ohm"), number(readings, "amps")
    falls = _falls(number(readings, "low_small"), number(readings, "low_full"))
    aside = kept_aside(readings)
    return Seen(told, number(readings, "duty"), amps, ohm, _coil(readings), falls, aside)


def _coil(readings: Readings) -> str:
    """Where the coil stands to the vehicle's figure; wide when its temperature is not read.

    Then one that lies outside is outside, and one that lies inside can be anything.
    """
    ohm, spec = number(readings, "ohm"), number(readings, "spec")
    if ohm is None or spec is None or spec.si == 0:
        return ""
    warm = number(readings, "temperature")
    coldest, hottest = (warm.si - SPREAD, warm.si + SPREAD) if warm else (COLDEST, HOTTEST)
    coldest, hottest = max(coldest, COLDEST - 40), min(hottest, HOTTEST + 80)
    low = resistance_at(spec.si * (1 - TOLERANCE), coldest)
    high = resistance_at(spec.si * (1 + TOLERANCE), hottest)
    where = place(measured(ohm.si, ohm.last_digit, "ohmmeter"), low, high)
    return where if warm or where != "inside" else "any_warmth"


def _falls(small: Reading | None, full: Reading | None) -> str:
    """Whether the low side fell from small to full command, beyond what two readings scatter."""
    if small is None or full is None:
        return ""
    ends = [measured(one.si, one.last_digit, "low_side_gauge") for one in (small, full)]
    fall = Measured(small.si - full.si, (ends[0].u ** 2 + ends[1].u ** 2) ** 0.5)
    if fall.value - fall.expanded > 0:
        return "yes"
    return "no" if fall.value + fall.expanded < 0 else ""


def _code(seen: Seen) -> str:
    """The outcome: a coil outside goes before a command, a command before what follows."""
    return next(
        code
        for code, fits in (
            ("coil_open", seen.taps.get("over_range") == "yes"),
            ("coil_low", seen.coil == "below"),
            ("coil_high", seen.coil == "above"),
            ("follows", seen.follows == "yes"),
            ("not_commanded", seen.uncommanded),
            ("stays_fed", seen.follows == "no" and seen.is_commanded and seen.is_fed),
            ("stays", seen.follows == "no"),
            ("coil_inside", seen.coil == "inside"),
            ("coil_unsure", seen.coil in ("cannot_tell", "any_warmth")),
            ("nothing_told", True),
        )
        if fits
    )


_SENTENCES = {
    "follows": "The low side follows the command.",
    "stays": "The command rises and the low side does not follow.",
    "stays_fed": "Current flows in the commanded valve, and the low side does not follow.",
    "not_commanded": "Full cooling is asked for, and next to nothing is commanded.",
    "coil_open": "The meter stays over range on the valve’s coil.",
    "coil_low": "The valve’s coil lies below this vehicle’s figure.",
    "coil_high": "The valve’s coil lies above this vehicle’s figure.",
    "coil_unsure": "Whether the valve’s coil lies inside this vehicle’s figure cannot be told.",
    "coil_inside": "The valve’s coil lies inside this vehicle’s figure.",
    "nothing_told": "Recorded; nothing is judged by it.",
}
_ONWARD = {
    "follows": "Read both running pressures with full output asked for.",
    "stays": "Read the valve’s current while it is commanded, then its coil.",
    "stays_fed": "Read both running pressures with full output asked for, the charge known right.",
    "not_commanded": "Read why it is not asked for more; look up which way the share counts.",
    "coil_open": "Measure at the valve’s own pins once more, leads held together first.",
    "coil_low": "Measure the coil before its driver is replaced; look up its figure again.",
    "coil_high": "Look at its plug and pins, then measure at the valve’s own pins again.",
    "coil_unsure": "Read the coil’s temperature, then its resistance again.",
    "coil_inside": "Raise the command with gauges on: does the low side follow?",
    "nothing_told": "Raise the command with gauges on, and look up this vehicle’s figure.",
}
_COIL_MARKS = {
    "coil_open": ("Valve’s coil open", "measured at the valve with its plug off."),
    "coil_low": ("Valve’s coil shorted in part", "outside this vehicle’s figure."),
    "coil_high": ("Valve’s coil or its pins", "outside this vehicle’s figure."),
}


def _marks(seen: Seen, code: str, charge: str) -> Iterator[Mark]:
    """What it points at; the compressor is never named while the charge is not known."""
    if code in _COIL_MARKS:
        yield Mark("likely", _COIL_MARKS[code][0], f"points here, {_COIL_MARKS[code][1]}")
    elif code == "coil_inside":
        yield Mark("ruled_out", "Valve’s coil open or shorted", "ruled out as cold or warm as now.")
    elif code == "coil_unsure":
        why = "without its temperature" if seen.coil == "any_warmth" else "with this instrument"
        yield Mark("open", "Valve’s coil", f"not told {why}.")
    elif code == "follows":
        yield Mark("ruled_out", "Control valve does not follow", "ruled out: the low side fell.")
    elif code == "not_commanded":
        words = "on some cars a small share means a large stroke: look it up, read the reason."
        yield Mark("open", "Command held small, or a share that counts the other way", words)
    elif code in STAYS and not charge:
        words = "not known to be right; too little in it does not follow either."
        yield Mark("open", "Charge", words)
    elif code in STAYS:
        yield _stuck(seen, charge)
    elif seen.amps and seen.is_commanded and _is_without(seen.amps):
        words = f"{seen.amps.shown} flows while it is commanded."
        yield Mark("open", "Valve’s wiring, driver or coil", words)


def _stuck(seen: Seen, charge: str) -> Mark:
    """A low side that stays, with the charge told as right."""
    amps = seen.amps
    if amps is not None and _is_without(amps) and seen.is_commanded:
        words = f"{amps.shown} flows while it is commanded: look there before valve and compressor."
        return Mark("open", "Valve’s wiring, driver or coil", words)
    if amps is None or abs(amps.si) < FLOWS:
        words = "that current flows through the valve then is not shown."
        return Mark("open", "Valve’s wiring, valve, or compressor that cannot follow", words)
    words = f"points here ({amps.shown} flows, charge {charge}); not told apart by this step."
    return Mark("likely", "Control valve stuck, or compressor that cannot follow", words)


def _not_tested(seen: Seen, charge: str) -> Iterator[str]:
    rows = (
        ("duty", "Command", seen.duty),
        ("amps", "Current", seen.amps),
        ("ohm", "Coil", seen.ohm),
    )
    for name, words, read in rows:
        if read is None and not (name == "ohm" and seen.taps.get("over_range") == "yes"):
            why = "kept as typed, not used." if name in seen.aside else "no reading to go by."
            yield f"{words}: {why}"
    if seen.coil == "any_warmth":
        yield "Temperature of the coil: no reading to go by."
    if not seen.follows:
        yield "Whether the low side follows: not told."
    if not charge:
        yield "Charge: not known to be right."


def _band(seen: Seen, readings: Readings) -> str:
    """What the coil was held against, or that it was held against nothing."""
    if seen.ohm is None:
        return ""
    spec = number(readings, "spec")
    if spec is None:
        return (
            "About the 10\u00a0Ω class (trade articles): not judged without this vehicle’s figure."
        )
    tolerance = with_unit(shown(100 * TOLERANCE, 0), "%")
    warm = number(readings, "temperature")
    at = f"brought to {warm.shown}" if warm else "for −20 to 120\u00a0°C, temperature not read"
    return (
        f"Expected from this vehicle’s {spec.shown} at 20\u00a0°C ±{tolerance} (our judgement),"
        f" {at}; {INSTRUMENTS['ohmmeter'].words}, by default."
    )


def _is_without(amps: Reading) -> bool:
    """Whether next to no current was read, beyond the reading's error."""
    read = measured(abs(amps.si), amps.last_digit, "dc_amps")
    return read.value + read.expanded < FLOWS


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    told, ohm, amps = taps(readings), number(readings, "ohm"), number(readings, "amps")
    seen = _look(readings)
    over = told.get("over_range") == "yes"
    if over and ohm and ohm.si < 1000:
        yield "ohm", "Over range was tapped, yet the coil has a reading."
    if over and amps and abs(amps.si) >= FLOWS:
        yield "amps", "Over range was tapped, yet current flows through the coil."
    if told.get("follows") == "yes" and seen.falls == "no":
        yield "low_full", "It was told to fall, yet the second pressure stands higher."
    both = number(readings, "low_small") and number(readings, "low_full")
    if told.get("follows") == "yes" and both and not seen.falls:
        yield "low_full", "It was told to fall, yet no fall that such a gauge sees was read."
    if told.get("follows") == "no" and seen.falls == "yes":
        yield "low_full", "It was told to stay, yet the second pressure stands lower."
    if amps and seen.follows == "yes" and seen.is_commanded and _is_without(amps):
        yield "amps", "The low side follows, yet no current flows through the valve."
    if amps and seen.duty and seen.uncommanded and abs(amps.si) >= FLOWS:
        words = f"{seen.duty.shown} commanded, yet {amps.shown} flows"
        yield "duty", f"{words}: look up which way the share counts."


def _lead(seen: Seen) -> str:
    read = [f"{one.shown} {words}" for one, words in (
        (seen.duty, "commanded"), (seen.amps, "current"), (seen.ohm, "coil"),
    ) if one]  # fmt: skip
    return f"{', '.join(read)}." if read else ""


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    seen, charge = _look(readings), charge_words(taps(readings))
    code = _code(seen)
    outcome = Outcome(
        code,
        _SENTENCES[code],
        tuple(_marks(seen, code, charge)),
        tuple(_not_tested(seen, charge)),
        carries=code != "nothing_told",
        basis="vehicle" if code in ("coil_low", "coil_high", "coil_inside", "coil_unsure") else "",
    )
    first = WEIGH_FIRST if code in STAYS and not charge else _ONWARD[code]
    return Meaning(outcome, _lead(seen), band=_band(seen, readings), onward=(first,))


BARS = (
    SystemRule(
        {"drive": ("electric_hv",)},
        "High voltage: its output goes by speed, there is no such valve. Never a 12 V test.",
    ),
    SystemRule(
        {"drive": ("electric_48",)}, "48 V class: its output goes by speed, there is no such valve."
    ),
    SystemRule(
        {"displacement": ("fixed", "speed")}, "No control valve with a plug on this compressor."
    ),
    SystemRule(
        {"displacement": ("variable_inner",)},
        "Its control valve sits inside and has no plug: it goes by the low side’s pressure.",
    ),
)

_CAUTIONS = (
    "Never straight battery power on this coil for long: it is driven by duty.",
    EYES_AND_HANDS, CLEAR_OF_BELT, RUNS_BY_ITSELF, HOT, NEVER_DRY, LOCAL,
)  # fmt: skip

CONTROL_VALVE_DUTY = Kind(
    name="control_valve_duty",
    title="Control valve and its command",
    question="Does the control valve get its command, and does the low side follow?",
    version=1,
    minutes=8,
    about="compressor",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("gauges on", "coil plug reached"),
    cautions=_CAUTIONS,
    orders=(*OWN_HOSES, *RUN),
    orders_for=("follows", "low_small", "low_full"),
    at_odds=_at_odds,
    bars=BARS,
    asks_first=(
        SystemRule(
            {"displacement": ("",)},
            "Displacement is not noted yet. Look first: only for a variable compressor with an"
            " outer valve that has a plug.",
        ),
    ),
    works_out=(WorkedOut("ohm", "Coil at 20\u00a0°C", "at_20", ("ohm", "temperature"), "Ω"),),
    fine=Fine(FALLS, "sets the tap below; the numbers stay yours to type", {"follows": "yes"}),
)
