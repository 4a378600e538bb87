"""What a tablet had acknowledged: a database that went back in time lacks some of it."""

import json
import uuid
from collections.abc import Iterator, Sequence
from datetime import timedelta
from typing import Any

from django.http import HttpRequest, JsonResponse
from django.utils import timezone
from django.views.decorators.http import require_POST

from jobs.actions import epoch
from jobs.logbook import NotAnEntry
from jobs.models import Entry, Job, Person
from jobs.models.epochs import Epoch, current
from jobs.told import as_key
from jobs.views.tablet import this_tablet

AT_ONCE = 500  # keys in one query
RING_AGE = timedelta(days=14)  # as long as tablets keep what was acknowledged
# One finding begins one epoch, however many tablets come with it.
SAME_FINDING = timedelta(hours=1)


@require_POST
def ring(request: HttpRequest) -> JsonResponse:
    """Which of these keys are in no entry, and the epoch that holds now.

    For a tablet that is known, or whoever is signed in. Keys that are missing within an epoch tell
    of a database that was put back without a word: that begins another, so that every tablet asks.
    """
    if not isinstance(request.user, Person) and this_tablet(request) is None:
        return JsonResponse({"state": "sign_in"}, status=403)
    asked = read_keys(request)
    lost = list(unknown(asked))
    if lost and not begun_within(SAME_FINDING):
        count = f"{len(lost)} {'entry' if len(lost) == 1 else 'entries'}"
        epoch.begin(f"A tablet was told of {count} that this database does not have.")
    told = {"shopac": "here", "epoch": epoch_key(), "missing": [str(key) for key in lost]}
    return JsonResponse(told)


def read_keys(request: HttpRequest) -> list[uuid.UUID]:
    """The keys in the body.

    Raises:
        NotAnEntry: there is no list of keys in it.

    """
    if request.content_type != "application/json":
        raise NotAnEntry("The list of keys is not JSON.")
    try:
        return [uuid.UUID(one) for one in json.loads(request.body)["keys"]]
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        raise NotAnEntry("The list of keys cannot be read.") from None


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


def went_back(said: dict[str, Any]) -> bool:
    """Whether what a tablet knows of this database, told with an entry, is not so any more."""
    told = said.get("epoch")
    return bool(told and told != epoch_key()) or knows(str(said.get("last") or "")) is False


def waits_for_job(job_key: uuid.UUID | None) -> bool:
    """Whether an entry's car was lost with a database that went back, and another tablet has it."""
    if job_key is None or Job.objects.filter(key=job_key).exists():
        return False
    return begun_within(RING_AGE)
