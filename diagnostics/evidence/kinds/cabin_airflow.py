"""The air inside: how much comes, through which filter, and what it smells of.

Common practice, no source. Weak air feels warm; cold alone does not cool a cabin.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import KEY_AWAY, LOCAL
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.fields import Answer, Choice, Field
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.readings import Readings, taps

FIELDS: tuple[Field, ...] = (
    Choice(
        "flow", "Air at the vents, blower highest", "",
        (
            Answer("strong", "Strong at all"), Answer("weak", "Weak at all"),
            Answer("some", "Weak at some"), Answer("none", "None"),
        ),
    ),
    Choice(
        "blower", "Blower’s steps", "",
        (
            Answer("all", "All work"), Answer("some", "Some missing"),
            Answer("none", "It does not turn"), Answer("not_tried", "Not tried"),
        ),
        compact=True,
    ),
    Choice(
        "filter", "Cabin filter", "",
        (
            Answer("clean", "Clean"), Answer("dirty", "Dirty"), Answer("blocked", "Clogged, wet"),
            Answer("not_fitted", "None fitted"), Answer("not_looked", "Not looked"),
        ),
    ),
    Choice(
        "fades", "Fades while it runs, back after a rest?", "A/C off, blower on for some minutes.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("not_tried", "Not tried")),
        compact=True,
    ),
    Choice(
        "drain", "Water from the drain", "Under the car, after running; inside dry?",
        (
            Answer("drips", "Drips outside"), Answer("inside", "Wet inside"),
            Answer("none", "None seen"), Answer("not_looked", "Not looked"),
        ),
        compact=True,
    ),
    Choice(
        "smell", "Smells of", "",
        (
            Answer("nothing", "Nothing"), Answer("musty", "Musty"),
            Answer("sweet", "Sweet, foggy"), Answer("burnt", "Burnt"), Answer("other", "Other"),
        ),
        compact=True,
    ),
    Choice(
        "rear", "Rear unit’s air", "",
        (
            Answer("strong", "Strong"), Answer("weak", "Weak"), Answer("none", "None"),
            Answer("not_tried", "Not tried"),
        ),
        compact=True, on={"branches": ("rear",)},
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("no_air", "no air, or the blower does not turn"),
    OutcomeWords("ices", "fades while it runs, back after a rest"),
    OutcomeWords("filter", "weak, and the cabin filter is clogged or dirty"),
    OutcomeWords("weak", "weak at all vents"),
    OutcomeWords("some", "weak at some vents"),
    OutcomeWords("steps", "blower’s steps missing"),
    OutcomeWords("rear", "rear unit’s air weak or none"),
    OutcomeWords("strong_filter", "strong, though the cabin filter is clogged or dirty"),
    OutcomeWords("strong", "strong at all vents", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "no_air": "No air comes at the vents.",
    "ices": "The air fades while it runs and comes back after a rest.",
    "filter": "The air is weak, and the cabin filter is not clean.",
    "weak": "The air is weak at all vents.",
    "some": "The air is weak at some vents.",
    "steps": "Some of the blower’s steps are missing.",
    "rear": "The rear unit’s air is weak or none.",
    "strong_filter": "The air is strong at all vents, though the cabin filter is not clean.",
    "strong": "The air is strong at all vents.",
    "nothing_told": "How much air comes was not told.",
}
_ONWARD = {
    "no_air": ("Blower’s fuse, voltage and ground at its plug, current flowing.",),
    "ices": ("Look for ice; look at cabin filter, evaporator’s sensor and charge.",),
    "filter": ("Run it without the filter for a moment: does the air come?",),
    "weak": ("Look at the filter, then behind it, and at the blower’s wheel.",),
    "some": ("Move the doors: face, feet, windshield. Look behind those vents.",),
    "steps": ("Look at the blower’s resistor or control unit and at its plug.",),
    "rear": ("Look at the rear unit’s own blower, filter and door.",),
    "strong_filter": ("Renew the filter; measure at the vent: much air can still be warm.",),
    "strong": ("Measure at the vent: much air can still be warm.",),
    "nothing_told": ("Blower highest, feel every vent, look at the filter.",),
}
STANDS = "The blower does not turn."
WEAK = ("weak", "none")
CLOGGED = ("dirty", "blocked")


def _code(told: dict[str, str]) -> str:
    flow, blower = told.get("flow", ""), told.get("blower", "")
    clogged = told.get("filter", "") in CLOGGED
    rows = (
        ("no_air", "none" in (flow, blower)),
        ("ices", told.get("fades") == "yes"),
        ("filter", flow == "weak" and clogged),
        ("weak", flow == "weak"),
        ("some", flow == "some"),
        ("steps", blower == "some"),
        ("rear", told.get("rear") in WEAK),
        ("strong_filter", flow == "strong" and clogged),
        ("strong", flow == "strong"),
    )
    return next(code for code, fits in (*rows, ("nothing_told", True)) if fits)


_STRONG = Mark("ruled_out", "Too little air inside", "ruled out as felt at the vents.")
_MARKS = {
    "no_air": Mark("open", "Blower, its supply or its control", "not parted here."),
    "ices": Mark("likely", "Evaporator iced", "points here: thawed, the air comes back."),
    "filter": Mark("likely", "Cabin filter", "points here; run it without for a moment."),
    "weak": Mark(
        "open",
        "Why it is weak",
        "filter, ice, blower, door or the evaporator’s face: not parted here.",
    ),
    "some": Mark("open", "Doors or ducts of those vents", "not parted here."),
    "steps": Mark("likely", "Blower’s resistor or control", "points here."),
    "rear": Mark("open", "Rear unit’s blower, filter or door", "not parted here."),
    "strong": _STRONG,
    "strong_filter": _STRONG,
}


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    if told.get("flow") in WEAK:
        yield Mark("proved", "Little air inside", "felt at the vents, at this moment.")
    yield _MARKS[code]
    yield from _beside(code, told)
    if told.get("drain") == "inside":
        yield Mark("likely", "Drain blocked, or water from elsewhere", "points here: wet inside.")
    if told.get("smell") == "sweet":
        yield Mark("likely", "Heater leaks coolant", "points here, by its smell.")


def _beside(code: str, told: dict[str, str]) -> Iterator[Mark]:
    """What was found beside that which gave the outcome."""
    filter_is = told.get("filter", "")
    if filter_is in CLOGGED and code != "filter":
        words = "clogged, wet" if filter_is == "blocked" else "dirty"
        yield Mark("proved", f"Cabin filter {words}", "seen.")
    found = {
        "ices": told.get("fades") == "yes",
        "steps": told.get("blower") == "some",
        "rear": told.get("rear") in WEAK,
    }
    yield from (_MARKS[one] for one, is_so in found.items() if is_so and one != code)


def _not_tested(told: dict[str, str]) -> Iterator[str]:
    rows = {
        "flow": "Air at the vents",
        "blower": "Blower’s steps",
        "filter": "Cabin filter",
        "fades": "Fading while it runs",
        "drain": "Drain",
    }
    none = ("not_tried", "not_looked", "")
    left = [words for name, words in rows.items() if told.get(name, "") in none]
    if left:
        yield f"Not told: {', '.join(left)}."
    yield "How cold the air is: not told by this step."


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    told = taps(readings)
    if told.get("blower") == "none" and told.get("flow") in ("strong", "some"):
        yield "blower", "The blower does not turn, yet air comes at the vents."


def _sentence(code: str, told: dict[str, str]) -> str:
    """The outcome in words; a blower that stands is not told as air that nobody felt for."""
    if code != "no_air" or told.get("blower") != "none":
        return _SENTENCES[code]
    return f"{_SENTENCES[code]} {STANDS}" if told.get("flow") == "none" else STANDS


def _notes(code: str, told: dict[str, str]) -> Iterator[str]:
    if told.get("smell") == "burnt":
        yield "Burnt smell: switch the blower off and find it first."
    if code == "nothing_told":
        yield from _seen_alone(told)


def _seen_alone(told: dict[str, str]) -> Iterator[str]:
    """What was seen though nobody told the air: it stands as told, and nothing is made of it."""
    found = {"filter": CLOGGED, "drain": ("inside",), "smell": ("sweet",)}
    for asked in FIELDS:
        answer = told.get(asked.name, "")
        if isinstance(asked, Choice) and answer in found.get(asked.name, ()):
            yield f"{asked.question}: {asked.words(answer).lower()}."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    carries = code != "nothing_told"
    marks = tuple(_marks(code, told)) if carries else ()
    outcome = Outcome(code, _sentence(code, told), marks, tuple(_not_tested(told)), carries)
    return Meaning(outcome, notes=tuple(_notes(code, told)), onward=_ONWARD[code])


CABIN_AIRFLOW = Kind(
    name="cabin_airflow",
    title="Air inside",
    question="How much air comes, and what keeps it back?",
    version=1,
    minutes=4,
    about="heat",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        KEY_AWAY,
        "Airbags sit in dash and door posts: nothing pried, no meter at their yellow plugs.",
        LOCAL,
    ),
    at_odds=_at_odds,
    fine=Fine(
        "Fine: strong at all vents, all steps, filter clean",
        "sets the taps below",
        {"flow": "strong", "blower": "all", "filter": "clean"},
    ),
)
