"""Who else may say yes on a job."""

import uuid
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.entries import NAMED
from jobs.forms.named import NamedForm
from jobs.logbook import enter
from jobs.models import Job, Named
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key, asked_original
from jobs.views.posted import told_from_post


@signed_in()
def named(request: HttpRequest) -> HttpResponse:
    """One person whom the customer, or who pays, named; without a job the page a tablet keeps.

    Raises:
        Http404: the address names a job or a person that is not here, or a post names no job.

    """
    job = asked_job(request) if asked_key(request) else None
    if request.method == "POST" and job is None:
        raise Http404("The form does not say which job it is about; open it from the job again.")
    if request.method == "POST" and job:
        outcome = enter(NAMED, told_from_post(request, NAMED.version, job.key))
        return answer(request, outcome, lambda form: show(request, job, form))
    corrected = asked_original(request, job.named.all()) if job else None
    form = NamedForm(job_key=job.key if job else None, initial=typed_in(corrected))
    return show(request, job, form, str(corrected.key) if corrected else "")


def show(request: HttpRequest, job: Job | None, form: Any, corrects: str = "") -> HttpResponse:
    """The page."""
    said = {
        "form": form,
        "job": job,
        "kind": NAMED,
        "corrects": request.POST.get("corrects") or corrects,
        "key": request.POST.get("key") or uuid.uuid4(),
    }
    return render(request, "jobs/named.html", said)


def typed_in(one: Named | None) -> dict[str, Any]:
    """Somebody as typed, to begin the correction with."""
    if one is None:
        return {}
    return {"named_name": one.name, "named_phone": one.phone, "speaks_for": one.speaks_for}
