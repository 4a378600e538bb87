"""The parts of the loop: which stayed and were looked at, flushed or replaced, branch by branch.

What was done (replaced, flushed) is a change on the car and is told by it; what was only seen, or
left as it was, is told here. Of each part the last to happen counts.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from django.db import models
from django.db.models import F

from jobs.models.changes import BRANCHED, OF_BRANCH, SOURCES, Change, branch_words
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.wordings import words

IN_LOOP = {
    "compressor": "Compressor",
    "condenser": "Condenser",
    "drier": "Receiver-drier or accumulator",
    "expansion_device": "Expansion device",
    "evaporator": "Evaporator",
    "hose": "Hoses and lines",
    "seal": "Seals and valve cores",
}
UNSEEN, CLEAN, DIRTY = "unseen", "clean", "dirty"
REPLACED, FLUSHED = "replaced", "flushed"
LOOKED = {
    UNSEEN: "Kept, not looked at",
    CLEAN: "Kept, seen clean",
    DIRTY: "Cannot be cleaned",
}
STATUS = {**LOOKED, REPLACED: "Replaced", FLUSHED: "Flushed"}
# Of these a loop has several: that one was replaced says nothing of the others.
SEVERAL = ("hose", "seal")
DONE = {"fitted": REPLACED, "flushed": FLUSHED}
# What the noted kind of expansion device is called, and the drier of such a loop.
BY_EXPANSION = {
    "valve": {"expansion_device": "Expansion valve", "drier": "Receiver-drier"},
    "orifice": {"expansion_device": "Orifice tube", "drier": "Accumulator"},
}
Place = tuple[str, str]  # part and branch, "" for the front


class Fitted(Protocol):
    """What a table asks of a system."""

    branches: list[str]
    expansion: str


class LoopTold(models.Model):
    """What one entry told of one part of the loop: a code of LOOKED.

    Never changed: a later entry counts, one that corrects another stands for all of it.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="loop_parts")
    entry = models.ForeignKey(Entry, models.PROTECT, related_name="loop_parts_told")
    part = models.CharField(max_length=30)
    branch = models.CharField(max_length=20, blank=True)
    told = models.CharField(max_length=20)
    note = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = [
            "entry__done_at",
            "entry__happened_at",
            F("entry__sequence").asc(nulls_first=True),
            "id",
        ]
        constraints = [
            models.UniqueConstraint(
                fields=["entry", "part", "branch"],
                name="loop_part_told_once",
                violation_error_message="This entry tells of that part already.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.part} {self.told}"


@dataclass(frozen=True)
class LoopRow:
    """One line of the table. `code` is one of STATUS, empty: nothing is told.

    `change` is what replaced or flushed it last, `told` what was said of it later or without one.
    """

    part: str
    branch: str
    name: str
    code: str
    change: Change | None = None
    told: LoopTold | None = None

    @property
    def field(self) -> str:
        """Its name in a form."""
        return field_of(self.part, self.branch)

    @property
    def text(self) -> str:
        """How it stands, in words."""
        said = [*self.done_said(), *([words(LOOKED, self.told.told)] if self.told else [])]
        note = [self.told.note] if self.told and self.told.note else []
        return ". ".join([*said, *note]) or "nothing told"

    def done_said(self) -> Iterator[str]:
        """What replaced or flushed it: new or not, its numbers, how."""
        if self.change is None:
            return
        done = self.done_as
        one = next(p for p in self.change.parts if (p.part, p.branch) == (self.part, self.branch))
        source = words(SOURCES, self.change.source).lower() if done == REPLACED else ""
        numbers = (
            f"serial number {one.serial}" if one.serial else "",
            f"part number {one.part_number}" if one.part_number else "",
            f"number {one.number}" if one.number else "",
        )
        how = self.change.flushed_how if done == FLUSHED else ""
        what = f"One or more {done}" if self.part in SEVERAL else STATUS[done]
        yield ", ".join(text for text in (what, source, *numbers, how) if text)

    @property
    def done_as(self) -> str:
        """Replaced or flushed; empty: neither."""
        return DONE[self.change.what] if self.change else ""


def field_of(part: str, branch: str) -> str:
    """A part of a branch as one code."""
    return f"{part}_{branch}" if branch else part


PLACES: list[Place] = [
    *((part, "") for part in IN_LOOP),
    *((part, branch) for branch in OF_BRANCH for part in BRANCHED),
]
BY_FIELD = {field_of(*place): place for place in PLACES}


def name_of(place: Place, system: Fitted | None = None) -> str:
    """Such as Expansion valve, rear."""
    part, branch = place
    if place == ("evaporator", "battery"):
        return "Battery chiller"
    called = BY_EXPANSION.get(system.expansion if system and not branch else "", {})
    return branch_words(called.get(part, IN_LOOP[part]), branch)


def places_of(system: Fitted | None) -> list[Place]:
    """The parts of a car's loop. Of which branches nobody noted, only the front's; None: all."""
    return [(part, branch) for part, branch in PLACES if not branch or has(system, branch)]


def has(system: Fitted | None, branch: str) -> bool:
    """Whether a system is known to have that branch."""
    return system is None or branch in system.branches


def told_of(job: Job) -> list[LoopTold]:
    """What was told of a job's loop parts and counts, the oldest first."""
    return counting(job.loop_parts.select_related("entry__author"))


def counting(rows: Iterable[LoopTold]) -> list[LoopTold]:
    """Those whose entry was not corrected by another one of them."""
    listed = list(rows)
    corrected = {row.entry.corrects for row in listed}
    return [row for row in listed if row.entry.key not in corrected]


def loop_table(
    system: Fitted, changes: Iterable[Change], told: Sequence[LoopTold]
) -> list[LoopRow]:
    """A line for each part of this loop, and for what else was told or done.

    `changes` are those that stand, `told` what counts; all come with their entries.
    """
    done: dict[Place, Change] = {}
    for change in sorted(changes, key=lambda one: one.state.opened_at):
        if change.what in DONE:
            done |= {(part.part, part.branch): change for part in change.parts}
    said = {(row.part, row.branch): row for row in told}
    usual = places_of(system)
    others = [place for place in PLACES if place not in usual and (place in done or place in said)]
    return [row_of(p, system, done.get(p), said.get(p)) for p in (*usual, *others)]


def row_of(place: Place, system: Fitted, change: Change | None, told: LoopTold | None) -> LoopRow:
    """One line. What was told before the change, or that it was not looked at, counts no more."""
    if change and told:
        later = told.entry.done_at > change.state.opened_at
        told = told if later and told.told != UNSEEN else None
    code = told.told if told else DONE[change.what] if change else ""
    return LoopRow(*place, name_of(place, system), code, change, told)
