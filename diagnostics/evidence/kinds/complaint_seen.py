"""Whether the technician sees what the customer says, and whether the compressor engages now.

Common practice, no source. A complaint that is not there now says little of the car.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import (
    CLEAR_OF_BELT,
    HOT,
    LOCAL,
    NEVER_DRY,
    RUNS_BY_ITSELF,
)
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import MIND_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, Text
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System, can_be_such

WITH_PLATE = {"drive": ("belt_clutch", "belt_electric")}
YES_NO = (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_tried", "Not tried"))

FIELDS = (
    Choice(
        "engages", "Does the compressor engage now?",
        "A/C on, coldest, blower up. No clutch: does it run, or is it driven up?",
        (
            Answer("no", "No"), Answer("yes", "Yes"),
            Answer("at_times", "Now and then"), Answer("cannot_tell", "Can’t tell"),
        ),
    ),
    Choice(
        "there", "Is what the customer says there?", "",
        (
            Answer("yes", "Yes, now"), Answer("no", "Not now"),
            Answer("hot", "Only when hot"), Answer("idle", "Only at idle"),
            Answer("rain", "Only in rain"),
        ),
    ),
    Choice("blower", "Blower works", "", YES_NO, compact=True),
    Choice("cold", "Air cold at all", "", YES_NO, compact=True),
    Choice("click", "Click heard at the compressor", "", YES_NO, on=WITH_PLATE, compact=True),
    Choice("plate", "Plate turns with the pulley", "", YES_NO, on=WITH_PLATE, compact=True),
    Text("said", "In the customer’s words", "What, since when, what was done before."),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("not_engaging", "does not engage now"),
    OutcomeWords("at_times", "engages now and then"),
    OutcomeWords("seen_engages", "complaint seen, engages"),
    OutcomeWords("seen", "complaint seen, engaging not told"),
    OutcomeWords("only_then", "only under one circumstance"),
    OutcomeWords("blower_dead", "blower does not work"),
    OutcomeWords("not_now", "complaint not there now", normal=True),
    OutcomeWords("engages", "engages now, complaint not told", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
ONLY = {"hot": "when hot", "idle": "at idle", "rain": "in rain"}
_SENTENCES = {
    "not_engaging": "The compressor does not engage now.",
    "at_times": "The compressor engages now and then.",
    "seen_engages": "What the customer says is there now, and the compressor engages.",
    "seen": "What the customer says is there now.",
    "blower_dead": "The blower does not work now.",
    "not_now": "What the customer says is not there now.",
    "engages": "The compressor engages now.",
    "nothing_told": "What is seen of the complaint was not told.",
}
_ONWARD = {
    "not_engaging": ("Turn the hub by hand, read the resting pressure, follow the command.",),
    "at_times": ("Catch it while it is off: command and voltage at the plug, current flowing.",),
    "seen_engages": ("Look at charge, airflow and air doors before electrics.",),
    "seen": ("See whether the compressor engages.",),
    "only_then": ("Bring it about: test again under that circumstance.",),
    "blower_dead": ("Blower first: many cars ask for no cold without it.",),
    "not_now": ("Ask when it happens, and bring that about: hot, idle, rain.",),
    "engages": ("Ask whether what the customer says is there now.",),
    "nothing_told": ("A/C on, coldest, blower up: look whether it engages.",),
}


ELECTRIC = ("electric_hv", "electric_48")
_ELECTRIC_ONWARD = {  # nothing is turned by hand or measured at its plug there
    "not_engaging": ("Read command, refusal and speed by scan data.",),
    "at_times": ("Read command, refusal and speed by scan data while it is off.",),
}


def _code(told: dict[str, str]) -> str:
    """The outcome; whether it engages goes before all else."""
    engages, seen = told.get("engages", ""), told.get("there", "")
    if engages in ("no", "at_times"):
        return "not_engaging" if engages == "no" else "at_times"
    if seen == "yes":
        return "seen_engages" if engages == "yes" else "seen"
    if seen in ONLY:
        return "only_then"
    if told.get("blower") == "no":
        return "blower_dead"
    if seen == "no":
        return "not_now"
    return "engages" if engages == "yes" else "nothing_told"


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    if code in ("not_engaging", "at_times"):
        subject = "Compressor does not engage" if code == "not_engaging" else "Engages at times"
        yield Mark("proved", subject, "seen, at this moment.")
        yield Mark("open", "Why", "refused by the car, no power, clutch or shaft: not parted here.")
    if code == "only_then":
        yield Mark("open", "What brings it about", f"told as only {ONLY[told['there']]}.")
    if told.get("blower") == "no":
        yield Mark("proved", "Blower does not work", "seen, at this moment.")
    if told.get("click") == "yes" and told.get("plate") == "no":
        words = "a click without a turning plate can be a relay, or a plate that is not drawn in."
        yield Mark("open", "Clutch", words)
    if code in ("not_now", "engages"):
        yield Mark("open", "What the customer says", "not settled by one moment.")


def _not_tested(told: dict[str, str]) -> Iterator[str]:
    if told.get("engages", "cannot_tell") == "cannot_tell":
        yield "Whether it engages now: not told."
    if not told.get("there"):
        yield "Whether the complaint is there now: not told."
    if told.get("blower", "not_tried") == "not_tried":
        yield "Blower: not told."
    if told.get("cold", "not_tried") == "not_tried":
        yield "Whether the air is cold at all: not told."
    yield "Why it is so: not tested by a look."


def _only_a_clutch(system: System) -> bool:
    """Whether nothing but a clutch that takes hold can turn it; a drive not noted counts so."""
    return can_be_such({"drive": ("belt_clutch",), "clutch": ("magnetic",)}, system)


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    told = taps(readings)
    if told.get("engages") == "no" and told.get("plate") == "yes":
        yield "plate", "It does not engage, yet its plate turns with the pulley."
    by_motor_too = around.system.get("drive") == "belt_electric"
    if told.get("engages") == "yes" and told.get("plate") == "no" and not by_motor_too:
        yield "plate", "It engages, yet its plate does not turn with the pulley."
    if told.get("blower") == "no" and told.get("cold") == "yes":
        yield "cold", "The blower does not work, yet the air it blows is cold."
    if told.get("engages") == "no" and told.get("cold") == "yes" and _only_a_clutch(around.system):
        yield "cold", "The compressor does not engage, yet the air is told as cold."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    if code == "not_engaging" and around.system.get("drive") == "belt_clutchless":
        code = "seen"  # nothing takes hold there: that it is not driven up is seen as no cold
    carries = code != "nothing_told"
    only = f"What the customer says is there only {ONLY.get(told.get('there', ''), '')}."
    outcome = Outcome(
        code,
        _SENTENCES.get(code, only),
        tuple(_marks(code, told)) if carries else (),
        tuple(_not_tested(told)),
        carries,
    )
    electric = around.system.get("drive") in ELECTRIC
    onward = _ELECTRIC_ONWARD.get(code) if electric else None
    return Meaning(outcome, onward=onward or _ONWARD[code])


COMPLAINT_SEEN = Kind(
    name="complaint_seen",
    title="Complaint seen",
    question="Does it do now what the customer says?",
    version=1,
    minutes=2,
    about="see_first",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(RUNS_BY_ITSELF, NEVER_DRY, CLEAR_OF_BELT, HOT, LOCAL),
    at_odds=_at_odds,
    remarks=(MIND_HIGH_VOLTAGE,),
    fine=Fine(
        "Fine: engages, blows cold, complaint not there now",
        "sets the taps below",
        {"engages": "yes", "there": "no", "blower": "yes", "cold": "yes"},
    ),
)
