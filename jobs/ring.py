"""What tablets had acknowledged, held against a database that may have gone back in time."""

import uuid
from collections.abc import Iterator, Sequence
from datetime import timedelta

from django.utils import timezone

from jobs.actions import epoch
from jobs.models import Entry, Job
from jobs.models.epochs import Epoch, current
from jobs.told import as_key

AT_ONCE = 500  # keys in one query
RING_AGE = timedelta(days=14)  # as long as tablets keep what was acknowledged
# One finding begins one epoch, however many tablets come with it.
SAME_FINDING = timedelta(hours=1)


def missing(keys: Sequence[uuid.UUID]) -> list[uuid.UUID]:
    """Which of these keys are in no entry.

    Any that are missing within an epoch tell of a database that was put back without a word: that
    begins another, so that every tablet asks.
    """
    lost = list(unknown(keys))
    if lost and not begun_within(SAME_FINDING):
        count = f"{len(lost)} {'entry' if len(lost) == 1 else 'entries'}"
        epoch.begin(f"A tablet was told of {count} that this database does not have.")
    return lost


def unknown(keys: Sequence[uuid.UUID]) -> Iterator[uuid.UUID]:
    """Those of the keys that the logbook does not have, in their order."""
    for first in range(0, len(keys), AT_ONCE):
        some = keys[first : first + AT_ONCE]
        known = set(Entry.objects.filter(key__in=some).values_list("key", flat=True))
        yield from (key for key in some if key not in known)


def epoch_key() -> str:
    """The epoch as tablets are told it."""
    held = current()
    return str(held.key) if held else ""


def begun_within(age: timedelta) -> bool:
    """Whether an epoch other than the first began so lately."""
    held = current()
    if held is None or timezone.now() - held.began_at > age:
        return False
    return Epoch.objects.exclude(pk=held.pk).exists()


def knows(key: str) -> bool | None:
    """Whether the logbook has what a tablet had acknowledged last; None: it names nothing."""
    asked = as_key(key)
    return Entry.objects.filter(key=asked).exists() if asked else None


def waits_for_job(job_key: uuid.UUID | None) -> bool:
    """Whether an entry's car was lost with a database that went back, and another tablet has it."""
    if job_key is None or Job.objects.filter(key=job_key).exists():
        return False
    return begun_within(RING_AGE)
