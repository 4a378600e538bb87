"""Work handed over in the middle of a job: to whom, what stands now, what comes next."""

from collections.abc import Iterable

from django.db import models
from django.db.models import F

from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.people import Person
from jobs.models.vehicles import WITH_HIGH_VOLTAGE
from jobs.models.wordings import words

ANYONE = "anyone"
ANYONE_WORDS = "Whoever is next"
# What can stand around a car that somebody walks away from; common practice, no source.
STANDS = {
    "gauges_on": "Gauges on",
    "engine_hot": "Engine has to cool",
    "hood_open": "Hood open",
    "on_lift": "On the lift",
    "battery_off": "Battery disconnected",
    "hv_isolated": "High voltage isolated",
    "hv_live": "High voltage not isolated",
    "unplugged": "Compressor unplugged",
    "sealed": "Loop closed",
    "open_capped": "Loop open, capped",
    "open": "Loop open, not capped",
    "vacuum": "Vacuum running",
    "nitrogen": "Nitrogen in",
    "no_oil": "Oil not in yet",
    "no_drier": "Drier not fitted yet",
    "in_trunk": "Parts in the trunk",
    "customer_waits": "Customer is waiting",
}
# Answers that only such drives have; one that is not noted may be any.
ONLY_ON = {
    "hv_isolated": ("", *WITH_HIGH_VOLTAGE),
    "hv_live": ("", *WITH_HIGH_VOLTAGE),
}


class Handover(Keyed):
    """A note from whoever leaves a job to whoever goes on with it.

    `to` is empty where anybody may be next or a name was typed (`to_name`). `stands` are codes of
    the table above, `next_test` is the kind of a test. Of a job's notes the last to happen counts,
    until somebody takes the job over. Never changed but for that.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="handovers")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="handover_told")
    to = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="handed_over_to"
    )
    to_name = models.CharField(max_length=80, blank=True)
    stands = models.JSONField(default=list)
    next_test = models.CharField(max_length=40, blank=True)
    next_words = models.CharField(max_length=200, blank=True)
    said = models.TextField(blank=True)
    taken_over = models.OneToOneField(
        Entry, models.PROTECT, null=True, blank=True, related_name="took_over"
    )

    class Meta:
        ordering = [
            "entry__done_at",
            "entry__happened_at",
            F("entry__sequence").asc(nulls_first=True),
            "id",
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: to {self.to_words}"

    @property
    def to_words(self) -> str:
        """To whom, as people say it."""
        return self.to.name if self.to else self.to_name or ANYONE_WORDS.lower()

    @property
    def stands_words(self) -> list[str]:
        """What stands now, in the order of the table; a code that is not listed as it was told."""
        told = sorted(self.stands, key=lambda code: [*STANDS, code].index(code))
        return [words(STANDS, code) for code in told]


def handovers_of(job: Job) -> models.QuerySet[Handover]:
    """The notes of a job with who wrote them, for whom, and who took over."""
    return job.handovers.select_related("entry__author", "to", "taken_over__author")


def not_taken_over(notes: Iterable[Handover]) -> Handover | None:
    """The note that nobody took over yet, of notes in their order: the last one, or none."""
    last = next(reversed(list(notes)), None)
    return None if last is None or last.taken_over_id else last
