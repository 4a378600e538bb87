"""A new or known part tried in place of the car's: on the bench, or at the car's own plug.

Common practice, no source. At the car's own plug the part draws its current through the car's feed
and ground, so it says something of them; on the bench it says nothing of the car.
"""

from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import NO_CLUTCH, driven, look_first
from diagnostics.evidence.fields import Answer, Choice, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import System, SystemRule, first_that_holds

AT_PLUG = When("where", ("plug",))

FIELDS = (
    Choice(
        "part", "Which part?", "",
        (
            Answer("coil", "Coil or clutch", on={"drive": ("belt_clutch", "belt_electric")}),
            Answer("relay", "Relay"),
            Answer("valve", "Control valve", on={"displacement": ("variable_outer",)}),
        ),
    ),
    Choice(
        "where", "Tried where?", "At the car’s own plug it draws its current through the car.",
        (Answer("bench", "On the bench"), Answer("plug", "Car’s own plug")),
    ),
    Choice(
        "does", "Does it work there?", "",
        (
            Answer("works", "Works"), Answer("does_not", "Does not"),
            Answer("not_tried", "Not tried"),
        ),
    ),
    Choice(
        "asked", "Cold asked for and permitted?", "Without a command nothing reaches the plug.",
        (Answer("yes", "Yes"), Answer("no", "No"), Answer("cannot_tell", "Can’t tell")),
        when=(AT_PLUG,), why_not="Asked only at the car’s own plug.",
    ),
    Choice(
        "known", "Known to work by what?", "New is not yet known to work.",
        (
            Answer("bench", "Tried on the bench"), Answer("other_car", "Works in another car"),
            Answer("new", "New, not tried"),
        ),
        when=(AT_PLUG,), why_not="Asked only at the car’s own plug.",
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("plug_works", "works at the car’s own plug"),
    OutcomeWords("plug_unasked", "works at the car’s own plug although cold is not asked for"),
    OutcomeWords("plug_dead", "a part known to work does not at the car’s own plug"),
    OutcomeWords("plug_dead_not_known", "does not at the car’s own plug, not known to work"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
    OutcomeWords("bench_works", "works on the bench", carries=False),
    OutcomeWords("bench_dead", "does not work on the bench", carries=False),
)
PARTS = {"coil": "coil or clutch", "relay": "relay", "valve": "control valve"}
# What carries the part's current at the car's own plug.
WAY = {
    "coil": "Feed, ground and command up to the coil’s plug",
    "relay": "Power and command at the relay’s socket, and what lies behind it",
    "valve": "Feed, ground and command up to the valve’s plug",
}
WAY_UNASKED = {  # the same where no command was shown: nothing is said of it
    "coil": "Feed and ground up to the coil’s plug",
    "relay": "Power at the relay’s socket, and what lies behind it",
    "valve": "Feed and ground up to the valve’s plug",
}
STUCK = {  # what lets current through that nobody asked for
    "coil": "Relay or driver stuck on, or a short around it",
    "relay": "Command held on, or a short around the relay",
    "valve": "Driver held on, or a short around it",
}
# On these no control valve has a plug of its own.
NO_VALVE = (
    SystemRule(
        {"displacement": ("fixed", "speed")}, "No control valve with a plug on this compressor."
    ),
    SystemRule(
        {"displacement": ("variable_inner",)},
        "Its control valve sits inside and has no plug: it goes by the low side’s pressure.",
    ),
)
WORKS = ("plug_works", "plug_unasked")
_BENCH = "On the bench a part says nothing of the car."
_NOT_A_CURE = "One that works once can still quit hot, or when the wiring moves."


def _code(told: dict[str, str]) -> str:
    where, does = told.get("where", ""), told.get("does", "")
    if where == "bench" and does in ("works", "does_not"):
        return "bench_works" if does == "works" else "bench_dead"
    if where != "plug" or not told.get("part"):
        return "nothing_told"
    if does == "works":
        return "plug_unasked" if told.get("asked") == "no" else "plug_works"
    if does != "does_not" or told.get("asked") != "yes":
        return "nothing_told"
    return "plug_dead" if told.get("known") in ("bench", "other_car") else "plug_dead_not_known"


def _sentence(code: str, told: dict[str, str]) -> str:
    part = PARTS.get(told.get("part", ""), "part")
    return {
        "plug_works": f"The {part} tried works at the car’s own plug.",
        "plug_unasked": f"The {part} tried works at the car’s own plug although cold was not asked"
        " for: power stood there unasked.",
        "plug_dead": f"A {part} known to work does not at the car’s own plug.",
        "plug_dead_not_known": f"The {part} tried does not work at the car’s own plug.",
        "bench_works": f"The {part} works on the bench.",
        "bench_dead": f"The {part} does not work on the bench.",
        "nothing_told": _nothing(told),
    }[code]


def _nothing(told: dict[str, str]) -> str:
    if told.get("where") == "plug" and told.get("does") == "does_not":
        return "It does not work there, and no command was shown: nothing is made of it."
    return "How a known part does was not told."


def _marks(code: str, told: dict[str, str], failing: bool) -> Iterator[Mark]:
    part = told.get("part", "")
    if code in WORKS:
        way = WAY[part] if told.get("asked") == "yes" else WAY_UNASKED[part]
        words = "ruled out at this moment, with this part’s current."
        yield Mark("ruled_out", f"{way} dead", words)
        if code == "plug_unasked":
            words = "points here, if nothing else asks for it, such as the windshield’s defrost."
            yield Mark("likely", STUCK[part], words)
        yield _own_mark(PARTS[part], failing)
    if code == "plug_dead":
        yield Mark("likely", WAY[part], "points here, cold asked for and permitted.")
        yield Mark("open", f"The car’s own {PARTS[part]}", "not cleared by this.")
    if code == "plug_dead_not_known":
        words = "not told apart from the part tried: new is not yet known to work."
        yield Mark("open", WAY[part], words)
    if part == "coil" and code in WORKS:
        yield Mark("open", "Compressor", "not turned by this: a locked one ends the next coil too.")


def _own_mark(part: str, failing: bool) -> Mark:
    """The car's own part, where another one worked in its place."""
    if failing:
        words = "points here; moving the plug may also have cured a loose pin."
        return Mark("likely", f"The car’s own {part}", words)
    words = "not told: the car was not shown to be failing at that time."
    return Mark("open", f"The car’s own {part}", words)


PUT_BACK = "Put the car’s own part back and see whether it fails again."
AFTER = {  # by the part that worked
    "coil": (
        "Measure the resistance of the car’s own coil.",
        "Turn the hub by hand.",
        "Measure the gap of a new part before it is fitted.",
    ),
    "relay": ("Measure the clutch coil’s resistance before a relay stays in.",),
}
DEAD = {  # by the part that did not
    "coil": "Read the voltage at the plug, current flowing.",
    "relay": "See whether power and command reach the relay’s socket.",
    "valve": "Read the valve’s command in the data list, then whether it reaches the plug.",
}
UNASKED = {
    "coil": "See what else asks for cold; if nothing does, pull the relay: does it let go?",
    "relay": "See what else asks for cold; if nothing does, look for what holds the relay on.",
    "valve": "See what else asks for cold, and read the valve’s command in the data list.",
}


def _onward(code: str, told: dict[str, str], system: System) -> tuple[str, ...]:
    """What comes next; the clutch's coil is named only where a clutch is known to be."""
    part, look = told.get("part", ""), look_first(system)
    first = (look,) if look else ()
    if code in WORKS:
        no_coil = part == "relay" and driven(system) in ("no_clutch", "motor")
        after = (PUT_BACK,) if no_coil else AFTER.get(part, (PUT_BACK,))
        return (*first, UNASKED[part], *after) if code == "plug_unasked" else (*first, *after)
    if code == "plug_dead":
        return (*first, DEAD[part])
    return {
        "plug_dead_not_known": ("Try it on the bench, then at the car’s own plug again.",),
        "bench_works": ("Try it at the car’s own plug, cold asked for.",),
        "bench_dead": ("Try another one: this one is not known to work.",),
        "nothing_told": ("Ask for cold, and try the part at the car’s own plug.",),
    }[code]


def _not_tested(code: str, told: dict[str, str]) -> Iterator[str]:
    if code.startswith("bench"):
        yield "The car: not tested by a part on the bench."
    elif code == "nothing_told":
        yield "Known part: not told."
    if told.get("where") == "plug" and told.get("asked", "cannot_tell") == "cannot_tell":
        yield "Whether cold was asked for and permitted: not told."
    if code in (*WORKS, "plug_dead"):
        yield "Voltage lost on the way: not measured."


def _read(readings: Readings, around: Circumstances) -> Meaning:
    told, system = taps(readings), around.system
    code = _code(told)
    carries = code.startswith("plug")
    marks = tuple(_marks(code, told, around.failing in ("yes", ""))) if carries else ()
    outcome = Outcome(code, _sentence(code, told), marks, tuple(_not_tested(code, told)), carries)
    notes = {"bench_works": (_BENCH,), "bench_dead": (_BENCH,)} | dict.fromkeys(
        WORKS, (_NOT_A_CURE,)
    )
    return Meaning(outcome, notes=notes.get(code, ()), onward=_onward(code, told, system))


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    """A clutch tried where belt and motor turn the compressor without one."""
    why = first_that_holds(NO_CLUTCH, around.system)
    if why and readings.get("part") == "coil":
        yield "part", why


BARS = (
    SystemRule({"drive": ("electric_hv",)}, cautions.HIGH_VOLTAGE),
    SystemRule(
        {"drive": ("electric_48",)},
        "48 V class: no part is tried in place of another on this side.",
    ),
)

KNOWN_GOOD = Kind(
    name="known_good",
    title="Known part tried",
    question="Does a new or known part work where the car’s own does not?",
    version=2,
    minutes=5,
    about="clutch",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        cautions.RUNS_BY_ITSELF,
        "On the bench: lead fused at 10 A, hands clear of the plate.",
        "A control valve never straight on a battery for long.",
        cautions.CLEAR_OF_BELT,
        cautions.NEVER_DRY,
        cautions.LOCAL,
    ),
    bars=BARS,
    asks_first=(
        SystemRule(
            {"drive": ("",)},
            "The drive is not noted yet. Look first: nothing is tried on an electric compressor.",
        ),
        SystemRule(
            {"drive": ("belt_electric",)},
            "Belt and electric: only at the plug of the clutch or of the valve on the belt side."
            " The electric side stays untouched.",
        ),
    ),
    remarks=(
        SystemRule(
            {"drive": ("belt_clutchless",)},
            "No clutch here: relay and control valve only.",
        ),
        SystemRule(
            {"drive": ("belt_electric",)},
            "Belt and electric: nothing is tried on the electric side, which stays untouched.",
        ),
        *NO_VALVE,
    ),
    at_odds=_at_odds,
)
