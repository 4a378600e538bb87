"""Writing how caps and service label were seen after the work."""

from typing import Any

from django.urls import reverse

from diagnostics.models import Verified
from diagnostics.told import Seen
from jobs.actions.corrections import in_order, link
from jobs.actions.job import job_of
from jobs.models import Entry


def record_verified(entry: Entry, told: Seen) -> dict[str, Any]:
    """Write the row; one that corrects another supersedes it, and both stay."""
    job = job_of(entry)
    row = Verified.objects.create(
        key=entry.key,
        job=job,
        entry=entry,
        corrected_why=told.corrected_why if entry.corrects else "",
        **told.columns,
    )
    rows = Verified.objects.filter(job=job).select_related("entry", "superseded_by")
    link(in_order(list(rows), row))
    entry.marks = [*entry.marks, *told.marks]
    return {"url": f"{reverse('verification')}?job={job.key}"}
