"""A small answer by which a tablet knows that the shop server is there, and who it thinks it is."""

from django.http import HttpRequest, JsonResponse
from django.middleware.csrf import get_token
from django.utils import timezone
from django.views.decorators.http import require_GET

from jobs.models import Person
from jobs.passes import make_pass
from jobs.ring import epoch_key, knows
from jobs.views.tablet import (
    in_contact,
    revoked_words,
    session_since,
    signed_in_at,
    this_tablet,
)


@require_GET
def ping(request: HttpRequest) -> JsonResponse:
    """Presence, the server's clock, a fresh form token, and a pass for whoever is signed in.

    On a revoked tablet nobody is, and nobody gets a pass. What a tablet tells of itself comes in a
    header of our own, which no other site can send.
    `last` in the address is the entry that the tablet last had acknowledged.
    """
    tablet = this_tablet(request)
    revoked = revoked_words(in_contact(request))
    person = request.user if isinstance(request.user, Person) and not revoked else None
    return JsonResponse(
        {
            "shopac": "here",
            "time": timezone.now().isoformat(),
            "csrf": get_token(request),
            "epoch": epoch_key(),
            "knows": knows(request.GET.get("last", "")),
            "person": {"key": str(person.key), "name": person.name, "role": person.role}
            if person
            else None,
            "since": session_since(request) if person else None,
            "tablet": str(tablet) if tablet else None,
            "revoked": revoked,
            "pass": make_pass(person, tablet, signed_in_at(request)) if person and tablet else None,
        }
    )
