"""Air doors and heater valve: does warm air leak into the cold?

Hot coolant in the heater warms cold air behind a door that does not close: with the heater's hoses
pinched it turns colder then. With a cold engine there is no heat that could leak, and no warm air
that could follow: it tells nothing of either. Common practice, no source. Which of door, actuator
and control is at fault no vent tells.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import CLEAR_OF_BELT, HIGH_VOLTAGE, HOT, LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import WITH_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Value
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.missing import untold
from diagnostics.evidence.readings import Readings, number, taps
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.uncertainty import INSTRUMENTS, Measured, measured
from diagnostics.physics.units import shown, with_unit

FOLLOWS = (Answer("yes", "Follows"), Answer("no", "Stays"), Answer("not_tried", "Not tried"))
DOORS = {
    "blend": ("Warm to cold", "Heard, seen, or felt at the vents."),
    "mode": ("Face, feet, windshield", ""),
    "recirculation": ("Fresh and recirculated", "Louder when it recirculates."),
}
VENT = Span(-5, 70, -40, 120, "Outside what a vent gives.", "No vent of a car gives that.")

FIELDS: tuple[Field, ...] = (
    Choice(
        "pinched", "Heater’s hoses pinched: vents colder?",
        "Coldest set, engine warm, some minutes; with hose clamps made for it.",
        (
            Answer("yes", "Colder"), Answer("no", "No colder"),
            Answer("not_tried", "Not tried"),
        ),
    ),
    Choice(
        "warmth", "Engine when it was tried", "Electric: its heater.",
        (Answer("warm", "Warm"), Answer("cold", "Cold")), condition=True, compact=True,
    ),
    *(
        Choice(
            name, words, hint, FOLLOWS, compact=True, group="" if index else "Doors, moved by hand"
            " at the control",
        )
        for index, (name, (words, hint)) in enumerate(DOORS.items())
    ),
    Choice(
        "sides", "Left and right", "Both set coldest.",
        (
            Answer("same", "The same"), Answer("left", "Left warmer"),
            Answer("right", "Right warmer"), Answer("one_zone", "One zone only"),
        ),
        compact=True,
    ),
    Number(
        "before", "Vent, hoses open", "", "°C", VENT, ("°F",), instrument="thermometer",
        compact=True, group="Center vent, if measured",
    ),
    Number(
        "after", "Vent, hoses pinched", "", "°C", VENT, ("°F",), instrument="thermometer",
        compact=True, when=(When("pinched", ("", "yes", "no")),),
        why_not="Not tried was tapped, yet a vent was read with the hoses pinched.",
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("heater", "colder with the heater’s hoses pinched"),
    OutcomeWords("blend_stays", "warm to cold stays where it is"),
    OutcomeWords("other_stays", "another door stays where it is"),
    OutcomeWords("sides_differ", "left and right differ"),
    OutcomeWords("not_heater", "no colder with the heater’s hoses pinched", normal=True),
    OutcomeWords("follow", "all doors follow", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "heater": "With the heater’s hoses pinched the vents turn colder.",
    "blend_stays": "The vents do not follow from warm to cold.",
    "other_stays": "Not every door follows the control.",
    "sides_differ": "Left and right do not give the same.",
    "not_heater": "With the heater’s hoses pinched the vents turn no colder.",
    "follow": "Every door follows the control.",
    "nothing_told": "What the doors do was not told.",
}
_ONWARD = {
    "heater": ("Look at the heater’s valve, if there is one, then at the door from warm to cold.",),
    "blend_stays": ("See whether its actuator moves and its shaft with it; then its command.",),
    "other_stays": ("See whether its actuator moves and its shaft with it; then its command.",),
    "sides_differ": ("Little charge cools one side first: weigh it before a door is named.",),
    "not_heater": ("Measure at the vent and along the loop.",),
    "follow": ("Pinch the heater’s hoses: do the vents turn colder?",),
    "nothing_told": ("Set coldest, warmest, coldest, and feel the vents.",),
}
COLD_SENTENCE = "The engine was cold: whether heat leaks in, or warm air follows, was not told."
COLD_ONWARD = ("Run the engine warm, then try again.",)


DOOR = "A door that does not follow"
HEATER = "Heater warming the cold air"


def _is_cold(told: dict[str, str]) -> bool:
    return told.get("warmth") == "cold"


def _stays(told: dict[str, str]) -> list[str]:
    """The doors that do not follow; without warm air, warm to cold shows nothing."""
    shows = [name for name in DOORS if name != "blend" or not _is_cold(told)]
    return [name for name in shows if told.get(name) == "no"]


def _falls(readings: Readings) -> Measured | None:
    """How much colder the vent is with the hoses pinched, in K; one thermometer read both."""
    before, after = number(readings, "before"), number(readings, "after")
    if before is None or after is None:
        return None
    # The thermometer's own error is in both alike; half of it is left. Our judgement.
    u = measured(before.si, before.last_digit, "thermometer").u / 2
    return Measured(before.si - after.si, u * 2**0.5)


def _colder(readings: Readings) -> str:
    """What was tapped, else what two temperatures show; of a cold engine nothing."""
    told, falls = taps(readings).get("pinched", ""), _falls(readings)
    if _is_cold(taps(readings)):
        return ""
    if told in ("yes", "no") or falls is None:
        return told
    if falls.value > falls.expanded:
        return "yes"
    return "no" if abs(falls.value) <= falls.expanded else ""


def _code(readings: Readings) -> str:
    told, colder, stays = taps(readings), _colder(readings), _stays(taps(readings))
    if colder == "yes":
        return "heater"
    if "blend" in stays:
        return "blend_stays"
    if stays:
        return "other_stays"
    if told.get("sides") in ("left", "right"):
        return "sides_differ"
    if colder == "no":
        return "not_heater"
    return "follow" if all(told.get(name) == "yes" for name in DOORS) else "nothing_told"


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    warm = told.get("warmth") == "warm"
    if code == "heater":
        words = "points here: the heater warms what was cold. Valve and door are not told apart."
        yield Mark("likely", "Heater’s valve, or the door from warm to cold", words)
    if code == "blend_stays" and not warm and _stays(told) == ["blend"]:
        words = "not settled: whether the engine was warm was not told."
        yield Mark("open", DOOR, words)
    elif code in ("blend_stays", "other_stays"):
        words = "points here; door, actuator, its command and its wiring are not told apart."
        yield Mark("likely", DOOR, words)
    if code == "sides_differ":
        yield Mark("open", "One side warmer", _sides(told))
    if code == "not_heater" and warm:
        yield Mark("ruled_out", HEATER, "ruled out at this setting.")
    elif code == "not_heater":
        yield Mark("open", HEATER, "not settled: whether the engine was warm was not told.")
    if code == "follow":
        yield Mark("open", "Doors", "they follow; whether each closes to the end is not told.")


def _sides(told: dict[str, str]) -> str:
    if _is_cold(told):
        return "too little charge, or a door; the engine was cold: of heat nothing is told."
    return "a door of that side, or too little charge: not told apart by vents."


def _not_tested(readings: Readings) -> Iterator[str]:
    told = taps(readings)
    if _is_cold(told):
        yield "Heat that leaks in: not told with a cold engine."
    elif not _colder(readings) and _falls(readings):
        yield "Heater’s hoses pinched: the vent turned warmer, nothing is made of it."
    elif _colder(readings) not in ("yes", "no"):
        yield "Heater’s hoses pinched: not tried."
    if _is_cold(told) and told.get("blend") == "no":
        yield "Warm to cold: not told by a cold engine, it gives no warm air."
    yield from untold(readings, "warmth", "Engine warm or cold")
    left = [DOORS[name][0] for name in DOORS if told.get(name, "not_tried") == "not_tried"]
    if left:
        yield f"Not tried: {', '.join(left)}."
    if not told.get("sides"):
        yield "Left against right: not told."
    yield "Which of door, actuator, command and wiring: not told by a vent."


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    falls, told = _falls(readings), taps(readings).get("pinched")
    if falls and told == "yes" and falls.value < -falls.expanded:
        yield "after", "Colder was tapped, yet with the hoses pinched the vent was warmer."
    if falls and told == "no" and falls.value > falls.expanded:
        yield "after", "No colder was tapped, yet the vent was colder with the hoses pinched."


def _values(readings: Readings) -> Iterator[Value]:
    falls = _falls(readings)
    if falls:
        text = with_unit(shown(falls.value, 0), "K")
        yield Value("after", "Colder with the hoses pinched", text, falls.value, "ΔK", falls.u)


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    code, told = _code(readings), taps(readings)
    nothing = code == "nothing_told"
    tried = told.get("pinched") in ("yes", "no") or told.get("blend") == "no" or _falls(readings)
    cold = bool(nothing and _is_cold(told) and tried)
    outcome = Outcome(
        code,
        COLD_SENTENCE if cold else _SENTENCES[code],
        tuple(_marks(code, told)),
        tuple(_not_tested(readings)),
        carries=not nothing,
    )
    band = f"{INSTRUMENTS['thermometer'].words}, by default." if _falls(readings) else ""
    unsettled = (_is_cold(told) and code in ("nothing_told", "follow")) or (
        code == "not_heater" and told.get("warmth") != "warm"
    )
    onward = COLD_ONWARD if unsettled else _ONWARD[code]
    return Meaning(outcome, band=band, onward=onward, values=tuple(_values(readings)))


AIR_DOORS = Kind(
    name="air_doors",
    title="Air doors and heater",
    question="Does warm air leak into the cold, and do the doors follow?",
    version=1,
    minutes=6,
    about="heat",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        "Hot coolant under pressure: pinch soft hoses only, never open the system hot.",
        HOT,
        CLEAR_OF_BELT,
        RUNS_BY_ITSELF,
        LOCAL,
    ),
    at_odds=_at_odds,
    remarks=(
        SystemRule(
            {"drive": WITH_HIGH_VOLTAGE},
            f"{HIGH_VOLTAGE} Some heat with a high-voltage heater or a heat pump: then nothing is"
            " pinched.",
        ),
    ),
    works_out=(
        WorkedOut("before", "Open", "same", ("before",), "°F"),
        WorkedOut("after", "Pinched", "same", ("after",), "°F"),
    ),
    fine=Fine(
        "Fine: every door follows, both sides the same",
        "sets the taps below; pinched hoses stay yours to tell",
        {**dict.fromkeys(DOORS, "yes"), "sides": "same"},
    ),
)
