"""What was handed over: numbered issues of a job's record, each frozen with its file."""

from django.db import models

from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.people import Person
from jobs.models.shop import Shop

RECORD_YEARS = 10  # where the shop has set none; our judgement


def kept_years() -> int:
    """For how many years a record stays whose customer asked to be forgotten."""
    return getattr(Shop.objects.first(), "record_years", None) or RECORD_YEARS


class Record(Keyed):
    """One issue. A later one supersedes it; neither is ever changed or deleted.

    `data` is the exact text that was frozen and stands attached in the file, ASCII JSON of schema
    `schema`. The file lies in the data folder, named by `pdf_sha256`. `let_go_at`: since then data
    and file are gone, because the customer asked to be taken out and the years for which the shop
    keeps them are over; the hashes stay.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="records")
    issue = models.PositiveIntegerField()
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="record_issued")
    schema = models.PositiveSmallIntegerField()
    data = models.TextField()
    data_sha256 = models.CharField(max_length=64, db_index=True)
    pdf_sha256 = models.CharField(max_length=64, db_index=True)
    pdf_bytes = models.PositiveBigIntegerField()
    changed = models.TextField()
    issued_by = models.ForeignKey(Person, models.PROTECT, related_name="records_issued")
    frozen_at = models.DateTimeField()
    let_go_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["issue"]
        constraints = [
            models.UniqueConstraint(
                fields=["job", "issue"],
                name="record_issue_once",
                violation_error_message="This issue is already frozen.",
            ),
            models.CheckConstraint(
                condition=models.Q(issue__gte=1),
                name="record_issue_from_one",
                violation_error_message="Issues are counted from 1.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: issue {self.issue}"
