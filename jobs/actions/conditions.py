"""Writing under what a car stands."""

from collections.abc import Mapping, Sequence
from typing import Any

from jobs.actions.job import address, job_of
from jobs.models import Conditions, Entry
from jobs.told import Mark


def note_conditions(entry: Entry, told: Mapping[str, str], marks: Sequence[Mark]) -> dict[str, Any]:
    """Write what was told; what is odd about it stays with a mark."""
    job = job_of(entry)
    Conditions.objects.create(key=entry.key, job=job, entry=entry, **told)
    entry.marks = [*entry.marks, *marks]
    return {"url": address(job)}
