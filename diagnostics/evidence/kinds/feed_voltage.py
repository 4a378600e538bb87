"""Voltage that reaches the coil's plug when cold is asked for, while something carries current.

Only voltage at the plugged-in coil while it carries current clears what lies before it: a rotten
joint shows full voltage to a meter alone.
"""

from collections.abc import Iterator

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.coil import NO_POWER, is_untold
from diagnostics.evidence.drives import CLUTCH_NOT_SURE, NO_CLUTCH
from diagnostics.evidence.fields import Answer, Choice, Number, Span, SpanOn, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Readings, number
from diagnostics.evidence.supply import LAMPS, Supply, lamp_words, resistances, supply
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.under_load import (
    AMPS,
    CARRIES,
    CAUTIONS,
    FEED_LIMIT,
    NO_AMPS,
    NOT_JUDGED_24,
    NOT_MEASURED,
    YES_NO,
    amount,
    currents_at_odds,
    drop_between,
    drop_strip,
    grade_sentence,
    lead_notes,
    load_of,
    no_load_sentence,
)
from diagnostics.evidence.worked_out import WorkedOut

LOADED = When("load", ("", "coil", *LAMPS))
COIL_NOT_TESTED = "Coil and clutch: not tested by this step."
FED_ALWAYS = "Fuse and feed wire"
UPSTREAM = "Command, fuse, relay, switches and feed wire"
LOSS = {"feed": "Feed: wire, joints, fuse, relay or switch contacts", "both": "Feed or ground side"}
ALWAYS_THERE = (
    "Switched on the ground side: the feed stands at the plug all the time, so its voltage says"
    " nothing of the command."
)
GROUND_FED = SystemRule({"switched_side": ("ground",)}, ALWAYS_THERE)

GRADED = ("full", "full_not_coil", "edge", "cannot_tell", "above", "far", "far_feed")

_IMPOSSIBLE = "Above 60 V is no clutch circuit on a battery: that is high voltage, or a slip."
VOLTS = Span(0, 16, -60, 60, "Outside what a 12 V car shows.", _IMPOSSIBLE)
VOLTS_ON = (
    SpanOn(
        {"voltage": ("24",)},
        Span(0, 32, -60, 60, "Outside what a 24 V vehicle shows.", _IMPOSSIBLE),
    ),
    SpanOn(
        {"voltage": ("",)},
        Span(
            0, 16, -60, 60,
            "Outside what a 12 V car shows, and the system voltage is not noted.", _IMPOSSIBLE,
        ),
    ),
)  # fmt: skip

FIELDS = (
    Choice(
        "load", "What loads the feed?",
        "Best is the coil itself, plugged in. A filament lamp stands in for it, the plug off; an"
        " LED test light or the meter alone draws nothing.",
        (
            Answer("coil", "Coil, plugged in"), Answer("lamp_21", "Lamp 21 W"),
            Answer("lamp_5", "Lamp 5 W"), Answer("lamp_55", "Lamp 55 W"),
            Answer("led", "LED test light"), Answer("none", "Nothing"),
        ),
        condition=True,
    ),
    Choice(
        "commanded", "Cold asked for while you read?",
        "A/C on, blower on, engine as it has to be.", YES_NO, condition=True,
    ),
    Number(
        "volts", "Voltage at the coil’s plug", "Probe from behind, the plug on its place.",
        "V", VOLTS, ("mV",), VOLTS_ON, instrument="dc_volts",
    ),
    Number(
        "battery", "Voltage at the battery’s posts", "Same meter, same moment, still loaded.",
        "V", VOLTS, ("mV",), VOLTS_ON, instrument="dc_volts",
    ),
    Choice(
        "black", "Where was the black lead?",
        "On the coil’s other pin it takes in the ground side too.",
        (
            Answer("pin", "Coil’s other pin"), Answer("minus", "Battery minus"),
            Answer("metal", "Engine or body metal"),
        ),
        condition=True,
    ),
    Choice(
        CARRIES.name, CARRIES.question, CARRIES.hint, CARRIES.answers, condition=True,
        when=(LOADED,), why_not="Asked only with the coil or a filament lamp as load.",
    ),
    AMPS,
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("full", "full voltage at the plugged-in coil, current flowing", normal=True),
    OutcomeWords(
        "full_not_coil", "full voltage under load, not shown at the plugged-in coil", normal=True
    ),
    OutcomeWords("edge", "loss at the limit of 0.20 to 0.30\u00a0V"),
    OutcomeWords("cannot_tell", "loss cannot be told with this instrument"),
    OutcomeWords("above", "more than 0.30\u00a0V lost on the way"),
    OutcomeWords("far", "1\u00a0V or more lost on the way"),
    OutcomeWords("far_feed", "1\u00a0V or more lost on the feed"),
    OutcomeWords("weak", "weak voltage under load"),
    OutcomeWords("stands", "voltage stands under load, loss not told", normal=True),
    OutcomeWords("no_voltage", "no voltage at the plug where some should stand"),
    OutcomeWords("uncommanded", "voltage although cold is not asked for"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    yield from currents_at_odds(readings)
    if readings.get("load") in ("led", "none") and load_of(readings, around.system).flows == "yes":
        yield "load", "Current was read, yet nothing that draws any was named as load."
    volts, battery = number(readings, "volts"), number(readings, "battery")
    by_coil = readings.get("load") == "coil"
    flows = load_of(readings, around.system).flows == "yes"
    if volts and abs(volts.si) < NO_POWER and by_coil and flows:
        yield "volts", f"{volts.shown} drives no clutch coil’s current: where was it read?"
    if battery and abs(battery.si) < NO_POWER:
        yield "battery", f"{battery.shown} at the battery’s posts: look at the meter and its leads."
    if volts and battery:
        drop = drop_between(battery, volts, FEED_LIMIT)
        if drop.volts.value + drop.volts.expanded < -FEED_LIMIT.low:
            yield "battery", "More voltage at the coil than at the battery: not one moment."


def _code(seen: Supply) -> str:
    ground_fed = seen.switched_side == "ground"
    if seen.dead:
        stands = seen.commanded == "yes" or (ground_fed and seen.stretch == "feed")
        return "no_voltage" if stands else "nothing_told"
    if seen.commanded == "no":
        stray = not seen.driven and (ground_fed or seen.weak)
        return "nothing_told" if stray else "uncommanded"
    return _loaded(seen) if seen.carried and seen.voltage != "24" else "nothing_told"


def _loaded(seen: Supply) -> str:
    """The outcome of a voltage read while current flowed; a weak battery gives no full one."""
    if seen.drop is None:
        return "weak" if seen.weak else "stands"
    if seen.battery_weak and not seen.drop.outside:
        return "weak"
    if seen.drop.grade == "within":
        return "full" if seen.by == "coil" else "full_not_coil"
    feed = seen.drop.grade == "far" and seen.stretch == "feed"
    return "far_feed" if feed else seen.drop.grade


def _nothing(seen: Supply) -> str:
    if seen.dead:
        asked = "not asked for" if seen.commanded == "no" else "not said to be asked for"
        return f"No voltage, and cold was {asked}: nothing is made of it."
    if seen.commanded == "no":
        stray = "Cold was not asked for, and the voltage is too weak to be the feed’s own."
        return ALWAYS_THERE if seen.switched_side == "ground" else stray
    if seen.by in ("led", "none"):
        return (
            "Voltage without a load shows nothing: a rotten joint shows full voltage to a meter"
            " alone."
        )
    if seen.voltage == "24" and seen.load.flows in ("yes", "little"):
        return NOT_JUDGED_24
    return no_load_sentence(seen.load, "a voltage")


_BETWEEN_PINS = {  # by whether the black lead was told to be on the other pin
    True: "No voltage stands between the coil’s two pins.",
    False: "No voltage was read at the coil’s plug.",
}


def _sentence(seen: Supply, code: str) -> str:
    where = "on the way to the coil" if seen.stretch == "feed" else "on feed and ground together"
    if seen.drop and code in GRADED:
        return grade_sentence(seen.drop, FEED_LIMIT, where)
    return {
        "weak": "That is weak for a clutch coil, and so is the battery."
        if seen.battery_weak
        else "That is weak for a clutch coil; how much of it is lost on the way is not told.",
        "stands": "The voltage stands under load; how much is lost on the way is not told.",
        "no_voltage": "No voltage reaches the coil’s plug."
        if seen.stretch == "feed"
        else _BETWEEN_PINS[seen.black == "pin"],
        "uncommanded": "Current flows through the coil although cold is not asked for."
        if seen.driven
        else "Voltage stands at the coil’s plug although cold is not asked for.",
    }.get(code) or _nothing(seen)


def _cleared(seen: Supply) -> str:
    """What voltage at the plugged-in coil under current clears: relay and switches only where read.

    They lie in the feed, or in the ground side; across both pins either is taken in.
    """
    if seen.switched_side != "feed" and seen.black != "pin":
        return FED_ALWAYS
    return UPSTREAM if seen.commanded == "yes" else UPSTREAM.removeprefix("Command, ").capitalize()


def _marks(seen: Supply, code: str) -> Iterator[Mark]:
    if code == "full":
        how = f"ruled out at this moment, {amount(seen.volts)} at the plugged-in coil"
        yield Mark("ruled_out", _cleared(seen), f"{how}, {seen.load.words}.")
        if seen.black == "pin":
            yield Mark("ruled_out", "Ground side", "ruled out as a loss: read across both pins.")
    elif code == "full_not_coil":
        lamp = "a lamp’s current was carried" if seen.by in LAMPS else "what drew it is not told"
        words = f"{lamp}; read it again with the coil plugged in."
        yield Mark("open", UPSTREAM, words)
    elif code in ("above", "far", "far_feed"):
        words = "points here; this step cannot tell them apart. Trace the drop under current."
        yield Mark("likely", LOSS[seen.stretch], words)
    elif code in ("edge", "cannot_tell", "weak", "stands"):
        words = "how much is lost is not settled. Read the drop itself under current."
        yield Mark("open", LOSS[seen.stretch], words)
    elif code == "no_voltage":
        yield from _dead_marks(seen)
    elif code == "uncommanded":
        yield _uncommanded(seen)


def _dead_marks(seen: Supply) -> Iterator[Mark]:
    """Read against battery minus it is the feed; across both pins an open ground reads the same."""
    ground_fed = seen.switched_side == "ground"
    apart = "points here; this step cannot tell them apart."
    if seen.stretch != "feed":
        words = f"{apart} An open ground reads so as well, while the feed stands."
        named = "Fuse, feed wire or ground open, or the ground not switched"
        if not ground_fed:
            named = "Not commanded, or fuse, relay, feed wire or ground open"
        yield Mark("likely", named, words)
    elif ground_fed:
        yield Mark("likely", "Fuse or feed wire open", "points here; it is fed all the time.")
    else:
        words = f"{apart} Look at the fuse, then the relay."
        yield Mark("likely", "Not commanded, or fuse, relay or feed wire open", words)


def _uncommanded(seen: Supply) -> Mark:
    subject = "Relay or driver stuck on, or a short around it"
    if seen.driven or seen.switched_side:
        words = "points here, if nothing else asks for it, such as the windshield’s defrost."
        return Mark("likely", subject, words)
    words = "cannot be named while the switched side is not noted: switched on the ground side,"
    return Mark("open", subject, f"{words} the feed stands there all the time.")


NEXT = {
    "full": "Power reaches the coil: look at coil, gap and clutch next.",
    "full_not_coil": "Plug the coil in and read again.",
    "edge": "Read the drop over the feed, current flowing.",
    "cannot_tell": "Read the drop over the feed directly, on the meter’s mV range.",
    "above": "Read the drop stretch by stretch, feed and ground, current flowing.",
    "far": "Read the drop stretch by stretch, feed and ground, current flowing.",
    "far_feed": "Read the drop stretch by stretch along the feed, current flowing.",
    "weak": "Read the battery at the same moment, then the drop over the feed.",
    "stands": "Read the battery at the same moment.",
    "no_voltage": "Look at the fuse, then see whether the relay is commanded.",
    "uncommanded": "Pull the relay: if it stays, look for a short on the side that is switched.",
    "nothing_told": "Plug the coil in, ask for cold, see that current flows, and read again.",
}


CHARGE = "Charge the battery first, then read again."
TO_MINUS = (
    "Read the coil’s plus pin against battery minus: voltage there points at the ground side, none"
    " at the feed."
)


def _onward(seen: Supply, code: str) -> Iterator[str]:
    """What comes next; a dead plug is first read against battery minus."""
    if seen.battery_weak:
        yield CHARGE
    if code == "no_voltage" and seen.stretch != "feed":
        yield TO_MINUS
    elif code == "no_voltage" and seen.switched_side == "ground":
        yield "Look at the fuse, then along the feed wire."
    elif code != "weak" or not seen.battery_weak:
        yield NEXT[code]


def _not_tested(seen: Supply, code: str) -> Iterator[str]:
    if code != "full":
        yield f"{UPSTREAM}: {'not tested' if code == 'nothing_told' else 'not cleared'}."
    elif _cleared(seen) == FED_ALWAYS:
        yield "Command, relay and switches: not cleared, they may lie on the ground side."
    elif _cleared(seen) != UPSTREAM:
        yield "Command: not cleared, it was not said that cold was asked for."
    if not seen.black:
        yield "Where the black lead was is not told: feed and ground side are not told apart."
    elif seen.black != "pin":
        yield "Ground side of the coil: not tested by this step."
    yield COIL_NOT_TESTED


def _notes(seen: Supply, code: str) -> Iterator[str]:
    if seen.battery and seen.battery_weak:
        weak = f"{amount(seen.battery)} at its posts: the battery itself is weak"
        yield f"{weak}, and the pull falls with the voltage’s square."
    if seen.drop and code in GRADED:
        told = lead_notes(seen.volts, seen.drop, seen.load)
        yield from (
            note for note in told if not (seen.by in LAMPS and note in (NO_AMPS, NOT_MEASURED))
        )


def _band(seen: Supply, code: str) -> str:
    if seen.drop is None or code not in GRADED:
        return ""
    same = "one meter for both readings, so only their difference counts"
    return f"Above {FEED_LIMIT.words} trace it ({FEED_LIMIT.basis}); {same}."


def _lead(seen: Supply) -> str:
    by = f", {lamp_words(seen.by)} as load" if seen.by in LAMPS else ""
    told = f"{amount(seen.volts)} at the coil’s plug{by}, {seen.load.words}"
    return f"{told}; {amount(seen.battery)} at the battery." if seen.battery else f"{told}."


def _without(sentence: str, *notes: str) -> Meaning:
    missing = (f"{UPSTREAM}: not tested.", COIL_NOT_TESTED)
    outcome = Outcome("nothing_told", sentence, (), missing, carries=False)
    return Meaning(outcome, notes=notes, onward=(NEXT["nothing_told"],))


def _read(readings: Readings, around: Circumstances) -> Meaning:
    volts = number(readings, "volts")
    if volts is None:
        return _without("The voltage at the coil’s plug was not read.")
    if is_untold(around.system, volts):
        return _without(
            "Above 16\u00a0V, and the system voltage is not noted: nothing is judged.",
            "Note the system voltage, 12\u00a0V or 24\u00a0V, with the car.",
        )
    seen = supply(readings, volts, around)
    code = _code(seen)
    outcome = Outcome(
        code,
        _sentence(seen, code),
        tuple(_marks(seen, code)),
        tuple(_not_tested(seen, code)),
        code != "nothing_told",
        "general" if code in GRADED else "",
    )
    return Meaning(
        outcome,
        _lead(seen),
        drop_strip(seen.drop, FEED_LIMIT) if seen.drop and outcome.basis else None,
        _band(seen, code),
        tuple(_notes(seen, code)),
        tuple(_onward(seen, code)),
        resistances(seen),
    )


FEED_VOLTAGE = Kind(
    name="feed_voltage",
    title="Voltage at the coil’s plug",
    question="Does full voltage reach the coil when cold is asked for, with current flowing?",
    version=1,
    minutes=4,
    about="command",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("coil plug reached", "A/C asked for"),
    cautions=CAUTIONS,
    bars=NO_CLUTCH,
    asks_first=CLUTCH_NOT_SURE,
    remarks=(
        GROUND_FED,
        SystemRule({"voltage": ("24",)}, NOT_JUDGED_24),
        SystemRule(
            {"voltage": ("",)},
            "System voltage not noted: taken as 12\u00a0V up to 16\u00a0V.",
        ),
    ),
    works_out=(WorkedOut("battery", "Lost on the way", "lost", ("battery", "volts"), "V"),),
    at_odds=_at_odds,
)
