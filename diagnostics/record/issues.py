"""Which issues a job's record has, and what somebody who freezes one has to have seen."""

from django.db.models import QuerySet

from jobs.models import Entry, Job, Record
from jobs.paper import shelf
from jobs.paper.frozen import RecordData


def last_issue(job: Job) -> Record | None:
    """The newest issue with who froze it, or None."""
    return job.records.select_related("issued_by").order_by("-issue").first()


def next_number(last: Record | None) -> int:
    """The number of the issue after this one."""
    return last.issue + 1 if last else 1


def data_before(record: Record | None) -> RecordData | None:
    """The data of an issue as they were frozen; None: there is none, or they are not as frozen."""
    try:
        return shelf.data_of(record) if record else None
    except shelf.NotAsFrozen:
        return None


def entries_of(job: Job) -> QuerySet[Entry]:
    """Every entry of a job with its author, in the order in which they happened."""
    rows = Entry.objects.filter(job_key=job.key).select_related("author")
    return rows.order_by("happened_at", "id")
