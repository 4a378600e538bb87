"""What came under a key already taken was looked at: both stay, and nobody is asked any more."""

from typing import Any

from django.urls import reverse

from jobs.models import Entry


def see_copy(entry: Entry) -> dict[str, Any]:
    """The entry itself is what is kept of it; its result names what it settles."""
    return {"url": reverse("conflicts"), "settles": list(entry.fields["copy"])}
