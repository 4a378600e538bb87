"""A test made cold, repeated when hot. Good cold and bad hot is a pattern, no contradiction.

A coil or relay that takes hold cold and quits hot: trade articles. What is hot enough is published
nowhere that we know of: the minutes run and the engine bay's temperature are told as read, and what
is taken for hot is our judgement.
"""

from collections.abc import Iterator

from diagnostics.evidence.cautions import CLEAR_OF_BELT, HOT, LOCAL, RUNS_BY_ITSELF
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import (
    LOW_48,
    MIND_HIGH_VOLTAGE,
    MOTOR_NOT_SURE,
    driven,
    look_first,
)
from diagnostics.evidence.fields import Answer, Choice, Number, Span, Text, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.missing import missing
from diagnostics.evidence.orders import BELT, RUN
from diagnostics.evidence.readings import Reading, Readings, number, taps
from diagnostics.evidence.system import System
from diagnostics.evidence.worked_out import WorkedOut
from diagnostics.physics.units import to_si

WITH_CLUTCH = {"drive": ("belt_clutch", "belt_electric")}
FIELDS = (
    Choice(
        "hot", "Hot", "The same test, the same place.",
        (Answer("quits", "Quits"), Answer("works", "Works"), Answer("at_times", "Comes and goes")),
    ),
    Choice(
        "cold", "Cold, before", "",
        (Answer("works", "Worked"), Answer("not", "Did not"), Answer("not_tried", "Not tried")),
    ),
    Choice(
        "test", "Which test", "",
        (
            Answer("takes_hold", "Clutch takes hold", on=WITH_CLUTCH),
            Answer("resistance", "Coil’s resistance", on={"drive": BELT}),
            Answer("voltage", "Voltage at the plug"), Answer("pressures", "Running pressures"),
            Answer("other", "Another"),
        ),
        condition=True,
    ),
    Text(
        "which", "Which other", "", 120, condition=True,
        when=(When("test", ("other",)),), why_not="Asked only where another test was repeated.",
    ),
    Number(
        "minutes", "Run for", "A/C on.", "min",
        Span(
            2, 180, 0, 1440, "Shorter or longer than a hot run takes, by our judgement.",
            "Less than no time.",
        ),
        ("h",), instrument="watch", condition=True,
    ),
    Number(
        "bay", "Engine bay", "Near the part, hood down until then.", "°C",
        Span(
            20, 130, -50, 300, "Outside what a hot bay reads, by our judgement.",
            "No engine bay gets there.",
        ),
        ("°F",), instrument="thermometer", condition=True,
    ),
)  # fmt: skip

HOT_RUN = to_si(10, "min")
HOT_BAY = to_si(50, "°C")  # the part's own heat: where it is told, the minutes do not count
TAKEN_FOR_HOT = (
    "Taken for hot: 50\u00a0°C in the engine bay, or 10\u00a0min run where that is not told; our"
    " judgement, no published limit."
)
OUTCOMES = (
    OutcomeWords("quits_hot", "works cold, quits hot"),
    OutcomeWords("early", "quits before it is hot"),
    OutcomeWords("at_times", "comes and goes when hot"),
    OutcomeWords("quits", "does not work hot, cold not told"),
    OutcomeWords("dead_both", "works neither cold nor hot"),
    OutcomeWords("only_hot", "works hot, did not cold"),
    OutcomeWords("not_made_to_quit", "works hot too, could not be made to quit", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)
_SENTENCES = {
    "quits_hot": "It worked cold and quits hot.",
    "at_times": "It comes and goes when hot.",
    "quits": "It does not work when hot.",
    "dead_both": "It works neither cold nor hot.",
    "only_hot": "It works hot and did not cold.",
    "not_made_to_quit": "It could not be made to quit, as warm as it was told.",
}
_ONWARD = {
    "quits_hot": ("Measure right now, hot: voltage at the plug, current flowing; then the coil.",),
    "early": ("Measure right now: voltage at the plug, current flowing; then the coil.",),
    "at_times": ("Watch the voltage at the plug while it goes, wiggle the wiring.",),
    "quits": ("Let it cool and test again.",),
    "dead_both": ("Heat is not what makes it quit: go on with the cold tests.",),
    "only_hot": ("Test cold again: gap, wiring or the car’s own permission in the cold.",),
    "not_made_to_quit": ("Ask when it quits; drive it, at idle, in traffic, after a hot soak.",),
    "nothing_told": ("Run it hot with A/C on, then make the same test again.",),
}


def _run(readings: Readings) -> Reading | None:
    """The run, if there was one."""
    run = number(readings, "minutes")
    return run if run is not None and run.si > 0 else None


def _warm(readings: Readings) -> bool:
    """Whether something tells how warm it was."""
    return _run(readings) is not None or number(readings, "bay") is not None


def _is_hot(readings: Readings) -> bool:
    """Whether it was as warm as we take for hot."""
    run, bay = _run(readings), number(readings, "bay")
    if bay is not None:
        return bay.si >= HOT_BAY
    return run is not None and run.si >= HOT_RUN


def _code(readings: Readings) -> str:
    """The outcome; nothing is told as hot while how warm it was is not told."""
    told = taps(readings)
    hot, cold = told.get("hot", ""), told.get("cold", "")
    if not _warm(readings):
        return "nothing_told"
    if not _is_hot(readings):
        return "early" if hot in ("quits", "at_times") else "nothing_told"
    if hot == "quits":
        return {"works": "quits_hot", "not": "dead_both"}.get(cold, "quits")
    if hot == "at_times":
        return "at_times"
    if hot == "works":
        return "only_hot" if cold == "not" else "not_made_to_quit"
    return "nothing_told"


_DOES = {"quits": "It quits", "works": "It works", "at_times": "It comes and goes"}


def _nothing(readings: Readings) -> str:
    """Why nothing is made of it."""
    does = _DOES.get(taps(readings).get("hot", ""))
    if not does:
        return "What it does when hot was not told."
    if not _warm(readings):
        return f"{does}, but how warm it was is not told."
    return f"{does}, but it was less warm than we take for hot."


def _early(told: dict[str, str]) -> str:
    """What it did before it was hot."""
    does = {"quits": "does not work", "at_times": "comes and goes"}[told["hot"]]
    cold = {"works": "It worked cold and now", "not": "It did not work cold and now"}
    return f"{cold.get(told.get('cold', ''), 'It')} {does}, less warm than we take for hot."


def _lead(readings: Readings) -> str:
    """How long and how warm it ran, as read."""
    run, bay = _run(readings), number(readings, "bay")
    told = [f"{run.shown} run"] if run else []
    told += [f"engine bay {bay.shown}"] if bay else []
    words = ", ".join(told)
    return f"{words[0].upper()}{words[1:]}." if words else ""


def _marks(code: str) -> Iterator[Mark]:
    if code == "early":
        yield Mark("proved", "Quits before it is hot", "seen.")
        yield Mark("open", "Heat", "not shown as what makes it quit: it was not yet hot.")
    if code == "quits_hot":
        yield Mark("proved", "Works cold, quits hot", "seen: a pattern, no contradiction.")
        words = "parts, wiring and control all can open by heat: this step does not part them."
        yield Mark("open", "What the heat opens", words)
    if code in ("quits", "dead_both", "at_times"):
        yield Mark("open", "What makes it quit", "not told by this step.")
    if code == "dead_both":
        yield Mark("open", "Heat", "not needed for it to quit.")
    if code in ("not_made_to_quit", "only_hot"):
        yield Mark("open", "The complaint", "not settled: other heat or other roads may bring it.")


def _not_tested(readings: Readings) -> Iterator[str]:
    told = taps(readings)
    if not told.get("hot"):
        yield "The test when hot: not told."
    if told.get("cold", "not_tried") == "not_tried":
        yield "The same test cold: not told."
    if not told.get("test") or (told["test"] == "other" and not told.get("which", "").strip()):
        yield "Which test was repeated: not told."
    if _warm(readings) and not _is_hot(readings):
        yield "Hot, as we take it: not reached, so not tested."
    yield from missing(readings, "minutes", "Minutes run")
    yield from missing(readings, "bay", "Engine bay’s temperature")


_BY_SCAN = "Read right now by scan data: command, refusal, speed."
_PLUG = "voltage at the magnetic clutch’s own plug, current flowing; the electric side by scan data"
_VALVE = "the control valve’s command and current, then its coil"
_WATCH_SCAN = "Watch command, refusal and speed by scan data while it goes."
# Where it is not driven by a belt and a clutch alone; nothing is measured at a motor's plug.
_ONWARD_BY = {
    "motor": {
        "quits_hot": "Read right now, hot, by scan data: command, refusal, speed.",
        "early": _BY_SCAN,
        "at_times": _WATCH_SCAN,
        "only_hot": "Test cold again: the car’s own permission in the cold, by scan data.",
    },
    "both": {
        "quits_hot": f"Measure right now, hot: {_PLUG}.",
        "early": f"Measure right now: {_PLUG}.",
        "at_times": f"Watch, while it goes: {_PLUG}.",
    },
    "no_clutch": {
        "quits_hot": f"Measure right now, hot: {_VALVE}.",
        "early": f"Measure right now: {_VALVE}.",
        "at_times": "Watch the control valve’s command and current while it goes.",
        "only_hot": "Test cold again: control valve, wiring or the car’s own permission in the"
        " cold.",
    },
    "": {
        "quits_hot": _BY_SCAN,
        "early": _BY_SCAN,
        "at_times": _WATCH_SCAN,
        "only_hot": "Test cold again; read the car’s own permission in the cold by scan data.",
    },
}


def _onward(code: str, system: System) -> tuple[str, ...]:
    """What comes next; where the drive is not noted it is looked at before anything is measured."""
    then = _ONWARD_BY.get(driven(system), {}).get(code)
    if then is None:
        return _ONWARD[code]
    return tuple(one for one in (look_first(system), then) if one)


def _read(readings: Readings, around: Circumstances) -> Meaning:
    code = _code(readings)
    early = _early(taps(readings)) if code == "early" else ""
    outcome = Outcome(
        code,
        early or _SENTENCES.get(code) or _nothing(readings),
        tuple(_marks(code)),
        tuple(_not_tested(readings)),
        carries=code != "nothing_told",
    )
    return Meaning(
        outcome,
        _lead(readings),
        band=TAKEN_FOR_HOT if _warm(readings) else "",
        onward=_onward(code, around.system),
    )


HOT_RETEST = Kind(
    name="hot_retest",
    title="Repeated when hot",
    question="Does it still work when hot?",
    version=2,
    minutes=20,
    about="see_first",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("engine hot",),
    cautions=(RUNS_BY_ITSELF, HOT, CLEAR_OF_BELT, LOCAL),
    orders=RUN,
    remarks=(MIND_HIGH_VOLTAGE, LOW_48, *MOTOR_NOT_SURE),
    works_out=(WorkedOut("bay", "The same", "same", ("bay",), "°F"),),
    fine=Fine(
        "Fine: works hot as it did cold",
        "sets the taps below; minutes run or the bay’s temperature are still needed",
        {"hot": "works", "cold": "works"},
    ),
)
