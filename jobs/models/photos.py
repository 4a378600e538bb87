"""Photos: what was sent, what is shown."""

from django.db import models

from jobs.models.entries import Entry


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
