"""An entry held against what its form showed: what is told, and what somebody changed meanwhile.

A form carries beside each field that it filled a hidden one, `was_` before its name, with the value
it showed. So an entry says by itself which fields its author changed and from what. A field changed
by two people is never refused and never written over: the first stands, both stay in the logbook,
and a mark asks which is right. A corrected intake is held against the one that it corrects.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Any
from uuid import UUID

from jobs.models import Entry, Job
from jobs.models.conflicts import FILLED, INTAKE, MERGE, conflicts_in
from jobs.models.corrected import entries_in_order
from jobs.models.said import EMPTY, SAID, answers_in, in_words, with_beside
from jobs.told import NOT_KNOWN, SETTLED, WAS, Mark, Showing, one_text

TOLD, SAME, STALE = "told", "same", "stale"


@dataclass(frozen=True)
class Held:
    """An entry, how its form shows the rows now, and what was told of the same before it."""

    entry: Entry
    showing: Showing
    before: Iterable[Entry]  # the latest first; asked for only where it matters

    @classmethod
    def of(cls, entry: Entry, job: Job, showing: Showing) -> "Held":
        """With the entries about the job's car and customer."""
        jobs = Job.objects.filter(vehicle=job.vehicle).values("key")
        kinds = FILLED if entry.kind == INTAKE else (INTAKE, entry.kind, MERGE)
        told = Entry.objects.filter(job_key__in=jobs, kind__in=kinds)
        before = told.exclude(pk=entry.pk).order_by("-id").select_related("author")
        return cls(entry, showing, before)

    @cached_property
    def bases(self) -> Mapping[UUID, Entry]:
        """What each corrected intake took the place of, by its key."""
        intakes = [one for one in (*self.before, self.entry) if one.kind == INTAKE]
        keys = {one.key for one in intakes}
        first = (one for one in intakes if one.corrects not in keys)
        families = [entries_in_order(intakes, one) for one in first]
        return {after.key: one for family in families for one, after in pairwise(family)}

    def pick(self, values: Mapping[str, Any], standing: str) -> dict[str, Any]:
        """The columns whose fields stand so."""
        return {
            column: self.pick(value, standing) if isinstance(value, dict) else value
            for column, value in values.items()
            if isinstance(value, dict) or self.standing(self.field_of(column)) == standing
        }

    def field_of(self, column: str) -> str:
        """The field in which a column is told."""
        return self.showing.named.get(column, column)

    def answer(self, field: str) -> tuple[str, ...]:
        """The fields that are one answer with it."""
        return (field, *self.showing.together.get(field, ()))

    def standing(self, field: str) -> str:
        """TOLD here; the SAME as was shown; or STALE: told, but no longer what was shown.

        A field that was shown empty, or not shown, is told over what happened before it: what it
        writes over is in the logbook and in a mark.
        """
        told, was = self.texts(self.entry.fields, field), self.was(self.entry, field)
        own = self.corrected_here(field)
        if told == (self.texts(own.fields, field) if own else was):
            return SAME
        if own or (self.entry.kind != INTAKE and self.texts(self.showing.now, field) == was):
            return TOLD
        if any(was):
            return STALE
        return STALE if self.told_since(field) else TOLD

    def was(self, one: Entry, field: str) -> list[str]:
        """What an entry's author had before them."""
        base = self.bases.get(one.key) if one.kind == INTAKE else None
        return self.texts(base.fields, field) if base else self.texts(one.fields, field, WAS)

    def told_since(self, field: str) -> bool:
        """Whether what stands was told later than this entry, or than the intake it corrects."""
        teller = self.teller(field)
        begun = self.bases.get(self.entry.key) if self.entry.kind == INTAKE else None
        return bool(teller and teller.happened_at > (begun or self.entry).happened_at)

    def emptied(self, column: str) -> bool:
        """Whether a corrected intake leaves empty what was told in the one before."""
        base = self.bases.get(self.entry.key)
        return base is not None and any(
            one_text(base.fields.get(name)) and not one_text(self.entry.fields.get(name))
            for name in (column, self.field_of(column))
        )

    def texts(self, fields: Mapping[str, Any], field: str, before: str = "") -> list[str]:
        """The texts of an answer."""
        return [one_text(fields.get(before + name)) for name in self.answer(field)]

    def corrected_here(self, field: str) -> Entry | None:
        """The entry that this one corrects, where what stands in the field came from it.

        Of intakes that correct one another it is whichever told it last.
        """
        if not self.entry.corrects:
            return None
        teller = self.teller(field)
        if teller and self.entry.kind == teller.kind == INTAKE:
            return teller if teller.job_key == self.entry.job_key else None
        return teller if teller and teller.key == self.entry.corrects else None

    def teller(self, field: str) -> Entry | None:
        """Who told last what stands in a field."""
        for one in self.before:
            told = self.texts(one.fields, field)
            changed = told != self.was(one, field) and (any(told) or one.key in self.bases)
            if changed and field not in one.result.get("stale", ()):
                return one
        return None

    def conflicts(self, row: Any, stale: Mapping[str, Any]) -> dict[str, Mark | None]:
        """For each stale field the mark that asks a person; None: both told the same."""
        stands, told = answers_in(vars(row)), answers_in(stale)
        told = {name: None if value is NOT_KNOWN else value for name, value in told.items()}
        found: dict[str, Mark | None] = {}
        for name in said_in(stale):
            field = self.field_of(name)
            mark = found.setdefault(field, None)
            if in_words(name, told) == in_words(name, stands):
                continue
            so_far: Mark = mark or {"code": "conflict", "stood": {}, "told": {}}
            found[field] = {
                "code": "conflict",
                "field": field,
                "stood": {**so_far["stood"], **with_beside(name, stands)},
                "told": {**so_far["told"], **with_beside(name, told)},
                "teller": self.key_of_teller(field),
            }
        return found

    def settles(self) -> list[str]:
        """The names of the conflicts that this entry settles.

        Its author told the field anew, or tapped that what stands is right.
        """
        tapped = set(self.entry.fields.get(SETTLED, ()))
        return [
            name
            for one in self.before
            for name, mark in conflicts_in(one)
            if name in tapped or self.tells(mark["field"])
        ]

    def tells(self, field: str) -> bool:
        """Whether this entry writes the field."""
        return any(self.texts(self.entry.fields, field)) and self.standing(field) == TOLD

    def key_of_teller(self, field: str) -> str | None:
        """The key of the entry that told what stands."""
        teller = self.teller(field)
        return str(teller.key) if teller else None


def said_in(stale: Mapping[str, Any]) -> list[str]:
    """The columns about which something is told, also that it is not known."""
    return [
        name for name, value in answers_in(stale).items() if name in SAID and value not in EMPTY
    ]
