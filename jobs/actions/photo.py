"""Writing photos: where they are filed, and what takes the place of what."""

from collections.abc import Iterable
from typing import Any

from django.urls import reverse

from jobs.actions.job import job_of
from jobs.models import Entry, Photo
from jobs.told import Filed


def take_photos(entry: Entry, told: Filed) -> dict[str, Any]:
    """File the photos that came with the entry.

    One that corrects an earlier entry of photos takes its place; without photos of its own it
    files those of the earlier one anew.
    """
    job = job_of(entry)
    pictures = list(entry.pictures.all())
    if entry.corrects:
        earlier = Photo.objects.filter(
            entry__key=entry.corrects, entry__kind=entry.kind, job_key=job.key, superseded_by=None
        )
        if pictures:
            earlier.update(superseded_by=entry)
        else:
            pictures = list(earlier)
    put(entry, pictures, told)
    return {"url": f"{reverse('photos')}?job={job.key}"}


def file_photo(entry: Entry, picture: Photo, told: Filed) -> dict[str, Any]:
    """File one photo anew, unless something told later says where it is.

    Entries of two tablets may arrive in another order than they were told in.
    """
    last = picture.filed_by
    later = last and last.happened_at > entry.happened_at
    if not later:
        put(entry, [picture], told)
    return {"url": reverse("photos_view", args=[picture.entry.key, picture.number])}


def put(entry: Entry, pictures: Iterable[Photo], told: Filed) -> None:
    """The rows as told."""
    for picture in pictures:
        picture.place, picture.about, picture.note = told.place, told.about, told.note
        picture.personal, picture.step_key = told.personal, told.step_key
        picture.filed_by = entry
        picture.save(update_fields=["place", "about", "note", "personal", "step_key", "filed_by"])
