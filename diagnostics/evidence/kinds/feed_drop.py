"""Volts lost between battery plus and the coil while the clutch is energized, and where."""

import math
from collections.abc import Iterator

from diagnostics.evidence.circumstances import Circumstances
from diagnostics.evidence.drives import CLUTCH_NOT_SURE, NO_CLUTCH
from diagnostics.evidence.fields import Field, Number
from diagnostics.evidence.findings import Mark, Meaning, Outcome
from diagnostics.evidence.kind import Kind
from diagnostics.evidence.readings import Readings, number
from diagnostics.evidence.under_load import (
    AMPS,
    CARRIES,
    CAUTIONS,
    DROP,
    DROP_ON,
    DROP_OUTCOMES,
    DROP_RESISTANCE,
    FEED_LIMIT,
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
from diagnostics.physics.units import shown, with_unit

SECTIONS = {
    "to_relay": ("Battery plus to relay", "fuse, its holder and that wire"),
    "across_relay": ("Across the relay’s contacts", "the relay’s contacts and socket"),
    "across_switch": ("Across the pressure switch", "the switch’s contacts"),
    "to_coil": ("Last wire to the coil", "wire, plug and joints up to the coil"),
}
LARGEST_SHARE = 0.5  # of the whole drop: from there one stretch is named; our judgement
FEED = "Feed: wire, joints, fuse, relay or switch contacts"
NOT_TESTED = (
    "Ground side of the coil: not tested by this step.",
    "Coil and clutch: not tested by this step.",
)
TO_REPEAT = "Command the clutch, its plug on, see that current flows, and read again."
BY_SECTION = "Trace it: read the drop stretch by stretch, current flowing."


def _section(name: str) -> Number:
    words, hint = SECTIONS[name]
    return Number(
        name, words, f"{hint[0].upper()}{hint[1:]}.", "V", DROP, ("mV",), DROP_ON,
        instrument="dc_volts", after="volts", compact=True,
        group="Where it lies, if read" if name == "to_relay" else "",
    )  # fmt: skip


FIELDS: tuple[Field, ...] = (
    Number(
        "volts", "Drop, battery plus to coil plus",
        "Red lead on battery plus, black on the coil’s plus pin; plug on, clutch energized.",
        "V", DROP, ("mV",), DROP_ON, instrument="dc_volts",
    ),
    CARRIES,
    AMPS,
    *(_section(name) for name in SECTIONS),
)  # fmt: skip


def _sections(readings: Readings) -> dict[str, Drop]:
    read = {name: number(readings, name) for name in SECTIONS}
    return {name: drop_read(one, FEED_LIMIT) for name, one in read.items() if one}


def _sum(parts: dict[str, Drop]) -> tuple[float, float]:
    """The stretches' volts together, and by how much that can be too much.

    No stretch loses less than nothing, so one that reads next to nothing is off by no more.
    """
    amounts = [part.volts for part in parts.values()]
    off = math.hypot(*(min(one.expanded, one.value) for one in amounts))
    return sum(one.value for one in amounts), off


def _at_odds(readings: Readings, around: Circumstances) -> Iterator[tuple[str, str]]:
    yield from currents_at_odds(readings)
    volts = number(readings, "volts")
    if volts is None:
        return
    whole, parts = drop_read(volts, FEED_LIMIT), _sections(readings)
    load = load_of(readings, around.system)
    if load.flows == "yes":
        yield from all_lost("volts", whole, around.system)
    yield from nothing_lost("volts", volts, load, "a feed")
    total, off = _sum(parts)
    if len(parts) > 1 and total - math.hypot(whole.volts.expanded, off) > whole.volts.value:
        words = with_unit(shown(total, 2), "V")
        yield list(parts)[-1], f"The stretches make {words}, the whole feed {whole.words}."
    for name, part in parts.items():
        least = part.volts.value - part.volts.expanded
        if least > whole.volts.value + whole.volts.expanded:
            more = f"more than the {whole.words} of the whole feed"
            yield name, f"{part.words} on one stretch is {more}."


def _largest(parts: dict[str, Drop], whole: Drop) -> tuple[str, Drop] | None:
    """The stretch on which at least half of the whole drop lies, if one does."""
    if not parts or not whole.outside:
        return None
    name, part = max(parts.items(), key=lambda one: one[1].volts.value)
    return (name, part) if part.volts.value >= LARGEST_SHARE * whole.volts.value else None


def _mark(drop: Drop, parts: dict[str, Drop]) -> Mark:
    if drop.grade == "within":
        return Mark("ruled_out", FEED, "ruled out as a loss at this moment, current flowing.")
    if not drop.outside:
        return Mark("open", FEED, "neither inside nor outside the limit.")
    found = _largest(parts, drop)
    if found:
        name, part = found
        return Mark("likely", SECTIONS[name][0], f"{part.words} of the {drop.words} lies here.")
    return Mark("likely", FEED, "points here; this step cannot tell them apart.")


def _rest(whole: Drop, parts: dict[str, Drop]) -> Iterator[str]:
    """What the four stretches leave of the whole, where all of them were read."""
    total = sum(part.volts.value for part in parts.values())
    off = math.hypot(whole.volts.expanded, *(part.volts.expanded for part in parts.values()))
    if len(parts) == len(SECTIONS) and total + off < whole.volts.value:
        words = with_unit(shown(total, 2), "V")
        yield f"The four stretches make {words} of the {whole.words}: the rest lies between them."


def _onward(drop: Drop, parts: dict[str, Drop]) -> str:
    if drop.grade == "within":
        return "Read the ground side next, current flowing."
    if drop.grade == "cannot_tell":
        return "Read it again on the meter’s mV range."
    found = _largest(parts, drop)
    if found:
        return f"Open and look at {SECTIONS[found[0]][1]}, then read the drop again."
    return BY_SECTION


def _nothing(sentence: str, *notes: str) -> Meaning:
    outcome = Outcome("nothing_told", sentence, (), ("Feed: not tested.", *NOT_TESTED), False)
    return Meaning(outcome, notes=notes, onward=(TO_REPEAT,))


def _no_current(drop: Drop, load: Load, *, judged: bool) -> Meaning:
    sentence = no_load_sentence(load, "a drop")
    if load.flows == "no" and drop.grade == "far" and judged:
        return _nothing(
            sentence,
            f"{drop.words} between the two points and no current: the feed is not closed. Either"
            " nothing commands it, or it is open. Find out which.",
        )
    return _nothing(sentence)


def _read(readings: Readings, around: Circumstances) -> Meaning:
    volts, load = number(readings, "volts"), load_of(readings, around.system)
    if volts is None:
        return _nothing("The drop was not read.")
    drop = drop_read(volts, FEED_LIMIT)
    judged = around.system.get("voltage") != "24"
    if not judged and load.flows in ("yes", "little"):
        return Meaning(_nothing(NOT_JUDGED_24).outcome, f"{drop.words} lost, {load.words}.")
    if not load.tells(drop):
        return _no_current(drop, load, judged=judged)
    parts = _sections(readings)
    sentence = grade_sentence(drop, FEED_LIMIT, "from battery plus to coil plus")
    outcome = Outcome(drop.grade, sentence, (_mark(drop, parts),), NOT_TESTED, basis="general")
    return Meaning(
        outcome,
        load.lead,
        drop_strip(drop, FEED_LIMIT),
        f"Above {FEED_LIMIT.words} trace it ({FEED_LIMIT.basis}).",
        (*lead_notes(volts, drop, load), *_rest(drop, parts)),
        (_onward(drop, parts),),
    )


FEED_DROP = Kind(
    name="feed_drop",
    title="Drop over the feed",
    question="How many volts are lost between battery plus and the coil, current flowing?",
    version=1,
    minutes=5,
    about="command",
    fields=FIELDS,
    outcomes=DROP_OUTCOMES,
    read=_read,
    setup=("coil plug reached", "clutch commanded"),
    cautions=CAUTIONS,
    bars=NO_CLUTCH,
    asks_first=CLUTCH_NOT_SURE,
    remarks=REMARKS,
    works_out=DROP_RESISTANCE,
    at_odds=_at_odds,
)
