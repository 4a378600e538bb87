"""Persons whom the customer, or who pays, named as those who may say yes for them."""

from collections.abc import Iterable
from datetime import datetime

from django.db import models

from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.wordings import words

FOR_CUSTOMER, FOR_PAYER = "customer", "payer"
SPEAKS_FOR = {FOR_CUSTOMER: "For the customer", FOR_PAYER: "For who pays"}


class Named(Keyed):
    """Somebody who may say yes on one job. `key` is its entry's.

    `speaks_for` is a code of SPEAKS_FOR: who named them. `ended`: they may not any more. Never
    changed, only superseded; name and phone are taken out with the customer's (jobs/forget.py).
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="named")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="named_told")
    name = models.CharField(max_length=200)
    phone = models.CharField(max_length=60, blank=True)
    speaks_for = models.CharField(max_length=20)
    ended = models.BooleanField(default=False)
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(speaks_for__in=list(SPEAKS_FOR)),
                name="named_speaks_for_somebody",
                violation_error_message="Somebody named speaks for the customer or for who pays.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.speaks_for}"

    @property
    def may(self) -> bool:
        """Whether they may say yes now."""
        return not (self.superseded_by_id or self.ended)

    @property
    def words(self) -> str:
        """Their name, and for whom they speak."""
        return f"{self.name}, {words(SPEAKS_FOR, self.speaks_for).lower()}"


def who_may(rows: Iterable[Named]) -> list[Named]:
    """Those who may say yes now."""
    return [one for one in rows if one.may]


def ended_by(one: Named, at: datetime) -> bool:
    """Whether it was noted by then that they may not say yes any more."""
    while one.superseded_by:
        one = one.superseded_by
    return one.ended and one.entry.happened_at <= at
