"""Forms that show what is known, and say beside each field what they showed."""

import uuid
from collections.abc import Callable
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict
from django.utils.functional import cached_property

from jobs.forms.fields import OnJob
from jobs.logbook import Told
from jobs.models import Job
from jobs.models.conflicts import still_open, what_of
from jobs.models.marks import marks_in_words
from jobs.told import SETTLED, WAS, Showing, one_text

NAME_MAX = 100  # letters of a conflict's name: a key and a field


class Settled(forms.MultipleChoiceField):
    """Conflicts where what stands is right; one that was settled meanwhile is no error."""

    widget = forms.CheckboxSelectMultiple

    def __init__(self, choices: Callable[[], list[tuple[str, str]]]) -> None:
        super().__init__(
            label="Two told it differently",
            help_text="Where the other is right, type or tap that in its place: it settles it too.",
            choices=choices,
            required=False,
        )

    def valid_value(self, value: Any) -> bool:
        """Whatever was tapped on a page as it stood then."""
        return len(str(value)) <= NAME_MAX


class FilledForm(OnJob):
    """A form about rows that others may change while it is open.

    Each field has a hidden one with `was_` before its name: the value shown, empty where none was.
    On a page that was kept without a job the page's script fills both.
    """

    NAMED: dict[str, str] = {}  # {column: field} where the names differ
    TOGETHER: dict[str, tuple[str, ...]] = {}  # {field: fields that are one answer with it}

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        *,
        job_key: uuid.UUID | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, job_key=job_key, **kwargs)
        for name in [name for name in self.fields if not name.endswith("_why")]:
            self.fields[f"{WAS}{name}"] = forms.CharField(
                required=False,
                strip=False,
                widget=forms.HiddenInput,
                initial=one_text(self.initial.get(name)),
            )
        self.fields[SETTLED] = Settled(lambda: [one[:2] for one in self.conflicts])

    @cached_property
    def conflicts(self) -> list[tuple[str, str, str]]:
        """What was told differently and waits for a person: (name, what a tap says, sentence)."""
        found = [one for one in still_open(self.job_key) if one[2]["field"] in self.fields]
        said = marks_in_words({entry.pk: entry for _, entry, _ in found}.values())
        return [
            (name, f"{what_of(mark)}: right as it stands", one.words)
            for name, entry, mark in found
            for one in said[entry.pk]
            if one.open and one.field == mark["field"]
        ]

    @staticmethod
    def filled(job: Job) -> dict[str, Any]:
        """The form's fields as the rows have them."""
        raise NotImplementedError

    def showing(self, job: Job) -> Showing:
        """How the form shows a job's rows as they stand."""
        return Showing(self.filled(job), self.NAMED, self.TOGETHER)
