"""Which earlier visit's trouble is back, told after intake."""

import uuid
from typing import Any

from django import forms
from django.utils.datastructures import MultiValueDict

from jobs.forms.fields import OnJob
from jobs.known import earlier_jobs
from jobs.logbook import Told
from jobs.models import Job
from jobs.models.wordings import shop_day
from jobs.told import Before, as_key

NONE = "none"
NO_EARLIER = "The shop server has no such earlier job. Tap one of those shown."


class Earlier(forms.ChoiceField):
    """One of the earlier jobs by key; any key is looked for, whichever the page showed."""

    widget = forms.RadioSelect

    def valid_value(self, value: Any) -> bool:
        """A key, or none of them."""
        return value == NONE or as_key(value) is not None


class FollowsForm(OnJob):
    """One tap: the earlier job, or none of them."""

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        *,
        job_key: uuid.UUID | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, job_key=job_key, **kwargs)
        jobs = Job.objects.select_related("vehicle")
        self.job = jobs.filter(key=self.job_key).first() if self.job_key else None
        self.fields["follows"] = Earlier(
            label="Is the same trouble back?",
            choices=lambda: [*map(answer, self.earlier), (NONE, "Another matter")],
            error_messages={"required": "Tap one of these.", "invalid_choice": NO_EARLIER},
        )

    @property
    def earlier(self) -> list[Job]:
        """The visits before this one."""
        return earlier_jobs(self.job) if self.job else []

    def clean(self) -> dict[str, Any]:
        """A comeback comes after what it comes back from."""
        said = super().clean()
        key = as_key(said.get("follows"))
        if key and self.job and not Job.objects.filter(key=key, pk__lt=self.job.pk).exists():
            self.add_error("follows", NO_EARLIER)
        return said

    def before(self) -> Before:
        """What the valid form says."""
        key = as_key(self.cleaned_data["follows"])
        return Before(key, "comeback") if key else Before(None, "other_matter")


def answer(job: Job) -> tuple[str, str]:
    """An earlier job as an answer."""
    when = shop_day(job.opened_at)
    return str(job.key), f"The trouble of {when}: job {job.number}, {job.stands_words}"
