"""The logbook's rows: what was said, by whom, when, and what came of it."""

from datetime import datetime, timedelta

from django.db import models
from django.db.models import F, QuerySet

from jobs.models.people import Person

# What took longer to arrive is told with both its times. Our judgement.
LATE = timedelta(minutes=10)


class Told(models.Model):
    """One entry as it reached the shop server. Never changed, never deleted.

    `fields` is {name: [text, …]} as typed, `photos` [{field, name, sha256, size, type,
    stored_sha256, why}] with the hashes of the bytes sent and of what is shown. Times: `typed_at`
    is the tablet's clock as told, `arrived_at` the server's, `clock_offset_ms` server minus tablet
    as last measured before the tap, `clock_offset_sent_ms` as measured when it was sent. `marks`
    are what was odd and kept all the same, as data (jobs.told.Mark); jobs.models.marks says them in
    words. A customer's name or number stands in `fields` and in a mark's `stood` and `told` only,
    never in `result`.
    """

    key = models.UUIDField()
    kind = models.CharField(max_length=40)
    version = models.PositiveSmallIntegerField()
    job_key = models.UUIDField(null=True, blank=True, db_index=True)
    fields = models.JSONField()
    photos = models.JSONField(default=list)
    corrects = models.UUIDField(null=True, blank=True)
    rev = models.PositiveIntegerField(default=0)
    fingerprint = models.CharField(max_length=64)
    author = models.ForeignKey(Person, models.PROTECT, related_name="%(class)s_authored")
    sender = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="%(class)s_sent"
    )
    tablet = models.UUIDField(null=True, blank=True)
    sequence = models.PositiveBigIntegerField(null=True, blank=True)
    typed_at = models.DateTimeField()
    arrived_at = models.DateTimeField()
    happened_at = models.DateTimeField()
    clock_offset_ms = models.BigIntegerField(null=True, blank=True)
    clock_offset_sent_ms = models.BigIntegerField(null=True, blank=True)
    marks = models.JSONField(default=list)

    class Meta:
        abstract = True

    def __str__(self) -> str:
        return f"{self.kind} {self.key}"

    @property
    def came_late(self) -> datetime | None:
        """When it arrived, where that was more than ten minutes after it happened."""
        return self.arrived_at if self.arrived_at - self.happened_at > LATE else None


class Entry(Told):
    """An accepted entry with its result; rows that pages read were written in the same moment.

    `done_at` is when that was done which it tells of: when it happened, of a correction when that
    happened which was told first (jobs/models/corrected.py). By it goes all that asks when: the car
    state, the switch, what came before and after, sums by day. Which of several stands goes by
    `happened_at`.
    """

    result = models.JSONField()
    done_at = models.DateTimeField()

    class Meta:
        verbose_name_plural = "entries"
        indexes = [
            models.Index(fields=["tablet", "sequence"]),
            models.Index(fields=["tablet", "arrived_at"], name="entry_tablet_arrived"),
            models.Index(fields=["corrects"], name="entry_corrects"),
        ]
        constraints = [
            models.UniqueConstraint(
                fields=["key"],
                name="entry_key_once",
                violation_error_message="This entry is already in the logbook.",
            )
        ]

    @property
    def put_right_at(self) -> datetime | None:
        """When it put right what was told before; None: it is of its own moment."""
        return None if self.done_at == self.happened_at else self.happened_at


def switched() -> QuerySet[Entry]:
    """What turned the switches "failing now", the latest first, whenever each arrived.

    What puts one right is of that one's moment. At the same moment the one that happened later is
    the later one, then the one that its tablet counted later.
    """
    turned = Entry.objects.filter(kind="failing_now")
    counted = F("sequence").desc(nulls_last=True)
    return turned.order_by("-done_at", "-happened_at", counted, "-id")


class Reused(Told):
    """Other content that came under a key already taken. Kept for a person to look at."""

    class Meta:
        verbose_name_plural = "reused"
        constraints = [
            models.UniqueConstraint(
                fields=["key", "fingerprint"],
                name="reused_once",
                violation_error_message="This copy is already kept.",
            )
        ]
