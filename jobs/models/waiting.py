"""What a car waits for: something that runs by itself until a time, or somebody."""

from collections.abc import Iterable
from datetime import datetime

from django.db import models
from django.utils import timezone

from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import OPEN, Job
from jobs.models.moments import short_day, short_time
from jobs.models.people import Person
from jobs.models.wordings import words

BY_ITSELF = {
    "vacuum": "Vacuum",
    "nitrogen": "Nitrogen hold",
    "soak": "Soak",
    "pause": "Break",
    "timer": "Own timer",
}
SOMEONE = {
    "yes": "Yes from the customer",
    "part": "A part",
    "sublet": "Work sent out",
    "person": "A person",
    "other": "Something else",
}
WHATS = {**BY_ITSELF, **SOMEONE}
# What is read when its minutes are up, and the test that asks for it: the clock reads nothing.
READ_AFTER = {
    "vacuum": ("vacuum_hold", "read the vacuum"),
    "nitrogen": ("nitrogen_hold", "read the pressure"),
}
PAUSE_MINUTES = 30  # a break, where nobody says
# Before the words that follow, and as they stand alone.
LABELS = {
    "part": "Part",
    "yes": "Customer, yes or no",
    "person": "Someone",
    "other": "",
    "timer": "",
}


class Waiting(Keyed):
    """One thing that a car waits for, until somebody says “no longer”.

    `until` is when it is over, or expected; `due_on` the day where no time was told. `ended_by` is
    the first entry that ended it; of a vacuum an evacuation or a charge does, too. Never deleted;
    one that corrects another takes its place.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="waitings")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="waiting_told")
    what = models.CharField(max_length=20)
    words = models.CharField(max_length=200, blank=True)
    person = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="waited_for"
    )
    until = models.DateTimeField(null=True, blank=True)
    due_on = models.DateField(null=True, blank=True)
    began_at = models.DateTimeField()
    ended_by = models.ForeignKey(
        Entry, models.PROTECT, null=True, blank=True, related_name="waitings_ended"
    )
    superseded_by = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="supersedes"
    )

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.job_id}: {self.label}"

    @property
    def stands(self) -> bool:
        """Whether it is waited for still."""
        return not (self.ended_by_id or self.superseded_by_id)

    @property
    def by_itself(self) -> bool:
        """Whether it runs by itself until a time."""
        return self.what in BY_ITSELF

    @property
    def label(self) -> str:
        """What it is, in a few words: Vacuum; Part: drier; E. Quist: prove it dead."""
        name = self.person.name if self.person else ""
        return ": ".join(text for text in (name, self.words) if text) if name else self.nameless

    @property
    def nameless(self) -> str:
        """The same without the name of one of the shop's people."""
        what = LABELS.get(self.what, words(WHATS, self.what))
        told = ": ".join(text for text in (what, self.words) if text)
        return told[:1].upper() + told[1:] or words(WHATS, self.what)

    @property
    def read_with(self) -> str:
        """The test that is made when its minutes are up, by its name; empty: none."""
        return READ_AFTER.get(self.what, ("", ""))[0]

    @property
    def read_words(self) -> str:
        """What is to be read then."""
        return READ_AFTER.get(self.what, ("", ""))[1]

    @property
    def over_words(self) -> str:
        """That its minutes are up, and no more: 30 minutes are up: read the vacuum."""
        count = self.minutes
        up = "1 minute is up" if count == 1 else f"{count} minutes are up"
        return f"{up}: {self.read_words}" if self.read_words else up

    @property
    def minutes(self) -> int | None:
        """How long it was to run; None where only the end was told in another way."""
        return round((self.until - self.began_at).total_seconds() / 60) if self.until else None

    def over(self, now: datetime) -> bool:
        """Whether its time is past."""
        if self.until:
            return self.until <= now
        return self.due_on is not None and self.due_on < timezone.localtime(now).date()

    def time_words(self, now: datetime) -> str:
        """Its time in words, what is past told as past: until 15:20; was due Wed."""
        when, word = self.moment(now)
        return f"{word} {when}"

    def moment(self, now: datetime) -> tuple[str, str]:
        """The time that counts and the word for it: (15:20, until)."""
        if self.until:
            word = self.word(over=self.over(now))
            return short_time(self.until, now), word
        if self.due_on:
            today = timezone.localtime(now).date()
            return short_day(self.due_on, today), self.word(over=self.over(now))
        return short_time(self.began_at, now), self.word(over=False)

    def word(self, *, over: bool) -> str:
        """What its time means."""
        if not (self.until or self.due_on):
            return "asked" if self.what == "yes" else "since"
        if self.by_itself:
            return "over since" if over else "until"
        if self.what in ("part", "sublet"):
            return "was due" if over else "due"
        return "was expected" if over else "expected"


def on_tablets() -> dict[str, dict[str, str | int]]:
    """How a tablet words what is recorded on it: by kind, what stands before words, and alone."""
    usual = {"pause": PAUSE_MINUTES}
    return {
        what: {"before": LABELS.get(what, alone), "alone": alone, "minutes": usual.get(what, 0)}
        for what, alone in WHATS.items()
    }


def standing_waits(jobs: Iterable[Job]) -> models.QuerySet[Waiting]:
    """What these jobs wait for now."""
    return still_waiting().filter(job__in=jobs)


def waits_now(job: Job) -> list[Waiting]:
    """What one job waits for now; no query where all that it ever waited for came with it."""
    if "waitings" in getattr(job, "_prefetched_objects_cache", {}):
        return [one for one in job.waitings.all() if one.stands]
    return list(standing_waits([job]))


def still_waiting() -> models.QuerySet[Waiting]:
    """What was not ended, and nothing took the place of."""
    return Waiting.objects.filter(ended_by=None, superseded_by=None).select_related("person")


def open_waits() -> models.QuerySet[Waiting]:
    """The same of all open jobs."""
    return still_waiting().filter(job__stage__in=OPEN)
