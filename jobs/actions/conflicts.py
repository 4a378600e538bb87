"""An entry held against what its form showed: what is told, and what somebody changed meanwhile.

A form carries beside each field that it filled a hidden one, `was_` before its name, with the value
it showed. So an entry says by itself which fields its author changed and from what. A field changed
by two people is never refused and never written over: the first stands, both stay in the logbook,
and a mark asks which is right.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils import timezone
from django.utils.dateformat import format as date_words

from jobs.actions.said import EMPTY, SAID, answers_in, as_said
from jobs.models import Entry, Job
from jobs.told import NOT_KNOWN, WAS, Showing, one_text

TOLD, SAME, STALE = "told", "same", "stale"
NOBODY_KNOWS = "not known"


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

    def questions(self, row: Any, stale: Mapping[str, Any]) -> dict[str, str]:
        """For each stale field what a person has to choose; empty: both told the same."""
        stands, told = answers_in(vars(row)), answers_in(stale)
        found: dict[str, str] = {}
        for name, value in told.items():
            if name not in SAID or value in EMPTY:
                continue
            here, there = in_words(name, told), in_words(name, stands)
            field = self.field_of(name)
            question = (
                f"{SAID[name]}: “{there}” stands{self.since(field)}; here “{here}” was told."
                " Which is right?"
            )
            asked = [found.get(field, ""), question if here != there else ""]
            found[field] = " ".join(filter(None, asked))
        return found

    def since(self, field: str) -> str:
        """Since when a value stands, and who told it."""
        teller = self.teller(field)
        if teller is None:
            return ""
        moment = date_words(timezone.localtime(teller.happened_at), "j M Y, H:i")
        return f" since {moment} ({teller.author.name})"


def in_words(name: str, values: Mapping[str, Any]) -> str:
    """A column among values in words, an empty one too."""
    value = values.get(name)
    return NOBODY_KNOWS if value is NOT_KNOWN or value in EMPTY else as_said(name, values)
