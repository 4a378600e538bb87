"""Whether the trouble of an earlier visit is back, told after intake."""

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.entries import FOLLOWS
from jobs.forms.follows import FollowsForm
from jobs.logbook import enter
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job
from jobs.views.posted import told_from_post


@signed_in()
def follows(request: HttpRequest) -> HttpResponse:
    """The earlier visits of this car, one tap each."""
    job = asked_job(request)

    def show(form: Any) -> HttpResponse:
        said = {
            "form": form,
            "job": job,
            "kind": FOLLOWS,
            "earlier": form.earlier,
            "key": request.POST.get("key") or uuid.uuid4(),
        }
        return render(request, "jobs/follows.html", said)

    if request.method != "POST":
        told = str(job.follows.key) if job.follows else "none" if job.follows_told else ""
        return show(FollowsForm(job_key=job.key, initial={"follows": told}))
    return answer(request, enter(FOLLOWS, told_from_post(request, FOLLOWS.version, job.key)), show)
