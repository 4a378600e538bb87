"""Writing why a car's A/C must not be run, as somebody said it."""

from collections.abc import Mapping
from typing import Any

from django.urls import reverse

from jobs.actions.job import job_of
from jobs.models import Entry, Tag


def write_tag(entry: Entry, told: Mapping[str, Any]) -> dict[str, Any]:
    """Write the reason; the page that it leads to prints it."""
    job = job_of(entry)
    columns = {name: told[name] for name in ("reasons", "words", "before")}
    Tag.objects.create(key=entry.key, job=job, entry=entry, **columns)
    return {"url": f"{reverse('tag')}?job={job.key}&said={entry.key}"}
