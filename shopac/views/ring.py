"""What a tablet had acknowledged, asked about: which of it is missing here."""

import json
import uuid
from typing import Any

from django.http import HttpRequest, JsonResponse
from django.views.decorators.http import require_POST

from jobs.contacts import revoked
from jobs.logbook import NotAnEntry
from jobs.models import Person
from jobs.ring import epoch_key, knows, missing, unknown
from jobs.views.tablet import this_tablet


@require_POST
def ring(request: HttpRequest) -> JsonResponse:
    """Which of these keys are in no entry, and the epoch that holds now.

    For a tablet that is known, or whoever is signed in. A revoked one is told, so that it can save
    to a file what was lost, but its word begins no epoch.
    """
    tablet = this_tablet(request)
    if not isinstance(request.user, Person) and tablet is None:
        return JsonResponse({"state": "sign_in"}, status=403)
    found = unknown if revoked(tablet) else missing
    lost = [str(key) for key in found(read_keys(request))]
    return JsonResponse({"shopac": "here", "epoch": epoch_key(), "missing": lost})


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


def went_back(said: dict[str, Any]) -> bool:
    """Whether what a tablet knows of this database, told with an entry, is not so any more."""
    told = said.get("epoch")
    return bool(told and told != epoch_key()) or knows(str(said.get("last") or "")) is False
