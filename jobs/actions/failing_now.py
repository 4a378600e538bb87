"""Writing the switch on the job."""

from typing import Any

from jobs.actions.fill import address, job_of
from jobs.models import Entry


def set_failing_now(entry: Entry, answer: str) -> dict[str, Any]:
    """Turn the switch, unless somebody turned it at a later time and that arrived first."""
    job = job_of(entry)
    turned = Entry.objects.filter(kind=entry.kind, job_key=entry.job_key)
    if not turned.filter(happened_at__gt=entry.happened_at).exists():
        job.failing_now = answer
        job.save(update_fields=["failing_now"])
    return {"url": address(job)}
