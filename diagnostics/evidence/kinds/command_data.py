"""What the control unit says of the command: asked for, commanded, and why not.

A refusal is a finding, not a fault; one by a lock or slip sensor points at compressor or belt.
"""

from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import LOW_48, MOTOR_NOT_SURE, driven, look_first
from diagnostics.evidence.fields import Answer, Choice, Text, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System, SystemRule

NOT_COMMANDED = When("commanded", ("no",))
HAS_REASON = When(
    "reason",
    ("cold", "low", "high", "engine", "battery", "lock", "evaporator", "other"),
)
SHOWN = (
    Answer("yes", "Yes"), Answer("no", "No"), Answer("not_listed", "Not in the list"),
)  # fmt: skip

REASONS = (
    Answer("cold", "Outside too cold"), Answer("low", "Pressure too low"),
    Answer("high", "Pressure too high"),
    Answer("engine", "Engine: load, idle, hot coolant"), Answer("battery", "Battery low"),
    Answer("lock", "Lock or slip sensor"), Answer("evaporator", "Evaporator cold"),
    Answer("other", "Another reason"), Answer("none", "Gives none"),
)  # fmt: skip

FIELDS = (
    Choice(
        "power", "Engine running, or READY on?", "Without it nothing is commanded.",
        (Answer("on", "Yes"), Answer("off", "No")), condition=True,
    ),
    Choice(
        "asked", "Cold asked for, as the data list says", "A/C on, blower on, set to coldest.",
        SHOWN,
    ),
    Choice(
        "commanded", "Compressor commanded, as it says", "Relay, clutch, valve or speed.", SHOWN,
    ),
    Choice(
        "reason", "Reason it gives", "From the list, or from the value that stands out.",
        REASONS,
        when=(NOT_COMMANDED,), why_not="Asked only when it is not commanded.",
    ),
    Text(
        "words", "In its own words", "As the list or the code puts it.", 120,
        (When("reason", ("other",)),), "Asked only for another reason.",
    ),
    Choice(
        "fits", "Does the value behind it fit what you measured?",
        "Such as the pressure in the list beside the gauge, or the outside air beside a"
        " thermometer.",
        (Answer("yes", "Fits"), Answer("no", "Does not fit"), Answer("not_checked", "Not checked")),
        when=(NOT_COMMANDED, HAS_REASON), why_not="Asked only where a reason is given.",
    ),
    Choice(
        "line", "How does the command reach the compressor?", "From this vehicle’s diagram.",
        (
            Answer("wire", "A wire of its own"), Answer("data", "The data line"),
            Answer("not_read", "Not looked up"),
        ),
        condition=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("commanded", "asked for and commanded", normal=True),
    OutcomeWords("commanded_unasked", "commanded although not asked for"),
    OutcomeWords("not_asked", "not asked for, as the control unit sees it"),
    OutcomeWords("refused_cold", "refused: outside too cold"),
    OutcomeWords("refused_low", "refused: pressure too low"),
    OutcomeWords("refused_high", "refused: pressure too high"),
    OutcomeWords("refused_engine", "refused: engine or battery"),
    OutcomeWords("refused_lock", "refused: lock or slip sensor"),
    OutcomeWords("refused_evaporator", "refused: evaporator cold"),
    OutcomeWords("refused_other", "not commanded, for another reason or none"),
    OutcomeWords("value_false", "refused on a value that does not fit what was measured"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
OF_REASON = {
    "cold": "refused_cold",
    "low": "refused_low",
    "high": "refused_high",
    "engine": "refused_engine",
    "battery": "refused_engine",
    "lock": "refused_lock",
    "evaporator": "refused_evaporator",
}


def _code(told: dict[str, str]) -> str:
    commanded, reason = told.get("commanded"), told.get("reason", "")
    if told.get("power") == "off":
        return "nothing_told"
    if commanded == "yes":
        return "commanded_unasked" if told.get("asked") == "no" else "commanded"
    if told.get("asked") == "no":
        return "not_asked"
    if commanded != "no":
        return "nothing_told"
    if told.get("fits") == "no" and reason != "lock":
        return "value_false"
    return OF_REASON.get(reason, "refused_other")


NOT_A_FAULT = "A refusal is a finding, not a fault."
SENTENCES = {
    "commanded": "The control unit commands the compressor.",
    "commanded_unasked": "The control unit commands the compressor although cold is not asked for.",
    "not_asked": "The control unit does not see that cold is asked for.",
    "refused_cold": f"Refused: outside too cold. {NOT_A_FAULT}",
    "refused_low": f"Refused: pressure too low. {NOT_A_FAULT}",
    "refused_high": f"Refused: pressure too high. {NOT_A_FAULT}",
    "refused_engine": f"Refused for the engine or the battery. {NOT_A_FAULT}",
    "refused_lock": "Refused: the control unit takes it for locked or slipping.",
    "refused_evaporator": f"Refused: evaporator cold. {NOT_A_FAULT}",
    "refused_other": "Not commanded.",
    "value_false": "Refused on a value that does not fit what was measured.",
}
MARKS = {
    "commanded": Mark("ruled_out", "Refusal by the control unit", "ruled out at this moment."),
    "commanded_unasked": Mark("open", "Request, or another user of the compressor", "not settled."),
    "not_asked": Mark("likely", "Request: switch, panel or its line", "points here."),
    "refused_cold": Mark("likely", "Kept off by the cold", "as it should, if it is that cold."),
    "refused_low": Mark("likely", "Kept off by low pressure", "charge or cold: not told apart."),
    "refused_high": Mark(
        "likely", "Kept off by high pressure", "heat not carried away, or too much in it."
    ),
    "refused_engine": Mark("likely", "Kept off by the engine", "as it should, if that is so."),
    "refused_evaporator": Mark("likely", "Kept off by the evaporator’s cold", "or by its sensor."),
    "refused_other": Mark("open", "Reason of the control unit", "not told."),
    "value_false": Mark("likely", "Sensor or switch behind that value", "points here."),
}
BY_DRIVE = "Locked or slipping compressor, or what drives it"
LOCKED = {  # what can lock or slip, by how the compressor is driven
    "clutch": "Locked or slipping compressor, clutch or belt",
    "no_clutch": "Locked compressor, its hub, limiter or belt",
    "motor": "Compressor locked, or its motor and what drives that",
    "both": "Locked or slipping compressor, clutch, belt or motor",
}
BOTH_BARE = "Locked compressor, its hub, belt or motor"  # belt and motor, without a clutch
NEXT = {
    "commanded_unasked": "See who else asks for it, such as the windshield or a battery.",
    "not_asked": "Look at the A/C switch, the blower, and codes of the panel.",
    "refused_cold": "Measure the outside air beside the sensor, then try again where it is warm.",
    "refused_low": "Read resting pressure and temperature.",
    "refused_high": "Look at fan and condenser, then read the pressure with a gauge.",
    "refused_engine": "Settle that first, then ask for cold again.",
    "refused_evaporator": "Measure the evaporator beside its sensor.",
    "refused_other": "Read the codes, and look up what this control unit asks for.",
    "value_false": "Measure that sensor, its supply and its ground.",
    "nothing_told": "Start the engine or READY, ask for cold, and read the list again.",
}
QUALIFIED = "whatever is measured at the compressor itself is for a person qualified for it."
NEXT_COMMANDED = {
    "clutch": "See whether voltage reaches the clutch’s coil, with current flowing.",
    "no_clutch": "Read the control valve’s command and current, and whether the low side follows.",
    "motor": f"Read its speed and power by scan data; {QUALIFIED}",
    "both": "See whether voltage reaches the magnetic clutch’s own plug, with current flowing; the"
    " electric side by scan data only.",
}
_BELT_SIDE = (
    "Belt side only, once the high voltage is proven dead by a person qualified for it: turn the"
    " hub by hand, look at the"
)
NEXT_LOCKED = {
    "clutch": "Engine off: turn the hub by hand, look at belt and clutch.",
    "no_clutch": "Engine off: turn the hub by hand, look at belt and limiter.",
    "motor": f"Read codes, speed and power by scan data; {QUALIFIED}",
    "both": f"{_BELT_SIDE} belt and the clutch.",
}
BOTH_BARE_LOCKED = f"{_BELT_SIDE} belt."
FALSE_ELECTRIC = (
    "Measure that sensor, its supply and its ground; one on the compressor’s electric side only by"
    " a person qualified for it."
)
BY_LINE = "The command goes by the data line: no wire of its own can be measured for it."
BY_LINE_CLUTCH = (
    "The command goes by the data line up to the unit that switches the clutch; the coil’s own wire"
    " can be measured."
)


def _nothing(told: dict[str, str]) -> str:
    if told.get("power") == "off":
        return "With engine or READY off nothing is commanded: nothing is made of it."
    if told.get("commanded") == "not_listed":
        return "The list does not tell whether the compressor is commanded."
    return "Nothing is shown of the command yet."


def _bare_both(system: System) -> bool:
    """Whether belt and motor turn it without a clutch."""
    return system.get("drive") == "belt_electric" and driven(system) == "motor"


def _onward(code: str, system: System) -> str:
    """What comes next; nobody is sent to measure at a compressor of which that is not known."""
    by = driven(system)
    if code == "commanded":
        return NEXT_COMMANDED.get(by) or look_first(system)
    if code == "refused_lock":
        found = BOTH_BARE_LOCKED if _bare_both(system) else NEXT_LOCKED.get(by)
        return found or look_first(system)
    return FALSE_ELECTRIC if code == "value_false" and by in ("motor", "both", "") else NEXT[code]


def _locked(told: dict[str, str], system: System) -> Mark:
    """What the unit takes for locked or slipping, where no test by hand parts it."""
    subject = BOTH_BARE if _bare_both(system) else LOCKED.get(driven(system), BY_DRIVE)
    if told.get("fits") == "no":
        words = "it does not fit what was measured: the sensor or its wires can say so too."
        return Mark("open", f"{subject}, or its sensor", words)
    words = "the control unit points here; this step cannot tell them apart, nor its sensor."
    return Mark("likely", subject, words)


def _notes(told: dict[str, str], code: str, system: System) -> Iterator[str]:
    if told.get("line") == "data":
        yield BY_LINE_CLUTCH if driven(system) in ("clutch", "both") else BY_LINE
    if code == "commanded" and told.get("asked") != "yes":
        yield "Whether cold is asked for was not read."
    reason = told.get("words", "")
    if reason:
        yield f"In its own words: {reason}"
    given = told.get("reason") in HAS_REASON.values and code.startswith("refused")
    if given and told.get("fits", "not_checked") == "not_checked":
        yield "The value behind it was not checked: it may be the sensor that tells it wrong."
    named = told.get("reason", "")
    if code == "not_asked" and named in HAS_REASON.values:
        words = next(one.words for one in REASONS if one.code == named)
        yield f"A reason was given too: {words}."


def _not_tested(told: dict[str, str], code: str) -> Iterator[str]:
    if code == "nothing_told":
        yield "Command: not tested."
    yield "Power at the compressor: not tested by this step; a command is no voltage."
    if told.get("line", "not_read") == "not_read":
        yield "Whether a wire or the data line carries the command: not looked up."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told, system = taps(readings), around.system
    code = _code(told)
    mark = _locked(told, system) if code == "refused_lock" else MARKS.get(code)
    outcome = Outcome(
        code,
        SENTENCES.get(code) or _nothing(told),
        (mark,) if mark else (),
        tuple(_not_tested(told, code)),
        carries=code != "nothing_told",
    )
    notes = tuple(_notes(told, code, system))
    return Meaning(outcome, notes=notes, onward=(_onward(code, system),))


COMMAND_DATA = Kind(
    name="command_data",
    title="Command in the data list",
    question="Is cold asked for, is the compressor commanded, and if not, why not?",
    version=1,
    minutes=4,
    about="command",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("scan tool on",),
    cautions=(
        cautions.RUNS_BY_ITSELF,
        cautions.CLEAR_OF_BELT,
        "Reading only: no actuator test before hub and charge are known.",
        cautions.LOCAL,
    ),
    remarks=(
        SystemRule(
            {"drive": ("electric_hv", "electric_48", "belt_electric")},
            "Electric: READY on is live; read the data list only, no plug is opened.",
        ),
        LOW_48,
        *MOTOR_NOT_SURE,
    ),
    fine=Fine(
        "Fine: asked for and commanded",
        "sets the taps below",
        {"power": "on", "asked": "yes", "commanded": "yes"},
    ),
)
