"""Writing the switch on the job."""

from typing import Any

from jobs.actions.job import address, job_of
from jobs.models import Entry
from jobs.models.entries import switched


def set_failing_now(entry: Entry, answer: str) -> dict[str, Any]:
    """Turn the switch, unless somebody turned it at a later time and that arrived first."""
    job = job_of(entry)
    if switched().filter(job_key=entry.job_key).first() == entry:
        job.failing_now = answer
        job.save(update_fields=["failing_now"])
    return {"url": address(job)}
