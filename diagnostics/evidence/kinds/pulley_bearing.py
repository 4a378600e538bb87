"""The pulley's bearing: turned and rocked by hand with the belt off, or heard with A/C off.

With a magnetic clutch let go the hub stands still, so a noise that is there with A/C off is the
pulley's or the belt drive's: trade articles, as is a bearing that loses its grease when a clutch
with too small a gap runs hot. Nothing named: common practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System, SystemRule

FIELDS = (
    Choice(
        "by_hand", "Pulley spun by hand", "Belt off, engine off.",
        (
            Answer("smooth", "Smooth, quiet"), Answer("rough", "Rough, drags"),
            Answer("noisy", "Growls, rattles"), Answer("not_tried", "Not tried"),
        ),
    ),
    Choice(
        "play", "Pulley rocked by hand", "In and out, and from side to side.",
        (Answer("none", "No play"), Answer("play", "Play"), Answer("not_tried", "Not tried")),
        compact=True,
    ),
    Choice(
        "running", "Engine running, A/C off", "By a long rod at the pulley, clear of the belt.",
        (
            Answer("quiet", "Quiet there"), Answer("noise", "Noise there"),
            Answer("not_tried", "Not tried"),
        ),
        compact=True,
    ),
    Choice(
        "grease", "Grease thrown about it", "",
        (Answer("none", "None"), Answer("seen", "Seen"), Answer("not_looked", "Not looked")),
        compact=True,
    ),
    Choice(
        "belt", "Belt while it was spun", "",
        (Answer("off", "Off"), Answer("on", "Still on")),
        preset="off", condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("play", "play when rocked by hand"),
    OutcomeWords("rough", "rough by hand, belt off"),
    OutcomeWords("noisy", "growls by hand, belt off"),
    OutcomeWords("noise_running", "noise at the pulley with A/C off"),
    OutcomeWords("grease", "grease thrown about it"),
    OutcomeWords("not_parted", "pulley, belt drive and shaft not parted"),
    OutcomeWords("smooth", "smooth and quiet by hand", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "play": "The pulley has play when rocked by hand.",
    "rough": "The pulley turns rough by hand.",
    "noisy": "The pulley growls when spun by hand.",
    "noise_running": "There is a noise at the pulley even with A/C off.",
    "grease": "Grease is thrown about the pulley’s bearing.",
    "not_parted": "Something is rough or noisy; what of it is the bearing’s is not parted.",
    "smooth": "The pulley turns smoothly and quietly by hand.",
    "nothing_told": "Nothing is shown of the pulley’s bearing.",
}
_OFF = "Belt off, engine off: spin and rock the pulley by hand."
_HARMED = ("Measure the air gap: too small makes the bearing run hot.", "Turn the hub by hand.")
_ONWARD = {
    "play": _HARMED,
    "rough": _HARMED,
    "noisy": _HARMED,
    "noise_running": (_OFF,),
    "grease": (_OFF, "Measure the air gap."),
    "not_parted": ("Belt off: turn the pulley alone, then the hub alone.",),
    "smooth": (),
    "nothing_told": (_OFF,),
}


def _turns_shaft(system: System) -> bool:
    """Whether the pulley may turn the shaft along."""
    return system.get("drive") == "belt_clutchless" or system.get("clutch") == "none"


def _code(told: dict[str, str], system: System) -> str:
    """The outcome; what the hand feels goes before what the ear hears."""
    by_hand, running = told.get("by_hand", ""), told.get("running", "")
    felt = by_hand in ("rough", "noisy")
    parted = told.get("belt") != "on" and not _turns_shaft(system)
    if told.get("play") == "play":
        return "play"
    if felt:
        return by_hand if parted else "not_parted"
    if running == "noise":
        return "not_parted" if _turns_shaft(system) else "noise_running"
    if told.get("grease") == "seen":
        return "grease"
    if by_hand == "smooth" and told.get("belt") != "on":
        return "smooth"
    return "nothing_told"


def _marks(code: str) -> Iterator[Mark]:
    subject = "Pulley’s bearing"
    if code == "play":
        yield Mark("proved", "Play at the pulley", "felt by hand.")
        yield Mark("likely", subject, "points here; a loose hub nut or pulley plays too.")
    if code in ("rough", "noisy"):
        yield Mark("proved", "Pulley rough or noisy by hand", "felt with the belt off.")
        yield Mark("likely", subject, "points here; a plate that rubs feels alike.")
    if code == "noise_running":
        words = "points here, a clutch let go leaves the hub standing; idler and tensioner can"
        yield Mark("likely", subject, f"{words} sound so too.")
    if code == "grease":
        yield Mark("open", subject, "lost some grease; whether it has enough is not told.")
    if code == "not_parted":
        words = "not parted by this step: belt, shaft or another pulley turned along."
        yield Mark("open", f"{subject}, belt drive or compressor", words)
    if code == "smooth":
        yield Mark("ruled_out", f"{subject} rough", "ruled out by hand, without the belt’s pull.")
    if code != "nothing_told":
        yield Mark("open", "Compressor’s inside", "not told by its pulley.")


def _not_tested(told: dict[str, str]) -> Iterator[str]:
    rows = (
        ("by_hand", "Spun by hand"),
        ("play", "Rocked by hand"),
        ("running", "Heard running, A/C off"),
        ("grease", "Grease about it"),
    )
    for name, words in rows:
        if told.get(name, "not_tried") in ("not_tried", "not_looked"):
            yield f"{words}: not told."
    if told.get("belt") == "on" and told.get("by_hand") in ("smooth", "rough", "noisy"):
        yield "By hand with the belt off: not done, so the bearing alone was not felt."


def _notes(code: str, told: dict[str, str]) -> Iterator[str]:
    if code in ("play", "rough", "noisy", "noise_running"):
        yield cautions.STOP_DRIVING
    if told.get("by_hand") == "smooth" and told.get("running") == "noise":
        yield "Smooth by hand, noisy running: belt, idler and tensioner are looked at first."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told, around.system)
    outcome = Outcome(
        code,
        _SENTENCES[code],
        tuple(_marks(code)),
        tuple(_not_tested(told)),
        code != "nothing_told",
    )
    return Meaning(outcome, notes=tuple(_notes(code, told)), onward=_ONWARD[code])


BARS = (
    SystemRule(
        {"drive": ("electric_hv", "electric_48")},
        "No belt turns this compressor: it has no pulley and no bearing of one.",
    ),
)

PULLEY_BEARING = Kind(
    name="pulley_bearing",
    title="Pulley’s bearing",
    question="Does the pulley turn smoothly and quietly, without play?",
    version=1,
    minutes=4,
    about="clutch",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("belt off",),
    cautions=(
        cautions.KEY_AWAY,
        "Listen with A/C off only; a loose pulley can throw the belt.",
        cautions.CLEAR_OF_BELT,
        cautions.HOT,
        cautions.LOCAL,
    ),
    bars=BARS,
    remarks=(
        SystemRule(
            {"drive": ("belt_clutchless",)},
            "No clutch: the pulley turns the shaft along, so noise or roughness is not parted.",
        ),
    ),
    fine=Fine(
        "Fine: smooth and quiet by hand, no play",
        "sets the taps below",
        {"by_hand": "smooth", "play": "none"},
    ),
)
