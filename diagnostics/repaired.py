"""What a repair leaves to be done before its record stands: gates that are shut, and open points.

By the changes on the car, what was seen of the loop's parts, and where old parts went. Common
practice, no source, where nothing else is named.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from uuid import UUID

from django.db.models import Prefetch, prefetch_related_objects

from diagnostics.assess import Assessed
from diagnostics.evidence.gap_read import millimeters, span_words
from diagnostics.evidence.system import System, is_such
from diagnostics.loop_state import LoopState, by_change
from diagnostics.physics.gap import FEELER_U, POINTS
from diagnostics.physics.uncertainty import Measured, place
from diagnostics.since_changed import tells
from jobs.models import Change, Job, LoopTold, OldPartChoice, TakenOut
from jobs.models.changes import SERIALED, standing, with_photo
from jobs.models.loop_parts import CLEAN, DIRTY, LoopRow, counting, loop_table
from jobs.models.old_parts import chosen, goes_against
from jobs.models.taken_out import WENT, last_told
from jobs.models.wordings import words

WITH_CLUTCH = ({"drive": ("belt_clutch",)}, {"drive": ("belt_electric",), "clutch": ("magnetic",)})
OPENS = ("opened", "taken_open")
SEEN = (CLEAN, DIRTY)
# Trade articles: moisture taken up while it stood open; sellers of parts ask for a new one.
DRIER_KEPT = (
    "{}: the loop was open, and no new drier is noted since. A drier takes up moisture while it"
    " stands open, and sellers of parts make a new one a condition of warranty."
)
DRIER_FIRST = (
    "The loop was open, and no new drier is noted since. It goes in last, then the loop is closed."
)
DRIER_NOT_LAST = "The loop was opened again after the new drier went in: {}. The drier goes last."
DEVICE_NOT_SEEN = (
    "A compressor was fitted, and no look at the expansion device is noted, nor a new one: what"
    " stays in the loop reaches the new compressor."
)
NO_GAP = (
    "{}: no air gap of the new part is noted from before it was fitted, and none was measured"
    " since."
)
FEW_POINTS = (
    "{}: the air gap of the new part is noted at {} of at least {} points, and was not measured"
    " since."
)
GAP_OUTSIDE = "{}: the air gap of the new part was {}; this vehicle’s own limits are {}."
OLD_FIRST = "{}: note {} of the old part before it leaves the bay."
OLD_GONE = "{}: the old part is gone ({}), and {} of it was not noted."
OLD_AGAINST = "{}: where the old part went ({}) is not what the customer chose."
NOT_BOUGHT = "{}: seller or proof of purchase not noted yet."
NOT_TOLD = "The loop was open. Parts of which nothing is told: {}."
STAYS_DIRTY = "{}: told as not to be cleaned, and no new one is noted."


@dataclass(frozen=True)
class Work:
    """What was done to a car: the changes that stand, what was seen of the loop, the old parts."""

    changes: Sequence[Change]
    looked: Sequence[LoopTold]
    old: Mapping[UUID, TakenOut]
    choice: OldPartChoice | None = None

    @cached_property
    def openings(self) -> list[Change]:
        """The changes by which the loop was opened, in the order of their car states."""
        opened = (one for one in self.changes if any(e.code in OPENS for e in by_change(one)))
        return sorted(opened, key=lambda one: one.state.number)

    def fitted(self, part: str) -> list[Change]:
        """The changes by which such a part was fitted, in the order of their car states."""
        found = [
            change
            for change in self.changes
            if change.what == "fitted" and any(one.part == part for one in change.parts)
        ]
        return sorted(found, key=lambda one: one.state.number)

    @property
    def device_seen(self) -> bool:
        """Whether an expansion device was looked at, as told with the parts of the loop."""
        return any(row.part == "expansion_device" and row.told in SEEN for row in self.looked)

    @property
    def lacks_drier(self) -> bool:
        """Whether the loop was opened and no drier went in."""
        return bool(self.openings) and not self.fitted("drier")


@dataclass(frozen=True)
class Left:
    """One thing that a repair leaves open; `about` tells it from others of its code."""

    code: str
    sentence: str
    page: str
    about: str = ""


def work_of(job: Job) -> Work:
    """Read it once; a job that came with its changes, loop parts and old parts needs no query."""
    changes = Change.objects.select_related("state", "entry__author", "supersedes")
    prefetch_related_objects(
        [job],
        Prefetch("changes", with_photo(changes)),
        Prefetch("loop_parts", LoopTold.objects.select_related("entry__author")),
        Prefetch("taken_out", TakenOut.objects.select_related("entry__author")),
        "old_part_choices",
    )
    return Work(
        standing(job.changes.all()),
        counting(job.loop_parts.all()),
        last_told(job.taken_out.all()),
        chosen(job.old_part_choices.all()),
    )


def old_to_note(work: Work) -> Iterator[tuple[Change, str]]:
    """Old parts of which a seller asks number and photo, and which of both are not noted."""
    for change in work.changes:
        if change.what != "fitted" or change.part not in SERIALED:
            continue
        lacks = (
            *(() if change.old_serial else ("the serial number",)),
            *(() if getattr(change, "old_photo", False) else ("a photo",)),
        )
        if lacks:
            yield change, " and ".join(lacks)


def shut_by_repair(work: Work, loop: LoopState) -> Iterator[tuple[str, str, str]]:
    """The gates that the repair shuts: (code, act, why)."""
    if loop.was_open and work.lacks_drier:
        yield "drier_first", "pump", DRIER_FIRST
    for change, lacks in old_to_note(work):
        told = work.old.get(change.key)
        if not (told and told.gone):
            yield f"old_first_{change.part}", "let_go", OLD_FIRST.format(change.short, lacks)


def left_open(
    work: Work, job: Job, steps: Sequence[Assessed], system: System, *, looked: bool
) -> Iterator[Left]:
    """All that the repair leaves open. `looked`: a test told how the expansion device looks."""
    yield from of_seller(work)
    yield from of_old_parts(work)
    yield from of_gaps(work, steps, system)
    if not work.openings:
        return
    yield from of_drier(work)
    rows = loop_table(job.vehicle.system, work.changes, work.looked)
    yield from of_loop_parts(rows)
    devices = [row for row in rows if row.part == "expansion_device"]
    seen = looked or work.device_seen or any(row.change for row in devices)
    if work.fitted("compressor") and not seen:
        yield Left("device_not_seen", DEVICE_NOT_SEEN, "loop_parts")


def of_seller(work: Work) -> Iterator[Left]:
    """Parts with a warranty of which nobody noted where they were bought."""
    for change in work.changes:
        if change.lacks_proof:
            yield Left("bought", NOT_BOUGHT.format(change.short), "repair", str(change.key))


def of_old_parts(work: Work) -> Iterator[Left]:
    """What left the bay before its number and photo were noted, or not where the customer chose."""
    for change, lacks in old_to_note(work):
        told = work.old.get(change.key)
        if told and told.gone:
            sentence = OLD_GONE.format(change.short, words(WENT, told.went), lacks)
            yield Left("old_gone", sentence, "taken_out", str(change.key))
    for change in work.changes:
        told = work.old.get(change.key)
        if told and goes_against(work.choice, told.went):
            sentence = OLD_AGAINST.format(change.short, words(WENT, told.went))
            yield Left("old_against", sentence, "taken_out", str(change.key))


def of_drier(work: Work) -> Iterator[Left]:
    """A drier that stayed, or that did not go in last."""
    first, last, driers = work.openings[0], work.openings[-1], work.fitted("drier")
    if not driers:
        sentence = DRIER_KEPT.format(first.short)
        yield Left("drier_kept", sentence, "repair", str(first.key))
    elif last.state.number > driers[-1].state.number:
        sentence = DRIER_NOT_LAST.format(last.short)
        yield Left("drier_not_last", sentence, "repair", str(last.key))


def of_loop_parts(rows: Iterable[LoopRow]) -> Iterator[Left]:
    """Parts of which nothing is told, and those that stay though they cannot be cleaned."""
    listed = list(rows)
    for row in listed:
        if row.code == DIRTY:
            yield Left("stays_dirty", STAYS_DIRTY.format(row.name), "loop_parts", row.field)
    untold = [row.name for row in listed if not row.code]
    if untold:
        yield Left("loop_not_told", NOT_TOLD.format(", ".join(untold)), "loop_parts")


def of_gaps(work: Work, steps: Sequence[Assessed], system: System) -> Iterator[Left]:
    """New parts with a clutch whose gap nobody measured before they were fitted, nor since."""
    for change in work.changes:
        parts = {one.part for one in change.parts}
        driven = any(is_such(one, system) for one in WITH_CLUTCH)
        with_clutch = "clutch" in parts or ("compressor" in parts and driven)
        if change.what != "fitted" or not with_clutch or gap_measured_since(change, steps):
            continue
        sentence = gap_said(change, system)
        if sentence:
            yield Left("new_gap", sentence, "repair", f"{change.key} {change.gap_um}")


def gap_said(change: Change, system: System) -> str:
    """What is open about the gap of a new part; empty: nothing."""
    points = change.gap_um
    if not points:
        return NO_GAP.format(change.short)
    low, high = system.get("gap_low_m"), system.get("gap_high_m")
    if low and high:
        read = [Measured(um / 1_000_000, FEELER_U) for um in points]
        if any(place(one, low, high) in ("below", "above") for one in read):
            told = span_words(min(points) / 1_000_000, max(points) / 1_000_000)
            if min(points) == max(points):
                told = millimeters(points[0] / 1_000_000)
            return GAP_OUTSIDE.format(change.short, told, span_words(low, high))
    if len(points) < POINTS[0]:
        return FEW_POINTS.format(change.short, len(points), POINTS[0])
    return ""


def gap_measured_since(change: Change, steps: Iterable[Assessed]) -> bool:
    """Whether the gap was measured on the car since that change."""
    return any(
        one.stands
        and one.step.kind == "air_gap"
        and tells(one)
        and one.step.made_at >= change.state.opened_at
        for one in steps
    )
