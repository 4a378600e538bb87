"""Under what the car stands: air, doors, engine speed; for an hour new tests begin with them."""

from collections.abc import Iterator
from datetime import datetime, timedelta

from django.db import models
from django.db.models import F

from diagnostics.physics.units import with_unit
from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.wordings import words

HOLDS = timedelta(hours=1)  # air and doors change within a morning; our judgement
AIR = {"dry": "Dry", "normal": "Normal", "muggy": "Muggy"}
BEGIN_TESTS = ("ambient", "rpm", "doors")  # the fields of tests that begin with what was told
DOORS = {"open": "Open", "closed": "Closed"}


class Conditions(Keyed):
    """What was told at one moment. Numbers stand as typed; a test reads them as its own are read.

    How the air feels (`air`) begins no test, because none asks it: it is for who reads the job.

    Never changed: the last to be looked at counts; what corrects it stands in
    its place. What a test keeps is what was told in it.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="conditions")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="conditions_told")
    ambient = models.CharField(max_length=60, blank=True)
    ambient_unit = models.CharField(max_length=10, blank=True)
    air = models.CharField(max_length=20, blank=True)
    rpm = models.CharField(max_length=60, blank=True)
    doors = models.CharField(max_length=20, blank=True)

    class Meta:
        verbose_name_plural = "conditions"
        ordering = [
            "entry__done_at",
            "entry__happened_at",
            F("entry__sequence").asc(nulls_first=True),
            "id",
        ]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.text}"

    @property
    def text(self) -> str:
        """All of it in one line."""
        return ", ".join(self.said())

    def said(self) -> Iterator[str]:
        """What was told, in the order in which it is asked."""
        if self.ambient:
            yield with_unit(self.ambient, self.ambient_unit)
        if self.air:
            yield f"{words(AIR, self.air).lower()} air"
        if self.rpm:
            yield with_unit(self.rpm, "rpm")
        if self.doors:
            yield f"doors {words(DOORS, self.doors).lower()}"

    def holds(self, now: datetime) -> bool:
        """Whether it was told within the hour."""
        return now - self.entry.done_at < HOLDS

    def as_typed(self) -> dict[str, str]:
        """What a test that asks for the same begins with, by its fields' names."""
        told = {name: value for name in BEGIN_TESTS if (value := getattr(self, name))}
        units = {"ambient": self.ambient_unit, "rpm": "rpm"}
        return told | {f"{name}_unit": unit for name, unit in units.items() if name in told}


def last_conditions(job: Job) -> Conditions | None:
    """What was told last, however long ago; None: nothing was."""
    return job.conditions.select_related("entry").last()
