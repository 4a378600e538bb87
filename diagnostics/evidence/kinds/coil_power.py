"""Battery power straight at the coil's own wire: does the load side take hold?

It is the last word on coil, gap and clutch. It bypasses relay, fuse, switches and wiring, so it
never shows those good. Trade articles: jumper fused at 10 A, mind the diode, pull-in and release at
once, an open coil does not clear the compressor. Nothing named: common practice, no source.
"""

from collections.abc import Iterator

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.clutch import Seen, clutch_marks, look, onward, pull, shaft_mark
from diagnostics.evidence.coil import (
    coil_marks,
    current_sentence,
    current_strip,
)
from diagnostics.evidence.coil_figure import WARMTH
from diagnostics.evidence.drives import CLUTCH_NOT_SURE, NO_CLUTCH
from diagnostics.evidence.fields import Answer, Choice, Number, Span, SpanOn, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.problems import FieldGate
from diagnostics.evidence.readings import Readings, taps
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.worked_out import WorkedOut

UPSTREAM = "Relay, fuse, switches and wiring were bypassed: not tested by this step."
YES_NO = (Answer("yes", "Yes"), Answer("no", "No"), Answer("cannot_tell", "Can’t tell"))
RUNNING = When("engine", ("running",))
OFF = When("engine", ("off", ""))

VOLTS_12 = Span(
    0, 16, -60, 60,
    "Outside what a 12 V car shows.",
    "Above 60 V is no clutch coil on a battery: that is high voltage, or a slipped point.",
)  # fmt: skip
VOLTS_UNTOLD = Span(
    0, 16, -60, 60,
    "Outside what a 12 V car shows, and the system voltage is not noted.", VOLTS_12.impossible,
)  # fmt: skip
VOLTS_24 = Span(0, 32, -60, 60, "Outside what a 24 V vehicle shows.", VOLTS_12.impossible)
AMPS = Span(
    -0.1, 10, -100, 100,
    "Outside 0–10 A: the jumper lead is fused at 10 A.",
    "No jumper fused at 10 A carries that: a slipped point, or mA read as A.",
)  # fmt: skip

FIELDS = (
    Choice(
        "engine", "Engine", "Running only after the hub was turned by hand.",
        (Answer("off", "Off"), Answer("running", "Running")),
        preset="off", condition=True,
    ),
    Choice(
        "hub", "Hub turned by hand before?", "Engine off, turn the hub, not the pulley.",
        (Answer("free", "Free"), Answer("not_free", "Not free"), Answer("not_done", "Not done")),
        when=(RUNNING,), why_not="Asked only with the engine running.", condition=True,
    ),
    Choice(
        # 0.1 V under load: trade articles. The bulb: common practice, no source.
        "ground", "Ground at the coil",
        "Good, without current: a 21 W bulb from battery plus to that very ground lights as bright"
        " as at battery minus (an LED lamp does not show it). With current, bulb or coil: at most"
        " 0.1 V from that ground to battery minus. One wire only: the coil’s case.",
        (Answer("good", "Good"), Answer("bad", "Bad"), Answer("not_checked", "Not checked")),
        condition=True,
    ),
    Number(
        "volts", "Voltage at the coil’s pins", "Read while the jumper is on and the coil connected:"
        " under load.", "V", VOLTS_12, ("mV",),
        (SpanOn({"voltage": ("24",)}, VOLTS_24), SpanOn({"voltage": ("",)}, VOLTS_UNTOLD)),
        instrument="dc_volts",
    ),
    Number("amps", "Current", "Clamp or in line.", "A", AMPS, ("mA",), instrument="dc_amps"),
    Number(
        "temperature", "Coil temperature, if read",
        "At the coil. Left empty it counts as not read, and the expected band is wide.",
        "°C", WARMTH, ("°F",), instrument="thermometer", condition=True,
    ),
    Choice(
        "magnet", "Magnet felt at the pulley face?", "A steel tip held near the face is pulled.",
        YES_NO,
    ),
    Choice(
        "holds", "Does the clutch take hold?", "Slipping shows only with the engine running.",
        (
            Answer("yes", "Yes"), Answer("no", "No"), Answer("drops_out", "Drops out"),
            Answer("slips", "Slips", (RUNNING,), "Slipping shows only with the engine running."),
            Answer("cannot_tell", "Can’t tell"),
        ),
    ),
    Choice(
        "lets_go", "Lets go at once?", "When the jumper is taken off.", YES_NO,
        when=(When("holds", ("yes",)),), why_not="Asked only after it took hold.",
    ),
    Choice(
        "pushed", "Takes hold when pushed?",
        "Engine off. Push the plate with a stick, not with a finger.", YES_NO,
        when=(When("holds", ("no",)), OFF),
        why_not="Asked only after it did not take hold, with the engine off.",
    ),
    Choice(
        "fuse", "Did the jumper’s fuse blow?", "Only if nothing happened.",
        (Answer("no", "No"), Answer("yes", "Yes, it blew")),
        when=(When("holds", ("no", "cannot_tell")), When("magnet", ("no", "cannot_tell", ""))),
        why_not="Asked only after it did not take hold and no magnet was felt.",
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("takes_hold", "takes hold by itself", normal=True),
    OutcomeWords("takes_hold_slow_release", "takes hold, does not let go at once"),
    OutcomeWords("slips", "slips with the engine running"),
    OutcomeWords("drops_out", "takes hold and drops out"),
    OutcomeWords("holds_when_pushed", "holds only when pushed"),
    OutcomeWords("magnet_no_hold", "coil powered, plate does not come"),
    OutcomeWords("current_no_pull", "current flows, no pull felt, plate does not come"),
    OutcomeWords("does_not_hold", "plate does not come, current not told"),
    OutcomeWords("no_current", "no current, power and ground shown"),
    OutcomeWords("no_current_unsure", "no current, power or ground not shown"),
    OutcomeWords("low_current", "draws less than expected"),
    OutcomeWords("high_current", "draws more than expected"),
    OutcomeWords("current_only", "current as expected, taking hold not told", normal=True),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)

REMARKS = (
    SystemRule(
        {"switched_side": ("ground",)},
        "Switched on the ground side: one wire of the plug carries battery power whenever A/C is"
        " asked for. Find which pin is which before the jumper goes on.",
    ),
    SystemRule({"voltage": ("24",)}, "24 V: judged by the vehicle’s own specification only."),
    SystemRule(
        {"voltage": ("",)},
        "System voltage not noted: taken as 12 V up to 16 V; above that nothing is judged.",
    ),
)


def _code(seen: Seen) -> str:
    """The outcome: the first that fits, the gravest first."""
    coil, holds = seen.coil, seen.holds
    powered, not_held = not seen.no_power, holds == "no"
    magnet_unfelt = seen.tapped("magnet") == "no"
    return next(
        code
        for code, fits in (
            ("high_current", coil.grade == "high" or seen.blown),
            ("takes_hold_slow_release", holds == "yes" and seen.tapped("lets_go") == "no"),
            ("takes_hold", holds == "yes"),
            ("slips", holds == "slips"),
            ("drops_out", holds == "drops_out"),
            ("no_current", coil.is_open(seen.ground)),
            ("no_current_unsure", coil.grade == "none" and powered),
            ("low_current", coil.grade == "low"),
            ("nothing_told", seen.no_power or (coil.weak and not_held)),
            ("holds_when_pushed", not_held and seen.tapped("pushed") == "yes"),
            ("current_no_pull", not_held and coil.flows and magnet_unfelt),
            ("magnet_no_hold", not_held and (coil.flows or seen.magnet)),
            ("does_not_hold", not_held and coil.volts is not None),
            ("current_only", coil.grade == "expected"),
            ("nothing_told", True),
        )
        if fits
    )


_SENTENCES = {
    "takes_hold": "The plate takes hold by itself.",
    "takes_hold_slow_release": "The plate takes hold but does not let go at once.",
    "slips": "The clutch slips with the engine running.",
    "drops_out": "The plate takes hold and drops out again.",
    "holds_when_pushed": "The plate does not come by itself; it holds when pushed.",
    "magnet_no_hold": "The plate does not come by itself.",
    "current_no_pull": "No pull is felt and the plate does not come by itself.",
    "does_not_hold": "The plate does not come by itself.",
    "current_only": "Whether the clutch takes hold was not told.",
}


FUSE_BLEW = "The jumper’s fuse blew."


def _sentence(seen: Seen, code: str) -> str:
    if seen.fuse_blew:
        return FUSE_BLEW if code == "high_current" else f"{FUSE_BLEW} {_shown(seen, code)}"
    return _shown(seen, code)


def _shown(seen: Seen, code: str) -> str:
    if code == "nothing_told":
        return _nothing(seen)
    by_hold = {"yes": "takes_hold", "no": "does_not_hold"}
    return _SENTENCES.get(code) or _SENTENCES[by_hold.get(seen.holds, "current_only")]


def _nothing(seen: Seen) -> str:
    if seen.no_power:
        return "No power reached the coil, so the clutch was not tested."
    if seen.coil.weak and seen.holds == "no":
        return (
            "That the plate does not come at this voltage says little: the pull falls with its"
            " square."
        )
    if seen.holds == "no":
        return "The plate did not come, but nothing shows that power reached the coil."
    return "Nothing is shown yet."


def _notes(seen: Seen, code: str) -> tuple[str, ...]:
    notes: list[str] = []
    if seen.coil.dead and (seen.coil.flows or seen.magnet):
        shown = "current flows" if seen.coil.flows else pull(seen)
        notes.append(
            f"Next to no voltage was read, yet {shown}: the two do not fit together. Read the"
            " voltage again at the coil’s own pins."
        )
    notes += _before_the_coil(seen, code)
    if seen.engine == "running" and code not in ("takes_hold", "nothing_told"):
        notes.append("Engine off and key away before anything is measured or turned by hand.")
    if seen.at_odds:
        notes.append(
            f"No current was read, yet {pull(seen)}: the two do not fit together. Read the"
            " current again, the meter in the coil’s own lead."
        )
    if any(one and one.si < 0 for one in (seen.coil.volts, seen.coil.amps)):
        notes.append("A minus sign: leads or clamp stood the other way round. The amount counts.")
    if seen.coil.grade == "high" and seen.holds == "yes":
        notes.append("Shorted turns can hold normally and still end relay or driver.")
    return tuple(notes)


def _before_the_coil(seen: Seen, code: str) -> Iterator[str]:
    """A blown fuse that does not fit; a bad ground or weak supply that no mark tells."""
    coil, told = seen.coil, []
    if coil.volts and coil.powered:
        told.append(("voltage", coil.volts.shown))
    if coil.amps and coil.flows and coil.grade != "high":
        told.append(("current", coil.amps.shown))
    if seen.fuse_blew and told:
        values = " and ".join(shown for _name, shown in told)
        again = " and the ".join(name for name, _shown in told)
        yield (
            f"The jumper’s fuse blew, yet there stood {values} at the coil. Both cannot be true at"
            f" one moment: read the {again} again with a new fuse."
        )
    if code.startswith("takes_hold") and seen.ground == "bad":
        yield "The ground was found bad, although the clutch took hold: put it right too."
    asked = coil.asks(seen.ground)
    if code == "nothing_told" and asked and asked not in onward(seen, code):
        yield asked


def _not_tested(seen: Seen) -> tuple[str, ...]:
    missing = [UPSTREAM]
    if seen.coil.volts is None:
        what = "at the coil’s pins" if seen.coil.grade == "none" else "under load"
        missing.append(f"Voltage {what}: {_no_reading(seen, 'volts')}")
    if seen.coil.amps is None:
        missing.append(f"Current: {_no_reading(seen, 'amps')}")
    if seen.holds in ("", "cannot_tell"):
        missing.append("Whether the clutch takes hold: not told.")
    if seen.holds == "yes" and seen.tapped("lets_go") in ("", "cannot_tell"):
        missing.append("Whether it lets go at once: not told.")
    if seen.tapped("engine") != "running":
        missing.append("Slipping: not tested with the engine off.")
    return tuple(missing)


def _no_reading(seen: Seen, name: str) -> str:
    return "kept as typed, not used." if name in seen.coil.aside else "no reading to go by."


def _untold(seen: Seen) -> Meaning:
    """More than 16 V, and the system's voltage not noted: neither 12 V nor 24 V is assumed."""
    sentence = "Above 16 V, and the system voltage is not noted: nothing is judged."
    first = "Note the system voltage, 12 V or 24 V, with the car."
    outcome = Outcome("nothing_told", sentence, (), _not_tested(seen), carries=False)
    return Meaning(outcome, f"{current_sentence(seen.coil)}.", onward=(first,))


def _read(readings: Readings, around: Circumstances) -> Meaning:
    seen = look(readings, around.system)
    if seen.untold:
        return _untold(seen)
    code = _code(seen)
    carries = code != "nothing_told"
    marks: tuple[Mark, ...] = ()
    if carries:
        of_coil = (
            ()
            if seen.blown
            else coil_marks(seen.coil, pull(seen) if seen.magnet else "", seen.ground)
        )
        marks = (*of_coil, *clutch_marks(seen, code), shaft_mark(seen, code))
    expected = seen.coil.expected
    basis = expected.basis if expected and seen.coil.current else ""
    outcome = Outcome(code, _sentence(seen, code), marks, _not_tested(seen), carries, basis)
    felt = ", and the magnet is felt" if seen.tapped("magnet") == "yes" else ""
    lead = current_sentence(seen.coil) + f"{felt}."
    band = expected.words if expected else ""
    if not expected and seen.voltage == "24" and seen.coil.volts:
        band = "24 V: judged by the vehicle’s own figure only, and none is noted."
    return Meaning(
        outcome, lead, current_strip(seen.coil), band, _notes(seen, code), onward(seen, code)
    )


def _at_odds(readings: Readings, _around: Circumstances) -> Iterator[tuple[str, str]]:
    """A clutch that takes hold without a magnet."""
    told = taps(readings)
    holds = told.get("holds") == "yes" or told.get("pushed") == "yes"
    if told.get("magnet") == "no" and holds:
        yield "magnet", "No magnet was felt, yet the clutch takes hold: feel for it once more."


COIL_POWER = Kind(
    name="coil_power",
    title="Power straight at the coil",
    question="Does the clutch take hold with battery power straight at its coil?",
    version=2,
    minutes=4,
    about="clutch",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("coil plug reached",),
    at_odds=_at_odds,
    cautions=(
        "Engine off; key away: a hybrid or stop-start engine can start by itself.",
        "Coil unplugged; jumper fused at 10 A; mind the polarity (diode).",
        "Hands clear of belt and fan.",
        "Running only with a free hub, never with the loop empty or under vacuum.",
        "Local codes and licensed practice come first.",
    ),
    gates=(
        FieldGate(
            "hub_before_power",
            (RUNNING,),
            "hub",
            ("free",),
            "Not with the engine running: turn the hub by hand first, and only a free hub is run.",
            "Power was put on with the engine running, and in that step the hub was not told as"
            " turned by hand and found free.",
        ),
    ),
    orders=("charge_first",),  # its own gate asks for the hub
    orders_for=(RUNNING,),
    waits=False,  # most of it is done with the engine off
    bars=NO_CLUTCH,
    asks_first=CLUTCH_NOT_SURE,
    remarks=REMARKS,
    works_out=(
        WorkedOut("volts", "Should draw", "draws", ("volts", "temperature"), "A", least=1),
        WorkedOut("amps", "Coil as warm as it is", "ohm", ("volts", "amps"), "Ω"),
        WorkedOut(
            "temperature", "Coil at 20\u00a0°C", "ohm_at_20", ("volts", "amps", "temperature"), "Ω"
        ),
    ),
    fine=Fine(
        "Fine: takes hold at once, lets go at once",
        "sets the taps below; volts and amps stay yours to type",
        {"holds": "yes", "lets_go": "yes"},  # what its words say, and nothing nobody checked,
    ),
)
