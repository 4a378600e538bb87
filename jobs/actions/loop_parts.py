"""Writing what was seen of the parts of the loop."""

from collections.abc import Iterable
from typing import Any

from django.urls import reverse

from jobs.actions.job import job_of
from jobs.models import Entry, LoopTold
from jobs.told import LoopSeen


def tell_loop_parts(entry: Entry, told: Iterable[LoopSeen]) -> dict[str, Any]:
    """One row a part. What counts is worked out when it is read: the last to happen."""
    job = job_of(entry)
    LoopTold.objects.bulk_create(LoopTold(job=job, entry=entry, **vars(one)) for one in told)
    return {"url": f"{reverse('repair')}?job={job.key}"}
