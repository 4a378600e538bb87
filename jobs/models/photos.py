"""Photos: what was sent, what is shown."""

import uuid

from django.db import models

from jobs.models.ac_places import NOT_FILED, WORDS
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.wordings import words

OLD_PART, NEW_PART = "old_part", "new_part"
# What a photo is of, in one tap. Codes in the database.
ABOUT = {
    "arrived": "As it arrived",
    "before": "Before",
    "after": "After",
    "damage": "Damage",
    "serial": "Serial number, label",
    OLD_PART: "The old part",
    NEW_PART: "The new part",
    "leak": "Where it leaks",
    "debris": "Debris",
    "gauge": "Gauge reading",
    "other": "Other",
}


class Photo(models.Model):
    """One picture of one entry.

    The bytes sent are named by `sent_sha256`; the picture that is shown is a re-encoded copy named
    by `stored_sha256`. A file that could not be read as a picture keeps its original bytes only and
    says `why` in words.
    """

    entry = models.ForeignKey(Entry, models.PROTECT, related_name="pictures")
    job_key = models.UUIDField(null=True, blank=True, db_index=True)
    number = models.PositiveSmallIntegerField()
    field = models.CharField(max_length=40)
    name = models.CharField(max_length=200, blank=True)
    sent_sha256 = models.CharField(max_length=64, db_index=True)
    sent_bytes = models.PositiveBigIntegerField()
    stored_sha256 = models.CharField(max_length=64, blank=True, db_index=True)
    width = models.PositiveIntegerField(null=True, blank=True)
    height = models.PositiveIntegerField(null=True, blank=True)
    why = models.CharField(max_length=200, blank=True)
    # A small copy for lists; photos of before there were such have none.
    small_sha256 = models.CharField(max_length=64, blank=True, db_index=True)
    # Where it is filed, as last told: see jobs/actions/photo.py.
    place = models.CharField(max_length=30, blank=True)
    about = models.CharField(max_length=20, blank=True)
    note = models.CharField(max_length=200, blank=True)
    personal = models.BooleanField(default=False)
    step_key = models.UUIDField(null=True, blank=True)
    filed_by = models.ForeignKey(
        Entry, models.PROTECT, null=True, blank=True, related_name="filed_pictures"
    )
    superseded_by = models.ForeignKey(
        Entry, models.PROTECT, null=True, blank=True, related_name="superseded_pictures"
    )

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["entry", "number"],
                name="photo_number_once",
                violation_error_message="This photo is already kept.",
            )
        ]

    def __str__(self) -> str:
        return f"photo {self.number} of {self.entry_id}"

    @property
    def listed_sha256(self) -> str:
        """The picture that a list shows: the small one where there is one."""
        return self.small_sha256 or self.stored_sha256

    @property
    def place_words(self) -> str:
        """Where it is filed, in words."""
        return words(WORDS, self.place) if self.place else NOT_FILED

    @property
    def about_words(self) -> str:
        """What it is of: the tap and the own words; empty: nothing was told."""
        return ". ".join(one for one in (words(ABOUT, self.about), self.note) if one)

    @property
    def step_of(self) -> uuid.UUID:
        """The key of the entry it tells of: the step it was told for later, or its own."""
        return self.step_key or self.entry.key


def photos_of(job: Job) -> models.QuerySet[Photo]:
    """The photos of a job that stand, in the order in which they were taken."""
    rows = Photo.objects.filter(job_key=job.key, superseded_by=None)
    return rows.select_related("entry__author", "filed_by__author").order_by(
        "entry__happened_at", "entry_id", "number"
    )
