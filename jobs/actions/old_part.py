"""Writing what the customer chose of the old parts."""

from typing import Any

from jobs.actions.corrections import in_order, link
from jobs.actions.job import address, job_of
from jobs.models import Entry, Job, OldPartChoice


def tell_choice(entry: Entry, told: dict[str, Any]) -> dict[str, Any]:
    """Write a choice that came by itself."""
    job = job_of(entry)
    keep_choice(job, entry, told["choice"], told["how"], told["where"])
    return {"url": address(job)}


def keep_choice(job: Job, entry: Entry, choice: str, how: str, where: str = "") -> None:
    """The row; one that corrects another takes its place."""
    row = OldPartChoice.objects.create(
        key=entry.key,
        job=job,
        entry=entry,
        choice=choice,
        how=how,
        where=where,
        chosen_at=entry.happened_at,
    )
    link(in_order(list(job.old_part_choices.select_related("entry", "superseded_by")), row))
