"""What the pages of work on the loop have in common: the form, what was done so far, its answer."""

import uuid
from collections.abc import Callable, Mapping
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render

from jobs.forms.fields import OnJob
from jobs.forms.quantity import as_typed
from jobs.logbook import EntryKind, enter
from jobs.models import Job, LoopWork
from jobs.models.loop_works import works_of
from jobs.models.people import BAY
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key, asked_original
from jobs.views.posted import told_from_post

Begins = Callable[[Job], Mapping[str, Any]]
Beside = Callable[[Job | None], Mapping[str, Any]]


def loop_work_page(
    request: HttpRequest, kind: EntryKind, form: type[OnJob], begins: Begins, beside: Beside
) -> HttpResponseBase:
    """The neutral page, which any tablet of the shop may keep; a job's own for those who repair.

    Template and route have the kind's name. `begins` is what a new telling begins with, `beside`
    what else the page shows.
    """
    if request.method != "POST" and asked_key(request) is None:
        return show(request, kind, None, form(), beside)
    return of_job(request, kind, form, begins, beside)


@signed_in(*BAY)
def of_job(
    request: HttpRequest, kind: EntryKind, form: type[OnJob], begins: Begins, beside: Beside
) -> HttpResponse:
    """The form about the job in the address, what was done so far, or what became of it.

    Raises:
        Http404: the address names work to correct that is not in the job.

    """
    job = asked_job(request)
    if request.method == "POST":
        outcome = enter(kind, told_from_post(request, kind.version, job.key))
        return answer(request, outcome, lambda back: show(request, kind, job, back, beside))
    corrected = asked_original(request, LoopWork.objects.filter(job=job, what=kind.name))
    first = as_typed(corrected.told) if corrected else begins(job)
    shown = form(job_key=job.key, initial=dict(first))
    return show(request, kind, job, shown, beside, str(corrected.key) if corrected else "")


def show(
    request: HttpRequest,
    kind: EntryKind,
    job: Job | None,
    form: Any,
    beside: Beside,
    corrects: str = "",
) -> HttpResponse:
    """The page; without a job a tablet fills it."""
    said = {
        "form": form,
        "job": job,
        "kind": kind,
        "title": kind.name.replace("_", " ").capitalize(),
        "works": list(works_of(job)) if job else [],
        "corrects": request.POST.get("corrects") or corrects,
        "key": request.POST.get("key") or (uuid.uuid4() if job else ""),
        **beside(job),
    }
    return render(request, f"jobs/{kind.name}.html", said)
