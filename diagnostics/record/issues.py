"""Which issues a job's record has, and what somebody who freezes one has to have seen."""

import json

from django.db.models import QuerySet

from jobs.models import Entry, Job, Record
from jobs.paper.frozen import RecordData


def last_issue(job: Job) -> Record | None:
    """The newest issue with who froze it, or None."""
    return job.records.select_related("issued_by").order_by("-issue").first()


def next_number(last: Record | None) -> int:
    """The number of the issue after this one."""
    return last.issue + 1 if last else 1


def data_of(record: Record | None) -> RecordData | None:
    """The data of an issue as they were frozen."""
    return json.loads(record.data) if record else None


def entries_of(job: Job) -> QuerySet[Entry]:
    """Every entry of a job with its author, in the order in which they happened."""
    rows = Entry.objects.filter(job_key=job.key).select_related("author")
    return rows.order_by("happened_at", "id")
