"""The damper or limiter of a compressor without a clutch: does the pulley still turn the hub?

A limiter shears when the shaft locks: pulley turns and hub still means the drive is broken, and the
compressor probably locked (trade articles). Nothing named: common practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import hub_still, is_without_clutch
from diagnostics.evidence.fields import Answer, Choice
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System, SystemRule

FIELDS = (
    Choice(
        "hub", "Pulley turned: does the hub go along?",
        "Engine off, turned by hand at pulley or belt; mark both, so that slipping shows.",
        (
            Answer("along", "Goes along"), Answer("stands", "Hub stands still"),
            Answer("slips", "Lags or slips"), Answer("cannot_tell", "Can’t tell"),
        ),
    ),
    Choice(
        "looks", "Limiter or damper, as seen", "",
        (
            Answer("whole", "Whole"), Answer("torn", "Torn, cracked"),
            Answer("pieces", "Pieces lie about"), Answer("not_seen", "Not seen"),
        ),
    ),
    Choice(
        "shaft", "Hub alone, turned by hand", "Belt off, or the drive is broken anyway.",
        (
            Answer("free", "Turns freely"), Answer("not_free", "Locked or rough"),
            Answer("not_done", "Not done"),
        ),
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("sheared_locked", "sheared, and the hub does not turn freely"),
    OutcomeWords("sheared", "pulley turns, hub stands still"),
    OutcomeWords("slips", "hub lags or slips"),
    OutcomeWords("torn", "torn or in pieces, hub still goes along"),
    OutcomeWords("shaft_not_free", "hub locked or rough, drive not told broken"),
    OutcomeWords("whole", "hub goes along, seen whole", normal=True),
    OutcomeWords("goes_along", "hub goes along, not seen", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "sheared_locked": "The pulley turns and the hub stands still; the hub does not turn freely.",
    "sheared": "The pulley turns and the hub stands still.",
    "slips": "The hub lags behind the pulley.",
    "torn": "The limiter or damper is torn.",
    "shaft_not_free": "The hub alone does not turn freely.",
    "whole": "The hub goes along with the pulley, and the limiter is seen whole.",
    "goes_along": "The hub goes along with the pulley.",
    "nothing_told": "Whether the hub goes along was not told.",
}
_METAL = "Look for metal at the expansion device before parts are ordered."
_SHAFT = "Turn the hub by hand."
_ONWARD = {
    "sheared_locked": ("Do not run it.", _METAL),
    "sheared": (_SHAFT, _METAL),
    "slips": (_SHAFT,),
    "torn": (_SHAFT,),
    "shaft_not_free": ("Do not run it.", _METAL),
    "whole": (),
    "goes_along": ("Look at the limiter with a lamp.",),
    "nothing_told": ("Turn the pulley by hand, engine off, and watch the hub.",),
}
BROKEN = ("sheared_locked", "sheared")


def _code(told: dict[str, str], system: System) -> str:
    hub, looks, shaft = (told.get(name, "") for name in ("hub", "looks", "shaft"))
    if hub == "stands" and not is_without_clutch(system):
        hub = ""  # a clutch may have let go
    if hub == "stands":
        return "sheared_locked" if shaft == "not_free" else "sheared"
    if shaft == "not_free":
        return "shaft_not_free"
    if hub == "slips":
        return "slips"
    if looks in ("torn", "pieces"):
        return "torn"
    if hub == "along":
        return "whole" if looks == "whole" else "goes_along"
    return "nothing_told"


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    """The drive as seen; the compressor behind it, which a broken drive points at."""
    if code in BROKEN:
        yield Mark("proved", "Drive broken", "seen: the pulley turns and the hub stands still.")
    if code in ("slips", "torn"):
        yield Mark("likely", "Limiter or damper", "points here; a loose hub nut slips too.")
    if code in ("whole", "goes_along"):
        words = "ruled out by hand; under load it can still slip."
        yield Mark("ruled_out", "Drive broken", words)
    if code != "nothing_told":
        yield _shaft_mark(code, told)


def _shaft_mark(code: str, told: dict[str, str]) -> Mark:
    if told.get("shaft") == "not_free":
        return Mark("likely", "Compressor locked", "points here: its hub does not turn freely.")
    if told.get("shaft") == "free":
        words = "its hub turns freely by hand now; why the drive gave is not told."
        return Mark("open", "Compressor", words if code != "whole" else "whether it pumps: open.")
    if code in BROKEN and told.get("looks") == "whole":
        words = "not told: a shaft that locks shears the drive, a loose hub lets it slip past."
        return Mark("open", "Compressor locked", words)
    if code in BROKEN:
        words = "points here: a shaft that locks is what shears the drive."
        return Mark("likely", "Compressor locked", words)
    return Mark("open", "Compressor", "not turned by itself; whether it pumps is not told.")


def _not_tested(told: dict[str, str]) -> Iterator[str]:
    yield "Whether it pumps: not tested by this step."
    rows = (("hub", "Hub with the pulley"), ("looks", "Limiter itself"), ("shaft", "Hub alone"))
    for name, words in rows:
        if told.get(name, "not_done") in ("not_done", "not_seen", "cannot_tell"):
            yield f"{words}: not told."


def _notes(code: str, told: dict[str, str], system: System) -> Iterator[str]:
    if code in (*BROKEN, "shaft_not_free"):
        yield cautions.STOP_DRIVING
    if told.get("hub") == "stands" and hub_still(system):
        yield hub_still(system)
    if code in BROKEN and told.get("looks") == "whole":
        yield (
            "The limiter was seen whole, yet the hub stands still. Both fit only where it gave out"
            " of sight, or past it: look again, and at hub, its nut and its splines."
        )


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told, around.system)
    outcome = Outcome(
        code,
        _SENTENCES[code],
        tuple(_marks(code, told)),
        tuple(_not_tested(told)),
        code != "nothing_told",
    )
    notes = tuple(_notes(code, told, around.system))
    turned = told.get("shaft") == "free"
    onward = tuple(step for step in _ONWARD[code] if step != _SHAFT or not turned)
    return Meaning(outcome, notes=notes, onward=onward)


BARS = (
    SystemRule(
        {"drive": ("belt_clutch",)},
        "A magnetic clutch drives this one: it has no limiter that turns all the time. Look at the"
        " clutch.",
    ),
    SystemRule(
        {"drive": ("belt_electric",), "clutch": ("magnetic",)},
        "A magnetic clutch drives the belt side: it has no limiter that turns all the time.",
    ),
    SystemRule(
        {"drive": ("electric_hv", "electric_48")},
        "No belt turns this compressor: it has no pulley and no limiter.",
    ),
)

LIMITER = Kind(
    name="limiter",
    title="Damper or limiter",
    question="No clutch: does the pulley still turn the compressor’s hub?",
    version=1,
    minutes=3,
    about="clutch",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("hub reached",),
    cautions=(cautions.KEY_AWAY, cautions.CLEAR_OF_BELT, cautions.NEVER_DRY, cautions.LOCAL),
    orders=("dead_first",),
    bars=BARS,
    asks_first=(
        SystemRule(
            {"drive": ("",)},
            "The drive is not noted yet. Look first: this step is for a belt-driven compressor"
            " without a clutch; orange cables mean high voltage, hands off.",
        ),
        SystemRule(
            {"drive": ("belt_electric",)},
            "Belt and electric: the belt side only, and only where it has no magnetic clutch.",
        ),
    ),
    fine=Fine(
        "Fine: hub goes along, limiter whole",
        "sets the taps below",
        {"hub": "along", "looks": "whole"},
    ),
)
