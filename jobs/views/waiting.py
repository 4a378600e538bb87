"""What a car waits for: begun on this page, ended by a tap on it or on the job's."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from jobs.entries import WAITING, WAITING_END
from jobs.forms.waiting import WaitingForm
from jobs.logbook import enter
from jobs.models import Job
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job
from jobs.views.part import part_page
from jobs.views.posted import told_from_post


@signed_in()
def waiting(request: HttpRequest) -> HttpResponse:
    """One more thing that it waits for; those that stand are listed above the form."""
    return part_page(request, WAITING, WaitingForm, nothing)


@signed_in()
@require_POST
def waiting_end(request: HttpRequest) -> HttpResponse:
    """No longer."""
    job = asked_job(request)
    outcome = enter(WAITING_END, told_from_post(request, WAITING_END.version, job.key))
    again = {"form": WaitingForm(job_key=job.key), "job": job, "kind": WAITING, "key": ""}
    return answer(request, outcome, lambda _form: render(request, "jobs/waiting.html", again))


def nothing(job: Job) -> dict[str, Any]:  # noqa: ARG001  what stands is shown above the form
    """What it starts with."""
    return {}
