"""What was last seen of the loop, or done to it, and when: derived, never entered.

Later events win, and a test before a change says nothing of the loop after it. It tells what was
read or noted and no more: a pressure at rest is no charge, what held vacuum is not tight, and that
nobody noted a closing does not say that it is open still. What must not be run is said with why;
common practice, no source.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from diagnostics.assess import Assessed
from diagnostics.evidence.loop_seen import seen_by
from diagnostics.loop_events import Event
from diagnostics.loop_words import GASES, HEADS, LAST, MUST_NOT
from jobs.models import Change
from jobs.models.changes import CHARGE, NOTHING, TOUCHES_BY_PART
from jobs.models.loop_works import FILLS, RECOVERED

NOT_LOOKED_AT = "not looked at yet"
OPEN = ("opened", "taken_open", "open", "told_open")
TOLD = ("told_vacuum", "told_nitrogen", "told_open")
OIL = ("oil_out", "oil_drained", "oil_in")
NEVER_OPENS = ("gap_set", "fuse", "cleaned", "wire", "unplugged", NOTHING)
GAS = ("gas", "put_in", "spent")
ENDS_GAS = (*OPEN, "vacuum")
BY_COUPLER = ("none", "low", "side_low", "nothing_came")
SHOWS_CHARGE = ("liquid", "ran", "charged")
SHOWS_PRESSURE = ("liquid", "ran", "pressure", "ran_low")


@dataclass(frozen=True)
class Known:
    """What is known after some events.

    `head` is the last that told how the loop is. `opened` stands until a vacuum was read, `gas` (no
    refrigerant) until a vacuum or an identified gas, `emptied` until a charge is shown, `perhaps`
    (a change that may have opened it) until the next head; `oil` may have left with it, `drained`
    is known to have, or the loop was open: both until oil is noted back in. `told` is
    what somebody told last, at one moment, beside the head and until the next one.
    """

    head: Event | None = None
    opened: Event | None = None
    gas: Event | None = None
    emptied: Event | None = None
    perhaps: Event | None = None
    oil: Event | None = None
    drained: Event | None = None
    told: tuple[Event, ...] = ()


@dataclass(frozen=True)
class LoopState:
    """The state in words: what was last told and when, what follows for running it, what is not.

    `code` is that of the event, "not_looked_at" without one; `run` is empty where nothing follows.
    `was_open`: it was opened, and no vacuum was read since; `oil_out`: since when oil is known to
    be out, or the loop was open, and none is noted back in; `drained`: since when a part was
    drained of it. Empty: it is not.
    """

    code: str
    seen_at: datetime | None
    words: str
    run: str
    not_told: tuple[str, ...]
    was_open: bool = False
    oil_out: str = ""
    drained: str = ""

    @property
    def text(self) -> str:
        """All of it in one line."""
        return " ".join(one for one in (f"{self.words}.", self.run, *self.not_told) if one)


def loop_state(
    made: Iterable[Assessed],
    changes: Iterable[Change],
    until: datetime | None = None,
    told: Iterable[Event] = (),
) -> LoopState:
    """What the steps and the changes that stand tell of the loop, or told of it at a moment.

    `told`: what timers and notes told of it, which a later step or change puts aside.
    """
    known = Known()
    for event in events(made, changes, told):
        if until is None or event.moment <= until:
            known = after(known, event)
    last = known.told[-1] if known.told else known.head
    if last is None:
        not_told = "Whether it is tight, open or empty: not told yet."
        first = "not_looked_at", None, NOT_LOOKED_AT, run_words(known)
        return LoopState(*first, (not_told,), False, *oil_of(known))
    opened = known.opened is not None
    not_told_now = tuple(not_told_by(known))
    told_now = code_of(known), last.moment, words_of(known), run_words(known)
    return LoopState(*told_now, not_told_now, opened, *oil_of(known))


def oil_of(known: Known) -> tuple[str, str]:
    """Since when oil is out or the loop was open, and since when a part was drained of it."""
    oil_out = known.drained.at if known.drained else ""
    return oil_out, oil_out if was_drained(known) else ""


def was_drained(known: Known) -> bool:
    """Whether a part was drained of its oil, and none is noted back in."""
    return known.drained is not None and known.drained.code == "oil_drained"


def code_of(known: Known) -> str:
    """The code of what was told last; but an open loop stays open until a test or a change."""
    codes = [known.head.code] if known.head else []
    codes += [one.code for one in known.told]
    return next((code for code in codes if code in OPEN), codes[-1])


def words_of(known: Known) -> str:
    """What somebody told of it, and behind that what was last read or noted."""
    both = (*known.told, *([known.head] if known.head else []))
    return "; ".join(one.said(HEADS) for one in both)


def events(
    made: Iterable[Assessed], changes: Iterable[Change], told: Iterable[Event] = ()
) -> list[Event]:
    """All that tells of the loop, in the order in which it happened.

    Of one moment a change comes before a test, as where a step's car state is told, and what was
    only told before both.
    """
    steps = list(made)
    of_changes = [(event, 0, one.state.number) for one in changes for event in by_change(one)]
    noted = list(told)
    of_steps = [
        (event, 1, one.step.number)
        for one in steps
        for event in by_step(one)
        if not (one.step.kind == "recovered_share" and is_booked(event.moment, noted))
    ]
    only_told = [(event, -1, number) for number, event in enumerate(noted)]
    in_order = sorted(
        [*only_told, *of_changes, *of_steps], key=lambda told: (told[0].moment, *told[1:])
    )
    return [event for event, _kind, _number in in_order]


def is_booked(moment: datetime, noted: Iterable[Event]) -> bool:
    """Whether a recovery was booked before that moment, and no charge since.

    Grams read then are of that recovery, which told of the loop when it was made.
    """
    of_charge = [one for one in noted if one.code in (*RECOVERED, *FILLS) and one.moment <= moment]
    last = max(of_charge, key=lambda one: one.moment, default=None)
    return last is not None and last.code in RECOVERED


def by_change(change: Change) -> Iterator[Event]:
    """What a change did to the loop, at the moment at which its car state began."""
    what, moment = change.what, change.state.opened_at
    parts = [one.part for one in change.parts if one.part != "other"]
    of_loop = any(CHARGE in TOUCHES_BY_PART.get(part, ()) for part in parts)
    if what in ("opened", "closed"):
        yield Event(moment, what, change.words)
    elif what == "flushed" or (what == "fitted" and of_loop):
        yield Event(moment, "taken_open", change.words)
    elif what not in NEVER_OPENS and CHARGE in change.touched:
        yield Event(moment, "perhaps", change.words)


def by_step(one: Assessed) -> Iterator[Event]:
    """What a test that stands saw of the loop, at the moment when it was made."""
    if not (one.stands and one.meaning and one.step.readings):
        return
    seen = seen_by(one.step.kind, one.meaning.outcome.code, one.meaning.taken)
    if seen:
        gas = GASES.get(seen.gas, GASES[""]) if seen.code in GAS else ""
        yield Event(one.step.made_at, seen.code, gas)


def after(known: Known, event: Event) -> Known:
    """What is known once that happened."""
    if event.code in TOLD:
        return after_told(known, event)
    code, was = event.code, known.head.code if known.head else ""
    caps_only = code == "closed" and was not in ("", "closed", *OPEN)  # it was not open
    if code == "perhaps" or caps_only:
        return replace(known, perhaps=event)
    if code == "as_label":
        return replace(known, gas=None)
    if code in OIL:
        out = None if code == "oil_in" else event
        stays = code == "oil_out" and was_drained(known)  # what came out besides is less
        return replace(known, oil=out, drained=known.drained if stays else out)
    still_open = code in OPEN and was in OPEN
    still_full = code == "pressure" and was in SHOWS_CHARGE  # it tells less than what stands
    told: dict[str, Any] = {
        "head": known.head if still_open or still_full else event,
        "perhaps": None,
        "told": (),
    }
    if code in SHOWS_CHARGE or code in LAST:
        told["emptied"] = event if code in LAST else None
    if code in GAS or code in ENDS_GAS:
        told["gas"] = event if code in GAS else None
    if code in (*OPEN, "closed", "vacuum"):
        told["opened"] = None if code == "vacuum" else known.opened or event
    if code in (*OPEN, "recovered") or (code == "closed" and was not in OPEN):
        told["oil"] = event  # what is capped keeps the oil that was noted in while it stood open
    if code in OPEN:
        told["drained"] = known.drained or event
    return replace(known, **told)


def after_told(known: Known, event: Event) -> Known:
    """What is known once somebody told that: it takes nothing back of what was read or noted."""
    together = known.told if known.told and known.told[-1].moment == event.moment else ()
    known = replace(known, told=(*together, event), emptied=event)
    if event.code == "told_nitrogen":
        return replace(known, gas=event)
    if event.code == "told_open":
        return replace(known, opened=known.opened or event, oil=event)
    return known


def run_words(known: Known) -> str:
    """That it must not be run, or what comes first, with why; empty: nothing here says so."""
    head, gas, emptied, perhaps = known.head, known.gas, known.emptied, known.perhaps
    bars = [head] if head and head.code in MUST_NOT else []
    if bars or known.told:
        why = "; ".join(one.said(MUST_NOT) for one in (*bars, *known.told))
        return f"Must not be run: {why}."
    if gas:
        out = "nothing since tells that it is out"
        put_in = f"nitrogen was put in, as told by {gas.by}" if gas.by else f"{gas.what} was put in"
        return f"Must not be run: {put_in}, {gas.at}, and {out}."
    if perhaps:
        opened = "whether the loop was opened for it is not told"
        changed = f"{perhaps.what}, {perhaps.at}"
        return f"Before it is run, read its pressure at rest: {changed}; {opened}."
    if emptied:
        last = emptied.said(LAST)
        return f"Before it is run, make sure of its charge: {last}; none is shown since."
    return ""


def not_told_by(known: Known) -> Iterator[str]:
    """What nobody may read out of it."""
    code = known.head.code if known.head else ""
    if known.told:
        yield "As somebody told it: not read."
    if code in SHOWS_PRESSURE:
        yield "How much is in it, and of what: not told by a pressure."
    if code in BY_COUPLER:
        yield "Whether the coupler opened the port’s valve: not told."
    if code == "recovered":
        yield "What stayed behind in it: not told."
    if code in FILLS:
        yield "How much is in it now: what went in is known, what leaves is not."
    if known.opened and code not in (*OPEN, "closed"):
        yield f"Evacuated since it was open ({known.opened.at}): not noted."
    if known.oil:
        yield "Oil put back in: not noted; never run it without."
    yield "Tight: not told by this."
