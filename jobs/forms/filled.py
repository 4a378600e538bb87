"""Forms that show what is known, and say beside each field what they showed."""

import uuid
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from jobs.forms.fields import OnJob
from jobs.logbook import Told
from jobs.models import Job
from jobs.told import WAS, Showing, one_text


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

    @staticmethod
    def filled(job: Job) -> dict[str, Any]:
        """The form's fields as the rows have them."""
        raise NotImplementedError

    def showing(self, job: Job) -> Showing:
        """How the form shows a job's rows as they stand."""
        return Showing(self.filled(job), self.NAMED, self.TOGETHER)
