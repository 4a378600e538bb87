"""The compressor's nose: is it dry, and whose oil is it if not?

Common practice, no source. Dye in the oil alone tells little, many loops are dyed at the factory;
dye at a spot outside means that oil came out there.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import CLEAR_OF_BELT, HOT, KEY_AWAY, LOCAL, NO_FLAME, UV_GLASSES
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords, Standing
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import SystemRule

OILY = When("nose", ("trace", "wet"))

FIELDS = (
    Choice(
        "nose", "At the nose, behind the hub", "And what is thrown around from there.",
        (Answer("dry", "Dry"), Answer("trace", "Oily trace"), Answer("wet", "Wet")),
    ),
    Choice(
        "dye", "Under the UV lamp", "Dye seen in the oil at a port is not dye at the nose.",
        (
            Answer("at_nose", "Dye at the nose"),
            Answer("none", "No dye there"),
            Answer("only_inside", "Only in the oil inside"),
            Answer("not_looked", "Not looked"),
        ),
    ),
    Choice(
        "detector", "Detector at the nose", "Blow old gas away first; engine off, no wind.",
        (
            Answer("alarms", "Alarms"),
            Answer("silent", "Silent"),
            Answer("not_used", "Not used"),
        ),
    ),
    Choice(
        "pressure", "Loop under pressure?", "An empty loop cannot alarm.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_known", "Not known")),
        condition=True, compact=True,
    ),
    Choice(
        "whose", "Whose oil is it?", "Engine oil drips from above; it does not glow as the dye.",
        (
            Answer("loop", "The loop’s"),
            Answer("engine", "Engine or steering"),
            Answer("cannot_tell", "Can’t tell"),
        ),
        when=(OILY,), why_not="Asked only where oil is seen.",
    ),
    Choice(
        "again", "Wiped clean, run, looked again", "",
        (
            Answer("came_back", "Came back"),
            Answer("stayed_dry", "Stayed dry"),
            Answer("not_done", "Not done"),
        ),
        when=(OILY,), why_not="Asked only where oil is seen.",
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("dry", "nose dry, nothing seen", normal=True),
    OutcomeWords("trace", "oily trace, whose oil not settled"),
    OutcomeWords("wet", "wet, whose oil not settled"),
    OutcomeWords("loop_oil", "the loop’s oil at the nose"),
    OutcomeWords("loop_oil_again", "the loop’s oil came back after wiping"),
    OutcomeWords("alarm_only", "detector alarms at a dry nose"),
    OutcomeWords("other_oil", "oil from elsewhere"),
    OutcomeWords("old_stain", "wiped, and stayed dry"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

_SENTENCES = {
    "dry": "The nose is dry.",
    "trace": "There is an oily trace at the nose.",
    "wet": "The nose is wet.",
    "loop_oil": "The loop’s oil stands at the nose.",
    "loop_oil_again": "The loop’s oil came back at the nose after it was wiped clean.",
    "alarm_only": "The detector alarms at the nose, where no oil is seen.",
    "other_oil": "The oil at the nose is not the loop’s.",
    "old_stain": "Wiped clean and run, the nose stayed dry.",
    "nothing_told": "What the nose shows was not told.",
}
_ONWARD = {
    "dry": (),
    "trace": ("Wipe it clean, run it, look again under the lamp.",),
    "wet": ("Wipe it clean, run it, look again under the lamp.",),
    "loop_oil": ("Wipe it clean, run it, look again; weigh what is left in the loop.",),
    "loop_oil_again": ("Weigh what is left in the loop; look at the clutch faces for oil.",),
    "alarm_only": ("Blow the place free, wait, sweep again from below.",),
    "other_oil": ("Find where it drips from, and keep it off the clutch faces.",),
    "old_stain": ("Search the other places under pressure.",),
    "nothing_told": ("Look at the nose with a lamp and a mirror, engine off.",),
}


def _is_loops(told: dict[str, str]) -> bool:
    """Whether dye or an alarm shows the oil to be the loop's, or a person tells so."""
    shown = told.get("dye") == "at_nose" or told.get("detector") == "alarms"
    return told.get("whose") != "engine" and (shown or told.get("whose") == "loop")


def _code(told: dict[str, str]) -> str:
    """The outcome; dye at the nose is oil that came out, whatever the nose was called."""
    nose, again = told.get("nose", ""), told.get("again", "")
    oily = nose in ("trace", "wet") or told.get("dye") == "at_nose"
    if oily and told.get("whose") == "engine":
        return "other_oil"
    if oily and _is_loops(told):
        return {"came_back": "loop_oil_again", "stayed_dry": "old_stain"}.get(again, "loop_oil")
    if oily:
        return "old_stain" if again == "stayed_dry" else nose
    if told.get("detector") == "alarms":
        return "alarm_only"
    return "dry" if nose == "dry" else "nothing_told"


def _shown_by(told: dict[str, str]) -> str:
    by = [
        words
        for holds, words in (
            (told.get("dye") == "at_nose", "dye"),
            (told.get("detector") == "alarms", "the detector’s alarm"),
        )
        if holds
    ]
    return " and ".join(by) or "how the oil looks"


def _mark(code: str, told: dict[str, str]) -> Mark | None:
    """What it says of the seal."""
    marks: dict[str, tuple[Standing, str]] = {
        "loop_oil": (
            "likely",
            f"points here, by {_shown_by(told)}; a stain can be old, and oil can run down there.",
        ),
        "loop_oil_again": (
            "proved" if told.get("dye") == "at_nose" else "likely",
            f"seen: oil came out there again after wiping, by {_shown_by(told)}.",
        ),
        "alarm_only": ("open", "gas gathers there from other places: sweep again."),
        "trace": ("open", "some shaft seals sweat; whose oil it is, is not settled."),
        "wet": ("open", "whose oil it is, is not settled."),
        "other_oil": ("open", "oil from elsewhere hides what the seal does: clean it first."),
        "old_stain": ("open", "nothing new came out while it ran; a small leak needs longer."),
        "dry": ("ruled_out", "no oil there; a small leak shows only to a detector."),
    }
    if code not in marks:
        return None
    standing, words = marks[code]
    subject = "Shaft seal wet" if code == "dry" else "Shaft seal"
    return Mark(standing, subject, words)


def _not_tested(code: str, told: dict[str, str]) -> Iterator[str]:
    yield "How many grams are missing: not told by a look."
    if told.get("detector", "not_used") == "not_used":
        yield "Detector at the nose: not used."
    elif told["detector"] == "silent" and told.get("pressure") != "yes":
        yield "Detector: silent, yet no pressure in the loop was told, so it tells nothing."
    if told.get("dye", "not_looked") == "not_looked":
        yield "Under the UV lamp: not looked."
    if told.get("again", "not_done") == "not_done" and code in ("trace", "wet", "loop_oil"):
        yield "Wiped, run and looked again: not done."


def _notes(told: dict[str, str]) -> Iterator[str]:
    if told.get("dye") == "only_inside":
        yield "Dye in the oil inside says little: many loops are dyed at the factory."
    if told.get("whose") == "engine" and _is_loops(told | {"whose": ""}):
        yield f"Told as not the loop’s, yet shown by {_shown_by(told)}: both may be there."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    mark = _mark(code, told)
    outcome = Outcome(
        code,
        _SENTENCES[code],
        (mark,) if mark else (),
        tuple(_not_tested(code, told)),
        carries=code != "nothing_told",
    )
    return Meaning(outcome, notes=tuple(_notes(told)), onward=_ONWARD[code])


BARS = (
    SystemRule(
        {"drive": ("electric_hv", "electric_48")},
        "No shaft comes out of this compressor: motor and pump share one housing.",
    ),
)

SHAFT_SEAL = Kind(
    name="shaft_seal",
    title="Shaft seal",
    question="Does oil come out at the compressor’s nose?",
    version=1,
    minutes=5,
    about="compressor",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("hub reached",),
    cautions=(KEY_AWAY, CLEAR_OF_BELT, HOT, UV_GLASSES, NO_FLAME, LOCAL),
    bars=BARS,
    fine=Fine("Fine: dry, no dye there", "sets the taps below", {"nose": "dry", "dye": "none"}),
)
