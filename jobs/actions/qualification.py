"""Writing a card of somebody's; a correction takes the place of the row it names."""

from typing import Any

from jobs.models import Entry, Person, Qualification


def add_qualification(
    entry: Entry, person: Person, columns: dict[str, Any], corrected: Qualification | None
) -> Qualification:
    """The card as told. What it corrects stays, superseded; its photo goes on with it."""
    before = corrected.pictured if corrected else None
    pictured = entry if entry.photos else before
    row = Qualification.objects.create(
        key=entry.key, entry=entry, person=person, pictured=pictured, **columns
    )
    if corrected:
        corrected.superseded_by = row
        corrected.save(update_fields=["superseded_by"])
    return row
