"""The compressor's hub turned by hand, engine off: before any power and any running.

How a hub feels and what it tells is common practice, no source; that turning the compressor by
hand belongs to an inspection stands in 16 CCR 3366. The sheared damper of a clutchless one, and a
compressor stuck after weeks of standing, are from trade articles and workshop manuals.
"""

from dataclasses import replace

from diagnostics.evidence.cautions import CLEAR_OF_BELT, HOT, KEY_AWAY, LOCAL, STOP_DRIVING
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import MOTOR_NOT_SURE, hub_still, is_without_clutch
from diagnostics.evidence.fields import Answer, Choice
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System, SystemRule

VARIABLE = ("variable_inner", "variable_outer")

FIELDS = (
    Choice(
        "turns", "How does the hub turn?",
        "Hub or plate, not the pulley, and free of it. More than one full turn, then backwards.",
        (
            Answer("free", "Smooth, even resistance"),
            Answer("no_resistance", "No resistance at all"),
            Answer("rough", "Rough, notchy, gritty"),
            Answer("locked", "Does not turn"),
            Answer("frees_backwards", "Only freed backwards"),
        ),
    ),
    Choice(
        "drive", "Pulley turned: does the hub go along?",
        "A damper or limiter between the two shears when the shaft locks.",
        (
            Answer("along", "Goes along"),
            Answer("stands", "Hub stands still"),
            Answer("cannot_tell", "Can’t tell"),
        ),
        on={"drive": ("belt_clutchless", "belt_electric")},
    ),
    Choice(
        "warmth", "Compressor when it was turned", "One that locks hot can be free cold.",
        (Answer("cold", "Cold"), Answer("hot", "Hot from running")),
        condition=True, compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("free", "turns smoothly by hand", normal=True),
    OutcomeWords("free_no_resistance", "turns without any resistance"),
    OutcomeWords("broken_inside", "turns without any resistance, fixed displacement"),
    OutcomeWords("rough", "turns rough, notchy or gritty"),
    OutcomeWords("locked", "does not turn by hand"),
    OutcomeWords("frees_backwards", "freed only backwards"),
    OutcomeWords("drive_broken", "pulley turns, hub stands still"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

_SENTENCES = {
    "free": "The hub turns smoothly by hand, with even resistance.",
    "free_no_resistance": "The hub turns without any resistance.",
    "broken_inside": "The hub turns without any resistance.",
    "rough": "The hub turns rough by hand.",
    "locked": "The hub does not turn by hand.",
    "frees_backwards": "The hub did not turn forwards; backwards it came free.",
    "drive_broken": "The pulley turns and the hub stands still.",
    "nothing_told": "How the hub turns was not told.",
}
PLATE = "Look whether the plate is free of the pulley."  # of a clutch
METAL = "Look for metal at the expansion device before parts are ordered."
_ONWARD = {
    "free": ("It may be run, once gas and charge are known.",),
    "free_no_resistance": ("Read the control valve’s command, then both pressures running.",),
    "broken_inside": ("Read both pressures running; look for metal at the expansion device.",),
    "rough": ("Do not run it. Look for metal at the expansion device and in the oil.",),
    "locked": (
        "Do not run it.",
        PLATE,
        "After weeks of standing turn it backwards by hand: note whether it comes free.",
        METAL,
    ),
    "frees_backwards": (
        "Turn it ten turns forwards by hand, then make this test again before it is run.",
    ),
    "drive_broken": ("Turn the hub itself by hand.",),
    "nothing_told": ("Turn the hub by hand, engine off.",),
}
# What the hand felt of the shaft; the sentence ends with how warm it was.
_SHAFT = {
    "free": Mark(
        "ruled_out",
        "Compressor locked or rough",
        "ruled out by hand, engine off; whether it pumps is not told",
    ),
    "broken_inside": Mark(
        "likely",
        "Compressor broken inside",
        "points here; a loop without gas gives little to push against too",
    ),
    "free_no_resistance": Mark(
        "open",
        "Compressor broken inside",
        "cannot be told by hand: a variable one at its smallest stroke turns so too",
    ),
    "rough": Mark("proved", "Compressor’s shaft rough", "notches or grit felt by hand"),
    "locked": Mark(
        "likely", "Compressor locked", "points here; a plate stuck to the pulley feels the same"
    ),
    "frees_backwards": Mark(
        "open",
        "Compressor",
        "liquid or oil in it, or it stuck while it stood: cannot be told by hand",
    ),
}
_BY_TURN = {
    "free": "free",
    "rough": "rough",
    "locked": "locked",
    "frees_backwards": "frees_backwards",
}
_HARMED = ("rough", "locked", "drive_broken")


def _sheared(told: dict[str, str], system: System) -> bool:
    """Whether the pulley turned without the hub where no clutch can let it."""
    return told.get("drive") == "stands" and is_without_clutch(system)


def _code(told: dict[str, str], system: System) -> str:
    """The outcome: a shaft that cannot be run goes before a drive that is broken."""
    turns = told.get("turns", "")
    if _sheared(told, system) and turns not in ("locked", "rough", "frees_backwards"):
        return "drive_broken"
    if turns == "no_resistance":
        fixed = system.get("displacement") == "fixed"
        return "broken_inside" if fixed else "free_no_resistance"
    return _BY_TURN.get(turns, "nothing_told")


def _shaft_mark(code: str, told: dict[str, str], system: System) -> Mark:
    """What the hand felt of the compressor's shaft."""
    if code == "drive_broken":
        return _behind_the_drive(told)
    known = code != "free_no_resistance" or system.get("displacement") in VARIABLE
    mark = _SHAFT[code]
    state = {"cold": ", turned cold", "hot": ", turned hot"}.get(told.get("warmth", ""), "")
    more = "" if known else "; whether it is one is not noted"
    return replace(mark, sentence=f"{mark.sentence}{more}{state}.")


def _behind_the_drive(told: dict[str, str]) -> Mark:
    """The shaft behind a broken drive."""
    if told.get("turns") == "free":
        words = "its hub turns smoothly by hand now; why the drive broke is not told."
        return Mark("open", "Compressor", words)
    words = "points here: a shaft that locks is what shears the drive."
    return Mark("likely", "Compressor locked", words)


def _marks(code: str, told: dict[str, str], system: System) -> tuple[Mark, ...]:
    if code == "nothing_told":
        return ()
    shaft = _shaft_mark(code, told, system)
    if _sheared(told, system):
        drive = Mark("proved", "Drive broken", "seen: the pulley turns and the hub stands still.")
        return (drive, shaft)
    return (shaft,)


def _not_tested(code: str, told: dict[str, str]) -> tuple[str, ...]:
    missing = ["Whether it pumps: not tested by hand."]
    if code == "free" and told.get("warmth") != "hot":
        missing.append("Turned hot or under load: not tested.")
    if not told.get("turns"):
        missing.append("How the hub turns: not told.")
    return tuple(missing)


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told, around.system)
    outcome = Outcome(
        code,
        _SENTENCES[code],
        _marks(code, told, around.system),
        _not_tested(code, told),
        carries=code != "nothing_told",
    )
    harmed = code in _HARMED or _sheared(told, around.system)
    notes = (STOP_DRIVING,) if harmed else ()
    if told.get("drive") == "stands" and not _sheared(told, around.system):
        notes = (*notes, hub_still(around.system))
    onward = _ONWARD[code]
    if is_without_clutch(around.system):
        onward = tuple(one for one in onward if one != PLATE)
    broken_and_free = code == "drive_broken" and told.get("turns") == "free"
    return Meaning(outcome, notes=notes, onward=(METAL,) if broken_and_free else onward)


BARS = (
    SystemRule(
        {"drive": ("electric_hv",)},
        "High voltage: the motor is inside the compressor’s housing, there is no hub to turn.",
    ),
    SystemRule(
        {"drive": ("electric_48",)},
        "48 V class: the motor is inside the compressor’s housing, there is no hub to turn.",
    ),
)

HUB_TURN = Kind(
    name="hub_turn",
    title="Hub turned by hand",
    question="Does the compressor’s shaft turn freely by hand?",
    version=1,
    minutes=3,
    about="compressor",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("hub reached",),
    cautions=(KEY_AWAY, CLEAR_OF_BELT, HOT, LOCAL),
    orders=("dead_first",),
    bars=BARS,
    asks_first=MOTOR_NOT_SURE,
    remarks=(
        SystemRule(
            {"drive": ("belt_clutchless",)},
            "No clutch: pulley and hub turn together through a damper or limiter. Belt off to feel"
            " the shaft alone.",
        ),
        SystemRule(
            {"drive": ("belt_electric",)},
            "Belt and electric: the belt side only, with the high voltage off and the car not"
            " ready to drive.",
        ),
        SystemRule(
            {"displacement": VARIABLE},
            "Variable displacement: at its smallest stroke it turns almost without resistance.",
        ),
    ),
    fine=Fine(
        "Fine: turns smoothly, with even resistance",
        "sets the tap below",
        {"turns": "free"},
    ),
)
