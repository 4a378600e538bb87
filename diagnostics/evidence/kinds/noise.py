"""A noise about the compressor: when it is there, what it is like, where it is loudest.

With a clutch let go the shaft stands still, so what is heard then comes from pulley or belt drive:
trade articles. That charge, head pressure, mounts and belt are looked at before a compressor is
named for its noise stands in workshop manuals.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import (
    CLEAR_OF_BELT,
    HOT,
    LOCAL,
    NEVER_DRY,
    RUNS_BY_ITSELF,
    STOP_DRIVING,
)
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import MIND_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.orders import BELT, RUN
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System, SystemRule

ELECTRIC = ("electric_hv", "electric_48")
WITH_BELT = {"drive": BELT}
HEARD = (Answer("yes", "There"), Answer("no", "Gone"), Answer("not_tried", "Not tried"))

FIELDS = (
    Choice("on", "With A/C on", "Hub turning.", HEARD, compact=True),
    Choice("off", "With A/C off", "Hub standing still.", HEARD, compact=True),
    Choice(
        "speed", "Goes with engine speed?", "",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_tried", "Not tried")), compact=True,
    ),
    Choice(
        "what", "What is it like?", "The nearest word.",
        (
            Answer("rumble", "Rumble, growl"),
            Answer("squeal", "Squeal, chirp"),
            Answer("knock", "Knock, rattle"),
            Answer("hiss", "Hiss"),
            Answer("other", "Other"),
        ),
    ),
    Choice(
        "where", "Where is it loudest?", "By a long rod or a stethoscope, clear of the belt.",
        (
            Answer("pulley", "Pulley", on=WITH_BELT),
            Answer("compressor", "Compressor’s body"),
            Answer("belt", "Belt, idler, another unit", on=WITH_BELT),
            Answer("unit", "Another unit", on={"drive": ELECTRIC}),
            Answer("device", "Expansion device, dash"),
            Answer("cannot_tell", "Can’t tell"),
        ),
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("none_heard", "no noise heard", normal=True),
    OutcomeWords("pulley", "there with A/C off, loudest at the pulley"),
    OutcomeWords("drive_side", "there with A/C off, pulley or belt drive"),
    OutcomeWords("squeal_on", "squeals as it takes hold"),
    OutcomeWords("knock_on", "knocks with A/C on only"),
    OutcomeWords("on_only", "there with A/C on only"),
    OutcomeWords("hiss", "hiss at the expansion device"),
    OutcomeWords("not_parted", "pulley and compressor not parted"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

_SENTENCES = {
    "none_heard": "No noise is heard.",
    "pulley": "The noise is there with A/C off, loudest at the pulley.",
    "drive_side": "The noise is there with A/C off.",
    "squeal_on": "It squeals with A/C on only.",
    "knock_on": "It knocks with A/C on only.",
    "on_only": "The noise is there with A/C on only.",
    "hiss": "It hisses at the expansion device.",
    "not_parted": "There is a noise; where it comes from is not parted.",
    "nothing_told": "What is heard was not told.",
}
_ONWARD = {
    "none_heard": (),
    "pulley": ("Engine off, belt off: spin the pulley by hand and rock it.",),
    "drive_side": ("Engine off, belt off: spin and rock pulley, idler and tensioner by hand.",),
    "squeal_on": ("Engine off: turn the hub by hand, look at belt and clutch faces.",),
    "knock_on": ("Switch A/C off. Look at mounts, weigh the charge, read both pressures.",),
    "on_only": ("Look at mounts and belt, read both pressures, weigh the charge.",),
    "hiss": ("Weigh the charge if it hisses long while it runs.",),
    "not_parted": ("Belt off: turn pulley and shaft by hand; electric: read the scan data.",),
    "nothing_told": ("Listen with A/C on, then off.",),
}


# With the motor inside there is no belt and no pulley.
_ELECTRIC_ONWARD = {
    "knock_on": ("Switch A/C off. Look at mounts, weigh the charge, read both pressures.",),
    "on_only": ("Look at mounts, read its speed by scan data, both pressures, weigh the charge.",),
    "squeal_on": (
        "Look at mounts, read its speed by scan data, both pressures, weigh the charge.",
    ),
    "not_parted": ("Read by scan data when it runs, and listen with it running and standing.",),
}
_OPEN = {
    "drive_side": ("Pulley bearing, idler, tensioner or belt", "cannot be told by ear."),
    "squeal_on": (
        "Belt or clutch slipping, compressor stiff",
        "cannot be told by ear; a stiff compressor makes a good belt slip.",
    ),
    "knock_on": (
        "Compressor’s inside",
        "liquid, overcharge, high head pressure or loose mounts knock too.",
    ),
    "on_only": (
        "Compressor’s inside or its drive",
        "mounts, belt load, charge and head pressure come first.",
    ),
    "not_parted": ("Pulley bearing, or compressor’s inside", "not parted by this step."),
    "hiss": (
        "Charge",
        "a hiss there is common when it switches off; long while running it may be low.",
    ),
}


def _parts_by_clutch(system: System) -> bool:
    """Whether A/C off makes the hub stand still: not where the pulley always turns the shaft."""
    return system.get("drive", "") in ("belt_clutch", "") and system.get("clutch") != "none"


def _code(told: dict[str, str], system: System) -> str:
    """The outcome; what is heard with the hub standing still comes first."""
    on, off, what = (told.get(name, "") for name in ("on", "off", "what"))
    if what == "hiss" and told.get("where") == "device":
        return "hiss"
    heard = "yes" in (on, off) or what or told.get("where")
    if not heard:
        return "none_heard" if on == "no" and off != "not_tried" else "nothing_told"
    if off == "yes" and _parts_by_clutch(system):
        return "pulley" if told.get("where") == "pulley" else "drive_side"
    if on == "yes" and off == "no":
        return {"squeal": "squeal_on", "knock": "knock_on"}.get(what, "on_only")
    return "not_parted" if "yes" in (on, off) else "nothing_told"


def _marks(code: str, system: System) -> Iterator[Mark]:
    """What it points at; a compressor is never named by its noise alone."""
    if code == "pulley":
        words = "points here: the hub stood still, and it is loudest there."
        yield Mark("likely", "Pulley bearing", words)
    if code in ("pulley", "drive_side"):
        words = "not cleared: a second noise can hide behind this one."
        yield Mark("open", "Compressor’s inside", words)
    if code in _ELECTRIC_ONWARD and system.get("drive") in ELECTRIC:
        words = "not parted by this step; charge and head pressure come first."
        yield Mark("open", "Compressor’s inside or its mounts", words)
    elif code in _OPEN:
        yield Mark("open", *_OPEN[code])


def _notes(code: str, told: dict[str, str], system: System) -> Iterator[str]:
    by_belt = system.get("drive") not in ELECTRIC
    if by_belt and code in ("pulley", "drive_side", "knock_on") and told.get("what") != "squeal":
        yield STOP_DRIVING
    if system.get("drive") == "belt_clutchless":
        yield "No clutch: the shaft turns with the pulley, so A/C off does not part the two."
    elif told.get("off") == "yes" and not system.get("drive"):
        yield "The drive is not noted: taken as one with a clutch that lets the hub stand still."
    if system.get("drive") in ELECTRIC and told.get("where") == "unit":
        yield "Loudest at another unit, then: no belt turns this compressor."
    if system.get("drive") in ELECTRIC and "yes" in (told.get("on"), told.get("off")):
        yield "Electric: it may run for the battery with A/C off. Read its speed by scan data."


def _not_tested(code: str, told: dict[str, str]) -> tuple[str, ...]:
    rows = (("on", "With A/C on"), ("off", "With A/C off"), ("where", "Where it is loudest"))
    missing = [
        f"{words}: not told."
        for name, words in rows
        if told.get(name, "not_tried") in ("not_tried", "cannot_tell")
        and not (code == "none_heard" and name == "where")
    ]
    missing.insert(0, "What is worn inside: not told by ear.")
    return tuple(missing)


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    told = taps(readings)
    if told.get("on") == told.get("off") == "no" and told.get("what"):
        yield "what", "No noise is there with A/C on or off, yet one is described."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told, around.system)
    outcome = Outcome(
        code,
        _SENTENCES[code],
        tuple(_marks(code, around.system)),
        _not_tested(code, told),
        carries=code != "nothing_told",
    )
    notes = tuple(_notes(code, told, around.system))
    electric = around.system.get("drive") in ELECTRIC
    onward = _ELECTRIC_ONWARD.get(code) if electric else None
    return Meaning(outcome, notes=notes, onward=onward or _ONWARD[code])


NOISE = Kind(
    name="noise",
    title="Noise",
    question="When is the noise there, and where is it loudest?",
    version=2,
    minutes=4,
    about="compressor",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(RUNS_BY_ITSELF, CLEAR_OF_BELT, HOT, NEVER_DRY, LOCAL),
    orders=RUN,
    orders_for=(When("on", ("yes", "no")),),
    at_odds=_at_odds,
    remarks=(
        SystemRule(
            {"drive": ("belt_clutchless",)},
            "No clutch: the shaft turns with the pulley whenever the engine runs.",
        ),
        MIND_HIGH_VOLTAGE,
    ),
    fine=Fine("Fine: no noise, A/C on or off", "sets the taps below", {"on": "no", "off": "no"}),
)
