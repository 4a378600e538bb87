"""An entry held against what its form showed: what is told, and what somebody changed meanwhile.

A form carries beside each field that it filled a hidden one, `was_` before its name, with the value
it showed. So an entry says by itself which fields its author changed and from what. A field changed
by two people is never refused and never written over: the first stands, both stay in the logbook,
and a mark asks which is right.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from jobs.models import Entry, Job
from jobs.models.conflicts import conflicts_in
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
        told = Entry.objects.filter(job_key__in=jobs, kind__in=("intake", entry.kind))
        before = told.exclude(pk=entry.pk).order_by("-id").select_related("author")
        return cls(entry, showing, before)

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

        A field that was shown empty, or not shown, is told whatever stands there: what it writes
        over is in the logbook and in a mark.
        """
        fields = self.entry.fields
        told, was = self.texts(fields, field), self.texts(fields, field, WAS)
        own = self.corrected_here(field)
        if told == (self.texts(own.fields, field) if own else was):
            return SAME
        if own or not any(was) or self.texts(self.showing.now, field) == was:
            return TOLD
        return STALE

    def texts(self, fields: Mapping[str, Any], field: str, before: str = "") -> list[str]:
        """The texts of an answer."""
        return [one_text(fields.get(before + name)) for name in self.answer(field)]

    def corrected_here(self, field: str) -> Entry | None:
        """The entry that this one corrects, where what stands in the field came from it."""
        if not self.entry.corrects:
            return None
        teller = self.teller(field)
        return teller if teller and teller.key == self.entry.corrects else None

    def teller(self, field: str) -> Entry | None:
        """Who told last what stands in a field."""
        for one in self.before:
            told = self.texts(one.fields, field)
            changed = any(told) and told != self.texts(one.fields, field, WAS)
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
