"""Where the old parts went: which part, then where it is now."""

import uuid
from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.entries import OLD_PART
from jobs.forms.old_part import OldPartForm
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.changes import changes_of, standing
from jobs.models.old_parts import old_parts_of
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.posted import told_from_post


@signed_in()
def old_part(request: HttpRequest) -> HttpResponse:
    """The parts that were taken out, or the form about one; without a job a tablet fills it."""
    key = asked_key(request)
    job = asked_job(request) if key or request.method == "POST" else None
    if request.method == "POST" and job:
        outcome = enter(OLD_PART, told_from_post(request, OLD_PART.version, job.key))
        return answer(request, outcome, lambda form: show(request, job, form, form.part_told))
    asked = asked_key(request, "change")
    form = OldPartForm(job_key=key, initial={"change": str(asked or "")})
    return show(request, job, form, asked)


def show(request: HttpRequest, job: Job | None, form: Any, asked: UUID | None) -> HttpResponse:
    """The page about the old part of the change that was asked for, or about all of them."""
    changes = [one for one in standing(changes_of(job)) if one.what == "fitted"] if job else []
    said = {
        "form": form,
        "job": job,
        "kind": OLD_PART,
        "fitted": changes,
        "asked": asked,
        "change": next((one for one in changes if one.key == asked), None),
        "old_parts": old_parts_of(job) if job else {},
        "corrects": request.POST.get("corrects", ""),
        "key": request.POST.get("key") or (uuid.uuid4() if job else ""),
    }
    return render(request, "jobs/old_part.html", said)
