"""Where the car and its key are, when it is promised, and who has it."""

from datetime import datetime

from django.db import models

from jobs.models.base import Keyed
from jobs.models.entries import Entry
from jobs.models.jobs import Job
from jobs.models.people import Person

TOLD = ("bay", "key_hook", "promised_at", "has_it")
WORD_LENGTH = 40
LATELY = 200


class Place(Keyed):
    """What one entry told of it. `told` is {name of TOLD: text}; what is not in it was not told.

    An empty text takes out what stood there. `promised_at` is an ISO 8601 time, `has_it` a person's
    key. Never changed; what stands is on the job, folded from all of its rows by the times at which
    they happened.
    """

    job = models.ForeignKey(Job, models.PROTECT, related_name="places")
    entry = models.OneToOneField(Entry, models.PROTECT, related_name="place_told")
    told = models.JSONField()

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.job_id}: {', '.join(self.told)}"


def bay_words(bay: str) -> str:
    """The bay as people say it: a number or a letter gets its word, "yard" stands as typed."""
    return f"bay {bay}" if bay[:1].isdigit() or len(bay) == 1 else bay


def hook_words(hook: str) -> str:
    """The place of the key."""
    return f"key {hook}" if hook else ""


def one_car_each(bay: str, hook: str) -> list[str]:
    """The places that hold one car or one key: a bay with a number or a letter, and a hook."""
    words = bay_words(bay)
    return [text for text in (words if words != bay else "", hook_words(hook)) if text]


PROMISED, WAS_DUE = "promised", "was due"


def promise_word(promised_at: datetime, now: datetime) -> str:
    """What a promised time means now."""
    return WAS_DUE if promised_at <= now else PROMISED


def people_here() -> list[Person]:
    """Who can have a car."""
    return list(Person.objects.filter(is_active=True))


def bays_in_use() -> list[str]:
    """The bays that were told lately, for taps; longer words than a bay's name are typed."""
    lately = Place.objects.order_by("-id").values_list("told", flat=True)[:LATELY]
    told = {str(one.get("bay", "")) for one in lately}
    return sorted((bay for bay in told if len(bay) <= 4 and bay[:1].isdigit()), key=by_number)


def by_number(bay: str) -> tuple[int, str]:
    """2 before 10."""
    figures = "".join(sign for sign in bay if sign in "0123456789")
    return int(figures or 0), bay
