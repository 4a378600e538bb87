"""Cylinders to test with, as rows: how one is told of is tested with its own page."""

import uuid
from typing import Any

from jobs.actions.amounts import book
from jobs.models import Cylinder, Entry
from jobs.told import Moved
from tests.factories import make_job


def make_cylinder(name: str = "Cylinder 3", *, holds: int = 0, **columns: Any) -> Cylinder:
    """One cylinder of R-134a for recovered refrigerant, with so many grams bought into it."""
    entry = Entry.objects.get(pk=make_job(plate="CY.1000L").entry_id)
    entry.pk, entry.key, entry.job_key = None, uuid.uuid4(), None
    entry.kind = "cylinder"
    entry.save()
    first: dict[str, Any] = {"kind": "refillable", "refrigerant": "R-134a"}
    made = Cylinder.objects.create(key=entry.key, entry=entry, name=name, **(first | columns))
    if holds:
        into = Moved("refrigerant", holds * 1000, "supplier", "cylinder", "R-134a")
        book(entry, None, [Moved(**(vars(into) | {"to_cylinder": made.key}))])
    return made
