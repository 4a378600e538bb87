"""Writing who else may say yes."""

from typing import Any

from django.urls import reverse

from jobs.actions.corrections import in_order, link
from jobs.actions.job import job_of
from jobs.models import Entry, Named


def name_somebody(entry: Entry, told: dict[str, Any]) -> dict[str, Any]:
    """Write a name; one that corrects another takes its place, and may end it."""
    job = job_of(entry)
    row = Named.objects.create(
        key=entry.key,
        job=job,
        entry=entry,
        name=told["named_name"],
        phone=told["named_phone"],
        speaks_for=told["speaks_for"],
        ended=told["ended"],
    )
    link(in_order(list(job.named.select_related("entry", "superseded_by")), row))
    return {"url": f"{reverse('consent')}?job={job.key}"}
