"""Which issues a job's record has, and what somebody who freezes one has to have seen."""

import uuid

from django.db.models import Max, Q, QuerySet

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


def last_entry(job: Job, but: uuid.UUID) -> int | None:
    """The number of the last entry that a job's record may tell of; `but` is left out.

    That is one of the job, of another job with the same car or customer, or of no job at all:
    people and the shop have names on the paper too.
    """
    same = Job.objects.filter(Q(vehicle=job.vehicle_id) | Q(customer=job.customer_id))
    # Two questions: one with "or" reads the whole logbook.
    told = (Q(job_key__in=list(same.values_list("key", flat=True))), Q(job_key=None))
    others = Entry.objects.exclude(key=but)
    last = (others.filter(asked).aggregate(last=Max("pk"))["last"] for asked in told)
    return max((one for one in last if one is not None), default=None)
