"""Writing where an old part went."""

from typing import Any

from django.urls import reverse

from jobs.actions.change import PHOTO_PLACES
from jobs.actions.job import job_of
from jobs.models import Entry, TakenOut
from jobs.models.photos import OLD_PART
from jobs.told import TakenOutTold


def tell_taken_out(entry: Entry, told: TakenOutTold) -> dict[str, Any]:
    """One row; its photos are of the old part. Which counts is worked out when it is read."""
    job = job_of(entry)
    TakenOut.objects.create(key=entry.key, job=job, entry=entry, **vars(told))
    change = job.changes.filter(key=told.change_key).first()
    place = PHOTO_PLACES.get(change.part, "") if change else ""
    entry.pictures.update(place=place, about=OLD_PART, filed_by=entry)
    return {"url": f"{reverse('repair')}?job={job.key}"}
