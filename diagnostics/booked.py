"""What was booked of work on the loop, where a test asks for the same: begun with, and held to.

What was booked and what was typed both stand; which is which is said, and a difference is told.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from diagnostics.assess import Assessed, readings_of
from diagnostics.evidence.readings import number
from diagnostics.physics.units import from_si
from jobs import ledger
from jobs.models import Job, LoopWork
from jobs.models.evacuations import hold_of
from jobs.models.loop_works import TAKES_OUT, standing_works, works_of
from jobs.models.wordings import in_shop_time

SAME_MG = 1_000  # a gram: what rounding makes of the same figure
REPEATED = {"again": "yes", "steady": "yes", "no": "no"}
RECOVERED_SHARE, VACUUM_HOLD = "recovered_share", "vacuum_hold"
BOOKED = (RECOVERED_SHARE, VACUUM_HOLD)


@dataclass(frozen=True)
class Booked:
    """What a test begins with: {field: text as typed}, and the sentence that says whose it is."""

    fields: Mapping[str, str] = field(default_factory=dict)
    said: str = ""

    def as_json(self) -> dict[str, Any]:
        """For a kept page's script."""
        return {"fields": dict(self.fields), "said": self.said}


def booked_on(job: Job, kind: str) -> Booked | None:
    """What a new test of that kind begins with on a job; asks nothing of kinds that begin bare."""
    return booked_for(kind, standing_works(works_of(job))) if kind in BOOKED else None


def booked_for(kind: str, works: Iterable[LoopWork]) -> Booked | None:
    """What was booked last of what a kind of test asks for; None: nothing was."""
    if kind == VACUUM_HOLD:
        return held(works)
    if kind != RECOVERED_SHARE:
        return None
    last = last_out(works)
    return recovered(last) if last else None


def all_booked(works: Iterable[LoopWork]) -> dict[str, dict[str, Any]]:
    """By kind, for a tablet."""
    listed = list(works)
    found = {kind: booked_for(kind, listed) for kind in BOOKED}
    return {kind: one.as_json() for kind, one in found.items() if one}


def last_out(works: Iterable[LoopWork]) -> LoopWork | None:
    """The last work by which refrigerant came out, with grams told."""
    out = [one for one in works if one.what in TAKES_OUT and out_mg(one) is not None]
    return max(out, key=moment_of, default=None)


def moment_of(work: LoopWork) -> tuple[Any, int]:
    """When it began."""
    began = work.state.opened_at if work.state else work.entry.done_at
    return began, work.entry_id


def out_mg(work: LoopWork) -> int | None:
    """What came out by it, all pulls together, in mg; None: nobody told."""
    told = work.told.get("out_mg")
    return told if isinstance(told, int) else None


def recovered(work: LoopWork) -> Booked:
    """The grams with machine, temperature and second pull, as the test asks them."""
    told, mg = work.told, out_mg(work) or 0
    fields = {"recovered": ledger.plain_grams(mg), "recovered_unit": "g"}
    if told.get("machine"):
        fields["machine"] = told["machine"]
    if isinstance(told.get("temperature"), dict):
        fields["temperature"] = told["temperature"]["typed"]
        fields["temperature_unit"] = told["temperature"]["unit"]
    if told.get("waited") in REPEATED:
        fields["repeated"] = REPEATED[told["waited"]]
    at = in_shop_time(work.entry.done_at)
    said = (
        f"Begins with what was booked: {work.words}, {at}. Those are grams that came out, not the"
        " charge. What you change is your own reading; both are kept, and a difference is told."
    )
    return Booked(fields, said)


def held(works: Iterable[LoopWork]) -> Booked | None:
    """What the last evacuation read, as the test of the hold asks it."""
    of_kind = [one for one in works if one.what == "evacuation"]
    last = max(of_kind, key=moment_of, default=None)
    fields = hold_of(last) if last else {}
    if last is None or not fields:
        return None
    at = in_shop_time(last.entry.done_at)
    said = f"Begins with what was read: {last.words}, {at}. What you change is your own reading."
    return Booked(fields, said)


def differs(one: Assessed, works: Iterable[LoopWork]) -> str:
    """That a test's grams are others than were booked before it; empty: they are not."""
    if one.step.kind != RECOVERED_SHARE:
        return ""
    before = [work for work in works if moment_of(work)[0] <= one.step.made_at]
    work, read = last_out(before), number(readings_of(one.step), "recovered")
    if work is None or read is None:
        return ""
    booked, typed = out_mg(work) or 0, round(from_si(read.si, "g") * 1000)
    if abs(booked - typed) <= SAME_MG:
        return ""
    return (
        f"Step {one.step.number}: {read.shown} typed, {ledger.shown_mass(booked, 'g')} booked by"
        f" the recovery of {in_shop_time(work.entry.done_at)}."
    )
