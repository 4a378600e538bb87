"""An electric compressor by scan data: what is commanded, what it does, what it is refused for.

Nothing is touched. A refusal by a control unit is a finding, not a fault: trade articles. How far
an actual speed may lie from the commanded one is our judgement, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnostics.evidence.cautions import HIGH_VOLTAGE, LOCAL, NEVER_DRY, RUNS_BY_ITSELF
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import LOW_48, MOTOR_NOT_SURE, NO_MOTOR
from diagnostics.evidence.fields import Answer, Choice, Number, Span, Text
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Value
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Reading, Readings, kept_aside, number, taps
from diagnostics.physics.uncertainty import INSTRUMENTS, measured, place
from diagnostics.physics.units import shown, to_si, with_unit

SHARE = 0.1  # how far an actual speed may lie from the commanded one; our judgement
TAKES = 500.0  # W: a motor that stands takes less; our judgement
LEAST = 50.0  # W: a motor that turns a pump takes more; our judgement
STANDS = to_si(50, "rpm")  # below it stands; our judgement
SPEED = Span(0, 10_000, 0, 30_000, "Outside what such a compressor turns.", "No motor turns so.")
PERMISSION = {
    "pressure": "pressure",
    "temperature": "temperature",
    "battery": "battery or power",
    "other": "another reason",
}

FIELDS = (
    Choice(
        "asked", "A/C asked for, car ready?", "Coldest, blower on, ready to drive.",
        (Answer("yes", "Yes"), Answer("no", "No")), condition=True,
    ),
    Number("commanded", "Commanded speed", "", "rpm", SPEED, instrument="scan_data", compact=True),
    Number("actual", "Actual speed", "", "rpm", SPEED, instrument="scan_data", compact=True),
    Number(
        "power", "Power", "If it is shown.", "kW",
        Span(0, 8, -1, 30, "Outside what such a compressor takes.", "No such compressor takes it."),
        ("W",), instrument="scan_data", compact=True,
    ),
    Choice(
        "warning", "Insulation warning", "By lamp, message or scan data.",
        (Answer("none", "None"), Answer("shown", "Shown"), Answer("not_looked", "Not looked")),
        compact=True,
    ),
    Choice(
        "refusal", "Reason given for not running", "As the car words it: write it below.",
        (
            Answer("none", "None"),
            Answer("pressure", "Pressure"),
            Answer("temperature", "Temperature"),
            Answer("battery", "Battery, power"),
            Answer("insulation", "Insulation"),
            Answer("own", "Compressor’s own"),
            Answer("link", "No answer"),
            Answer("other", "Other"),
        ),
    ),
    Text("codes", "Codes and words as shown", "Of every control unit that has any.", 300),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("as_commanded", "runs as commanded", normal=True),
    OutcomeWords("slower", "runs slower than commanded"),
    OutcomeWords("faster", "runs faster than commanded"),
    OutcomeWords("at_the_edge", "cannot tell whether it runs as commanded"),
    OutcomeWords("stands", "commanded and stands still"),
    OutcomeWords("not_commanded", "asked for, not commanded, no reason given"),
    OutcomeWords("refused", "refused, with a reason"),
    OutcomeWords("reports_itself", "the compressor reports a code of its own"),
    OutcomeWords("no_answer", "the compressor does not answer"),
    OutcomeWords("insulation_warning", "the car warns of its insulation"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

_SENTENCES = {
    "as_commanded": "It runs as commanded.",
    "slower": "It runs slower than commanded.",
    "faster": "It runs faster than commanded.",
    "at_the_edge": "Whether it runs as commanded cannot be told with this reading.",
    "stands": "It is commanded and stands still.",
    "not_commanded": "A/C is asked for, and nothing is commanded; no reason is given.",
    "reports_itself": "The compressor reports a code of its own.",
    "no_answer": "The compressor’s control unit does not answer.",
    "insulation_warning": "The car warns of its high-voltage insulation.",
}
_OPEN = {
    "slower": ("Limited by heat or voltage, or a stiff pump", "not told apart by scan data."),
    "faster": ("Commanded by another unit", "the battery’s cooling may ask for it."),
    "stands": (
        "High-voltage supply, inverter, or a locked pump",
        "not told apart by scan data; nothing is opened to find out but by a qualified person.",
    ),
    "not_commanded": ("Request or permission", "read the request and every reason first."),
    "refused": (
        "Permission",
        "a refusal is a finding, not a fault: look into its reason first.",
    ),
    "reports_itself": (
        "Compressor’s inverter, its supply or its cooling",
        "it reports of itself; not told apart by scan data.",
    ),
    "no_answer": ("Its low-voltage supply, ground or data line", "look there before the unit."),
    "insulation_warning": (
        "High-voltage insulation",
        "any high-voltage part can be it; wrong oil in the loop can spoil it too.",
    ),
}
_ONWARD = {
    "as_commanded": ("Read both running pressures.",),
    "slower": ("Read temperatures, voltage and both pressures while it runs.",),
    "faster": ("Read what else asks for it, such as battery cooling.",),
    "at_the_edge": ("Read both speeds again, steady.",),
    "stands": ("A person qualified for high voltage goes on from here.",),
    "not_commanded": ("Read request, pressures, temperatures and battery state.",),
    "refused": ("Look into the reason given, then read again.",),
    "reports_itself": ("Look its code up; a person qualified for high voltage goes on.",),
    "no_answer": ("Check its low-voltage fuse, supply, ground and plug.",),
    "insulation_warning": (
        "Stop: only a person qualified for high voltage goes on. Isolate and prove dead first.",
    ),
    "nothing_told": ("Read commanded and actual speed with A/C asked for.",),
}


@dataclass(frozen=True)
class Seen:
    """The readings by name; `place` is where the actual speed lies to the commanded one."""

    taps: dict[str, str]
    commanded: Reading | None
    actual: Reading | None
    aside: dict[str, str]

    @property
    def place(self) -> str:
        """as_commanded, slower, faster, stands, at_the_edge; none_asked; empty: not both read."""
        if self.commanded is None or self.actual is None:
            return ""
        if self.commanded.si < STANDS:
            return "faster" if self.actual.si >= STANDS else "none_asked"
        if self.actual.si < STANDS:
            return "stands"
        speed = measured(self.actual.si, self.actual.last_digit, "scan_data")
        ends = (self.commanded.si * (1 - SHARE), self.commanded.si * (1 + SHARE))
        found = place(speed, *ends)
        return {"inside": "as_commanded", "below": "slower", "above": "faster"}.get(
            found, "at_the_edge"
        )


def _code(seen: Seen) -> str:
    """The outcome: what bears on safety first, then what the car says, then the speeds."""
    refusal, asked = seen.taps.get("refusal", ""), seen.taps.get("asked", "")
    if _warns(seen.taps):
        return "insulation_warning"
    by_car = {"own": "reports_itself", "link": "no_answer"} | dict.fromkeys(PERMISSION, "refused")
    if refusal in by_car:
        return by_car[refusal]
    idle = seen.place == "none_asked" or (
        seen.actual is None and seen.commanded is not None and seen.commanded.si < STANDS
    )
    if idle:
        return "not_commanded" if asked == "yes" and refusal == "none" else "nothing_told"
    return seen.place or "nothing_told"


def _sentence(seen: Seen, code: str, is_48: bool) -> str:
    if code == "refused":
        return f"It is refused; the reason given: {PERMISSION[seen.taps['refusal']]}."
    return (is_48 and _SENTENCES_48.get(code)) or _SENTENCES.get(code) or _nothing(seen)


def _nothing(seen: Seen) -> str:
    if seen.taps.get("asked") == "no":
        return "A/C was not asked for, so nothing is shown."
    if seen.commanded and seen.commanded.si < STANDS:
        return "Nothing is commanded; whether it was asked for, or refused, was not told."
    return "Commanded and actual speed were not both read."


# The 48 V class is no high voltage; it is isolated as its maker says all the same.
_SENTENCES_48 = {"insulation_warning": "The car warns of its insulation."}
_OPEN_48 = {
    "stands": (
        "48 V supply, inverter, or a locked pump",
        "not told apart by scan data; nothing is opened to find out before it is isolated.",
    ),
    "insulation_warning": (
        "Insulation of the 48 V side",
        "any part of it can be it; wrong oil in the loop can spoil it too.",
    ),
}
_ONWARD_48 = {
    "stands": ("Isolate it as its maker says before a plug is touched, then go on.",),
    "reports_itself": ("Look its code up; isolate it as its maker says before a plug is touched.",),
    "insulation_warning": ("Stop: isolate it as its maker says before anything is touched.",),
}


def _is_48(around: Circumstances) -> bool:
    return around.system.get("drive") == "electric_48"


def _marks(code: str, is_48: bool) -> Iterator[Mark]:
    if code == "as_commanded":
        words = "ruled out at this moment; whether it pumps is not told."
        yield Mark("ruled_out", "Command, supply or inverter missing", words)
    elif code in _OPEN:
        yield Mark("open", *((_OPEN_48 if is_48 else {}).get(code) or _OPEN[code]))


def _not_tested(seen: Seen, code: str) -> Iterator[str]:
    yield "Whether it pumps: not told by its speed."
    for name, words in (("commanded", "Commanded speed"), ("actual", "Actual speed")):
        if getattr(seen, name) is None:
            why = "kept as typed, not used." if name in seen.aside else "no reading to go by."
            yield f"{words}: {why}"
    if seen.taps.get("warning", "not_looked") == "not_looked" and code != "insulation_warning":
        yield "Insulation warning: not looked."
    if "asked" not in seen.taps:
        yield "Whether A/C was asked for: not told."


def _values(seen: Seen) -> Iterator[Value]:
    if seen.commanded and seen.actual and seen.commanded.si >= STANDS:
        share = seen.actual.si / seen.commanded.si
        text = with_unit(shown(100 * share, 0), "%")
        yield Value("actual", "Actual of commanded", text, share, "1")


def _warns(told: dict[str, str]) -> bool:
    """Whether the car warns of its insulation: that stands whatever the speeds are."""
    return told.get("warning") == "shown" or told.get("refusal") == "insulation"


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    actual, power, told = number(readings, "actual"), number(readings, "power"), taps(readings)
    if actual is None or _warns(told):
        return
    turns, refusal = actual.si >= STANDS, told.get("refusal", "")
    if refusal == "link" and turns:
        yield "actual", "No answer was tapped, yet it reports a speed."
    if refusal in PERMISSION and turns:
        yield "refusal", f"A reason for not running was given, yet {actual.shown} is reported."
    if power and power.si >= TAKES and not turns:
        yield "power", f"It stands, yet takes {power.shown}: not one moment, or not live data."
    if power and power.si < LEAST and turns:
        yield "power", _powerless(actual, power)


def _powerless(actual: Reading, power: Reading) -> str:
    least = with_unit("50", "W")
    return (
        f"{actual.shown} and {power.shown} do not fit: what turns a pump takes at least {least}"
        " (our judgement). Not one moment, not live data, or a list too coarse to show it: leave"
        " the power out then."
    )


def _notes(seen: Seen) -> Iterator[str]:
    turns = seen.actual is not None and seen.actual.si >= STANDS
    if seen.taps.get("asked") == "no" and turns:
        yield "It runs although A/C was not asked for: the battery’s cooling may ask for it."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    names = ("commanded", "actual")
    commanded, actual = (number(readings, name) for name in names)
    seen = Seen(taps(readings), commanded, actual, kept_aside(readings))
    code, is_48 = _code(seen), _is_48(around)
    judged = code in ("as_commanded", "slower", "faster", "at_the_edge")
    outcome = Outcome(
        code,
        _sentence(seen, code, is_48),
        tuple(_marks(code, is_48)),
        tuple(_not_tested(seen, code)),
        carries=code != "nothing_told",
        basis="general" if judged else "",
    )
    told = [f"{one.shown} {words}" for one, words in ((commanded, "commanded"), (actual, "actual"))
            if one]  # fmt: skip
    band = f"Within {with_unit('10', '%')} counts as commanded: our judgement, no source;"
    band += f" {INSTRUMENTS['scan_data'].words}, by default."
    return Meaning(
        outcome,
        f"{', '.join(told)}." if told else "",
        band=band if judged else "",
        notes=tuple(_notes(seen)),
        onward=(_ONWARD_48 if is_48 else {}).get(code) or _ONWARD[code],
        values=tuple(_values(seen)),
    )


HV_COMMAND = Kind(
    name="hv_command",
    title="Electric compressor by scan data",
    question="What is the electric compressor told to do, and what does it do?",
    version=1,
    minutes=5,
    about="compressor",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        "Scan data only: nothing is opened, unplugged or touched.",
        HIGH_VOLTAGE,
        RUNS_BY_ITSELF,
        NEVER_DRY,
        LOCAL,
    ),
    orders=("charge_first",),
    orders_for=("actual",),
    at_odds=_at_odds,
    bars=NO_MOTOR,
    asks_first=MOTOR_NOT_SURE,
    remarks=(LOW_48,),
    fine=Fine(
        "Fine: asked for, no warning, no reason against it",
        "sets the taps below; the speeds stay yours to type",
        {"asked": "yes", "warning": "none", "refusal": "none"},
    ),
)
