"""Volts lost between the coil's ground and battery minus while the clutch is energized."""

from collections.abc import Iterator
from dataclasses import replace

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import CLUTCH_NOT_SURE, NO_CLUTCH
from diagnostics.evidence.fields import Answer, Choice, Number
from diagnostics.evidence.findings import Mark, Meaning, Outcome
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Readings, number
from diagnostics.evidence.system import System, SystemRule
from diagnostics.evidence.under_load import (
    AMPS,
    CARRIES,
    CAUTIONS,
    DROP,
    DROP_ON,
    DROP_OUTCOMES,
    DROP_RESISTANCE,
    GROUND_LIMIT,
    LEAST_GROUND_OHM,
    NOT_JUDGED_24,
    REMARKS,
    Drop,
    Load,
    all_lost,
    currents_at_odds,
    drop_read,
    drop_strip,
    grade_sentence,
    lead_notes,
    load_of,
    no_load_sentence,
    nothing_lost,
)

OUTCOMES = tuple(one for one in DROP_OUTCOMES if one.code != "edge")  # here the limit is one figure
NOT_TESTED = (
    "Feed of the coil: not tested by this step.",
    "Coil and clutch: not tested by this step.",
)
TO_REPEAT = "Energize the clutch, its plug on, see that current flows, and read again."
PATHS = {
    "wire": "Ground wire of the coil and its joints",
    "case": "Ground through the case: bracket, engine and ground strap",
    "": "Ground side: wire or case, and their joints",
}
SWITCHED = "Ground side: wire, joints and what switches it"
SWITCHED_NEXT = "Read from the coil to what switches it, then from there to battery minus."
NEXT = {
    "wire": "Follow the ground wire: plug, splice, eyelet and the metal under it.",
    "case": "Read from the coil’s case to the engine, then from the engine to battery minus.",
    "": "Find out whether a wire or the case grounds the coil, and follow it.",
}
FIELDS = (
    Number(
        "volts", "Drop, coil’s ground to battery minus",
        "Red lead on the coil’s ground pin, or on its case when it has one wire; black on the"
        " battery’s minus post; clutch energized.",
        "V", DROP, ("mV",), DROP_ON, instrument="dc_volts",
    ),
    CARRIES,
    AMPS,
    Choice(
        "path", "Grounded by", "A coil with one wire grounds through its case.",
        (Answer("wire", "A wire"), Answer("case", "Its case"), Answer("cannot_tell", "Can’t tell")),
        condition=True,
    ),
)  # fmt: skip


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    yield from currents_at_odds(readings)
    volts, load = number(readings, "volts"), load_of(readings, around.system)
    if volts is None:
        return
    if load.flows == "yes":
        yield from all_lost("volts", drop_read(volts, GROUND_LIMIT), around.system)
    yield from nothing_lost("volts", volts, load, "a ground side", LEAST_GROUND_OHM)


def _path(readings: Readings) -> str:
    told = str(readings.get("path", ""))
    return told if told in PATHS else ""


def _mark(drop: Drop, path: str, *, switched: bool) -> Mark:
    subject = SWITCHED if switched else PATHS[path]
    if drop.grade == "within":
        return Mark("ruled_out", subject, "ruled out as a loss at this moment, current flowing.")
    if not drop.outside:
        return Mark("open", subject, "neither inside nor outside the limit.")
    if switched:
        words = "what switches it loses some volts too: compare with this vehicle’s own figure."
        return Mark("open", subject, words)
    return Mark("likely", subject, "points here.")


def _onward(drop: Drop, path: str, *, switched: bool) -> str:
    if drop.grade == "within":
        return "Read the feed’s drop, if it was not read yet."
    if drop.grade == "cannot_tell":
        return "Read it again on the meter’s mV range."
    if switched:
        return SWITCHED_NEXT
    return NEXT[path]


def _nothing(sentence: str, *notes: str) -> Meaning:
    untold = ("Ground side: not tested.", *NOT_TESTED)
    outcome = Outcome("nothing_told", sentence, (), untold, carries=False)
    return Meaning(outcome, notes=notes, onward=(TO_REPEAT,))


NOT_CLOSED = {  # by the side that is switched
    "feed": "the ground side is open.",
    "ground": "the ground side is not closed: either what switches it does not, or it is open.",
    "": "the ground side is open; or it is the side that is switched, which is not noted, and"
    " nothing does.",
}


def _no_current(drop: Drop, load: Load, path: str, system: System) -> Meaning:
    """What volts without current still tell: an open ground reads all that the feed brings.

    With the ground closed and no current the coil's ground would read nothing at all.
    """
    sentence = no_load_sentence(load, "a drop")
    if load.flows != "no" or drop.grade != "far" or system.get("voltage") == "24":
        return _nothing(sentence)
    side = system.get("switched_side", "")
    note = f"{drop.words} between the two points and no current: {NOT_CLOSED[side]}"
    onward = SWITCHED_NEXT if side == "ground" else NEXT[path]
    return replace(_nothing(sentence, note), onward=(onward, TO_REPEAT))


def _read(readings: Readings, around: Circumstances) -> Meaning:
    volts, load = number(readings, "volts"), load_of(readings, around.system)
    if volts is None:
        return _nothing("The drop was not read.")
    drop, path = drop_read(volts, GROUND_LIMIT), _path(readings)
    switched = around.system.get("switched_side") == "ground"
    if around.system.get("voltage") == "24" and load.flows in ("yes", "little"):
        return Meaning(_nothing(NOT_JUDGED_24).outcome, f"{drop.words} lost, {load.words}.")
    if not load.tells(drop):
        return _no_current(drop, load, path, around.system)
    outcome = Outcome(
        drop.grade,
        grade_sentence(drop, GROUND_LIMIT, "from the coil’s ground to battery minus"),
        (_mark(drop, path, switched=switched),),
        NOT_TESTED,
        basis="general",
    )
    return Meaning(
        outcome,
        load.lead,
        drop_strip(drop, GROUND_LIMIT),
        f"At most {GROUND_LIMIT.words} ({GROUND_LIMIT.basis}).",
        tuple(lead_notes(volts, drop, load)),
        (_onward(drop, path, switched=switched),),
    )


GROUND_DROP = Kind(
    name="ground_drop",
    title="Drop on the ground side",
    question="How many volts are lost from the coil’s ground to battery minus, current flowing?",
    version=1,
    minutes=3,
    about="command",
    fields=FIELDS,
    outcomes=OUTCOMES,
    read=_read,
    setup=("coil plug reached", "clutch energized"),
    cautions=CAUTIONS,
    bars=NO_CLUTCH,
    asks_first=CLUTCH_NOT_SURE,
    remarks=(
        *REMARKS,
        SystemRule(
            {"switched_side": ("ground",)},
            "Switched on the ground side: what switches it lies in this stretch, and loses volts.",
        ),
    ),
    works_out=DROP_RESISTANCE,
    at_odds=_at_odds,
)
