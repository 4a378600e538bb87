"""Find: half a plate, the end of a VIN, a name, a phone number."""

import uuid
from collections.abc import Sequence
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from jobs import search
from jobs.models import Job
from jobs.views.access import signed_in


@signed_in()
def find(request: HttpRequest) -> HttpResponse:
    """Jobs with all of the words, newest first; without words, the open ones."""
    typed = request.GET.get("words", "")
    words = search.asked_words(typed)
    older_than = read_key(request.GET.get("older", ""))
    nothing_to_look_for = bool(typed.strip()) and not words
    found = search.Found((), 0) if nothing_to_look_for else search.find(words, older_than)
    said = {
        "typed": typed[: search.TYPED_MAX],
        "cut": len(typed) > search.TYPED_MAX or len(search.folded_words(typed)) > len(words),
        "words": words,
        "nothing": nothing_to_look_for,
        "rows": rows(found.jobs, words),
        "found": found,
        "last": found.jobs[-1].key if found.jobs else None,
        "further": older_than is not None,
    }
    return render(request, "jobs/find.html", said)


def rows(jobs: Sequence[Job], words: Sequence[str]) -> list[dict[str, Any]]:
    """Each job with its plate parted around what was found in it."""
    return [{"job": job, "plate": search.parted(job.vehicle.plate, words)} for job in jobs]


def read_key(text: str) -> uuid.UUID | None:
    """The key in an address, or None when it is none: the first page is shown then."""
    try:
        return uuid.UUID(text)
    except ValueError:
        return None
