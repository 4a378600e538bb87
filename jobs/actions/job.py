"""The job that an entry speaks of."""

import uuid

from django.urls import reverse

from jobs.models import Entry, Job


def address(job: Job) -> str:
    """The job's page."""
    return f"{reverse('job')}?job={job.key}"


def job_of(entry: Entry) -> Job:
    """The job an entry speaks of, with car, customer and system. Its form looked for it."""
    return job_with(entry.job_key)


def job_with(key: uuid.UUID | None) -> Job:
    """The same by the job's key."""
    rows = Job.objects.select_related("customer", "vehicle__system")
    return rows.get(key=key)  # type: ignore[misc]
