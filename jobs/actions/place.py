"""Writing where a car is, when it is promised and who has it."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from jobs.actions.job import address, job_of
from jobs.models import Entry, Job, Person, Place
from jobs.models.corrected import moment
from jobs.models.places import TOLD


def put_place(entry: Entry, told: Mapping[str, str]) -> dict[str, Any]:
    """Keep what was told, and let the job have what was told last of each part."""
    job = job_of(entry)
    Place.objects.create(key=entry.key, job=job, entry=entry, told=dict(told))
    settle_place(job)
    return {"url": address(job)}


def settle_place(job: Job) -> None:
    """Of each part the last to happen stands, in whatever order tablets bring them.

    What was corrected counts no more. Who took the job over has the car from then on.
    """
    rows = list(job.places.select_related("entry"))
    gone = {row.entry.corrects for row in rows if row.entry.corrects}
    all_told = [(row.entry, row.told) for row in rows if row.key not in gone]
    all_told += [(one, {"has_it": str(one.author.key)}) for one in taken_over(job)]
    told: dict[str, str] = {}
    for _, part in sorted(all_told, key=lambda one: moment(one[0])):
        told |= part
    promised, key = told.get("promised_at"), told.get("has_it")
    job.bay, job.key_hook = told.get("bay", ""), told.get("key_hook", "")
    job.promised_at = datetime.fromisoformat(promised) if promised else None
    job.has_it = Person.objects.filter(key=key).first() if key else None
    job.save(update_fields=list(TOLD))


def taken_over(job: Job) -> list[Entry]:
    """The taps of those who took the job over."""
    notes = job.handovers.exclude(taken_over=None).select_related("taken_over__author")
    return [note.taken_over for note in notes if note.taken_over]
