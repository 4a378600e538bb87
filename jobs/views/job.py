"""One job: which car, how it stands, what to do next."""

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from jobs.entries import FAILING_NOW
from jobs.logbook import enter, told_from_post
from jobs.models import Job
from jobs.models.jobs import FAILING
from jobs.models.points import open_points
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key

LOOP_NOT_LOOKED_AT = "not looked at yet"


@signed_in()
def job(request: HttpRequest) -> HttpResponse:
    """The job in the address; without one, the neutral page that a tablet keeps and fills."""
    if asked_key(request) is None:
        return render(request, "jobs/job.html", {"job": None, "failing": FAILING, "key": ""})
    return show_job(request, asked_job(request))


@signed_in()
@require_POST
def job_failing(request: HttpRequest) -> HttpResponse:
    """Turn the switch: failing right now, or not."""
    asked = asked_job(request)
    outcome = enter(FAILING_NOW, told_from_post(request, FAILING_NOW.version, asked.key))
    return answer(request, outcome, lambda form: show_job(request, asked, form))


def show_job(request: HttpRequest, asked: Job, form: Any = None) -> HttpResponse:
    """The page of a job that is here."""
    consents = list(asked.consents.all())
    state = asked.car_states.order_by("-number").first()
    said = {
        "job": asked,
        "car": asked.vehicle,
        "system": asked.vehicle.system,
        "points": open_points(asked, consents),
        "consents": consents,
        "state": state,
        "loop": LOOP_NOT_LOOKED_AT,
        "failing": FAILING,
        "remarks": asked.entry.marks,
        "form": form,
        "kind": FAILING_NOW,
        "key": uuid.uuid4(),
    }
    return render(request, "jobs/job.html", said)
