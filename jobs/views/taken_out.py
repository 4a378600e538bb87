"""Where the old parts went: which part, then where it is now."""

import uuid
from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.entries import TAKEN_OUT
from jobs.forms.taken_out import TakenOutForm
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.changes import changes_of, standing
from jobs.models.old_parts import chosen
from jobs.models.taken_out import taken_out_of
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.posted import told_from_post


@signed_in()
def taken_out(request: HttpRequest) -> HttpResponse:
    """The parts that were taken out, or the form about one; without a job a tablet fills it."""
    key = asked_key(request)
    job = asked_job(request) if key or request.method == "POST" else None
    if request.method == "POST" and job:
        outcome = enter(TAKEN_OUT, told_from_post(request, TAKEN_OUT.version, job.key))
        return answer(request, outcome, lambda form: show(request, job, form, form.part_told))
    asked = asked_key(request, "change")
    form = TakenOutForm(job_key=key, initial={"change": str(asked or "")})
    return show(request, job, form, asked)


def show(request: HttpRequest, job: Job | None, form: Any, asked: UUID | None) -> HttpResponse:
    """The page about the old part of the change that was asked for, or about all of them."""
    changes = [one for one in standing(changes_of(job)) if one.what == "fitted"] if job else []
    said = {
        "form": form,
        "job": job,
        "kind": TAKEN_OUT,
        "fitted": changes,
        "asked": asked,
        "change": next((one for one in changes if one.key == asked), None),
        "taken_out": taken_out_of(job) if job else {},
        "choice": chosen(job.old_part_choices.all()) if job else None,
        "corrects": request.POST.get("corrects", ""),
        "key": request.POST.get("key") or (uuid.uuid4() if job else ""),
    }
    return render(request, "jobs/taken_out.html", said)
