"""The stage of a job: what stands between it and the next, and moving it there or back."""

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from diagnostics.closing import before_stage, next_stage
from diagnostics.entries import STAGE
from diagnostics.forms.stage import StageForm
from diagnostics.job_now import job_now
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.jobs import OPEN, STAGES
from jobs.models.people import DESK
from jobs.models.stages import moves_of
from jobs.views.access import role_of, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job
from jobs.views.posted import told_from_post


@signed_in()
def stage(request: HttpRequest) -> HttpResponse:
    """The form about the job in the address, and its way so far."""
    job = asked_job(request)

    def show(form: Any) -> HttpResponse:
        return show_stage(request, job, form)

    if request.method != "POST":
        return show(None)
    return answer(request, enter(STAGE, told_from_post(request, STAGE.version, job.key)), show)


def show_stage(request: HttpRequest, job: Job, form: StageForm | None) -> HttpResponse:
    """The page; of a job in its last stage the next thing is to close it."""
    onward = next_stage(job.stage)
    asked = form or StageForm(
        job_key=job.key,
        initial={"came_from": job.stage, "to": onward if onward in OPEN else ""},
    )
    asked.fields["to"].choices = [  # type: ignore[attr-defined]
        (code, STAGES[code]) for code in OPEN if code != job.stage
    ]
    closed = job.stage == "closed"
    said = {
        "job": job,
        "kind": STAGE,
        "form": asked,
        "key": request.POST.get("key") or uuid.uuid4(),
        "onward": STAGES[onward] if onward in OPEN else "",
        "points": before_stage(job_now(job), onward) if not closed else [],
        "moves": moves_of(job),
        "closed": closed,
        "may_open": role_of(request) != DESK,
    }
    return render(request, "diagnostics/stage.html", said)
