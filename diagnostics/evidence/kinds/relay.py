"""The relay of the clutch: does it move, do its contacts carry, does another one cure it."""

from collections.abc import Iterator

from diagnostics.evidence import cautions
from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import CLUTCH_NOT_SURE, NO_CLUTCH
from diagnostics.evidence.fields import Answer, Choice, Number, Span, When
from diagnostics.evidence.findings import Meaning, Outcome, OutcomeWords
from diagnostics.evidence.kind import Fine, Kind
from diagnostics.evidence.problems import FieldGate
from diagnostics.evidence.readings import Readings, number, taps
from diagnostics.evidence.relay_told import SENTENCES, Seen, marks, not_tested, notes, onward
from diagnostics.evidence.system import SystemRule
from diagnostics.evidence.under_load import (
    DROP,
    DROP_ON,
    FEED_LIMIT,
    NOT_JUDGED_24,
    YES_NO,
    all_lost,
    drop_read,
    grade_sentence,
)

PLUG_IN = When("built", ("plug_in",))
NOT_PLUG_IN = "Only a plug-in relay: one that is solid-state or inside a control unit cannot be."
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
    OutcomeWords("no_output", "moves, and its output stays dead"),
    OutcomeWords("dead_output", "its output stays dead; whether it moves is not told"),
    OutcomeWords("does_not_move", "does not move when cold is asked for"),
    OutcomeWords("stuck_on", "stays on with A/C off"),
    OutcomeWords("coil_open", "its own coil is open"),
    OutcomeWords("swap_cures", "works with a like one"),
    OutcomeWords("swap_same", "no change with a like one"),
    OutcomeWords("bridge_works", "clutch takes hold with the contacts bridged"),
    OutcomeWords("bridge_nothing", "nothing happens with the contacts bridged"),
    OutcomeWords("nothing_told", "carries nothing", carries=False),
)


def _code(seen: Seen) -> str:
    is_told, drop = seen.is_told, seen.drop
    return next(
        code
        for code, fits in (
            ("coil_open", is_told("coil", "open")),
            ("stuck_on", is_told("lets_go", "no")),
            ("swap_cures", is_told("swapped", "works")),
            ("loses", drop is not None and drop.outside),
            ("carries", is_told("output", "yes") or (drop is not None and drop.grade == "within")),
            ("bridge_works", is_told("bridged", "takes_hold")),
            ("bridge_nothing", is_told("bridged", "nothing")),
            ("swap_same", is_told("swapped", "same")),
            ("no_output", is_told("output", "no") and is_told("click", "yes")),
            ("does_not_move", is_told("click", "no")),
            ("dead_output", is_told("output", "no")),
            ("clicks_only", is_told("click", "yes")),
            ("nothing_told", True),
        )
        if fits
    )


def _look(readings: Readings, around: Circumstances) -> Seen:
    volts, judged = number(readings, "drop"), around.system.get("voltage") != "24"
    drop = drop_read(volts, FEED_LIMIT) if volts else None
    return Seen(
        taps(readings),
        drop if judged else None,
        drop.words if drop and not judged else "",
        around.system.get("switched_side", ""),
    )


def _read(readings: Readings, around: Circumstances) -> Meaning:
    seen = _look(readings, around)
    code = _code(seen)
    sentence = SENTENCES.get(code, "")
    if code == "loses" and seen.drop:
        sentence = grade_sentence(seen.drop, FEED_LIMIT, "across its contacts")
    outcome = Outcome(
        code,
        sentence,
        tuple(marks(seen, code)),
        tuple(not_tested(seen, code)),
        code != "nothing_told",
        "general" if seen.drop else "",
    )
    whole = f"The whole feed may lose {FEED_LIMIT.words} ({FEED_LIMIT.basis})."
    return Meaning(
        outcome,
        band=whole if seen.drop else "",
        notes=tuple(notes(readings, seen, code)),
        onward=onward(seen, code),
    )


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    volts = number(readings, "drop")
    if readings.get("coil") == "open" and readings.get("click") == "yes":
        yield "coil", "It clicks, yet its own coil reads open."
    if readings.get("output") == "no" and readings.get("lets_go") == "no":
        yield "lets_go", "No power comes out with A/C on, yet it stays on with A/C off."
    if readings.get("swapped") == "works" and readings.get("bridged") == "nothing":
        words = "It works with a like relay, yet nothing happens with the contacts bridged"
        yield "bridged", f"{words}: were those the contacts’ pins?"
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
        FieldGate(
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
