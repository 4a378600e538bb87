"""The fans at the condenser: does each turn, the right way, and does air go through?

At a stop only the fan moves air through the condenser; on the road the wind does. When a fan comes
on differs from car to car, one without power can be moved by hand and turned by draft, and a fan on
the engine speaks for no electric one: common practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import CLEAR_OF_BELT, HOT, LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import MIND_HIGH_VOLTAGE
from diagnostics.evidence.fields import Answer, Choice, Field, Number, Span
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.missing import untold
from diagnostics.evidence.orders import BELT
from diagnostics.evidence.readings import Readings, number, taps
from diagnostics.physics.uncertainty import measured

FANS = {"fan_1": "Fan 1", "fan_2": "Fan 2"}
TURNS = (
    Answer("runs", "Runs"),
    Answer("stands", "Stands"),
    Answer("push", "Only after a push"),
    Answer("backwards", "Wrong way"),
)
DRAWS = 1.0  # A: a motor that turns takes more; our judgement

FIELDS: tuple[Field, ...] = (
    Choice(
        "asked", "A/C on and asked for while you look?",
        "Or fans commanded by scan data. Some fans wait for a pressure.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("cannot_tell", "Can’t tell")),
        condition=True,
    ),
    *(
        Choice(name, words, "", (*TURNS, Answer("not_fitted", "Not fitted")))
        for name, words in FANS.items()
    ),
    Choice(
        "belt_fan", "Fan on the engine", "Its clutch drags when hot.",
        (
            Answer("drags", "Drags when hot"), Answer("loose", "Spins loose when hot"),
            Answer("broken", "Blades broken"), Answer("not_fitted", "Not fitted"),
        ),
        on={"drive": BELT}, compact=True,
    ),
    Choice(
        "air", "Air at the grille", "A sheet of paper is held by air that is drawn in.",
        (
            Answer("drawn", "Drawn in, strongly"), Answer("hardly", "Hardly any"),
            Answer("forward", "Blown out forward"), Answer("not_tried", "Not tried"),
        ),
        group="What it moves",
    ),
    Choice(
        "speeds", "Goes faster when the high side rises?", "",
        (
            Answer("yes", "Yes"), Answer("no", "No"),
            Answer("one_speed", "One speed only"), Answer("not_tried", "Not tried"),
        ),
        compact=True,
    ),
    Choice(
        "shroud", "Shroud", "",
        (Answer("whole", "Whole"), Answer("gaps", "Gaps"),
         Answer("not_seen", "Not seen")),
        compact=True,
    ),
    Number(
        "amps", "Current of the fan", "Clamp, if one is at hand.", "A",
        Span(0, 60, -150, 150, "Outside what such fans draw.", "No fan of a car draws that."),
        instrument="dc_amps", compact=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("all_stand", "no fan turns though asked for"),
    OutcomeWords("one_stands", "a fan stands though asked for"),
    OutcomeWords("push", "turns only after a push"),
    OutcomeWords("backwards", "turns the wrong way, or air comes out forward"),
    OutcomeWords("loose", "fan on the engine slips or is broken"),
    OutcomeWords("hardly", "hardly any air drawn in"),
    OutcomeWords("belt_only", "fan on the engine drags, no electric fan seen", normal=True),
    OutcomeWords("no_faster", "runs, goes no faster when the high side rises"),
    OutcomeWords("runs", "runs, air drawn in", normal=True),
    OutcomeWords("runs_only", "runs, air not tried", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "all_stand": "No fan turns although cold is asked for.",
    "one_stands": "A fan stands although cold is asked for.",
    "push": "A fan turns only after a push.",
    "backwards": "A fan turns the wrong way, or air comes out forward.",
    "loose": "The fan on the engine slips or is broken.",
    "hardly": "Hardly any air is drawn through the condenser.",
    "no_faster": "The fan runs, and goes no faster when the high side rises.",
}
_ONWARD = {
    "all_stand": ("Look up when it should come on; then fuse, relay, voltage at its plug.",),
    "one_stands": ("Voltage and ground at its plug, current flowing; then the motor.",),
    "push": ("Measure its voltage under load before the motor is named; mind the blades.",),
    "backwards": ("Look at its plug and at how it was put in.",),
    "loose": ("Turn it by hand, engine off and hot: it should drag.",),
    "hardly": ("Look at the condenser’s face, between it and the radiator, and at the shroud.",),
    "belt_only": ("Look for an electric fan; ask for cold, and look whether it runs.",),
    "no_faster": ("Look up how this car drives its fans; read the command by scan data.",),
    "runs": ("Look at the condenser’s face if the high side is high.",),
    "runs_only": ("Hold a sheet of paper to the grille.",),
    "nothing_told": ("Ask for cold, wait for the pressure to rise, and look at each fan.",),
}
AIR = "Air through the condenser"
# How a fan without power can be seen; each means something only where cold was asked for.
IDLE = {"stands": "stands", "push": "moved when pushed", "backwards": "turned the wrong way"}


def _states(told: dict[str, str]) -> list[str]:
    """How each fan that is fitted was seen."""
    seen = (told.get(name, "") for name in FANS)
    return [one for one in seen if one and one != "not_fitted"]


def _running(told: dict[str, str]) -> list[str]:
    return [words for name, words in FANS.items() if told.get(name) == "runs"]


def _code(told: dict[str, str]) -> str:
    """The outcome; a fan without power says nothing while nobody asked for it."""
    fans, air = _states(told), told.get("air", "")
    stands, idle = "stands" in fans, any(one in IDLE for one in fans)
    all_stand = set(fans) == {"stands"} and all(told.get(name) for name in FANS)
    asked = told.get("asked") == "yes"
    rows = (
        ("backwards", asked and "backwards" in fans),
        ("backwards", air == "forward" and not idle),
        ("push", asked and "push" in fans),
        ("loose", told.get("belt_fan") in ("loose", "broken")),
        ("all_stand", asked and all_stand),
        ("one_stands", asked and stands),
        ("nothing_told", idle or not (fans or told.get("belt_fan") == "drags")),
        ("hardly", air == "hardly"),
        ("belt_only", not fans),
        ("no_faster", told.get("speeds") == "no"),
        ("runs", air == "drawn"),
        ("runs_only", True),
    )
    return next(code for code, fits in rows if fits)


def _sentence(code: str, told: dict[str, str]) -> str:
    if code in ("runs", "runs_only"):
        run = _running(told)
        who = f"{run[0]} runs" if len(run) == 1 else "Both fans run"
        return f"{who}, and air is drawn in at the grille." if code == "runs" else f"{who}."
    if code == "belt_only":
        gone = all(told.get(name) == "not_fitted" for name in FANS)
        electric = "no electric fan is fitted" if gone else "no electric fan was told"
        return f"The fan on the engine drags; {electric}."
    if code != "nothing_told":
        return _SENTENCES[code]
    idle = next((words for one, words in IDLE.items() if one in _states(told)), "")
    if idle:
        asked = "not asked for" if told.get("asked") == "no" else "not said to be asked for"
        return f"A fan {idle}, and cold was {asked}: nothing is made of it."
    return "Whether the fans turn was not told."


def _marks(code: str, told: dict[str, str]) -> Iterator[Mark]:
    if code in ("all_stand", "one_stands"):
        yield Mark("proved", "A fan stands", "seen, at this moment.")
        words = "not commanded, fuse, relay, wire, ground or motor: not parted here."
        yield Mark("open", "Why it stands", words)
    if code == "push":
        yield Mark("likely", "Fan’s motor", "points here; little voltage at its plug does so too.")
    if code == "backwards":
        yield _wrong_way(told)
    if code == "loose":
        yield Mark("likely", "Fan clutch or blades", "points here.")
    if code in ("all_stand", "one_stands", "push", "backwards", "loose", "hardly"):
        yield Mark("likely", AIR, "too little, points here; on the road the wind does it.")
    if code == "no_faster":
        yield Mark("open", AIR, "many cars have one speed; look it up.")
    if code == "runs":
        if all(told.get(name) for name in FANS):
            yield Mark("ruled_out", "Condenser fan standing", "ruled out at this moment.")
        yield Mark("open", AIR, "drawn in at the grille; how much goes through is not told.")
    if code in ("runs_only", "belt_only"):
        yield Mark("open", AIR, "not told by a fan that turns.")


def _wrong_way(told: dict[str, str]) -> Mark:
    """Air or blades the wrong way; beside one that runs, draft turns one without power."""
    subject = "Fan put in or wired the wrong way"
    if "backwards" in _states(told) and _running(told):
        words = "not told apart from a fan without power in the draft of the other."
        return Mark("open", subject, words)
    return Mark("likely", subject, "points here.")


def _not_tested(told: dict[str, str]) -> Iterator[str]:
    yield from untold(told, "asked", "Whether cold was asked for")
    for name, words in FANS.items():
        yield from untold(told, name, words)
    if told.get("air", "not_tried") == "not_tried":
        yield "Air at the grille: not tried."
    if told.get("speeds", "not_tried") == "not_tried":
        yield "Higher speed: not tried."
    yield "What the fans do hot, in traffic, or with the wind: not tested."


def _notes(told: dict[str, str]) -> Iterator[str]:
    if told.get("shroud") == "gaps":
        yield "Gaps in the shroud: air goes round the condenser instead of through it."


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    told, amps = taps(readings), number(readings, "amps")
    fans = _states(told)
    stand = bool(fans) and set(fans) == {"stands"}
    by_engine = told.get("belt_fan") in ("drags", "loose")
    if stand and told.get("air") == "drawn" and not by_engine:
        yield "air", "Every fan stands, yet air is drawn in strongly."
    if stand and amps:
        read = measured(abs(amps.si), amps.last_digit, "dc_amps")
        if read.value - read.expanded > DRAWS:
            yield "amps", f"Every fan stands, yet {amps.shown} was read: locked, or another wire."


def _read(readings: Readings, _around: Circumstances) -> Meaning:
    told = taps(readings)
    code = _code(told)
    outcome = Outcome(
        code,
        _sentence(code, told),
        tuple(_marks(code, told)),
        tuple(_not_tested(told)),
        carries=code != "nothing_told",
    )
    amps = number(readings, "amps")
    lead = f"{amps.shown} drawn, recorded." if amps else ""
    return Meaning(outcome, lead, notes=tuple(_notes(told)), onward=_ONWARD[code])


CONDENSER_FAN = Kind(
    name="condenser_fan",
    title="Condenser fans",
    question="Does each fan turn, the right way, and draw air through?",
    version=1,
    minutes=3,
    about="heat",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        "Electric fans start alone, key off too: no hand, rag or tool near the blades.",
        RUNS_BY_ITSELF,
        CLEAR_OF_BELT,
        HOT,
        LOCAL,
    ),
    at_odds=_at_odds,
    remarks=(MIND_HIGH_VOLTAGE,),
    fine=Fine(
        "Fine: asked for, fan runs, air drawn in",
        "sets the taps below; a second fan stays yours to tell",
        {"asked": "yes", "fan_1": "runs", "air": "drawn"},
    ),
)
