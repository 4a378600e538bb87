"""The note that hands a job over, and the tap of whoever takes it over."""

import uuid
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from jobs.entries import HANDOVER, TAKEN_OVER
from jobs.forms.handover import HandoverForm
from jobs.logbook import enter
from jobs.models import Job, Person
from jobs.models.changes import changes_of, standing
from jobs.models.handovers import ONLY_ON
from jobs.models.waiting import READ_AFTER, standing_waits
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.job import show_job
from jobs.views.posted import told_from_post


@signed_in()
def handover(request: HttpRequest) -> HttpResponse:
    """The form about a job; without one, the neutral page that a tablet keeps and fills.

    Raises:
        Http404: a note was posted that says not which job it is about, or one that is not here.

    """
    job = asked_job(request) if asked_key(request) else None
    if request.method != "POST":
        return show(request, job, HandoverForm(job=job, initial={"stands": running(job)}))
    if job is None:
        raise Http404("The form does not say which job it is about; open it from the job again.")
    outcome = enter(HANDOVER, told_from_post(request, HANDOVER.version, job.key))
    return answer(request, outcome, lambda form: show(request, job, form))


def running(job: Job | None) -> list[str]:
    """What a timer that was not ended tells of it; who knows better taps it away."""
    waits = standing_waits([job]) if job else []
    return [one.what for one in waits if one.what in READ_AFTER]


def show(request: HttpRequest, job: Job | None, form: Any) -> HttpResponse:
    """The page; without a job its script fills it."""
    if job and isinstance(request.user, Person):
        form.fit(job, request.user)
    said = {
        "form": form,
        "job": job,
        "kind": HANDOVER,
        "changes": standing(changes_of(job)) if job else [],
        "only_on": ONLY_ON,
        "key": request.POST.get("key") or (uuid.uuid4() if job else ""),
    }
    return render(request, "jobs/handover.html", said)


@signed_in()
@require_POST
def handover_taken(request: HttpRequest) -> HttpResponse:
    """Take over the job of a note."""
    job = asked_job(request)
    outcome = enter(TAKEN_OVER, told_from_post(request, TAKEN_OVER.version, job.key))
    return answer(request, outcome, lambda form: show_job(request, job, taken=form))
