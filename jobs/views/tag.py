"""The tag that hangs in the car while its A/C must not be run, printed by the browser."""

import uuid
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from jobs.entries import TAG
from jobs.forms.tag import TagForm
from jobs.logbook import enter
from jobs.models import Job, Tag
from jobs.models.changes import changes_of, standing
from jobs.models.shop import PAPERS, Shop
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.posted import told_from_post

SIZES = {"a5": "Half a sheet (A5)", "a6": "A quarter (A6)"}


@signed_in()
def tag(request: HttpRequest) -> HttpResponse:
    """What was recorded against running it, or what somebody says, as it will hang there.

    Without a job in the address the page that a tablet keeps.
    """
    if asked_key(request) is None and request.method != "POST":
        return render(request, "jobs/tag.html", without_job() | {"paper": paper_of_shop()})
    job = asked_job(request)
    if request.method != "POST":
        return show(request, job, TagForm(job_key=job.key))
    outcome = enter(TAG, told_from_post(request, TAG.version, job.key))
    return answer(request, outcome, lambda form: show(request, job, form))


def show(request: HttpRequest, job: Job, form: Any) -> HttpResponse:
    """The tag, and the form for a reason that no test tells."""
    said_before = list(job.tags.select_related("entry__author"))
    size = request.GET.get("size")
    paper = paper_of_shop()
    said = {
        "job": job,
        "changes": standing(changes_of(job)),
        "form": form,
        "kind": TAG,
        "key": request.POST.get("key") or uuid.uuid4(),
        "said": said_of(request, said_before),
        "said_before": said_before,
        "now": timezone.now(),
        "size": size if size in SIZES else "a5",
        "sizes": SIZES,
        "paper": paper,
        "paper_words": PAPERS[paper],
    }
    return render(request, "jobs/tag.html", said)


def without_job() -> dict[str, Any]:
    """The form alone; the tag is drawn of what the shop server knows of a car."""
    return {"job": None, "form": TagForm(), "kind": TAG, "key": ""}


def paper_of_shop() -> str:
    """The code of the paper that the shop prints on."""
    shop = Shop.objects.first()
    return shop.paper if shop else "a4"


def said_of(request: HttpRequest, said_before: list[Tag]) -> Tag | None:
    """The reason that the address names; None: what the tests tell.

    Raises:
        Http404: it names one that was not said of this job.

    """
    key = asked_key(request, "said")
    if key is None:
        return None
    for one in said_before:
        if one.key == key:
            return one
    raise Http404("That was not said of this job.")
