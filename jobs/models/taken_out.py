"""What became of an old part: told when it happens, by whoever it is handed to or sent from."""

from collections.abc import Iterable
from uuid import UUID

from django.db import models
from django.db.models import F

from jobs import money
from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.wordings import words

WENT = {
    "bay": "Still in the bay",
    "shop": "Kept in the shop",
    "customer": "Given to the customer",
    "core": "Sent back as a core",
    "seller": "Sent to the seller, under warranty",
    "disposed": "Disposed of",
}
GONE = ("customer", "core", "seller", "disposed")


class TakenOut(Keyed):
    """Where the old part of one change is now: a code of WENT; the last to happen counts.

    `core_minor` is what the seller gives back for it, in the currency's smallest unit; None: not
    told. `change_key` names the change: a tablet may bring this first.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="taken_out")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="taken_out_told")
    change_key = models.UUIDField()
    went = models.CharField(max_length=20)
    core_minor = models.PositiveBigIntegerField(null=True, blank=True)
    currency = models.CharField(max_length=3, blank=True)
    note = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = [
            "entry__done_at",
            "entry__happened_at",
            F("entry__sequence").asc(nulls_first=True),
            "id",
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.words}"

    @property
    def words(self) -> str:
        """Where it went, and what is given back for it."""
        told = words(WENT, self.went)
        core = "" if self.core_minor is None else money.shown(self.core_minor, self.currency)
        return f"{told}, core price {core}" if core else told

    @property
    def gone(self) -> bool:
        """Whether it left the bay for good."""
        return self.went in GONE


def taken_out_of(job: Job) -> dict[UUID, TakenOut]:
    """What was told last of each old part of a job, by the key of its change."""
    return last_told(job.taken_out.select_related("entry__author"))


def last_told(rows: Iterable[TakenOut]) -> dict[UUID, TakenOut]:
    """The last that was told of each, without what another one corrects; rows in their order."""
    listed = list(rows)
    corrected = {row.entry.corrects for row in listed}
    return {row.change_key: row for row in listed if row.entry.key not in corrected}
