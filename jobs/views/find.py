"""Find: half a plate, the end of a VIN, a name, a phone number."""

from collections.abc import Sequence
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.cache import patch_vary_headers

from jobs import search
from jobs.models import Job
from jobs.told import as_key
from jobs.views.access import asks_for_part, signed_in

KEPT = "kept"  # in the address, as of the board


@signed_in()
def find(request: HttpRequest) -> HttpResponse:
    """Jobs with all of the words, newest first; without words, the open ones.

    With `kept` in the address the page that a tablet keeps: its script lists the cars kept there.
    """
    if KEPT in request.GET:
        return render(request, "jobs/find.html", {"kept": True})
    typed = request.GET.get("words", "")
    words = search.asked_words(typed)
    older_than = as_key(request.GET.get("older", ""))  # no key: the first page
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
    part = asks_for_part(request)  # while somebody types
    page = "jobs/_find_rows.html" if part else "jobs/find.html"
    response = render(request, page, said | {"part": part})
    patch_vary_headers(response, ["HX-Request"])
    return response


def rows(jobs: Sequence[Job], words: Sequence[str]) -> list[dict[str, Any]]:
    """Each job with its texts parted around what was found in them."""
    longer = [word for word in words if len(word) > 2]  # a shorter one begins a word only
    listed: list[dict[str, Any]] = []
    for job in jobs:
        row = {name: search.parted(text, longer) for name, text in texts(job).items()}
        row["plate"] = search.parted(job.vehicle.plate, words)
        # What does not stand there anyway is shown where nothing else says why it was found.
        told = any(row[name][1] for name in ("plate", "name", "make_model", "number"))
        before, mark, after = row["make_model"]
        row["make_model"] = before, mark, with_year(after, job)
        listed.append({"job": job, "beside": not told, **row})
    return listed


def with_year(words: str, job: Job) -> str:
    """The end of make and model with the model year, by which nothing is looked for."""
    year = job.vehicle.model_year
    if year is None:
        return words
    return f"{words}, {year}" if job.vehicle.make_model else str(year)


def texts(job: Job) -> dict[str, str]:
    """What else a job is found by."""
    car, customer = job.vehicle, job.customer
    return {
        "name": customer.name,
        "phone": customer.phone,
        "make_model": car.make_model,
        "vin": car.vin,
        "number": job.number,
    }
