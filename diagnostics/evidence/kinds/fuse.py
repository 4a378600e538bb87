"""The fuse of the clutch or of the A/C: looked at, and tried on both sides under load."""

from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import driven, look_first
from diagnostics.evidence.fields import Answer, Choice, Number, Text, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, number, taps
from diagnostics.evidence.system import System, SystemRule
from diagnostics.evidence.under_load import (
    CARRIES,
    DROP,
    DROP_ON,
    FEED_LIMIT,
    NOT_JUDGED_24,
    Drop,
    Load,
    all_lost,
    drop_read,
    grade_sentence,
    nothing_lost,
)

COIL_FIRST = "Measure the coil’s resistance, both polarities,"
WHAT_FIRST = "Find out what this fuse feeds, and measure that"
WHAT_FIRST_MOTOR = (
    "Find out by the diagram what this fuse feeds; measure on its 12\u00a0V side only"
)
BEFORE = {  # by how the new fuse did
    "holds": "although the new fuse holds.",
    "blows_at_once": "before another fuse goes in.",
    "blows_later": "before another fuse goes in.",
}
WITH_CLUTCH = ("clutch", "both")
NO_COIL = "No clutch coil here: the fuse is that of the control; what blew it is another part."
HOLDS_LITTLE = "A new fuse that holds says little: what blew the old one is not found."
BLOWN = When("looked", ("blown",))

FIELDS = (
    Choice(
        "looked", "The fuse, pulled and looked at", "The fuse of the clutch or of the A/C, by the"
        " diagram.",
        (
            Answer("whole", "Whole"), Answer("blown", "Blown"), Answer("not_fitted", "Not fitted"),
            Answer("cannot_see", "Can’t see"),
        ),
    ),
    Choice(
        "sides", "A filament lamp to ground lights at",
        "Fuse in its place, circuit switched on. The lamp draws current; an LED test light does not"
        " show it.",
        (
            Answer("both", "Both sides"), Answer("one", "One side only"),
            Answer("neither", "Neither"), Answer("not_tried", "Not tried"),
        ),
    ),
    Choice(
        "across", "Measured across, pulled", "Resistance or the beeper, fuse out of its place.",
        (Answer("closed", "Closed"), Answer("open", "Open"), Answer("not_tried", "Not measured")),
    ),
    Choice(
        "rating", "Rating fitted, against the label", "",
        (
            Answer("same", "Same"), Answer("larger", "Larger"), Answer("smaller", "Smaller"),
            Answer("not_compared", "Not compared"),
        ),
    ),
    Text(
        "ratings", "Both ratings", "Fitted and on the label, such as 20 A, 10 A.", 40,
        (When("rating", ("larger", "smaller")),), "Asked only where the two differ.",
    ),
    Choice(
        "renewed", "A new fuse", "Changed on the car? Record the change as well.",
        (
            Answer("holds", "Holds"), Answer("blows_at_once", "Blows at once"),
            Answer("blows_later", "Blows later"), Answer("not_fitted", "Not fitted"),
        ),
        when=(BLOWN,), why_not="Asked only after a blown fuse.",
    ),
    Number(
        "drop", "Drop across it, current flowing", "Meter on both blades, from behind.", "V", DROP,
        ("mV",), DROP_ON, instrument="dc_volts",
    ),
    Choice(
        CARRIES.name, CARRIES.question, "Asked for the drop: without current it shows nothing.",
        CARRIES.answers, condition=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("carries", "carries current, power on both sides", normal=True),
    OutcomeWords("whole", "whole to the eye or to the meter, not under load", normal=True),
    OutcomeWords("loses", "loses volts under load"),
    OutcomeWords("open", "power on one side only, or open to the meter"),
    OutcomeWords("blown", "blown"),
    OutcomeWords("blows_again", "a new one blows too"),
    OutcomeWords("not_fitted", "not fitted"),
    OutcomeWords("no_feed", "no power on either side"),
    OutcomeWords("wrong_rating", "not the rating on the label"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)


def _flows(readings: Readings) -> bool:
    """Whether current was told to flow; amps are not asked here."""
    return readings.get(CARRIES.name) == "yes"


def _drop(readings: Readings) -> Drop | None:
    """Volts lost across it, or None where no current is shown to have flowed."""
    volts = number(readings, "drop")
    if volts is None or not _flows(readings):
        return None
    return drop_read(volts, FEED_LIMIT)


def _code(told: dict[str, str], drop: Drop | None) -> str:
    looked, sides = told.get("looked"), told.get("sides")
    return next(
        code
        for code, fits in (
            ("blows_again", told.get("renewed", "").startswith("blows")),
            ("blown", looked == "blown"),
            ("not_fitted", looked == "not_fitted"),
            ("open", sides == "one" or told.get("across") == "open"),
            ("no_feed", sides == "neither"),
            ("loses", drop is not None and drop.outside),
            ("wrong_rating", told.get("rating") in ("larger", "smaller")),
            ("carries", sides == "both" or (drop is not None and drop.grade == "within")),
            ("whole", looked == "whole" or told.get("across") == "closed"),
            ("nothing_told", True),
        )
        if fits
    )


SENTENCES = {
    "carries": "Power stands on both sides of the fuse under load.",
    "whole": "The fuse is whole; whether it carries current was not shown.",
    "open": "The fuse or its holder is open.",
    "blown": "The fuse is blown.",
    "blows_again": "The fuse was blown, and a new one blew too.",
    "not_fitted": "No fuse is fitted.",
    "no_feed": "No power on either side of the fuse: it was not tested.",
    "wrong_rating": "The rating fitted is not the one on the label.",
    "nothing_told": "Nothing is shown of the fuse yet.",
}
NEXT = {
    "carries": "Go on to the relay.",
    "whole": "Try both sides with a filament lamp, or read the drop across it under current.",
    "loses": "Look at blades and holder for heat and looseness, then read the drop again.",
    "not_fitted": "Find out why it was taken out before one goes in.",
    "no_feed": "Switch the circuit on; if it stays dark, look at what feeds the fuse box.",
    "nothing_told": "Pull the fuse and look at it.",
}


BY_DATA = "Go on with the command in the data list."
RATING = "Fit the rating on the label; if the one before blew, measure first what it feeds."


def _onward(code: str, told: dict[str, str], system: System) -> tuple[str, ...]:
    """What comes next: of the coil and the relay only where a clutch is known to be."""
    by = driven(system)
    first = (look_first(system),) if not by else ()
    if code == "wrong_rating":
        return (RATING,)
    if code == "carries":
        return (NEXT[code],) if by in WITH_CLUTCH else (*first, BY_DATA)
    if code in NEXT:
        return (NEXT[code],)
    what = WHAT_FIRST if by == "no_clutch" else WHAT_FIRST_MOTOR
    before = BEFORE.get(told.get("renewed", ""), "before a new fuse goes in.")
    return (*first, f"{COIL_FIRST if by in WITH_CLUTCH else what} {before}")


def _cause(short: str, told: dict[str, str], *, clutch: bool) -> Mark:
    """What blew it; one smaller than the label says nothing of what lies behind it."""
    if told.get("rating") == "smaller":
        return Mark("open", short, "not told: smaller than the label, it can blow by itself.")
    usual = "the usual cause of a blown clutch fuse (trade articles)."
    return (
        Mark("likely", short, usual) if clutch else Mark("open", short, "what blew it is not told.")
    )


def _marks(code: str, drop: Drop | None, told: dict[str, str], *, clutch: bool) -> Iterator[Mark]:
    short = "Coil resistance too low, diode or chafed wire" if clutch else "A short behind it"
    if code == "carries":
        if drop and drop.grade == "within":
            yield Mark(
                "ruled_out", "Fuse", "ruled out at this moment: it carries and loses little."
            )
        else:
            words = "ruled out as open at this moment: a lamp’s current goes through."
            yield Mark("ruled_out", "Fuse", words)
    elif code == "whole":
        yield Mark("open", "Fuse", "a hairline crack or a loose holder shows under load only.")
    elif code == "loses" and drop:
        yield Mark("likely", "Fuse, its blades or holder", f"{drop.words} is lost here.")
    elif code == "open":
        yield Mark("likely", "Fuse or its holder open", "points here.")
        yield Mark("open", short, "what opened it is not told.")
    elif code in ("blown", "blows_again"):
        yield Mark("proved", "Fuse blown", "seen.")
        yield _cause(short, told, clutch=clutch)
    elif code == "not_fitted":
        yield Mark("proved", "Fuse not fitted", "seen.")
    elif code == "no_feed":
        yield Mark("open", "Feed of the fuse", "not switched on, or open: cannot be told apart.")
    elif code == "wrong_rating":
        yield Mark("open", "Fuse", "not as on the label; how that came is not told.")


def _not_tested(code: str, told: dict[str, str]) -> Iterator[str]:
    if code in ("nothing_told", "no_feed"):
        yield "Fuse: not tested."
    if told.get("rating", "not_compared") == "not_compared":
        yield "Rating fitted against the label: not compared."
    yield "What lies behind the fuse: not tested by this step."


def _notes(readings: Readings, told: dict[str, str], code: str, *, judged: bool) -> Iterator[str]:
    if told.get("renewed") == "holds":
        yield HOLDS_LITTLE
    rating = told.get("rating")
    if rating == "larger":
        yield "Larger than the label: it may not protect the wire. Look along the wire for heat."
    elif rating == "smaller":
        yield "Smaller than the label: it can blow with nothing wrong behind it."
    volts = number(readings, "drop")
    if volts is None:
        return
    if not _flows(readings):
        yield "The drop was read without current, or that was not told: it shows nothing."
        return
    drop = drop_read(volts, FEED_LIMIT)
    if not judged:
        yield f"{drop.words} across the fuse at 24\u00a0V: recorded and not judged."
    elif code != "loses":
        yield grade_sentence(drop, FEED_LIMIT, "across the fuse")


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told, system = taps(readings), around.system
    clutch, judged = driven(system) in WITH_CLUTCH, system.get("voltage") != "24"
    drop = _drop(readings) if judged else None
    code = _code(told, drop)
    sentence = SENTENCES.get(code, "")
    if code == "loses" and drop:
        sentence = grade_sentence(drop, FEED_LIMIT, "across the fuse")
    outcome = Outcome(
        code,
        sentence,
        tuple(_marks(code, drop, told, clutch=clutch)),
        tuple(_not_tested(code, told)),
        code != "nothing_told",
        "general" if drop else "",
    )
    band = f"The whole feed may lose {FEED_LIMIT.words} ({FEED_LIMIT.basis})." if drop else ""
    return Meaning(
        outcome,
        band=band,
        notes=tuple(_notes(readings, told, code, judged=judged)),
        onward=_onward(code, told, system),
    )


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    told, volts = taps(readings), number(readings, "drop")
    looked, sides, across = (told.get(name, "") for name in ("looked", "sides", "across"))
    gone = {"blown": "Blown to the eye", "not_fitted": "No fuse is fitted"}.get(looked, "")
    if gone and sides == "both":
        yield "sides", f"{gone}, yet the lamp lights on both sides of it."
    if gone and across == "closed":
        yield "across", f"{gone}, yet closed to the meter."
    if sides == "both" and across == "open":
        yield "across", "Open to the meter, yet the lamp lights on both sides of it."
    if volts is None or not _flows(readings):
        return
    if gone:
        yield "drop", f"{gone}, yet current was told to flow through it."
    elif sides == "neither":
        yield "drop", "No power on either side, yet current was told to flow through it."
    yield from all_lost("drop", drop_read(volts, FEED_LIMIT), around.system)
    yield from nothing_lost("drop", volts, Load("yes"), "a fuse")


FUSE = Kind(
    name="fuse",
    title="Fuse",
    question="Is the fuse whole, does it carry current, and is it the right one?",
    version=1,
    minutes=2,
    about="command",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        "Circuit switched off before a fuse is pulled; the label’s rating, never a larger one.",
        "12 V and 24 V fuse boxes only; a high-voltage fuse is for a person qualified for it.",
        cautions.RUNS_BY_ITSELF,
        cautions.LOCAL,
    ),
    remarks=(
        SystemRule({"voltage": ("24",)}, NOT_JUDGED_24),
        SystemRule({"drive": ("electric_hv", "electric_48", "belt_clutchless")}, NO_COIL),
        SystemRule({"drive": ("belt_electric",), "clutch": ("none",)}, NO_COIL),
    ),
    at_odds=_at_odds,
    fine=Fine(
        "Fine: whole, and lit on both sides",
        "sets the taps below",
        {"looked": "whole", "sides": "both"},
    ),
)
