"""Writing that a job is handed over, and that somebody took it over."""

import uuid
from typing import Any

from jobs.actions.job import address, job_of
from jobs.actions.place import settle_place
from jobs.models import Entry, Handover, Person
from jobs.told import HandedOver


def hand_over(entry: Entry, told: HandedOver) -> dict[str, Any]:
    """Write the note."""
    job = job_of(entry)
    Handover.objects.create(
        key=entry.key,
        job=job,
        entry=entry,
        to=Person.objects.filter(key=told.to).first() if told.to else None,
        to_name=told.to_name,
        stands=told.stands,
        next_test=told.next_test,
        next_words=told.next_words,
        said=told.said,
    )
    return {"url": address(job)}


def take_over(entry: Entry, note: uuid.UUID) -> dict[str, Any]:
    """Note who goes on and has the car; of two who took the same note, the first to do so did."""
    job = job_of(entry)
    row = job.handovers.select_related("taken_over").filter(key=note).first()
    if row and (row.taken_over is None or entry.happened_at < row.taken_over.happened_at):
        row.taken_over = entry
        row.save(update_fields=["taken_over"])
        settle_place(job)
    return {"url": address(job)}
