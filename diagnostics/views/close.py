"""Closing a job: the endings, what stands between the job and each, and the form of one."""

import uuid
from dataclasses import replace
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from diagnostics.closing import before_closing, in_the_way, still_to_show
from diagnostics.entries import CLOSE
from diagnostics.forms.close import CloseForm
from diagnostics.job_now import job_now
from diagnostics.points import must_not_run
from diagnostics.since_changed import inside_unseen
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.closing import ENDINGS, REPAIRED
from jobs.models.stages import closed_by
from jobs.views.access import signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job
from jobs.views.posted import told_from_post

FILLED = ("air", "come_back")  # what another page's link may fill in


@signed_in()
def close(request: HttpRequest) -> HttpResponse:
    """The ten endings; with one in the address, its questions and what holds it.

    Raises:
        Http404: the address names an ending that is none.

    """
    job = asked_job(request)
    code = request.POST.get("closing_kind") or request.GET.get("closing_kind", "")
    if code and code not in ENDINGS:
        raise Http404("A job does not end so. Open the page from the job again.")

    def show(form: Any) -> HttpResponse:
        return show_ending(request, job, code, form) if code else show_endings(request, job)

    if request.method != "POST":
        return show(None)
    told = told_from_post(request, CLOSE.version, job.key)
    named = replace(told, fields={**told.fields, "closing_kind": [code]})  # or in the address only
    return answer(request, enter(CLOSE, named), show)


def show_endings(request: HttpRequest, job: Job) -> HttpResponse:
    """All endings, each with what holds it."""
    now = job_now(job)
    endings = [(one, in_the_way(before_closing(now, code))) for code, one in ENDINGS.items()]
    free = [(one, held) for one, held in endings if not held]
    held = [(one, held) for one, held in endings if held]
    said = {"job": job, "free": free, "held": held, "closed": closed_by(job)}
    return render(request, "diagnostics/close.html", said)


def show_ending(request: HttpRequest, job: Job, code: str, form: CloseForm | None) -> HttpResponse:
    """One ending: its points, its questions, and what it says to the customer."""
    ending = ENDINGS[code]
    told = {name: request.GET[name] for name in FILLED if name in request.GET}
    first = {"closing_kind": code, "came_from": job.stage, "odometer_out_unit": job.odometer_unit}
    asked = form or CloseForm(job_key=job.key, ending=ending, initial=told | first)
    now = job_now(job)
    shown = still_to_show(now) if code in REPAIRED else []
    points = [*before_closing(now, code), *shown]
    not_asked = () if must_not_run(now.shut) or "tag" in ending.asks else ("tag",)
    said = {
        "job": job,
        "kind": CLOSE,
        "ending": ending,
        "sentence": ending.said(unseen=inside_unseen(now.states, now.steps)),
        "form": asked,
        "questions": [
            field
            for field in asked.visible_fields()
            if not is_part(field.name) and field.name not in not_asked
        ],
        "key": request.POST.get("key") or uuid.uuid4(),
        "points": points,
        "held": in_the_way(points),
        "closed": closed_by(job),
    }
    return render(request, "diagnostics/close.html", said)


def is_part(name: str) -> bool:
    """Whether a field is drawn inside another."""
    return name.endswith("_why")
