"""The relay of the clutch: does it move, do its contacts carry, does another one cure it."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import CLUTCH_NOT_SURE, NO_CLUTCH
from diagnostics.evidence.fields import Answer, Choice, Number, Span, When
from diagnostics.evidence.findings import Mark, Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.problems import Gate
from diagnostics.evidence.readings import Readings, number, taps
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.under_load import (
    DROP,
    DROP_ON,
    FEED_LIMIT,
    NOT_JUDGED_24,
    YES_NO,
    Drop,
    all_lost,
    drop_read,
    grade_sentence,
)

PLUG_IN = When("built", ("plug_in",))
NOT_PLUG_IN = "Only a plug-in relay: one that is solid-state or inside a control unit cannot be."
COIL_FIRST = (
    "Measure the clutch coil’s resistance before a relay goes in: shorted turns end a relay or"
    " driver, and the next one too."
)
BRIDGED = When("bridged", ("takes_hold", "nothing"))

FIELDS = (
    Choice(
        "built", "What relay is it?", "",
        (
            Answer("plug_in", "Plug-in"), Answer("inside", "Solid-state, or inside a unit"),
            Answer("cannot_tell", "Can’t tell"),
        ),
        condition=True,
    ),
    Choice(
        "click", "Clicks when cold is asked for?", "Felt or heard at this relay, not at its"
        " neighbor. A solid-state one makes no sound.",
        YES_NO, when=(When("built", ("plug_in", "cannot_tell", "")),),
        why_not="A solid-state relay makes no sound; one inside a unit cannot be felt alone.",
    ),
    Choice(
        "output", "Power at its output then, under load?",
        "A filament lamp lights there, or the plugged-in coil draws.",
        (
            Answer("yes", "Yes"), Answer("no", "No"), Answer("not_tried", "Not tried"),
        ),
    ),
    Choice(
        "lets_go", "Output dead again with A/C off?", "",
        (Answer("yes", "Yes"), Answer("no", "No, stays on"), Answer("not_tried", "Not tried")),
    ),
    Number(
        "drop", "Drop across its contacts, current flowing", "", "V", DROP, ("mV",), DROP_ON,
        when=(When("output", ("yes",)),), instrument="dc_volts",
        why_not="Asked only where power comes out under load: without current it shows nothing.",
    ),
    Choice(
        "coil", "The relay’s own coil, pulled", "Between its two coil pins.",
        (
            Answer("reads", "Has a resistance"), Answer("open", "Open"),
            Answer("not_tried", "Not measured"),
        ),
        when=(PLUG_IN,), why_not=NOT_PLUG_IN,
    ),
    Number(
        "coil_ohm", "Its resistance", "", "Ω",
        Span(
            20, 1000, 0, 100_000_000,
            "Outside what coils of plug-in relays usually read (from memory; not a limit).",
            "A resistance below zero: zero the meter.",
        ),
        ("kΩ",), when=(When("coil", ("reads",)),),
        why_not="Asked only where its coil has a resistance.", instrument="ohmmeter",
    ),
    Choice(
        "swapped", "Swapped with a like one?", "Same pins, same diagram; one that works elsewhere.",
        (
            Answer("works", "Now it works"), Answer("same", "No change"),
            Answer("not_swapped", "Not swapped"),
        ),
        when=(PLUG_IN,), why_not=NOT_PLUG_IN,
    ),
    Choice(
        "bridged", "Contacts bridged at the socket?",
        "Relay pulled, engine off, jumper fused at 10 A, between feed and output only.",
        (
            Answer("takes_hold", "Clutch takes hold"), Answer("nothing", "Nothing happens"),
            Answer("not_bridged", "Not bridged"),
        ),
        when=(PLUG_IN,), why_not=NOT_PLUG_IN,
    ),
    Choice(
        "engine", "Engine, when it was bridged", "",
        (Answer("off", "Off"), Answer("running", "Running")),
        preset="off", when=(BRIDGED,), why_not="Asked only when it was bridged.", condition=True,
    ),
    Choice(
        "renewed", "Replaced before, or by you?", "Changed on the car? Record the change as well.",
        (Answer("no", "No"), Answer("yes", "Yes"), Answer("cannot_tell", "Can’t tell")),
    ),
    Choice(
        "clutch_coil", "Clutch coil’s resistance", "Measured before, both polarities.",
        (
            Answer("inside", "Inside"), Answer("too_low", "Too low"),
            Answer("not_measured", "Not measured"),
        ),
        condition=True,
    ),
)  # fmt: skip

OUTCOMES = (
    OutcomeWords("carries", "clicks or switches, and its output carries", normal=True),
    OutcomeWords("clicks_only", "clicks; its contacts were not shown to carry", normal=True),
    OutcomeWords("loses", "contacts lose volts under load"),
    OutcomeWords("no_output", "moves, and no power comes out"),
    OutcomeWords("does_not_move", "does not move when cold is asked for"),
    OutcomeWords("stuck_on", "stays on with A/C off"),
    OutcomeWords("coil_open", "its own coil is open"),
    OutcomeWords("swap_cures", "works with a like one"),
    OutcomeWords("swap_same", "no change with a like one"),
    OutcomeWords("bridge_works", "clutch takes hold with the contacts bridged"),
    OutcomeWords("bridge_nothing", "nothing happens with the contacts bridged"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)


@dataclass(frozen=True)
class Seen:
    """Answers by name, and the volts lost across its contacts, None without current."""

    told: dict[str, str]
    drop: Drop | None

    def is_told(self, name: str, *codes: str) -> bool:
        """Whether the answer is one of these."""
        return self.told.get(name, "") in codes


def _code(seen: Seen) -> str:
    is_told, drop = seen.is_told, seen.drop
    return next(
        code
        for code, fits in (
            ("coil_open", is_told("coil", "open")),
            ("stuck_on", is_told("lets_go", "no")),
            ("swap_cures", is_told("swapped", "works")),
            ("loses", drop is not None and drop.outside),
            ("bridge_works", is_told("bridged", "takes_hold")),
            ("carries", is_told("output", "yes") or (drop is not None and drop.grade == "within")),
            ("bridge_nothing", is_told("bridged", "nothing")),
            ("swap_same", is_told("swapped", "same")),
            ("no_output", is_told("output", "no") and is_told("click", "yes")),
            ("does_not_move", is_told("click", "no")),
            ("clicks_only", is_told("click", "yes")),
            ("nothing_told", True),
        )
        if fits
    )


SENTENCES = {
    "carries": "The relay’s output carries current when cold is asked for.",
    "clicks_only": "The relay clicks; that its contacts carry was not shown.",
    "no_output": "The relay clicks and no power comes out of it.",
    "does_not_move": "The relay does not move when cold is asked for.",
    "stuck_on": "The relay’s output stays on with A/C off.",
    "coil_open": "The relay’s own coil is open.",
    "swap_cures": "It works with a like relay in its place.",
    "swap_same": "A like relay in its place changes nothing.",
    "bridge_works": "With the relay’s contacts bridged the clutch takes hold.",
    "bridge_nothing": "With the relay’s contacts bridged nothing happens.",
    "nothing_told": "Nothing is shown of the relay yet.",
}
NOT_COMMANDED = "Not commanded: control unit, pressure switch, fuse of the relay’s coil"
MARKS: dict[str, tuple[Mark, ...]] = {
    "carries": (Mark("ruled_out", "Relay open", "ruled out at this moment: its output carries."),),
    "clicks_only": (
        Mark("open", "Relay’s contacts", "a click tells of its coil, not of its contacts."),
    ),
    "no_output": (
        Mark("open", "Relay’s contacts, or the feed into them", "cannot be told apart yet."),
    ),
    "does_not_move": (
        Mark("open", f"Relay’s coil, or {NOT_COMMANDED[0].lower()}{NOT_COMMANDED[1:]}",
             "cannot be told apart yet."),
    ),
    "stuck_on": (
        Mark("likely", "Relay stuck on, or its coil held on", "points here; a short around it looks"
             " the same while it is in its place."),
    ),
    "coil_open": (Mark("likely", "Relay", "its own coil reads open."),),
    "swap_cures": (
        Mark("likely", "Relay", "points here; moving it may also have cured a loose socket."),
    ),
    "swap_same": (Mark("open", "Relay", "less likely; the like one was not shown to be good."),),
    "bridge_works": (
        Mark("ruled_out", "Wire, coil and gap behind the relay", "ruled out at this moment."),
        Mark("open", "Relay, or its command", "cannot be told apart by this step."),
    ),
    "bridge_nothing": (
        Mark("open", "Feed into the socket, wire, coil or ground", "cannot be told apart yet."),
    ),
}  # fmt: skip
NEXT = {
    "carries": "Read the voltage at the plugged-in coil, current flowing.",
    "clicks_only": "Try its output with a filament lamp, or read the drop across its contacts.",
    "no_output": "See whether power reaches the relay, with a filament lamp.",
    "does_not_move": "See whether the control unit commands it, then try its coil’s two pins.",
    "swap_same": "See whether power and command reach the socket.",
    "bridge_works": "See whether the control unit commands the relay.",
    "bridge_nothing": "See whether power reaches the socket, then put power straight at the coil.",
    "stuck_on": "Pull it: if the output stays on, look for a short around it.",
    "nothing_told": "Ask for cold and feel whether the relay clicks.",
}


def _onward(seen: Seen, code: str) -> tuple[str, ...]:
    """What comes next; no relay is replaced before the clutch coil was measured."""
    points_at_relay = _points_at_relay(seen, code)
    if seen.is_told("clutch_coil", "too_low") and points_at_relay:
        return ("The clutch coil reads too low: settle that before a relay goes in.",)
    first = COIL_FIRST if points_at_relay and not seen.is_told("clutch_coil", "inside") else ""
    then = NEXT.get(code, "Fit a relay of the same number, then read the drop across it.")
    before = "Take the bridge off." if code.startswith("bridge") else ""
    if code == "nothing_told" and seen.is_told("built", "inside"):
        then = NEXT["carries"]
    if _unfelt(seen, code):
        before = "See whether its output is dead with A/C off."
    return tuple(one for one in (before, first, then) if one)


def _unfelt(seen: Seen, code: str) -> bool:
    """Whether power came out without a click, and that it stops again was not seen."""
    return code == "carries" and seen.is_told("click", "no") and not seen.is_told("lets_go", "yes")


def _points_at_relay(seen: Seen, code: str) -> bool:
    return code == "stuck_on" or code not in NEXT or seen.is_told("renewed", "yes")


def _marks(seen: Seen, code: str) -> Iterator[Mark]:
    if code == "loses" and seen.drop:
        yield Mark("likely", "Relay’s contacts or socket", f"{seen.drop.words} is lost here.")
    yield from MARKS.get(code, ())
    renewed = code != "nothing_told" and seen.is_told("renewed", "yes")
    if renewed and not seen.is_told("clutch_coil", "inside"):
        words = "not cleared by a new relay: the clutch coil was not measured, or reads too low."
        yield Mark("open", "What ended the relay before", words)


def _not_tested(seen: Seen, code: str) -> Iterator[str]:
    if code == "nothing_told":
        yield "Relay: not tested."
    if seen.drop is None and code not in ("carries", "nothing_told"):
        yield "Contacts under load: not measured."
    if code != "bridge_works":
        yield "What lies behind the relay: not tested by this step."


def _notes(readings: Readings, seen: Seen, code: str) -> Iterator[str]:
    ohm = number(readings, "coil_ohm")
    if _unfelt(seen, code):
        yield "No click was felt, yet power comes out: its contacts may be stuck."
    if ohm:
        yield f"Its own coil reads {ohm.shown}: recorded, and held against no figure."
    if seen.is_told("built", "inside"):
        yield "It cannot be swapped or bridged: power at the coil’s plug and data tell of it."
    if seen.drop and not seen.drop.outside:
        yield grade_sentence(seen.drop, FEED_LIMIT, "across its contacts")


def _look(readings: Readings, around: Circumstances) -> Seen:
    volts, judged = number(readings, "drop"), around.system.get("voltage") != "24"
    return Seen(taps(readings), drop_read(volts, FEED_LIMIT) if volts and judged else None)


def _read(readings: Readings, around: Circumstances) -> Meaning:
    seen = _look(readings, around)
    code = _code(seen)
    sentence = SENTENCES.get(code, "")
    if code == "loses" and seen.drop:
        sentence = grade_sentence(seen.drop, FEED_LIMIT, "across its contacts")
    outcome = Outcome(
        code,
        sentence,
        tuple(_marks(seen, code)),
        tuple(_not_tested(seen, code)),
        code != "nothing_told",
        "general" if seen.drop else "",
    )
    whole = f"The whole feed may lose {FEED_LIMIT.words} ({FEED_LIMIT.basis})."
    return Meaning(
        outcome,
        band=whole if seen.drop else "",
        notes=tuple(_notes(readings, seen, code)),
        onward=_onward(seen, code),
    )


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    volts = number(readings, "drop")
    if readings.get("coil") == "open" and readings.get("click") == "yes":
        yield "coil", "It clicks, yet its own coil reads open."
    if readings.get("output") == "no" and readings.get("lets_go") == "no":
        yield "lets_go", "No power comes out with A/C on, yet it stays on with A/C off."
    if volts:
        yield from all_lost("drop", drop_read(volts, FEED_LIMIT), around.system)


RELAY = Kind(
    name="relay",
    title="Relay",
    question="Does the clutch’s relay switch when cold is asked for, and do its contacts carry?",
    version=1,
    minutes=4,
    about="command",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    cautions=(
        "Bridge with the engine off, relay pulled, jumper fused at 10 A, for seconds only.",
        "Feed to output only: power on a pin of the relay’s coil feeds back into the control unit.",
        cautions.CLEAR_OF_BELT,
        "Never bridge or swap what is solid-state or inside a control unit.",
        cautions.RUNS_BY_ITSELF,
        cautions.NEVER_DRY,
        cautions.LOCAL,
    ),
    gates=(
        Gate(
            "bridged_engine_off",
            (BRIDGED,),
            "engine",
            ("off",),
            "Not with the engine running: that runs the compressor past every switch.",
            "The relay was bridged with the engine running: the compressor ran past every switch.",
        ),
    ),
    bars=NO_CLUTCH,
    asks_first=CLUTCH_NOT_SURE,
    remarks=(
        SystemRule({"voltage": ("24",)}, NOT_JUDGED_24),
        SystemRule(
            {"switched_side": ("ground",)},
            "Switched on the ground side: its output is a ground; the lamp goes to battery plus.",
        ),
    ),
    at_odds=_at_odds,
    fine=Fine(
        "Fine: clicks, and power comes out under load",
        "sets the taps below",
        {"click": "yes", "output": "yes"},
    ),
)
